package convert

import (
	"strings"
	"unicode/utf8"
)

// Limits of what is kept of a number.
const (
	maxDigits   = 18
	maxExponent = 30
)

// number is one number of a figure and its other reading, if a comma or point
// leaves it in doubt.
type number struct {
	d, alt Decimal // alt takes the mark in doubt as the decimal mark
	at     Place
	mark   markDoubt
}

type markDoubt uint8

const (
	sure        markDoubt = iota
	groupOrMark           // 1,300: thousands or decimals
	onlyMark              // 6,5: decimals, in a text whose decimal mark is the point
	onlyGroup             // 1.300.000: thousands, in a text whose decimal mark is the point
)

// scanner walks over the text of a figure. A failure is kept in bad.
type scanner struct {
	text     string
	i        int
	want     Dimensions
	mark     Mark
	thousand bool // a mark of thousands was seen that is sure: 1,300.5
	bad      Kind
	badAt    Place
	why      string // why it is bad
	read     [3]Decimal
	reads    int // how many of read are readings of a bad number
	asked    Form
}

func (s *scanner) fail(k Kind, start, end int, why string) bool {
	if s.bad == 0 {
		s.bad, s.badAt, s.why = k, Place{start, end}, why
	}
	return false
}

// peek is the byte at the place, 0 at the end.
func (s *scanner) peek(i int) byte {
	if i < len(s.text) {
		return s.text[i]
	}
	return 0
}

func (s *scanner) space() { s.i = s.skipSpace(s.i) }

func (s *scanner) skipSpace(i int) int {
	for i < len(s.text) {
		n := spaceAt(s.text, i)
		if n == 0 {
			break
		}
		i += n
	}
	return i
}

// spaceAt is the length of the blank at i, 0 if there is none.
func spaceAt(s string, i int) int {
	if i >= len(s) {
		return 0
	}
	if s[i] < utf8.RuneSelf {
		if isSpace(rune(s[i])) {
			return 1
		}
		return 0
	}
	if r, n := utf8.DecodeRuneInString(s[i:]); isSpace(r) {
		return n
	}
	return 0
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// digitsAt is the end of the run of digits at i.
func (s *scanner) digitsAt(i int) int {
	for isDigit(s.peek(i)) {
		i++
	}
	return i
}

// minusAt is the length of a minus sign at i: a hyphen, U+2212 or a dash.
func (s *scanner) minusAt(i int) int {
	switch s.peek(i) {
	case '-':
		return 1
	case 0xe2: // the first byte of all the others
	default:
		return 0
	}
	for _, m := range [...]string{"−", "–", "‐", "‑"} {
		if strings.HasPrefix(s.text[i:], m) {
			return len(m)
		}
	}
	return 0
}

// numberStarts reports whether a number stands at i, without or with a sign.
func (s *scanner) numberStarts(i int) bool {
	if n := s.minusAt(i); n > 0 {
		i += n
	} else if s.peek(i) == '+' {
		i++
	}
	return s.unsignedStarts(i)
}

func (s *scanner) unsignedStarts(i int) bool {
	c := s.peek(i)
	if isDigit(c) || (c == '.' || c == ',') && isDigit(s.peek(i+1)) {
		return true
	}
	_, _, n := s.vulgarAt(i)
	return n > 0
}

// number reads a number with its sign.
func (s *scanner) number() (number, bool) {
	start := s.i
	negative := false
	if n := s.minusAt(s.i); n > 0 {
		negative = true
		s.i += n
	} else if s.peek(s.i) == '+' {
		s.i++
	}
	n, ok := s.unsigned()
	if negative {
		n.d, n.alt = n.d.neg(), n.alt.neg()
		for k := range s.reads {
			s.read[k] = s.read[k].neg()
		}
	}
	n.at.Start = start
	return n, ok
}

// unsigned reads a number without sign: 12, 6.0, .50, 1/4, 4 1/2, 4½, 114 000.
func (s *scanner) unsigned() (number, bool) {
	start := s.i
	if num, den, n := s.vulgarAt(s.i); n > 0 {
		s.i += n
		d := Decimal{Mant: int64(num), Den: den}
		return number{d: d, alt: d, at: Place{start, s.i}}, true
	}
	whole := s.digitsAt(s.i)
	if whole > s.i {
		if n, ok, is := s.fraction(whole); is {
			return n, ok
		}
	}
	return s.decimal(whole)
}

// decimal reads digits with their marks. whole is the end of the first run of
// digits, which may be empty: .50.
func (s *scanner) decimal(whole int) (number, bool) {
	dec, grp := byte('.'), byte(',')
	if s.mark == Comma {
		dec, grp = grp, dec
	}
	start, i := s.i, whole
	groups, marks := 0, 0   // how often each mark stands
	frac, tail := 0, 0      // digits behind the decimal mark, behind the last group mark
	evenly := whole > start // every group has three digits, the first one to three
	blanks := false
	if whole-start > 3 || whole > start && s.text[start] == '0' {
		evenly = false
	}
	// Thousands set apart by blanks, as ISO 80000-1 prints them: 114 000.
	for evenly {
		j := s.skipSpace(i)
		if j == i || s.digitsAt(j) != j+3 || s.slashAt(j+3) > 0 {
			break
		}
		i, blanks = j+3, true
	}
	first := i
	for {
		if n := raisedPointAt(s.text, i); n > 0 && marks == 0 && groups == 0 && isDigit(s.peek(i+n)) {
			end := s.digitsAt(i + n)
			marks, frac, i = 1, end-i-n, end
			continue
		}
		c := s.peek(i)
		if c != dec && c != grp || !isDigit(s.peek(i+1)) {
			break
		}
		end := s.digitsAt(i + 1)
		if c == dec {
			marks++
			frac = end - i - 1
		} else {
			groups++
			tail = end - i - 1
			evenly = evenly && tail == 3 && marks == 0
		}
		i = end
	}
	if s.peek(i) == dec && marks == 0 && groups == 0 && first > start && !isDigit(s.peek(i+1)) {
		if s.skipSpace(i+1) > i+1 || i+1 == len(s.text) {
			i++ // "50. N·m": the mark ends the number
		}
	}
	s.i = i
	at := Place{start, i}
	if i == start {
		return number{}, s.fail(NoNumber, start, len(s.text), "")
	}

	n := number{at: at}
	switch {
	case groups == 0 && marks <= 1, groups > 0 && evenly && marks == 1 && !blanks, groups > 1 && evenly && marks == 0 && !blanks:
		s.thousand = s.thousand || groups > 0
	case groups == 1 && marks == 0 && evenly && !blanks:
		n.mark = groupOrMark
	case groups == 1 && marks == 0 && !blanks:
		n.mark, frac = onlyMark, tail
	case groups == 0 && marks > 1 && !blanks && s.thousands(at, dec):
		n.mark, frac = onlyGroup, 0
	default:
		return n, s.fail(BadNumber, start, i, "the points and commas do not make a number")
	}
	if whole-start > 1 && s.text[start] == '0' {
		s.lostPoint(start, whole)
		return n, s.fail(BadNumber, start, i, "a number does not begin with 0 and a digit, a decimal point may be lost")
	}
	mant, ok := s.mantissa(at)
	if !ok {
		return n, false
	}
	exp, ok := s.exponent()
	if !ok {
		return n, false
	}
	n.at.End = s.i
	n.d = Decimal{Mant: mant, Exp: exp - int32(frac)}
	n.alt = n.d
	if n.mark == groupOrMark {
		n.alt.Exp -= int32(tail)
	}
	if n.alt.Exp < -maxExponent || n.d.Exp > maxExponent {
		return n, s.fail(TooLarge, start, s.i, "more than 30 decimals or zeros")
	}
	return n, true
}

// raisedPointAt is the length of the raised decimal point of British print, 0·5,
// that stands at i; 0 if there is none.
func raisedPointAt(s string, i int) int {
	if strings.HasPrefix(s[i:], "·") {
		return len("·")
	}
	return 0
}

// thousands reports whether the decimal mark of the file stands where marks of
// thousands would: 1.300.000.
func (s *scanner) thousands(at Place, mark byte) bool {
	run := 0
	for i := at.End - 1; i >= at.Start; i-- {
		if s.text[i] != mark {
			run++
			continue
		}
		if run != 3 {
			return false
		}
		run = 0
	}
	return run >= 1 && run <= 3 && s.text[at.Start] != '0'
}

// lostPoint keeps what a number with a leading zero may have been: 045 is .045
// or 0.45.
func (s *scanner) lostPoint(start, end int) {
	if end != s.i || end-start > 6 {
		return
	}
	m := int64(small(s.text[start:min(end, start+5)]))
	if end-start > 5 {
		m = m*10 + int64(s.text[end-1]-'0')
	}
	s.read[0] = Decimal{Mant: m, Exp: -int32(end - start)}
	s.read[1] = Decimal{Mant: m, Exp: -int32(end - start - 1)}
	s.read[2] = Decimal{Mant: m}
	s.reads = 3
	s.asked = Single
}

// mantissa takes the digits between two places, without what stands between
// them.
func (s *scanner) mantissa(at Place) (int64, bool) {
	m, n := int64(0), 0
	for _, c := range []byte(s.text[at.Start:at.End]) {
		if !isDigit(c) {
			continue
		}
		if m > 0 || c != '0' {
			n++
		}
		if n > maxDigits {
			return 0, s.fail(TooLarge, at.Start, at.End, "more than 18 digits")
		}
		m = m*10 + int64(c-'0')
	}
	return m, true
}

// exponent reads e3 or E-02 right behind the digits.
func (s *scanner) exponent() (int32, bool) {
	if s.peek(s.i)|0x20 != 'e' {
		return 0, true
	}
	i, negative := s.i+1, false
	if n := s.minusAt(i); n > 0 {
		i, negative = i+n, true
	} else if s.peek(i) == '+' {
		i++
	}
	end := s.digitsAt(i)
	if end == i {
		return 0, true
	}
	e := small(s.text[i:end])
	if e < 0 || e > 2*maxExponent {
		return 0, s.fail(TooLarge, s.i, end, "more than 30 decimals or zeros")
	}
	s.i = end
	if negative {
		e = -e
	}
	return e, true
}
