package fluid_test

import (
	"errors"
	"math"
	"testing"

	"snapgauge/verify/fluid"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, within)
	}
}

// TestVolumeCorrection: values worked out by hand from the relation of Table 54D
// (no published table value was at hand), each to half a unit of its last digit:
// for 870 kg/m³ and 40 °C, alpha = 0.6278/870 = 7.216e-4, alpha·25 = 0.018040,
// times 1.014432 is 0.018301, and exp(-0.018301) = 0.981866.
func TestVolumeCorrection(t *testing.T) {
	tests := []struct{ density, tC, want, litres float64 }{
		{870, 40, 0.981866, 10.1847},
		{870, 90, 0.945101, 10.5809},
		{890, 60, 0.967975, 10.3308},
		{850, 80, 0.951370, 10.5112},
		{880, 100, 0.938398, 10.6565},
	}
	for _, tt := range tests {
		alpha, err := fluid.Alpha15(tt.density)
		if err != nil {
			t.Fatal(err)
		}
		vcf, err := fluid.VolumeCorrection(alpha, tt.tC)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "correction", vcf, tt.want, 0.5e-6)
		v, err := fluid.Volume(10, tt.density, 15, tt.tC)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "10 L at 15 °C", v, tt.litres, 0.5e-4)
	}
}

// TestAlpha15: a formulator's page prints the constant for 60 °F and °F as
// 0.34878, times 1.8 is 0.627804; the engineering tables give 0.0007 per K for
// mineral oil, a seamanship handbook (Nicholls) 1 % per 25 °F, 0.00072 per K.
func TestAlpha15(t *testing.T) {
	got, err := fluid.Alpha15(870)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "alpha", got, 0.34878*1.8/870, 1e-7)
	near(t, "mineral oil", got, 0.0007, 0.00005)
	all := fluid.LubricantAlpha15()
	near(t, "heaviest", all.Lo, 0.6278/1164, 1e-12)
	near(t, "lightest", all.Hi, 0.6278/800, 1e-12)
	for _, density := range []float64{799.9, 1164.1, 0, -870, math.NaN(), math.Inf(1)} {
		if _, err := fluid.Alpha15(density); !errors.Is(err, fluid.ErrRange) {
			t.Errorf("density %g: %v", density, err)
		}
	}
}

// TestExpansionExample: 100 L of oil of 0.0007 per K grow by 1.4 L from 20 to
// 40 °C (engineering reference page, cubical expansion of liquids). The page
// takes the coefficient as constant; Table 54D bends by under 3 % there.
func TestExpansionExample(t *testing.T) {
	g, err := fluid.Growth(fluid.Exactly(0.0007), fluid.Exactly(20), fluid.Exactly(40))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "growth of 100 L", 100*g.Mid(), 1.4, 0.05)
	if g.Lo != g.Hi {
		t.Errorf("exact in, %v out", g)
	}
}

// TestVolumeIdentities: nothing changes without a change of temperature, there
// and back is the start, two legs are one, and warmer is more.
func TestVolumeIdentities(t *testing.T) {
	volume := func(v, density, from, to float64) float64 {
		t.Helper()
		out, err := fluid.Volume(v, density, from, to)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	for density := 800.0; density <= 1160; density += 60 {
		last := 0.0
		for tC := -50.0; tC <= 150; tC += 12.5 {
			near(t, "same temperature", volume(4.7, density, tC, tC), 4.7, 1e-12)
			warm := volume(4.7, density, 15, tC)
			near(t, "there and back", volume(warm, density, tC, 15), 4.7, 1e-12)
			near(t, "two legs", volume(warm, density, tC, 90), volume(4.7, density, 15, 90), 1e-12)
			if warm <= last {
				t.Errorf("%g kg/m³: %g L at %g °C, %g L when colder", density, warm, tC, last)
			}
			last = warm
			alpha, _ := fluid.Alpha15(density)
			vcf, err := fluid.VolumeCorrection(alpha, tC)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "volume at 15 °C", warm*vcf, 4.7, 1e-12)
		}
	}
	if volume(0, 870, 15, 90) != 0 {
		t.Error("nothing grows to something")
	}
}

// TestGrowthInterval: wider is never narrower, and every inner case lies within.
func TestGrowthInterval(t *testing.T) {
	wide, err := fluid.Growth(fluid.LubricantAlpha15(), fluid.Interval{Lo: 15, Hi: 25}, fluid.Interval{Lo: 65, Hi: 75})
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range []float64{0.6278 / 1000, 0.6278 / 850} {
		for _, from := range []float64{15, 20, 25} {
			for _, to := range []float64{65, 70, 75} {
				g, err := fluid.Growth(fluid.Exactly(a), fluid.Exactly(from), fluid.Exactly(to))
				if err != nil {
					t.Fatal(err)
				}
				if g.Lo < wide.Lo || g.Hi > wide.Hi {
					t.Errorf("%v from %v to %v: %v is not within %v", a, from, to, g, wide)
				}
			}
		}
	}
	// By hand: 5.394e-4 from 25 to 65 °C is exp(0.027551 - 0.005417) - 1, and
	// 7.848e-4 from 15 to 75 °C is exp(0.047085·1.037668) - 1.
	near(t, "least", wide.Lo, 0.02238, 0.00001)
	near(t, "most", wide.Hi, 0.05007, 0.00001)
	cold, err := fluid.Growth(fluid.LubricantAlpha15(), fluid.Exactly(70), fluid.Exactly(20))
	if err != nil || cold.Hi >= 0 {
		t.Errorf("oil that cools: %v, %v", cold, err)
	}
}

func TestExpansionRange(t *testing.T) {
	one := fluid.Exactly
	calls := map[string]func() error{
		"hot":           func() error { _, err := fluid.VolumeCorrection(0.0007, 151); return err },
		"cold":          func() error { _, err := fluid.VolumeCorrection(0.0007, -51); return err },
		"no number":     func() error { _, err := fluid.VolumeCorrection(0.0007, math.NaN()); return err },
		"no expansion":  func() error { _, err := fluid.VolumeCorrection(0, 40); return err },
		"gas":           func() error { _, err := fluid.VolumeCorrection(0.0034, 40); return err },
		"negative":      func() error { _, err := fluid.Volume(-1, 870, 15, 40); return err },
		"endless":       func() error { _, err := fluid.Volume(math.MaxFloat64, 870, 15, 40); return err },
		"light":         func() error { _, err := fluid.Volume(1, 700, 15, 40); return err },
		"volume hot":    func() error { _, err := fluid.Volume(1, 870, 15, 400); return err },
		"growth hot":    func() error { _, err := fluid.Growth(one(0.0007), one(400), one(15)); return err },
		"growth turned": func() error { _, err := fluid.Growth(one(0.0007), fluid.Interval{Lo: 30, Hi: 20}, one(40)); return err },
		"growth none":   func() error { _, err := fluid.Growth(fluid.None, one(20), one(40)); return err },
	}
	for name, call := range calls {
		if err := call(); !errors.Is(err, fluid.ErrRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func BenchmarkGrowth(b *testing.B) {
	for b.Loop() {
		if _, err := fluid.Growth(fluid.LubricantAlpha15(), fluid.Exactly(20), fluid.Exactly(70)); err != nil {
			b.Fatal(err)
		}
	}
}
