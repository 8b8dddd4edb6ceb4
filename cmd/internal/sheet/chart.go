package sheet

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/fluid"
)

// scale places numbers between two ends of a drawing.
type scale struct{ lo, hi, from, to float64 }

func (s scale) at(x float64) float64 {
	if s.hi == s.lo {
		return (s.from + s.to) / 2
	}
	return s.from + (x-s.lo)/(s.hi-s.lo)*(s.to-s.from)
}

// ticks are round numbers within the scale as another unit counts: in turns a
// number of the scale into that unit, out turns it back.
func (s scale) ticks(about int, in, out func(float64) float64) (at []float64, text []string) {
	a, b := in(s.lo), in(s.hi)
	step := roundStep((b - a) / float64(about))
	if !(step > 0) {
		return nil, nil
	}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	for i := math.Ceil(a/step - 1e-9); i*step <= b+step*1e-9; i++ {
		at = append(at, out(i*step))
		text = append(text, strconv.FormatFloat(i*step+0, 'f', decimals, 64))
	}
	return at, text
}

// roundStep is the next 1, 2 or 5 times a power of ten from x up.
func roundStep(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0
	}
	e := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if x <= m*e*(1+1e-9) {
			return m * e
		}
	}
	return 10 * e
}

func same(x float64) float64 { return x }

func toF(c float64) float64   { return c*9/5 + 32 }
func fromF(f float64) float64 { return (f - 32) * 5 / 9 }

// The level chart (mm).
const (
	chartW, chartH  = 104.0, 62.0
	chartLeft       = 15.0
	chartRight      = 4.0
	chartRightScale = 15.0
	chartTop        = 6.0
	chartFoot       = 14.0
)

// levelChart draws low and high over the temperature, both scales of temperature
// below it; levels in their first unit at the left, and in the other where two
// are printed at the right. Nothing is drawn beyond the table. Nil where there
// is no span to draw.
func levelChart(l *schema.Level) *Drawing {
	points, dim := fluid.PointsOf(l)
	points = slices.DeleteFunc(points, func(p fluid.Point) bool {
		return math.IsInf(p.TC.Lo, 0) || math.IsInf(p.TC.Hi, 0)
	})
	if len(points) == 0 {
		return nil
	}
	slices.SortStableFunc(points, func(a, b fluid.Point) int { return cmp.Compare(a.TC.Lo, b.TC.Lo) })
	tc, level := spanOf(points)
	if tc.hi <= tc.lo || level.hi <= level.lo {
		return nil
	}
	if _, _, err := fluid.At(points, tc.lo); err != nil {
		return nil
	}
	own, second, both := unitsOf(l, dim)
	right := chartRight
	if both {
		right = chartRightScale
	}
	d := &Drawing{W: mm(chartW), H: mm(chartH), Title: "level over temperature"}
	x := scale{tc.lo - (tc.hi-tc.lo)*0.08, tc.hi + (tc.hi-tc.lo)*0.08, chartLeft, chartW - right}
	room := (level.hi - level.lo) * 0.12
	y := scale{level.lo - room, level.hi + room, chartH - chartFoot, chartTop}
	d.frame(x, y)
	d.temperatures(x, y.from)
	d.levels(y, x, own, false)
	if both {
		d.levels(y, x, second, true)
	}
	d.band(points, x, y)
	return d
}

// spanOf is what the table holds.
func spanOf(points []fluid.Point) (tc, level scale) {
	tc = scale{lo: math.Inf(1), hi: math.Inf(-1)}
	level = tc
	for _, p := range points {
		tc.lo, tc.hi = min(tc.lo, p.TC.Lo), max(tc.hi, p.TC.Hi)
		for _, side := range []fluid.Interval{p.Low, p.High} {
			if side.Known() {
				level.lo, level.hi = min(level.lo, side.Mid()), max(level.hi, side.Mid())
			}
		}
	}
	return tc, level
}

// unitsOf are the unit of the levels and, where they are printed in two, the
// other.
func unitsOf(l *schema.Level, dim convert.Dimension) (own, second convert.Unit, both bool) {
	for i := range l.Points {
		for _, f := range []*schema.Figure{&l.Points[i].Low, &l.Points[i].High} {
			if q, ok := f.Quantity(); ok && q.Unit.Dimension() == dim {
				second, both = bothSystems(l, dim)
				return q.Unit, second, both
			}
		}
	}
	return dim.SI(), second, false
}

// frame draws the axes.
func (d *Drawing) frame(x, y scale) {
	d.line("axis", x.from, y.from, x.to, y.from)
	d.line("axis", x.from, y.from, x.from, y.to)
}

// temperatures draws the scale in °C and, below it, in °F.
func (d *Drawing) temperatures(x scale, foot float64) {
	at, text := x.ticks(6, same, same)
	for i := range at {
		d.line("tick", x.at(at[i]), foot, x.at(at[i]), foot+1.6)
		d.text("number", "middle", x.at(at[i]), foot+5.2, text[i])
	}
	d.text("unit", "end", x.from-4.5, foot+5.2, "°C")
	low := foot + 7
	d.line("axis", x.from, low, x.to, low)
	at, text = x.ticks(8, toF, fromF)
	for i := range at {
		d.line("tick", x.at(at[i]), low, x.at(at[i]), low+1.6)
		d.text("number", "middle", x.at(at[i]), low+5.2, text[i])
	}
	d.text("unit", "end", x.from-4.5, low+5.2, "°F")
}

// levels draws the scale of the levels in a unit. Levels are in mm or litres, a
// thousandth of the SI unit.
func (d *Drawing) levels(y, x scale, u convert.Unit, right bool) {
	in := func(v float64) float64 { return u.FromSI(v / 1000) }
	out := func(v float64) float64 { return u.ToSI(v) * 1000 }
	at, text := y.ticks(5, in, out)
	for i := range at {
		v := y.at(at[i])
		if right {
			d.line("tick", x.to, v, x.to+1.6, v)
			d.text("number", "start", x.to+2.6, v+1.3, text[i])
		} else {
			d.line("grid", x.from, v, x.to, v)
			d.line("tick", x.from-1.6, v, x.from, v)
			d.text("number", "end", x.from-2.6, v+1.3, text[i])
		}
	}
	if right {
		d.line("axis", x.to, y.from, x.to, y.to)
		d.text("unit", "start", x.to+2.6, y.to-2, u.Symbol())
	} else {
		d.text("unit", "end", x.from-2.6, y.to-2, u.Symbol())
	}
}

// band draws the low and the high line, the good levels between them, and the
// printed points.
func (d *Drawing) band(points []fluid.Point, x, y scale) {
	var lows, highs [][2]float64
	for _, p := range points {
		for _, t := range slices.Compact([]float64{p.TC.Lo, p.TC.Hi}) {
			if p.Low.Known() {
				lows = append(lows, [2]float64{x.at(t), y.at(p.Low.Mid())})
			}
			if p.High.Known() {
				highs = append(highs, [2]float64{x.at(t), y.at(p.High.Mid())})
			}
		}
	}
	if len(lows) == len(highs) && len(lows) > 1 {
		back := slices.Clone(lows)
		slices.Reverse(back)
		d.polygon("good", append(slices.Clone(highs), back...)...)
	}
	for _, side := range []struct {
		name string
		at   [][2]float64
		up   float64
	}{{"high", highs, -2.6}, {"low", lows, 5}} {
		for i, p := range side.at {
			if i > 0 {
				d.line("bound", side.at[i-1][0], side.at[i-1][1], p[0], p[1])
			}
		}
		for _, p := range side.at {
			d.circle("point", p[0], p[1], 1.1)
		}
		if n := len(side.at); n > 1 {
			a, b := side.at[(n-1)/2], side.at[(n-1)/2+1]
			d.text("name", "middle", (a[0]+b[0])/2, (a[1]+b[1])/2+side.up, side.name)
		}
	}
}

// windowChart draws the windows of temperature of marks or of a plug over both
// scales. Nil where no window has two ends.
func windowChart(figures []*schema.Figure, numbered bool) *Drawing {
	type window struct {
		n      int
		lo, hi float64
	}
	var windows []window
	tc := scale{lo: math.Inf(1), hi: math.Inf(-1)}
	for i, f := range figures {
		q, ok := f.Quantity()
		if !ok {
			continue
		}
		lo, hi := q.Bounds()
		lo, hi = lo-273.15, hi-273.15
		if math.IsInf(lo, 0) || math.IsInf(hi, 0) {
			continue
		}
		windows = append(windows, window{i + 1, lo, hi})
		tc.lo, tc.hi = min(tc.lo, lo), max(tc.hi, hi)
	}
	if len(windows) == 0 || tc.hi <= tc.lo {
		return nil
	}
	const row = 6.0
	foot := 1.5 + row*float64(len(windows))
	d := &Drawing{W: mm(chartW), H: mm(foot + chartFoot), Title: "windows of temperature"}
	x := scale{tc.lo - (tc.hi-tc.lo)*0.12, tc.hi + (tc.hi-tc.lo)*0.12, chartLeft, chartW - chartRight}
	for i, w := range windows {
		y := 0.5 + row*float64(i)
		d.polygon("good", [2]float64{x.at(w.lo), y}, [2]float64{x.at(w.hi), y}, [2]float64{x.at(w.hi), y + 5}, [2]float64{x.at(w.lo), y + 5})
		d.polygon("bound", [2]float64{x.at(w.lo), y}, [2]float64{x.at(w.hi), y}, [2]float64{x.at(w.hi), y + 5}, [2]float64{x.at(w.lo), y + 5})
		if numbered {
			d.text("name", "middle", (x.at(w.lo)+x.at(w.hi))/2, y+3.8, strconv.Itoa(w.n))
		}
	}
	d.line("axis", x.from, foot, x.to, foot)
	d.temperatures(x, foot)
	return d
}
