package convert

import (
	"fmt"
	"math/big"
)

// Converted is the result of a conversion.
type Converted struct {
	Quantity Quantity
	Digits   int // significant digits kept, of the end that has the most
	// OpenZeros says that trailing zeros of an integer left the digit count of
	// the original open: 300 lbf·ft may be known to the unit or to the hundred.
	// All printed digits were taken as significant.
	OpenZeros        bool
	ExactLo, ExactHi string // the ends before rounding: exact decimal text, or a long decimal and … if it does not end
}

// piRat is π to fifty decimals; no figure has more digits than 18.
var piRat, _ = new(big.Rat).SetString("3.14159265358979323846264338327950288419716939937510")

// To converts to another unit of the dimension and rounds once, as NIST SP 811
// B.7.2 asks: the fewest digits whose relative rounding error (half a unit of
// the last digit over the value) is not above that of the original; ties to
// even. Temperatures keep the decimals of the original. With limits a lower
// limit is rounded up and an upper limit down, so that nothing is permitted
// that the original forbids.
//
// Deviations in per cent stay as they are. A tolerance alone converts if its
// unit does.
func (q Quantity) To(u Unit, limits bool) (Converted, error) {
	if q.Unit.Dimension() != u.Dimension() {
		return Converted{}, fmt.Errorf("%s is %s and does not convert to %s, %s", q, q.Unit.Dimension().withArticle(), u.Symbol(), u.Dimension().withArticle())
	}
	c := converter{from: q.Unit, to: u, limits: limits}
	out := Quantity{Form: q.Form, Unit: u, Percent: q.Percent}
	switch q.Form {
	case Range:
		lo, hi := c.value(q.First), c.value(q.Second)
		c.keep(lo, q.First)
		c.keep(hi, q.Second)
		first, second := up, down
		if !q.Ordered() != c.inverse() {
			first, second = down, up
		}
		out.First, out.Second = c.round(lo, first), c.round(hi, second)
		c.exact(lo, hi)
	case AtMost, AtLeast:
		d := q.main()
		v := c.value(d)
		c.keep(v, d)
		if c.inverse() {
			out.Form = AtMost + AtLeast - q.Form
		}
		if out.Form == AtMost {
			out.Second = c.round(v, down)
		} else {
			out.First = c.round(v, up)
		}
		c.exact(v, v)
	case Deviation:
		c.deviation(q, &out)
	case Tolerance:
		plus, minus := c.span(q.Plus), c.span(q.Minus)
		c.keep(plus, q.Plus)
		c.keep(minus, q.Minus)
		out.Plus, out.Minus = c.round(plus, down), c.round(minus, down)
		c.exact(new(big.Rat).Neg(minus), plus)
	default:
		v := c.value(q.First)
		c.keep(v, q.First)
		c.limits = false
		out.First = c.round(v, even)
		c.exact(v, v)
	}
	if c.tooLarge {
		return Converted{}, fmt.Errorf("%s has too many digits in %s", q, u.Symbol())
	}
	c.out.Quantity = out
	return c.out, nil
}

// converter holds what one conversion keeps from number to number.
type converter struct {
	from, to Unit
	limits   bool
	exp      int32 // place of the last digit kept
	begun    bool
	tooLarge bool
	out      Converted
}

// inverse reports a pitch against threads per inch, where more is less.
func (c *converter) inverse() bool { return c.from.scale().inverse != c.to.scale().inverse }

// span converts a deviation, which no zero point moves.
func (c *converter) span(d Decimal) *big.Rat {
	f, p := c.from.Factor()
	t, q := c.to.Factor()
	v := new(big.Rat).Mul(d.Rat(), f)
	if c.inverse() {
		if v.Mul(v, t); v.Sign() == 0 {
			c.tooLarge = true
			return v
		}
		return v.Inv(v)
	}
	v.Quo(v, t)
	for ; p > q; q++ {
		v.Mul(v, piRat)
	}
	for ; p < q; p++ {
		v.Quo(v, piRat)
	}
	return v
}

// value converts a number.
func (c *converter) value(d Decimal) *big.Rat {
	from, to := c.from.Offset(), c.to.Offset()
	if from == nil && to == nil {
		return c.span(d)
	}
	v := d.Rat()
	if from != nil {
		v.Add(v, from)
	}
	f, _ := c.from.Factor()
	t, _ := c.to.Factor()
	v.Quo(v.Mul(v, f), t)
	if to != nil {
		v.Sub(v, to)
	}
	return v
}

// keep finds the place of the last digit that v needs, being d converted. The
// finest place of all numbers of a figure holds for all.
func (c *converter) keep(v *big.Rat, d Decimal) {
	c.out.OpenZeros = c.out.OpenZeros || d.openZeros() > 0
	exp := c.place(v, d)
	if v.Sign() == 0 && c.begun {
		return
	}
	if !c.begun || exp < c.exp {
		c.exp = exp
	}
	c.begun = c.begun || v.Sign() != 0
}

func (c *converter) place(v *big.Rat, d Decimal) int32 {
	if c.from.Dimension() == Temperature || c.from == c.to {
		if d.Den > 1 {
			return -1 - magnitude(new(big.Rat).SetInt64(int64(d.Den)))
		}
		return min(d.Exp, 0)
	}
	if v.Sign() == 0 || d.Mant == 0 {
		return magnitude(c.span(Decimal{Mant: 1, Exp: d.Exp}))
	}
	// step·value/original is the unit of the last digit, carried over; the
	// largest power of ten not above it has a rounding error not above the
	// original's. A fraction is known better than its step, 1/2 in is not 10 mm:
	// it is taken as known to a tenth.
	step := d.Step()
	if tenth := new(big.Rat).Abs(d.Rat()); d.Den > 1 {
		if tenth.Mul(tenth, big.NewRat(1, 10)); tenth.Cmp(step) < 0 {
			step = tenth
		}
	}
	return magnitude(step.Mul(step, new(big.Rat).Quo(v, d.Rat())))
}

// round rounds at the place kept: to the nearest, or with limits inwards.
func (c *converter) round(v *big.Rat, inwards rounding) Decimal {
	if !c.limits {
		inwards = even
	}
	d, ok := decimalOf(roundRat(v, c.exp, inwards), c.exp)
	c.tooLarge = c.tooLarge || !ok
	if v.Sign() != 0 {
		c.out.Digits = max(c.out.Digits, int(magnitude(v)-c.exp)+1)
	}
	return d
}

func (c *converter) exact(lo, hi *big.Rat) {
	if lo.Cmp(hi) > 0 && c.inverse() {
		lo, hi = hi, lo
	}
	c.out.ExactLo, c.out.ExactHi = exactText(lo), exactText(hi)
}

// deviation converts a nominal value and its deviations. With limits they are
// cut so that the ends stay within the original ones.
func (c *converter) deviation(q Quantity, out *Quantity) {
	v := c.value(q.First)
	c.keep(v, q.First)
	plus, minus := q.Plus.Rat(), q.Minus.Rat()
	if q.Percent {
		hundredth := new(big.Rat).Abs(q.First.Rat())
		hundredth.Quo(hundredth, big.NewRat(100, 1))
		plus.Mul(plus, hundredth)
		minus.Mul(minus, hundredth)
	}
	scale := c.span(Decimal{Mant: 1})
	plus.Mul(plus, scale)
	minus.Mul(minus, scale)
	lo, hi := new(big.Rat).Sub(v, minus), new(big.Rat).Add(v, plus)
	c.exact(lo, hi)
	limits := c.limits
	if c.limits = false; q.Percent {
		out.First = c.round(v, even)
		out.Plus, out.Minus = q.Plus, q.Minus
		return
	}
	open := c.out.OpenZeros // of the nominal value
	c.keep(plus, q.Plus)
	c.keep(minus, q.Minus)
	c.out.OpenZeros = open
	out.First = c.round(v, even)
	if c.limits = limits; limits {
		plus.Sub(hi, out.First.Rat())
		minus.Sub(out.First.Rat(), lo)
	}
	out.Plus, out.Minus = c.round(plus, down), c.round(minus, down)
}

// FromFloat shows an SI value in a unit at so many significant digits, for
// messages.
func FromFloat(si float64, u Unit, digits int) Quantity {
	return Quantity{First: roundFloat(u.FromSI(si), digits), Unit: u}
}
