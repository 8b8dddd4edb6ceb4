package convert

import (
	"strings"
	"unicode/utf8"
)

// slashAt is the length of a fraction bar at i.
func (s *scanner) slashAt(i int) int {
	switch s.peek(i) {
	case '/':
		return 1
	case 0xe2:
	default:
		return 0
	}
	for _, m := range [...]string{"⁄", "∕"} {
		if strings.HasPrefix(s.text[i:], m) {
			return len(m)
		}
	}
	return 0
}

// vulgarAt is the printed fraction of one code point at i, and its length.
func (s *scanner) vulgarAt(i int) (num, den int32, n int) {
	if c := s.peek(i); c != 0xc2 && c != 0xe2 {
		return 0, 0, 0
	}
	r, n := utf8.DecodeRuneInString(s.text[i:])
	switch r {
	case '½':
		return 1, 2, n
	case '¼':
		return 1, 4, n
	case '¾':
		return 3, 4, n
	case '⅓':
		return 1, 3, n
	case '⅔':
		return 2, 3, n
	case '⅙':
		return 1, 6, n
	case '⅚':
		return 5, 6, n
	case '⅛':
		return 1, 8, n
	case '⅜':
		return 3, 8, n
	case '⅝':
		return 5, 8, n
	case '⅞':
		return 7, 8, n
	}
	return 0, 0, 0
}

// fraction reads 1/4 and the rest of 4 1/2, 4-1/2, 4½ when the digits that end
// at whole are the start of one.
func (s *scanner) fraction(whole int) (n number, ok, is bool) {
	start := s.i
	if w := s.slashAt(whole); w > 0 && isDigit(s.peek(whole+w)) {
		end := s.digitsAt(whole + w)
		if c := s.peek(end); (c == '.' || c == ',') && isDigit(s.peek(end+1)) {
			return n, false, false
		}
		num, den := small(s.text[start:whole]), small(s.text[whole+w:end])
		s.i = end
		return s.simple(num, den, Place{start, end})
	}
	i := s.skipSpace(whole)
	if m := s.minusAt(i); m > 0 {
		i = s.skipSpace(i + m)
	}
	w := small(s.text[start:whole])
	if w <= 0 {
		return n, false, false
	}
	num, den, size := s.vulgarAt(i)
	end := i + size
	if size == 0 {
		bar := s.digitsAt(i)
		slash := s.slashAt(bar)
		if bar == i || slash == 0 {
			return n, false, false
		}
		end = s.digitsAt(bar + slash)
		num, den = small(s.text[i:bar]), small(s.text[bar+slash:end])
		// In "1 -1/2/-1 mm" the fraction is a deviation.
		if num <= 0 || den <= num || s.slashAt(end) > 0 {
			return n, false, false
		}
	}
	s.i = end
	d := Decimal{Mant: int64(w)*int64(den) + int64(num), Den: den}
	return number{d: d, alt: d, at: Place{start, end}}, true, true
}

// small reads a whole number of at most five digits, -1 for any other.
func small(digits string) int32 {
	if len(digits) == 0 || len(digits) > 5 {
		return -1
	}
	n := int32(0)
	for _, c := range []byte(digits) {
		n = n*10 + int32(c-'0')
	}
	return n
}

// simple is the fraction num/den. 8/10 N·m is a range in some books: what is
// not a fraction of the kind that inch rules and angles are printed in is
// refused.
func (s *scanner) simple(num, den int32, at Place) (n number, ok, is bool) {
	switch {
	case den == 0:
		return n, s.fail(BadNumber, at.Start, at.End, "a fraction of nothing"), true
	case num < 0 || den < 0:
		return n, s.fail(TooLarge, at.Start, at.End, "too many digits for a fraction"), true
	}
	n = number{d: Decimal{Mant: int64(num), Den: den}, at: at}
	n.alt = n.d
	rule := den == 3 || den == 6 || den&(den-1) == 0 && den > 1
	if num >= den || !rule || gcd(num, den) != 1 {
		s.read[0], s.read[1], s.reads = Decimal{Mant: int64(num)}, Decimal{Mant: int64(den)}, 2
		s.asked = Range
		return n, s.fail(Ambiguous, at.Start, at.End, "is a fraction or a range"), true
	}
	return n, true, true
}

func gcd(a, b int32) int32 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Turns that print spells out.
var wordedTurns = [...]struct {
	word string
	d    Decimal
}{
	{"quarter", Decimal{Mant: 1, Den: 4}}, {"half", Decimal{Mant: 1, Den: 2}}, {"one", Decimal{Mant: 1}},
}

// worded reads the number of a spelt-out turn: quarter turn, half a turn.
func (p *parser) worded() (number, bool) {
	if !p.want.Has(Angle) || !isLetter(p.peek(p.i)) {
		return number{}, false
	}
	for _, t := range wordedTurns {
		n := p.i + len(t.word)
		if n < len(p.text) && strings.EqualFold(p.text[p.i:n], t.word) && spaceAt(p.text, n) > 0 {
			at := Place{p.i, n}
			p.i = p.skipSpace(n)
			if p.peek(p.i) == 'a' && spaceAt(p.text, p.i+1) > 0 {
				p.i++
			}
			return number{d: t.d, alt: t.d, at: at}, true
		}
	}
	return number{}, false
}
