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
	text  string
	i     int
	want  Dimensions
	mark  Mark
	point bool // a decimal mark was seen that is sure
	bad   Kind
	badAt Place
	why   string // why it is bad
	read  [3]Decimal
	reads int // how many of read are readings of a bad number
	asked Form
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
		s.point = s.point || marks == 1
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
