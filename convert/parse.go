package convert

import "strings"

// Mark is the decimal mark of a file.
type Mark uint8

// The decimal marks. With Comma, "6,5" is 6.5 and a point is in doubt.
const (
	Point Mark = iota
	Comma
)

// Parse reads a figure as printed in one of the wanted dimensions.
//
// The forms are those of print: 6 N·m, 8 to 10 N·m, 8-10 N·m, 9 ±1 N·m, 9
// +1/-0 N·m, 9 N·m ±10 %, 4 1/2 US qt, 4-1/2 US qt, max 2.4 mm, 0.2 mm min,
// 90°, 1/4 turn, ±10 %, -10 to 5 °C, .50 in, 8 N·m to 10 N·m, 4½ US qt.
//
// A figure that is not understood, or that can be read in two ways, comes with
// a problem and no quantity. Clean text is read without allocation.
func Parse(text string, want Dimensions, mark Mark) (Quantity, *Problem) {
	p := parser{scanner: scanner{text: text, want: want, mark: mark}}
	if q, ok := p.readClean(); ok {
		return q, nil
	}
	return Quantity{}, p.problem()
}

// readClean reads the figure, if nothing about it is bad or in doubt.
func (p *parser) readClean() (Quantity, bool) {
	if !p.figure() {
		return Quantity{}, false
	}
	return p.clean()
}

// parser reads the parts of a figure into two quantities: alt takes every mark
// in doubt as the decimal mark.
type parser struct {
	scanner
	q, alt    Quantity
	units     [2]Place // where units stand: behind the first number and at the end
	deviation bool     // the last unit stands behind a deviation
	doubt     markDoubt
	doubtAt   Place
	limit     Form // AtMost, AtLeast, or Single for none
}

func (p *parser) figure() bool {
	p.space()
	p.limitBefore()
	p.space()
	if p.limit == Single && p.deviations(false) {
		p.setForm(Tolerance)
		return p.bad == 0 && p.lastUnit()
	}
	if p.bad != 0 {
		return false
	}
	n, ok := p.worded()
	if !ok {
		if !p.numberStarts(p.i) {
			return p.fail(NoNumber, 0, len(p.text), "")
		}
		if n, ok = p.number(); !ok {
			return false
		}
	}
	p.setForm(Single)
	p.q.First, p.alt.First, p.q.FirstAt = n.d, n.alt, n.at
	p.note(n)

	// What follows the number: a second one, a deviation, or the unit and then
	// one of these.
	if ok, done := p.second(); done {
		return ok && p.lastUnit()
	}
	p.units[0] = p.unit()
	if ok, done := p.second(); done {
		return ok && p.lastUnit()
	}
	return p.limitHolds()
}

// second reads a range's second number or a deviation, if one of them follows.
func (p *parser) second() (ok, done bool) {
	from := p.i
	p.space()
	spaced := endsInSpace(p.text[:p.i])
	if p.deviations(spaced) {
		p.setForm(Deviation)
		p.deviation = true
		return p.bad == 0, true
	}
	if p.bad != 0 {
		return false, true
	}
	n := p.rangeMark(p.i, spaced)
	if n == 0 {
		if n := p.slashAt(p.i); n > 0 && p.unsignedStarts(p.i+n) {
			return p.slashed(n), true
		}
		p.i = from
		return true, false
	}
	if p.dashAndMinus(p.i) {
		return p.fail(BadNumber, p.i, p.i+2, "the two dashes are a range, or a dash and a minus sign; write to between the numbers"), true
	}
	p.i = p.skipSpace(p.i + n)
	num, ok := p.number()
	if !ok {
		return false, true
	}
	p.setForm(Range)
	p.q.Second, p.alt.Second, p.q.SecondAt = num.d, num.alt, num.at
	p.note(num)
	return true, true
}

// slashed refuses 0.0025/0.0045, a range in some books.
func (p *parser) slashed(n int) bool {
	p.i += n
	num, ok := p.unsigned()
	if !ok {
		return false
	}
	p.read[0], p.read[1], p.reads, p.asked = p.q.First, num.d, 2, Range
	return p.fail(Ambiguous, p.q.FirstAt.Start, p.i, "is a quotient or a range")
}

// lastUnit takes the rest of the text as the unit.
func (p *parser) lastUnit() bool {
	p.units[1] = p.unit()
	if p.q.Form != Single && p.limit != Single {
		return p.fail(BadNumber, 0, len(p.text), "a limit has one number")
	}
	if rest := p.skipSpace(p.i); rest < len(p.text) {
		return p.fail(BadNumber, rest, len(p.text), "more than two numbers; write one figure, or a list of figures")
	}
	return true
}

// limitHolds turns a single number with max or min beside it into a limit.
func (p *parser) limitHolds() bool {
	if rest := p.skipSpace(p.i); rest < len(p.text) {
		return p.fail(BadNumber, p.q.FirstAt.Start, len(p.text), "numbers side by side; write a range as 8 to 10, a deviation as 9 ±1, 0.7 without a blank")
	}
	switch p.limit {
	case AtMost:
		p.setForm(AtMost)
		p.q.Second, p.q.SecondAt = p.q.First, p.q.FirstAt
		p.q.First, p.q.FirstAt = Decimal{}, Place{}
		p.alt.Second, p.alt.First = p.alt.First, Decimal{}
	case AtLeast:
		p.setForm(AtLeast)
	}
	return true
}

func (p *parser) setForm(f Form) { p.q.Form, p.alt.Form = f, f }

// note keeps the doubt that a number's marks leave; 6,5 weighs more than 1,300.
func (p *parser) note(n number) {
	if n.mark > p.doubt {
		p.doubt, p.doubtAt = n.mark, n.at
	}
}

// deviations reads ±1, +/-1, +1/-0, +1 -0, and a zero without sign beside a
// slash, as drawings have it: +0.025/0, 0/-0.025. Without a slash two signed
// numbers are a deviation behind a number, or when plus stands before minus.
func (p *parser) deviations(behind bool) bool {
	from := p.i
	switch p.peek(from) {
	case '+', '-', 0xc2, 0xe2: // also the first bytes of ± and −
	case '0': // 0/-0.025
	default:
		return false
	}
	if n := p.plusMinusAt(p.i); n > 0 {
		p.i = p.skipSpace(p.i + n)
		if !p.unsignedStarts(p.i) {
			return p.fail(BadNumber, from, p.i, "no number behind ±")
		}
		d, ok := p.unsigned()
		if ok {
			p.setDeviation(d, number{d: d.d.neg(), alt: d.alt.neg(), mark: d.mark, at: d.at}, from)
		}
		return ok
	}
	plus, ok := p.signed()
	if !ok {
		if plus, ok = p.zero(); !ok || !p.slashAndSign(p.i) {
			return p.retreat(from)
		}
	}
	upper := p.i
	i := p.skipSpace(p.i)
	if p.peek(i) == '%' {
		i = p.skipSpace(i + 1)
	}
	slash, spaced := p.peek(i) == '/', i > p.i
	if slash {
		i = p.skipSpace(i + 1)
	}
	p.i = i
	opposite := p.text[from] == '+' && p.minusAt(i) > 0 || p.text[from] != '+' && p.peek(i) == '+'
	minus, ok := p.signed()
	if !ok && slash {
		minus, ok = p.zero()
	}
	switch {
	case !ok && behind && p.text[from] == '+':
		p.clear()
		p.i = upper
		p.read[0], p.reads, p.asked = plus.d, 1, Deviation
		return p.fail(Ambiguous, from, upper, "has one sign only")
	case !ok, !slash && !(behind && (spaced || opposite)) && !(spaced && opposite && p.text[from] == '+'):
		return p.retreat(from)
	}
	if plus.d.Cmp(minus.d) < 0 {
		plus, minus = minus, plus
	}
	p.setDeviation(plus, minus, from)
	return true
}

// setDeviation keeps an upper and a lower deviation, both with their sign.
func (p *parser) setDeviation(plus, minus number, from int) {
	p.q.Plus, p.q.Minus = plus.d, minus.d.neg()
	p.alt.Plus, p.alt.Minus = plus.alt, minus.alt.neg()
	p.q.SecondAt = Place{from, p.i}
	p.note(plus)
	p.note(minus)
}

// retreat goes back from one way of reading, to try another.
func (p *parser) retreat(from int) bool {
	p.i = from
	p.clear()
	return false
}

// clear forgets a failure met while trying one way of reading.
func (p *parser) clear() { p.bad, p.why, p.reads = 0, "", 0 }

// signed reads a number that has a sign, with blanks after the sign: + 1.
func (p *parser) signed() (number, bool) {
	from, negative := p.i, false
	if n := p.minusAt(p.i); n > 0 {
		p.i, negative = p.i+n, true
	} else if p.peek(p.i) == '+' {
		p.i++
	} else {
		return number{}, false
	}
	p.space()
	if !p.unsignedStarts(p.i) {
		p.i = from
		return number{}, false
	}
	n, ok := p.unsigned()
	if negative {
		n.d, n.alt = n.d.neg(), n.alt.neg()
	}
	n.at.Start = from
	return n, ok
}

// zero reads a zero without sign: 0, 0.000.
func (p *parser) zero() (number, bool) {
	from := p.i
	if p.peek(from) != '0' {
		return number{}, false
	}
	n, ok := p.unsigned()
	if !ok || n.d.Mant != 0 || n.mark != sure {
		p.retreat(from)
		return number{}, false
	}
	return n, true
}

// slashAndSign reports a slash and behind it a sign.
func (p *parser) slashAndSign(i int) bool {
	i = p.skipSpace(i)
	if p.peek(i) != '/' {
		return false
	}
	i = p.skipSpace(i + 1)
	return p.peek(i) == '+' || p.minusAt(i) > 0
}

// plusMinusAt is the length of ±, +/-, +- at i.
func (p *parser) plusMinusAt(i int) int {
	if strings.HasPrefix(p.text[i:], "±") {
		return len("±")
	}
	if p.peek(i) != '+' {
		return 0
	}
	j := p.skipSpace(i + 1)
	if p.peek(j) == '/' {
		j = p.skipSpace(j + 1)
	}
	m := p.minusAt(j)
	if m == 0 || p.peek(j) == '/' {
		return 0
	}
	return j + m - i
}

// rangeMark is the length of the mark of a range at i before a number: to, a
// dash, two dashes, an ellipsis, a tilde. Without a blank before it a word is
// none if a letter stands there: "N·m to", "8to".
func (p *parser) rangeMark(i int, spaced bool) int {
	rest := p.text[i:]
	n := 0
	switch {
	case rest == "":
		return 0
	case len(rest) > 2 && rest[0]|0x20 == 't' && rest[1]|0x20 == 'o' && !isLetter(rest[2]):
		if !spaced && i > 0 && isLetter(p.text[i-1]) {
			return 0
		}
		n = 2
	case strings.HasPrefix(rest, "--"):
		n = 2
	case rest[0] == '-' || rest[0] == '~':
		n = 1
	case strings.HasPrefix(rest, "..."):
		n = 3
	case strings.HasPrefix(rest, ".."):
		n = 2
	case rest[0] >= 0x80:
		for _, m := range [...]string{"–", "—", "−", "‐", "‑", "…", "～", "÷"} {
			if strings.HasPrefix(rest, m) {
				n = len(m)
				break
			}
		}
	}
	if n == 0 || !p.numberStarts(p.skipSpace(i+n)) {
		return 0
	}
	return n
}

// dashAndMinus reports -10--5: two hyphens behind a negative number.
func (p *parser) dashAndMinus(i int) bool {
	return p.q.First.Mant < 0 && strings.HasPrefix(p.text[i:], "--") && isDigit(p.peek(i+2))
}

// unit passes the unit that stands next, and max or min behind it. The unit ends
// before a second number or a deviation; its place is empty if there is none.
func (p *parser) unit() Place {
	p.space()
	start, end := p.i, len(p.text)
	if p.unsignedStarts(start) && !p.unitWithOne(start) {
		return Place{start, start}
	}
	for j := start; j < len(p.text); j++ {
		switch c := p.text[j]; {
		case c >= 0x80, c == '+', c == '-', c == '~', c == '.', c|0x20 == 't':
		default:
			continue
		}
		if p.plusMinusAt(j) > 0 || p.peek(j) == '+' && p.numberStarts(p.skipSpace(j+1)) ||
			p.rangeMark(j, endsInSpace(p.text[:j])) > 0 && !p.perMinute(j) {
			end = j
			break
		}
	}
	p.i = end
	end = start + len(trimSpace(p.text[start:end]))
	if f, n := limitBehind(p.text[start:end]); n > 0 && p.limit == Single && !(n == end-start && f == AtLeast && p.want.Has(Time)) {
		p.limit = f
		end = start + len(trimSpace(p.text[start:end-n]))
	}
	return Place{start, end}
}

// unitWithOne reports a unit that begins with the digit 1: 1/min, and 1b, which
// is what a scanner makes of lb.
func (p *parser) unitWithOne(i int) bool {
	if p.peek(i) != '1' {
		return false
	}
	if n := p.slashAt(i + 1); n > 0 {
		return isLetter(p.peek(i + 1 + n))
	}
	return isLetter(p.peek(i+1)) && p.peek(i+1)|0x20 != 'e'
}

// perMinute reports the hyphen of min-1.
func (p *parser) perMinute(j int) bool {
	return p.text[j] == '-' && j >= 3 && strings.EqualFold(p.text[j-3:j], "min") &&
		p.peek(j+1) == '1' && !isDigit(p.peek(j+2)) && p.peek(j+2) != '.'
}
