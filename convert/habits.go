package convert

import "math"

// comparison compares the parts of two figures and keeps the worst.
type comparison struct {
	from, to  scale
	same      bool // both in one unit
	span      bool // deviations are compared: no zero point is moved
	dimension Dimension
	best      Agreement
	begun     bool
}

// convert takes a number of the first unit into the second.
func (c *comparison) convert(x float64) float64 { return c.between(x, &c.from, &c.to) }

// back takes a number of the second unit into the first.
func (c *comparison) back(x float64) float64 { return c.between(x, &c.to, &c.from) }

func (c *comparison) between(x float64, from, to *scale) float64 {
	switch {
	case c.same:
		return x
	case c.span:
		return x * from.factor / to.factor
	case from.inverse != to.inverse: // a pitch and threads per inch
		return 1 / (x * from.factor * to.factor)
	}
	return (x+from.offset)*from.factor/to.factor - to.offset
}

// part compares one number and keeps it if it is the worst so far.
func (c *comparison) part(x, y part, end End) {
	o, certain := c.outcome(x, y, end)
	if c.begun && o <= c.best.Outcome && !(o == c.best.Outcome && certain && !c.best.certain) {
		return
	}
	ratio := 1.0
	if e := c.convert(x.v); e != y.v {
		ratio = y.v / e
	}
	c.best.Outcome, c.best.End, c.best.Ratio, c.best.certain = o, end, ratio, certain
	c.begun = true
}

// outcome tries the habits of print in their order.
func (c *comparison) outcome(x, y part, end End) (o Outcome, certain bool) {
	e, b := c.convert(x.v), c.back(y.v)
	switch {
	case c.equal(x, y, e):
		return Exact, false
	case c.noSize(e, y, &c.to), c.noSize(b, x, &c.from):
		return Disagree, c.faraway(x, y, e, b)
	case rounds(e, y, x, 1):
		return Rounded, false
	case rounds(b, x, y, 0.025):
		return RoundedFromSecond, false
	case truncates(e, y), truncates(b, x):
		return Truncated, false
	case inward(e, y, end), inward(b, x, end):
		return Inward, false
	case c.loose(x, y, e, b), c.span && free(x, y, e, b):
		return Loose, false
	case coarse(e, y):
		return Coarse, false
	}
	return Disagree, c.faraway(x, y, e, b)
}

// noSize reports a length in whole inches, or longer units, that is more than a
// quarter off: 13 mm is 1 in to the nearest inch, and yet nobody prints it so.
// Print of half an inch has a fraction or a decimal. common practice, no source
func (c *comparison) noSize(e float64, y part, unit *scale) bool {
	const least = 0.02 // m
	return c.dimension == Length && !c.span && y.printed && y.d.Den <= 1 && y.v != 0 &&
		y.step*unit.factor >= least && abs(e-y.v) > abs(e)/4
}

// equal reports the same value: to a few float steps, or exactly where the
// printed digits are more than a float can tell apart.
func (c *comparison) equal(x, y part, e float64) bool {
	if abs(e-y.v) > 4e-15*abs(y.v) {
		return false
	}
	if c.same && x.printed && y.printed && (x.d.Digits() > 15 || y.d.Digits() > 15) {
		return x.d.Cmp(y.d) == 0
	}
	return true
}

// within is a <= b with room for the float steps of the conversion, so that a
// tie counts for both sides.
func within(a, b, scale float64) bool { return a <= b+1e-12*abs(scale) }

// rounds reports whether y is e rounded: to its last printed digit, to steps of
// 0.5, 1 or 5, or in the trailing zeros of an integer, which print leaves open.
// original is the value that e was converted from. Rounding beyond the last
// printed digit may change the value by the share coarsest at most: where the
// second value is the original, more would let a factor of 1.4 for 1.356 pass.
func rounds(e float64, y, original part, coarsest float64) bool {
	off := abs(e - y.v)
	half := y.step / 2
	if y.printed && y.d.Den > 1 {
		// 1/2 in is not printed for everything from 1/4 to 3/4 in.
		half = min(half, abs(e)/20)
	}
	if within(off, half, e) {
		return true
	}
	if !y.printed || y.d.Den > 1 || y.d.Exp < -1 || y.d.Exp > 0 || off > coarsest*abs(e) {
		return false
	}
	for _, step := range [...]float64{0.5, 1, 5} {
		if step > y.step && step <= 10*y.step && 4*step <= abs(y.v) && within(off, step/2, e) && multiple(y.v, step) {
			return true
		}
	}
	zeros := y.d.openZeros()
	for k := 1; k <= zeros && k < len(pow10); k++ {
		if within(off, pow10[k]/2, e) {
			// 100 lb is 50 kg where both are round; 113 N·m is not 100 N·m.
			asRound := original.printed && y.d.Digits()-zeros >= original.d.Digits()-original.d.openZeros()
			return off <= abs(e)/20 || asRound && off <= abs(e)/8
		}
	}
	return false
}

// multiple reports whether v is a whole multiple of step; both are small
// decimals.
func multiple(v, step float64) bool { return math.Mod(v, step) == 0 }

// truncates reports whether y is e with digits dropped. Dropping more than a
// tenth of the value is no habit of rounding.
func truncates(e float64, y part) bool {
	if y.printed && y.d.Den > 1 {
		return false
	}
	lost := abs(e) - abs(y.v)
	return e*y.v >= 0 && lost >= 0 && lost < y.step && lost <= abs(e)/10
}

// inward reports whether y is e rounded into the permitted range: a lower limit
// up, an upper limit down (CSA B125.1 Annex A.2, NIST SP 1038 4.4 from memory).
func inward(e float64, y part, end End) bool {
	in := y.v - e
	switch end {
	case Lower:
	case Upper:
		in = -in
	default:
		return false
	}
	return in >= 0 && in < y.step && in <= abs(e)/10
}

// loose reports a conversion that is off by no more than 1.5 % and half a
// printed unit. Lengths are printed to be measured: of them only two printed
// units or a shortened factor are forgiven. A temperature has no per cent.
func (c *comparison) loose(x, y part, e, b float64) bool {
	off := abs(e - y.v)
	near := off <= 2*y.unit() || abs(b-x.v) <= 2*x.unit()
	switch {
	case c.dimension == Temperature && !c.span:
		return within(off, y.step, e)
	case off <= 0.015*abs(e)+y.least()/2 && (near || c.dimension != Length && c.dimension != ThreadPitch):
		return true
	}
	return c.shortened(x, y, e)
}

// shortened reports a conversion by a factor of one to five figures: 1.36 N·m
// for a foot-pound, 0.1383 kgf·m, N·m divided by ten for kgf·m. The factor must
// lie within 2 % of the true one.
func (c *comparison) shortened(x, y part, e float64) bool {
	if c.same || c.from.offset != c.to.offset || c.from.inverse || c.to.inverse || x.v == 0 {
		return false
	}
	f := c.from.factor / c.to.factor
	for _, inverse := range [...]bool{false, true} {
		g := f
		if inverse {
			g = 1 / f
		}
		unit := math.Pow(10, math.Floor(math.Log10(g))) // of the first figure
		for range 5 {
			for _, short := range [...]float64{math.Round(g/unit) * unit, math.Floor(g/unit) * unit} {
				if abs(short/g-1) > 0.02 {
					continue
				}
				v := x.v * short
				if inverse {
					v = x.v / short
				}
				if within(abs(v-y.v), y.least()/2, v) || truncates(v, y) {
					return true
				}
			}
			unit /= 10
		}
	}
	return false
}

// free reports two deviations one printed unit apart, the trailing zero of a
// round one left open: ±80 lbf·ft beside ±100 N·m.
func free(x, y part, e, b float64) bool {
	off := abs(e - y.v)
	return within(off, y.step, e) || within(abs(b-x.v), x.step, b) ||
		y.printed && y.d.openZeros() > 0 && off <= 10 && off <= abs(e)/10
}

// coarse reports a whole multiple of 5 within 2.5 of the exact value, and
// within an eighth of it.
func coarse(e float64, y part) bool {
	off := abs(e - y.v)
	return y.v != 0 && multiple(y.v, 5) && off <= 2.5 && off <= abs(e)/8
}

// faraway reports a difference that no habit explains. Of 523 call-outs that are
// right three disagree, all within one printed unit or by less than 4 %.
// Deviations are rounded freely, and 3 °C may be a rise.
func (c *comparison) faraway(x, y part, e, b float64) bool {
	off, back := abs(e-y.v), abs(b-x.v)
	switch {
	case c.span:
		return off > abs(e)/10 && off > 3*y.unit() && back > 3*x.unit()
	case c.dimension == Temperature:
		return off*c.to.factor > 5 && off > 1.5*y.step && back > 1.5*x.step
	}
	return off > abs(e)/25 && off > y.units() && back > x.units()
}

// least is one printed unit, and an eighth of the value at most: the step of a
// fraction says little.
func (p part) least() float64 {
	if p.printed && p.d.Den > 1 {
		return min(p.step, abs(p.v)/8)
	}
	return p.step
}

// units is how far a value may be off: by one printed unit and a tenth (71 lbf·in
// beside 7 N·m, by a factor of ten), a fraction by three, for it may be the name
// of a size (1/2 in for 15 mm).
func (p part) units() float64 {
	if p.printed && p.d.Den > 1 {
		return 3 * p.unit()
	}
	return 1.1 * p.unit()
}

// unit is what one printed unit may be worth: least, or the tens, hundreds …
// that the trailing zeros of an integer leave open.
func (p part) unit() float64 {
	if zeros := p.d.openZeros(); p.printed && zeros > 0 {
		return max(p.step, min(Decimal{Mant: 1, Exp: int32(zeros)}.Float(), abs(p.v)/10))
	}
	return p.least()
}
