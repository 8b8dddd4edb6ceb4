package fluid

import (
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
)

// zeroC is 0 °C in K.
const zeroC = 273.15

// PointsOf reads the level table of a record: the points that give a temperature
// and a level, in the order of the file. Levels are in mm where they are lengths
// (dim is convert.Length), in litres where they are volumes; a table is read in
// the dimension of its first level. Of several values of a figure the first that
// was read counts. A temperature printed as a range, or with an open end, is one
// over all of which the level holds. Temperatures are rounded to a millionth of
// a degree. A level with an open end (max 50 mm) is [None].
func PointsOf(l *schema.Level) (points []Point, dim convert.Dimension) {
	for i := range l.Points {
		for _, f := range [...]*schema.Figure{&l.Points[i].Low, &l.Points[i].High} {
			if q, ok := f.Quantity(); ok && dim == convert.NoDimension {
				dim = q.Unit.Dimension()
			}
		}
	}
	for i := range l.Points {
		p := &l.Points[i]
		at, ok := p.At.Quantity()
		if !ok || at.Form == convert.Tolerance {
			continue
		}
		low, high := level(&p.Low, dim), level(&p.High, dim)
		if low.Known() || high.Known() {
			lo, hi := at.Bounds()
			points = append(points, Point{TC: Interval{celsius(lo), celsius(hi)}, Low: low, High: high})
		}
	}
	return points, dim
}

// celsius goes from K to °C without the noise of binary arithmetic, so that a
// temperature printed in the table is found in it.
func celsius(k float64) float64 { return math.Round((k-zeroC)*1e6) / 1e6 }

// level is a figure in mm or litres; both are a thousandth of their SI unit.
func level(f *schema.Figure, dim convert.Dimension) Interval {
	if f.Word {
		return None
	}
	for i := range f.Values {
		v := &f.Values[i]
		if !v.Read() || v.Quantity.Unit.Dimension() != dim || v.Quantity.Form == convert.Tolerance {
			continue
		}
		lo, hi := v.Quantity.Bounds()
		if math.IsInf(lo, 0) || math.IsInf(hi, 0) {
			return None
		}
		return Interval{lo * 1000, hi * 1000}
	}
	return None
}
