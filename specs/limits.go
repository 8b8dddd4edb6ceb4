package specs

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Limits of what is read. They are far above any book and keep a file made to
// do harm from taking the machine.
const (
	MaxFile  = 64 << 20 // bytes of a YAML or JSON file
	MaxLine  = 1 << 20  // bytes of a line of NDJSON; there may be any number of lines
	MaxDepth = 64       // maps and lists within one another

	maxAliased  = 10_000 // values of a YAML file that come by way of an alias
	maxNumber   = 40     // characters of a JSON number
	maxExponent = 400    // greatest exponent of a JSON number, above that of any float64
)

const (
	bom      = "\ufeff"
	utf16Big = "\xfe\xff"
	utf16Lit = "\xff\xfe"
	utf32Big = "\x00\x00\xfe\xff"
	utf32Lit = "\xff\xfe\x00\x00" // begins as UTF-16 does
)

// checkEncoding refuses a file that says it is in another encoding.
func (t *text) checkEncoding() *Unreadable {
	begins := func(mark string) bool { return t.base == 0 && strings.HasPrefix(t.src, mark) }
	switch {
	case begins(utf32Big), begins(utf32Lit):
		return t.whole("the file is in UTF-32; save it as UTF-8")
	case begins(utf16Big), begins(utf16Lit):
		return t.whole("the file is in UTF-16; save it as UTF-8")
	}
	return nil
}

// checkText refuses what is not plain UTF-8 text.
func (t *text) checkText() *Unreadable {
	if bad := t.checkEncoding(); bad != nil {
		return bad
	}
	if i := strings.IndexByte(t.src, 0); i >= 0 {
		return t.at(i, i+1, "a NUL byte stands here; this is not a text file in UTF-8")
	}
	if utf8.ValidString(t.src) {
		return nil
	}
	i := 0
	for i < len(t.src) {
		r, n := utf8.DecodeRuneInString(t.src[i:])
		if r == utf8.RuneError && n == 1 {
			break
		}
		i += n
	}
	return t.at(i, i, fmt.Sprintf("byte 0x%02X is not UTF-8; save the file as UTF-8", t.src[i]))
}

// checkYAML refuses characters that a YAML parser takes for something else
// than an editor shows: controls, and separators that it counts as line ends.
func (t *text) checkYAML() *Unreadable {
	for i := 0; i < len(t.src); i++ {
		c := t.src[i]
		switch {
		case c >= 0x20 && c < 0x7f, c == '\n', c == '\t':
		case c == '\r':
			if i+1 == len(t.src) || t.src[i+1] != '\n' {
				return t.at(i, i+1, "a carriage return stands here without a line feed; end the lines with LF or CRLF")
			}
		case c < 0x20:
			return t.at(i, i+1, fmt.Sprintf("the control character U+%04X stands here; remove it", c))
		case c == 0xc2 || c == 0xe2:
			switch r, n := utf8.DecodeRuneInString(t.src[i:]); r {
			case 0x85, 0x2028, 0x2029:
				return t.at(i, i+n, fmt.Sprintf("the invisible line separator U+%04X stands here; remove it", r))
			}
		}
	}
	return nil
}

// badNumber tells why a JSON number is refused; "" when it is not.
func badNumber(s string) string {
	if len(s) > maxNumber {
		return fmt.Sprintf("a number of %d characters; write at most %d", len(s), maxNumber)
	}
	if i := strings.IndexAny(s, "eE"); i >= 0 {
		e := 0
		for _, c := range strings.TrimLeft(s[i+1:], "+-") {
			e = min(e*10+int(c-'0'), maxExponent+1)
		}
		if e > maxExponent {
			return fmt.Sprintf("the exponent of %s is beyond %d", s, maxExponent)
		}
	}
	return ""
}
