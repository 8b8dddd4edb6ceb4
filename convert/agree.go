package convert

import "math"

// Outcome says how two printed values of one figure agree.
type Outcome uint8

// The outcomes, in the order in which they are tried. Print rounds in more
// ways than one: the habits are counted in call-outs of US Army technical
// manuals, where nine of ten values that differ do so by one of these.
const (
	Exact             Outcome = iota // the same to the last digit
	Rounded                          // the second is the first, rounded to its printed digits, or to steps of 0.5, 1, 5, 10 …
	RoundedFromSecond                // the first is the second, rounded
	Truncated                        // digits dropped
	Inward                           // a limit rounded inwards
	Loose                            // a shortened factor, or off by a little
	Coarse                           // a whole multiple of 5
	Disagree                         // none of these
)

var outcomeNames = [...]string{"exact", "rounded", "rounded from the second", "truncated", "inward", "loose", "coarse", "disagree"}

// String names the outcome.
func (o Outcome) String() string {
	if int(o) >= len(outcomeNames) {
		return "unknown outcome"
	}
	return outcomeNames[o]
}

// End names a part of a figure.
type End uint8

// The ends and deviations of a figure.
const (
	Whole End = iota // a single number
	Lower
	Upper
	NominalEnd
	PlusEnd
	MinusEnd
)

var endNames = [...]string{"value", "lower end", "upper end", "nominal value", "upper deviation", "lower deviation"}

// String names the end.
func (e End) String() string {
	if int(e) >= len(endNames) {
		return "unknown end"
	}
	return endNames[e]
}

// Agreement is what [Agree] found.
type Agreement struct {
	Outcome Outcome
	End     End      // which end or deviation decided
	Ratio   float64  // second / first at that end, both exact
	Want    Quantity // second recomputed from first, in second's unit and at second's digits

	certain bool
}

// Certain reports a disagreement that no habit of rounding explains: off by more
// than 4 % and by a tenth more than one printed unit of either value, open zeros
// counted in (a temperature by more than 5 K, a deviation by a tenth and three units). A
// near miss is not certain.
func (a Agreement) Certain() bool { return a.Outcome == Disagree && a.certain }

// Agree compares two printed values of one figure: ends with ends, the nominal
// value with the nominal value and deviations with deviations. The worst end
// decides. Shares and deviations in a unit cannot be compared without their
// base and count as coarse.
func Agree(first, second Quantity) Agreement {
	if first.Unit.Dimension() != second.Unit.Dimension() {
		if first.Form == Tolerance && second.Form == Tolerance {
			return Agreement{Outcome: Coarse, Ratio: math.NaN(), Want: second}
		}
		return Agreement{Outcome: Disagree, Ratio: math.NaN(), Want: second}
	}
	c := comparison{from: first.Unit.scale(), to: second.Unit.scale(), same: first.Unit == second.Unit, dimension: first.Unit.Dimension()}
	c.best.Ratio = 1
	c.figures(first, second)
	c.best.Want = c.want(first, second)
	return c.best
}

// figures compares part by part what the two forms have in common.
func (c *comparison) figures(first, second Quantity) {
	f, s := first.Form, second.Form
	switch {
	case f == Tolerance && s == Tolerance:
		c.devs(first, second)
	case f == Tolerance || s == Tolerance, f == AtMost && s == AtLeast, f == AtLeast && s == AtMost:
		c.part(partOf(first.main()), partOf(second.main()), Whole)
		c.best.Outcome, c.best.certain = Disagree, false
	case f == Deviation && s == Deviation:
		c.part(partOf(first.First), partOf(second.First), NominalEnd)
		c.devs(first, second)
	case (f == Range || f == Deviation) && (s == Range || s == Deviation):
		lo1, hi1 := first.endParts()
		lo2, hi2 := second.endParts()
		c.part(lo1, lo2, Lower)
		c.part(hi1, hi2, Upper)
	case f == Range || s == Range:
		c.inRange(first, second)
	case f == AtMost && s == AtMost:
		c.part(partOf(first.Second), partOf(second.Second), Upper)
	case f == AtLeast && s == AtLeast:
		c.part(partOf(first.First), partOf(second.First), Lower)
	default:
		c.part(partOf(first.main()), partOf(second.main()), Whole)
	}
}

// inRange compares a range with a single number, which may lie anywhere in it,
// or with a limit, which is one of its ends.
func (c *comparison) inRange(first, second Quantity) {
	a, b, other := first, second, second.Form
	if b.Form == Range {
		other = a.Form
	}
	lo1, hi1 := a.endParts()
	lo2, hi2 := b.endParts()
	switch other {
	case AtMost:
		c.part(hi1, hi2, Upper)
		return
	case AtLeast:
		c.part(lo1, lo2, Lower)
		return
	}
	lower, upper := *c, *c
	lower.part(lo1, lo2, Lower)
	upper.part(hi1, hi2, Upper)
	l1, h1 := c.convert(lo1.v), c.convert(hi1.v)
	inside := l1 <= lo2.v && hi2.v <= h1 || lo2.v <= l1 && h1 <= hi2.v
	switch {
	case inside && max(lower.best.Outcome, upper.best.Outcome) == Disagree:
		c.best = Agreement{Outcome: Loose, Ratio: 1}
	case lower.best.Outcome == Disagree && abs(math.Log(lower.best.Ratio)) < abs(math.Log(upper.best.Ratio)):
		c.best = lower.best
	default:
		c.best = upper.best
	}
}

// devs compares deviations, which are often rounded freely: one printed unit
// of either value is forgiven.
func (c *comparison) devs(first, second Quantity) {
	if first.Percent && second.Percent {
		first.Percent, second.Percent = false, false
		defer func(same bool) { c.same = same }(c.same)
		c.same = true
	}
	c.span = true
	plus1, minus1 := first.devParts()
	plus2, minus2 := second.devParts()
	c.part(plus1, plus2, PlusEnd)
	c.part(minus1, minus2, MinusEnd)
}

// part is one number of a figure in its own unit.
type part struct {
	v, step float64
	d       Decimal // as printed; without value where the number is computed
	printed bool
}

func partOf(d Decimal) part { return part{v: d.Float(), step: d.step(), d: d, printed: true} }

// main is the number that stands for the figure.
func (q Quantity) main() Decimal {
	if q.Form == AtMost {
		return q.Second
	}
	if q.Form == Tolerance {
		return q.Plus
	}
	return q.First
}

// endParts are the ends of a figure, lower first. A single number or a limit is
// both of its ends.
func (q Quantity) endParts() (lo, hi part) {
	switch q.Form {
	case Range:
		lo, hi = partOf(q.First), partOf(q.Second)
		if lo.v > hi.v {
			lo, hi = hi, lo
		}
	case Deviation:
		l, h := q.ends()
		step := max(q.First.step(), q.Plus.step(), q.Minus.step())
		if q.Percent {
			step = q.First.step()
		}
		lo, hi = part{v: l, step: step}, part{v: h, step: step}
	default:
		lo = partOf(q.main())
		hi = lo
	}
	return lo, hi
}

// devParts are the deviations. One in per cent is known no better than the
// number it is a share of.
func (q Quantity) devParts() (plus, minus part) {
	if !q.Percent {
		return partOf(q.Plus), partOf(q.Minus)
	}
	p, m := q.deviations()
	return part{v: p, step: q.First.step()}, part{v: m, step: q.First.step()}
}

// want recomputes the second value from the first, at the second's digits.
func (c *comparison) want(first, second Quantity) Quantity {
	w := Quantity{Form: first.Form, Unit: second.Unit, Percent: first.Percent}
	c.span = false
	like := second.main()
	slot := func(d, as Decimal, form bool) Decimal {
		if !form {
			as = like
		}
		return c.recompute(d, as)
	}
	ranges := second.Form == Range
	switch first.Form {
	case Range:
		w.First, w.Second = slot(first.First, second.First, ranges), slot(first.Second, second.Second, ranges)
	case AtMost:
		w.Second = slot(first.Second, second.Second, ranges)
	case AtLeast, Single:
		w.First = slot(first.First, second.First, true)
	case Deviation, Tolerance:
		w.First = slot(first.First, second.First, first.Form == Deviation && second.Form != AtMost)
		if first.Form == Tolerance {
			w.First = Decimal{}
		}
		if first.Percent {
			w.Plus, w.Minus = first.Plus, first.Minus
			break
		}
		c.span = true
		devs := (second.Form == Deviation || second.Form == Tolerance) && !second.Percent
		w.Plus, w.Minus = slot(first.Plus, second.Plus, devs), slot(first.Minus, second.Minus, devs)
	}
	return w
}

// recompute converts a number and rounds it to the last digit of another.
func (c *comparison) recompute(d, as Decimal) Decimal {
	x := c.convert(d.Float())
	if as.Den > 1 {
		return Decimal{Mant: int64(math.RoundToEven(x * float64(as.Den))), Den: as.Den}
	}
	m := x / as.step()
	if as.Exp < 0 && -as.Exp < int32(len(pow10)) {
		m = x * pow10[-as.Exp]
	}
	if abs(m) >= 1e18 {
		return roundFloat(x, maxDigits)
	}
	return Decimal{Mant: int64(math.RoundToEven(m)), Exp: as.Exp}
}
