package report

import (
	"strings"
	"unicode"
)

// wide holds the characters that take two columns on a terminal: the wide and
// full-width blocks of Unicode's East Asian Width (UAX #11).
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x1100, Hi: 0x115f, Stride: 1}, // Hangul initial consonants
		{Lo: 0x2e80, Hi: 0x303e, Stride: 1}, // CJK radicals and punctuation
		{Lo: 0x3041, Hi: 0x33ff, Stride: 1}, // kana, enclosed and squared CJK
		{Lo: 0x3400, Hi: 0x4dbf, Stride: 1},
		{Lo: 0x4e00, Hi: 0x9fff, Stride: 1},
		{Lo: 0xa000, Hi: 0xa4cf, Stride: 1},
		{Lo: 0xac00, Hi: 0xd7a3, Stride: 1},
		{Lo: 0xf900, Hi: 0xfaff, Stride: 1},
		{Lo: 0xfe30, Hi: 0xfe6f, Stride: 1},
		{Lo: 0xff00, Hi: 0xff60, Stride: 1},
		{Lo: 0xffe0, Hi: 0xffe6, Stride: 1},
	},
	R32: []unicode.Range32{
		{Lo: 0x1f300, Hi: 0x1f64f, Stride: 1},
		{Lo: 0x1f900, Hi: 0x1f9ff, Stride: 1},
		{Lo: 0x20000, Hi: 0x3fffd, Stride: 1},
	},
}

// runeWidth is the number of columns that a character takes on a terminal.
func runeWidth(r rune) int {
	switch {
	case r < 0x300:
		return 1
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case unicode.Is(wide, r):
		return 2
	}
	return 1
}

// plain makes text safe for a terminal: what could move the cursor, start a
// command or turn the direction of writing is shown as a replacement mark.
// Tabs stay.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return r
		case r < 0x20, r >= 0x7f && r < 0xa0, r == '\u2028', r == '\u2029',
			r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069':
			return unicode.ReplacementChar
		}
		return r
	}, s)
}

// Plain is a text without what a terminal would take for a command, and without what
// changes the direction of writing.
func Plain(s string) string { return plain(s) }
