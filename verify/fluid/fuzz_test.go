package fluid_test

import (
	"math"
	"testing"

	"snapgauge/verify/fluid"
)

// fine reports that an interval is finite and in order.
func fine(i fluid.Interval) bool {
	return !math.IsNaN(i.Lo) && !math.IsInf(i.Lo, 0) && !math.IsInf(i.Hi, 0) && i.Lo <= i.Hi
}

// FuzzGrowth: over its whole domain a finite interval in order, or an error; the
// growth of a warming oil is above zero.
func FuzzGrowth(f *testing.F) {
	f.Add(0.00054, 0.00079, 20.0, 25.0, 70.0, 75.0, 4.7, 870.0)
	f.Add(0.0007, 0.0007, -50.0, -50.0, 150.0, 150.0, 0.0, 800.0)
	f.Add(0.0, 1e300, math.Inf(-1), 0.0, math.NaN(), 1.0, math.MaxFloat64, 1164.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, v, density float64) {
		alpha, from, to := span(a, b), span(c, d), span(e, g)
		growth, err := fluid.Growth(alpha, from, to)
		if err == nil {
			if !fine(growth) {
				t.Errorf("growth %v", growth)
			}
			if from.Hi < to.Lo && growth.Lo < 0 {
				t.Errorf("shrinks from %v to %v °C: %v", from, to, growth)
			}
		}
		if out, err := fluid.Volume(v, density, c, e); err == nil && !fine(fluid.Exactly(out)) {
			t.Errorf("volume %v", out)
		}
		if vcf, err := fluid.VolumeCorrection(a, c); err == nil && (!fine(fluid.Exactly(vcf)) || vcf <= 0) {
			t.Errorf("correction %v", vcf)
		}
	})
}

// FuzzSpan: what is worked out of a span is finite and in order, or an error.
func FuzzSpan(f *testing.F) {
	f.Add(18.0, 18.5, 0.3, 0.4, 4.7, 6.2, 0.03, 0.04)
	f.Add(5e-324, 1e308, 5e-324, 1.0, 1e308, 1e308, -1.0, 1e308)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		s := fluid.Span{HeightMM: span(a, b), VolumeL: span(c, d)}
		fill, growth := span(e, g), span(h, i)
		for name, call := range map[string]func() (fluid.Interval, error){
			"per litre": s.PerLitreMM,
			"rise":      func() (fluid.Interval, error) { return s.RiseMM(fill, growth) },
			"depth":     func() (fluid.Interval, error) { return s.DepthMM(fill) },
			"at low":    func() (fluid.Interval, error) { return s.AtLowL(fill) },
		} {
			if out, err := call(); err == nil && !fine(out) {
				t.Errorf("%s of %v, %v, %v: %v", name, s, fill, growth, out)
			}
		}
	})
}

// FuzzAt: a level is finite, in order, within the levels of the table, low not
// above high; or there is an error.
func FuzzAt(f *testing.F) {
	f.Add(20.0, 30.0, 48.0, 70.0, 41.0, 59.0, 90.0, 50.0, 70.0, 52.0)
	f.Add(20.0, math.NaN(), 48.0, 70.0, 41.0, math.NaN(), 5e-324, 50.0, 70.0, 0.0)
	f.Add(0.0, 1e9, 1e9, 5e-324, 1e9, 1e9, 1e4, -1e9, 1e9, 5e-324)
	f.Fuzz(func(t *testing.T, t1, l1, h1, t2, l2, h2, t3, l3, h3, tC float64) {
		points := []fluid.Point{
			{TC: fluid.Exactly(t1), Low: fluid.Exactly(l1), High: fluid.Exactly(h1)},
			{TC: span(t2, t2+1), Low: fluid.Exactly(l2), High: fluid.Exactly(h2)},
			{TC: fluid.Exactly(t3), Low: span(min(l1, l3), max(l1, l3)), High: span(min(h1, h3), max(h1, h3))},
		}
		low, high, err := fluid.At(points, tC)
		if err != nil {
			return
		}
		least, most := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			for _, x := range []float64{p.Low.Lo, p.Low.Hi, p.High.Lo, p.High.Hi} {
				if !math.IsNaN(x) {
					least, most = min(least, x), max(most, x)
				}
			}
		}
		slack := 1e-9 * max(math.Abs(least), math.Abs(most))
		known := 0
		for _, i := range []fluid.Interval{low, high} {
			if math.IsNaN(i.Lo) && math.IsNaN(i.Hi) {
				continue
			}
			known++
			if !fine(i) || i.Lo < least-slack || i.Hi > most+slack {
				t.Errorf("%v at %v: %v", points, tC, i)
			}
		}
		if known == 0 || known == 2 && low.Lo > high.Hi {
			t.Errorf("%v at %v: low %v, high %v", points, tC, low, high)
		}
	})
}
