package fluid

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
)

// Point is a row of a level table: the lowest and the highest level that is right
// at a temperature, or over a range of them. A level that is not given is
// [None]; all are in one unit.
type Point struct {
	TC        Interval // °C; an end that is open is infinite
	Low, High Interval
}

// at writes the temperatures of a point: "20 °C", "15 to 25 °C".
func (p Point) at() string {
	if p.TC.Lo < p.TC.Hi || p.TC.Lo > p.TC.Hi {
		return fmt.Sprintf("%g to %g °C", p.TC.Lo, p.TC.Hi)
	}
	return fmt.Sprintf("%g °C", p.TC.Lo)
}

// ErrTable is the error for a level table that says nothing sure: errors that
// wrap it say why.
var ErrTable = errors.New("the level table is not sound")

func unsound(format string, args ...any) error {
	return fmt.Errorf("%s: %w", fmt.Sprintf(format, args...), ErrTable)
}

// OutsideError is the error for a temperature that a level table does not reach.
type OutsideError struct {
	TC         float64 // asked for, °C
	FromC, ToC float64 // what the table holds, °C; infinite where it is open
}

func (e *OutsideError) Error() string {
	switch {
	case math.IsInf(e.FromC, -1):
		return fmt.Sprintf("the level is given up to %g °C, not at %g °C", e.ToC, e.TC)
	case math.IsInf(e.ToC, 1):
		return fmt.Sprintf("the level is given from %g °C up, not at %g °C", e.FromC, e.TC)
	case e.FromC == e.ToC:
		return fmt.Sprintf("the level is given at %g °C only, not at %g °C", e.FromC, e.TC)
	}
	return fmt.Sprintf("the level is given from %g to %g °C, not at %g °C", e.FromC, e.ToC, e.TC)
}

// At is the low and the high level at a temperature (°C), in the unit of the
// points. Within the range of a point its level holds; between two points it is
// on the straight line from the end of the one to the beginning of the other;
// where two ranges meet, whichever of both levels. One of them is [None] where
// the table does not give that side there. Points may stand in any order.
//
// A temperature outside the table is an [OutsideError]: nothing is drawn beyond
// its ends. Two points of one temperature, ranges that overlap, and levels whose
// low is above the high, are an [ErrTable]. Oil itself bends away from the line by about 2 % of
// the rise over 75 K (ASTM D1250).
func At(points []Point, tC float64) (low, high Interval, err error) {
	if !temperature(tC) {
		return None, None, outOfRange("temperature %g °C", tC)
	}
	points, err = sound(points)
	if err != nil {
		return None, None, err
	}
	low = between(points, tC, func(p Point) Interval { return p.Low })
	high = between(points, tC, func(p Point) Interval { return p.High })
	switch {
	case !low.Known() && !high.Known():
		return None, None, &OutsideError{TC: tC, FromC: points[0].TC.Lo, ToC: points[len(points)-1].TC.Hi}
	case low.Known() && high.Known() && !ordered(low, high):
		// Only where the sides are given at different temperatures.
		return None, None, unsound("low is above high at %g °C", tC)
	}
	return low, high, nil
}

// sound is the table from the coldest point up, without points that give nothing.
func sound(points []Point) ([]Point, error) {
	var out []Point
	for _, p := range points {
		if !temperatures(p.TC) {
			return nil, unsound("a point at %s", p.at())
		}
		for _, side := range [...]Interval{p.Low, p.High} {
			if !side.absent() && (!side.Known() || max(-side.Lo, side.Hi) > mostLevel) {
				return nil, unsound("a level from %g to %g at %s", side.Lo, side.Hi, p.at())
			}
		}
		if p.Low.Known() && p.High.Known() && !ordered(p.Low, p.High) {
			return nil, unsound("low is above high at %s", p.at())
		}
		if p.Low.Known() || p.High.Known() {
			out = append(out, p)
		}
	}
	if len(out) == 0 {
		return nil, unsound("no point gives a level")
	}
	slices.SortStableFunc(out, func(a, b Point) int { return cmp.Compare(a.TC.Lo, b.TC.Lo) })
	for i := 1; i < len(out); i++ {
		a, b := out[i-1], out[i]
		switch {
		case a.TC == b.TC:
			return nil, unsound("two points are at %s", b.at())
		// Ranges may meet at an end, where both hold.
		case a.TC.Hi > b.TC.Lo || a.TC.Hi == b.TC.Lo && (a.TC.Lo == a.TC.Hi || b.TC.Lo == b.TC.Hi):
			return nil, unsound("a point at %s and one at %s", a.at(), b.at())
		}
	}
	return out, nil
}

// What a level table can hold: temperatures above absolute zero, and levels of a
// tank that could be built. The bounds keep the arithmetic finite.
const (
	mostTC    = 10_000
	mostLevel = 1e9 // mm or L
)

func temperature(tC float64) bool { return tC >= -zeroC && tC <= mostTC }

// temperatures reports a range in order; one of its ends may be open.
func temperatures(i Interval) bool {
	lo, hi := temperature(i.Lo), temperature(i.Hi)
	return i.Lo <= i.Hi && (lo || math.IsInf(i.Lo, -1)) && (hi || math.IsInf(i.Hi, 1)) && (lo || hi)
}

func ordered(low, high Interval) bool { return low.Lo <= high.Lo && low.Hi <= high.Hi }

// between draws one side of the level at a temperature; None outside the points
// that give it.
func between(points []Point, tC float64, side func(Point) Interval) Interval {
	below, above := -1, -1
	for i, p := range points {
		if !side(p).Known() {
			continue
		}
		if p.TC.Lo <= tC {
			below = i
		}
		if p.TC.Hi >= tC && above < 0 {
			above = i
		}
	}
	if below < 0 || above < 0 {
		return None
	}
	a, b := points[below], points[above]
	x, y := side(a), side(b)
	if a.TC.Hi >= tC { // within a range, or where two meet
		return Interval{min(x.Lo, y.Lo), max(x.Hi, y.Hi)}
	}
	part := (tC - a.TC.Hi) / (b.TC.Lo - a.TC.Hi)
	return Interval{lerp(x.Lo, y.Lo, part), lerp(x.Hi, y.Hi, part)}
}

func lerp(a, b, part float64) float64 { return a*(1-part) + b*part }
