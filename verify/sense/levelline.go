package sense

import (
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
)

// The line through the points of a level table, which level-off-line judges by
// and level-falls looks for a cause by.

// A level may bend away from the straight line by this part of its whole rise: oil
// itself by about 2 % over 75 K (ASTM D1250), the rest for the form of the sump.
const bend = 0.15

// levelPoint is one figure of a level table as numbers.
type levelPoint struct {
	levelRow
	value   spotted
	y, half float64
}

// sidePoints lists one side of the level by temperature, in one unit: single
// numbers only.
func sidePoints(r *schema.Record, s side) []levelPoint {
	var points []levelPoint
	for _, row := range byTemperature(levelRows(r)) {
		f, path := s.of(r, row.i)
		v, ok := at(f, path)
		if !ok || v.quantity().Form != convert.Single {
			continue
		}
		if len(points) > 0 && (v.dimension() != points[0].value.dimension() || row.t-points[len(points)-1].t < 1e-6) {
			return nil // nothing to draw a line through
		}
		e, _ := high(v.quantity())
		points = append(points, levelPoint{row, v, e.si, e.half})
	}
	return points
}

// causeOf is the number of the row that is to blame on one side of the level, -1
// where no single one is: of four points and more, the one without which the
// others rise on a line.
func causeOf(r *schema.Record, s side) int {
	points := sidePoints(r, s)
	if len(points) < 4 {
		return -1
	}
	if odd, _, ok := oddOne(points); ok {
		return points[odd].i
	}
	return -1
}

// oddOne finds the one point that is off the line through the others, and what
// that line has there. Of three points the middle one is judged; of more, the one
// without which the others rise on a line. Where there is no such one, the table
// bends, and nothing is said.
func oddOne(points []levelPoint) (odd int, want float64, ok bool) {
	switch n := len(points); {
	case n < 3:
		return 0, 0, false
	case n == 3:
		want := straight(points[0], points[2], points[1].t)
		return 1, want, off(points, points[1], want)
	}
	if lineThrough(points, -1) {
		return 0, 0, false
	}
	found := 0
	for i := range points {
		if lineThrough(points, i) {
			a, b := neighbours(len(points), i)
			odd, want, found = i, straight(points[a], points[b], points[i].t), found+1
		}
	}
	return odd, want, found == 1
}

// lineThrough reports that all points but one rise on a line, each judged against
// its neighbours.
func lineThrough(points []levelPoint, but int) bool {
	var rest []levelPoint
	for i, pt := range points {
		if i != but {
			rest = append(rest, pt)
		}
	}
	for i := range rest {
		a, b := neighbours(len(rest), i)
		if off(rest, rest[i], straight(rest[a], rest[b], rest[i].t)) {
			return false
		}
		if i > 0 && rest[i].y+rest[i].half+rest[i-1].half < rest[i-1].y {
			return false
		}
	}
	return true
}

// neighbours are the two points next to i; at an end, the two beyond it.
func neighbours(n, i int) (a, b int) {
	switch i {
	case 0:
		return 1, 2
	case n - 1:
		return n - 3, n - 2
	}
	return i - 1, i + 1
}

func straight(a, b levelPoint, t float64) float64 {
	return a.y + (b.y-a.y)*(t-a.t)/(b.t-a.t)
}

// off reports that a point is farther from the line than rounding and the bend of
// the table explain.
func off(points []levelPoint, pt levelPoint, line float64) bool {
	least, most, half := math.Inf(1), math.Inf(-1), 0.0
	for _, q := range points {
		half = max(half, q.half)
		if q.i != pt.i {
			least, most = min(least, q.y), max(most, q.y)
		}
	}
	return math.Abs(pt.y-line) > 2*half+bend*(most-least)+1e-12
}
