package convert

import (
	"strings"
	"unicode/utf8"
)

// The words and signs of a limit, the longest first.
var limitWords = [...]struct {
	word string
	form Form
}{
	{"not more than", AtMost}, {"no more than", AtMost}, {"not over", AtMost}, {"at most", AtMost}, {"up to", AtMost},
	{"maximum", AtMost}, {"max.", AtMost}, {"max", AtMost}, {"<=", AtMost}, {"≤", AtMost}, {"<", AtMost},
	{"not less than", AtLeast}, {"no less than", AtLeast}, {"at least", AtLeast},
	{"minimum", AtLeast}, {"min.", AtLeast}, {"min", AtLeast}, {">=", AtLeast}, {"≥", AtLeast}, {">", AtLeast},
}

// limitBefore passes a limit that stands before the number: max 2.4 mm.
func (p *parser) limitBefore() {
	if p.numberStarts(p.i) {
		return
	}
	for _, l := range limitWords {
		n := len(l.word)
		if len(p.text)-p.i > n && strings.EqualFold(p.text[p.i:p.i+n], l.word) && !isLetter(p.text[p.i+n]) {
			p.limit = l.form
			p.i += n
			if p.peek(p.i) == ':' || p.peek(p.i) == '=' {
				p.i++
			}
			return
		}
	}
}

// limitBehind finds a limit at the end of what stands behind the number, 2.4 mm
// max, and its length.
func limitBehind(s string) (Form, int) {
	const shortest = len("max")
	if len(s) < shortest || (s[len(s)-2]|0x20 != 'a' && s[len(s)-2]|0x20 != 'i' && s[len(s)-2]|0x20 != 'u' && s[len(s)-1] != '.') {
		return Single, 0
	}
	for _, l := range limitWords {
		n := len(l.word)
		if l.word[0]|0x20 != 'm' || len(s) < n || !strings.EqualFold(s[len(s)-n:], l.word) {
			continue
		}
		if before := s[:len(s)-n]; before == "" || endsInSpace(before) || before[len(before)-1] == '.' {
			return l.form, n
		}
	}
	return Single, 0
}

func endsInSpace(s string) bool {
	r, n := utf8.DecodeLastRuneInString(s)
	return n > 0 && isSpace(r)
}

// trimSpace cuts the blanks of print at the end.
func trimSpace(s string) string {
	for {
		r, n := utf8.DecodeLastRuneInString(s)
		if n == 0 || !isSpace(r) {
			return s
		}
		s = s[:len(s)-n]
	}
}
