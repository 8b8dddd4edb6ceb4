package release

import (
	"math/big"

	"snapgauge/convert"
)

// ends are the exact ends of a quantity in the SI unit of its dimension times a
// power of π; an open end is nil.
type ends struct {
	lo, hi *big.Rat
	pi     int
}

// endsOf works the ends out, widened by half a unit of the last printed digit
// where that is asked for. The rules are those of [convert.Quantity.Bounds] and
// [convert.Quantity.Widened], without rounding.
func endsOf(q convert.Quantity, widened bool) ends {
	var lo, hi *big.Rat // in the unit as printed
	half := func(d convert.Decimal) *big.Rat {
		if !widened {
			return new(big.Rat)
		}
		return new(big.Rat).Quo(d.Step(), big.NewRat(2, 1))
	}
	less := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
	more := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
	switch q.Form {
	case convert.Range:
		below, above := q.First, q.Second
		if below.Rat().Cmp(above.Rat()) > 0 {
			below, above = above, below
		}
		lo, hi = less(below.Rat(), half(below)), more(above.Rat(), half(above))
	case convert.AtMost:
		hi = more(q.Second.Rat(), half(q.Second))
	case convert.AtLeast:
		lo = less(q.First.Rat(), half(q.First))
	case convert.Deviation:
		share := big.NewRat(1, 1)
		if q.Percent {
			share.Abs(q.First.Rat())
			share.Quo(share, big.NewRat(100, 1))
		}
		of := func(r *big.Rat) *big.Rat { return r.Mul(r, share) }
		lo = less(less(q.First.Rat(), of(more(q.Minus.Rat(), half(q.Minus)))), half(q.First))
		hi = more(more(q.First.Rat(), of(more(q.Plus.Rat(), half(q.Plus)))), half(q.First))
	case convert.Tolerance:
		lo = less(new(big.Rat).Neg(q.Minus.Rat()), half(q.Minus))
		hi = more(q.Plus.Rat(), half(q.Plus))
	default:
		lo, hi = less(q.First.Rat(), half(q.First)), more(q.First.Rat(), half(q.First))
	}
	return toSI(q, lo, hi)
}

func toSI(q convert.Quantity, lo, hi *big.Rat) ends {
	if q.Unit == 0 {
		return ordered(ends{lo: lo, hi: hi})
	}
	factor, pi := q.Unit.Factor()
	offset := q.Unit.Offset()
	perInch := q.Unit.Dimension() == convert.ThreadPitch && q.Unit.Symbol() == "TPI"
	for _, x := range []*big.Rat{lo, hi} {
		if x == nil {
			continue
		}
		if offset != nil && q.Form != convert.Tolerance { // deviations alone have no zero point to be moved
			x.Add(x, offset)
		}
		x.Mul(x, factor)
		if perInch && x.Sign() != 0 {
			x.Inv(x)
		}
	}
	return ordered(ends{lo: lo, hi: hi, pi: pi})
}

func ordered(e ends) ends {
	if e.lo != nil && e.hi != nil && e.lo.Cmp(e.hi) > 0 {
		e.lo, e.hi = e.hi, e.lo
	}
	return e
}

// pi to 100 digits (OEIS A000796); a float64 holds 17.
const piDigits = "3.1415926535897932384626433832795028841971693993751058209749445923078164062862089986280348253421170679"

// float is the float64 nearest to r·π^pi: rounded once, or for π worked out with
// far more digits than a float64 has and then rounded.
func float(r *big.Rat, pi int) *float64 {
	if r == nil {
		return nil
	}
	f, _ := r.Float64()
	if pi != 0 {
		const bits = 300
		x := new(big.Float).SetPrec(bits).SetRat(r)
		p, _, err := big.ParseFloat(piDigits, 10, bits, big.ToNearestEven)
		if err != nil {
			return nil
		}
		for range pi {
			x.Mul(x, p)
		}
		for range -pi {
			x.Quo(x, p)
		}
		f, _ = x.Float64()
	}
	return &f
}

// mostDecimals is the greatest number of decimals of an exact value.
const mostDecimals = 40

// exact is a value as decimal text, "" where it does not end.
func exact(r *big.Rat, pi int) string {
	if r == nil || pi != 0 && r.Sign() != 0 {
		return ""
	}
	n, ends := r.FloatPrec()
	if !ends || n > mostDecimals {
		return ""
	}
	return r.FloatString(n)
}
