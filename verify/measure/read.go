package measure

import (
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Reading is one printed value of a figure, as a check looks at it.
type Reading struct {
	convert.Quantity
	Text string      // as authored; of a misprint, what is used in its place
	At   schema.Spot // of the number
}

// Read takes the first value of a figure that was read in a dimension. It is not
// ok for an absent figure, a word, and deviations without their base.
func Read(f *schema.Figure, p schema.Path, dim convert.Dimension) (r Reading, ok bool) {
	if f.Word {
		return r, false
	}
	for i := range f.Values {
		v := &f.Values[i]
		if !v.Read() || v.Quantity.Unit.Dimension() != dim || v.Quantity.Form == convert.Tolerance {
			continue
		}
		r = Reading{Quantity: v.Quantity, Text: v.Text, At: rule.NumberAt(f, p, i)}
		if f.Misprint && v.Quantity.FirstAt == v.Quantity.SecondAt {
			r.Text = v.Quantity.String()
		}
		return r, true
	}
	return r, false
}

// Closed reports that the figure has both ends.
func (r Reading) Closed() bool {
	return r.Form == convert.Single || r.Form == convert.Range || r.Form == convert.Deviation
}

// Off is how far the ends of the figure lie from two wanted ends (in the SI
// unit), in units of their last printed digit; an open end is not compared.
// Rounding, cut digits and limits rounded inwards come to 1 at most.
func (r Reading) Off(lo, hi float64) float64 {
	printedLo, printedHi := r.Bounds()
	stepLo, stepHi := r.steps()
	off := 0.0
	if !math.IsInf(printedLo, 0) {
		off = math.Abs(printedLo-lo) / stepLo
	}
	if !math.IsInf(printedHi, 0) {
		off = max(off, math.Abs(printedHi-hi)/stepHi)
	}
	return off
}

// Step is one unit of the last printed digit, in the SI unit: the finer, where
// the ends differ.
func (r Reading) Step() float64 {
	lo, hi := r.steps()
	return min(lo, hi)
}

// steps are units of the last printed digit of both ends. A whole number beside
// decimals was not rounded to units: 80 in 80 to 80.019 mm, 25 and 0 in
// 25 +0.021/0 mm.
func (r Reading) steps() (lo, hi float64) {
	first, second := r.First, r.Second
	switch r.Form {
	case convert.Range:
		if r.First.Cmp(r.Second) > 0 {
			first, second = second, first
		}
	case convert.Deviation:
		if r.Percent { // as wide as its rounding
			wideLo, wideHi := r.Widened()
			step := wideHi - wideLo - (r.high() - r.low())
			return step, step
		}
		first, second = r.Minus, r.Plus
	case convert.AtMost:
		first = second
	default:
		second = first
	}
	switch {
	case whole(first) && !whole(second):
		first = second
	case whole(second) && !whole(first):
		second = first
	}
	return r.size(first), r.size(second)
}

func whole(d convert.Decimal) bool { return d.Exp >= 0 && d.Den <= 1 }

// size is one unit of the last printed digit of a number, in the SI unit.
func (r Reading) size(d convert.Decimal) float64 {
	step := math.Pow10(int(d.Exp)) / float64(max(1, d.Den))
	return math.Abs(r.Unit.ToSI(step) - r.Unit.ToSI(0))
}

func (r Reading) low() float64  { lo, _ := r.Bounds(); return lo }
func (r Reading) high() float64 { _, hi := r.Bounds(); return hi }
