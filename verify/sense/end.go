package sense

import (
	"math"

	"snapgauge/convert"
)

// end is one end of a figure in the SI unit, and how far rounding may have moved
// it: half a unit of the last printed digit.
type end struct {
	si, half float64
	unit     convert.Unit
}

// low and high are the ends of a figure; ok is false where it has none, as the
// lower end of "max 2.4 mm".
func low(q convert.Quantity) (e end, ok bool) {
	lo, _ := q.Bounds()
	wide, _ := q.Widened()
	return end{lo, lo - wide, q.Unit}, q.Form != convert.Tolerance && !math.IsInf(lo, 0)
}

func high(q convert.Quantity) (e end, ok bool) {
	_, hi := q.Bounds()
	_, wide := q.Widened()
	return end{hi, wide - hi, q.Unit}, q.Form != convert.Tolerance && !math.IsInf(hi, 0)
}

// below reports that a is less than b as printed.
func (a end) below(b end) bool { return a.si < b.si-tiny(a, b) }

// surelyBelow reports that no rounding explains that a is less than b. In one
// unit and to one digit rounding never turns two numbers round; where one is
// printed to fewer digits it may have moved by half of its last; in two units
// both may have moved.
func (a end) surelyBelow(b end) bool {
	slack := 0.0
	switch {
	case a.unit != b.unit:
		slack = a.half + b.half
	case math.Abs(a.half-b.half) > 1e-6*max(a.half, b.half):
		slack = max(a.half, b.half)
	}
	return a.si+slack < b.si-tiny(a, b)
}

// tiny is far below the last digit of any printed figure and far above the noise
// of floating point.
func tiny(a, b end) float64 { return 1e-9 * max(math.Abs(a.si), math.Abs(b.si)) }
