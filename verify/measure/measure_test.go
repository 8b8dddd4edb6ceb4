package measure_test

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"snapgauge/reference"
	"snapgauge/verify/measure"
)

// TestCoilResistance: check values as published, to half a unit of the last
// printed digit.
func TestCoilResistance(t *testing.T) {
	tests := []struct {
		r, from, to float64
		want, half  float64
	}{
		{0.1, 20, 50, 0.11179, 0.000005}, // a cable page's worked example
		{1, 25, 40, 1.058, 0.0005},       // copper wire multiplying factor table
		{1, 25, 50, 1.096, 0.0005},
		{1, 25, 75, 1.193, 0.0005},
		{1, 25, 100, 1.289, 0.0005},
		{1, 25, 125, 1.385, 0.0005},
		{1, 25, 150, 1.482, 0.0005},
		{1, 25, 200, 1.674, 0.0005},
		// An electromagnet coil page prints 2.3144 by alpha = 0.00393; by 234.5 it is
		// 2.31434, off by 0.6 in the last digit.
		{2, 20, 60, 2.3144, 0.0001},
	}
	for _, tt := range tests {
		got, err := measure.CoilResistance(tt.r, tt.from, tt.to)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got-tt.want) > tt.half {
			t.Errorf("%g Ω from %g to %g °C: got %g, want %g", tt.r, tt.from, tt.to, got, tt.want)
		}
		back, err := measure.CoilTemperatureC(tt.r, tt.from, got)
		if err != nil || math.Abs(back-tt.to) > 1e-9 {
			t.Errorf("temperature of %g Ω: got %g, %v, want %g", got, back, err, tt.to)
		}
	}
	// A known trap: a question-answer page prints 134.73 Ω for 108 Ω from 22 to
	// 80 °C, with the coefficient of 0 °C used at 22 °C.
	if got, _ := measure.CoilResistance(108, 22, 80); math.Abs(got-134.73) < 2 || math.Abs(got-132.421) > 0.0005 {
		t.Errorf("108 Ω at 80 °C: got %g, want 132.421 and not 134.73", got)
	}
}

// TestForce: US Army TM 9-254 page 4-2: 60 lb-in are 6 lb at 10 in, 5 lb at
// 12 in and 10 lb at 6 in.
func TestForce(t *testing.T) {
	const lbf, inch = 4.4482216152605, 25.4 // NIST SP 811
	for _, pair := range [][2]float64{{10, 6}, {12, 5}, {6, 10}} {
		got, err := measure.TorqueNm(pair[1]*lbf, pair[0]*inch)
		if err != nil || math.Abs(got-60*lbf*inch/1000) > 1e-12 {
			t.Errorf("%g lb at %g in: got %g N·m, %v", pair[1], pair[0], got, err)
		}
		force, err := measure.ForceN(got, pair[0]*inch)
		if err != nil || math.Abs(force-pair[1]*lbf) > 1e-9 {
			t.Errorf("force at %g in: got %g N, %v", pair[0], force, err)
		}
	}
}

// TestSpring: US Army TM 9-2815-237-34 table 2-2 prints a valve spring of 356 N
// at 46.0 mm and 1023 N at 35.3 mm: 667 N over 10.7 mm, 62.3 N/mm.
func TestSpring(t *testing.T) {
	rate, err := measure.SpringRateNPerMM(356, 46.0, 1023, 35.3)
	if err != nil || math.Abs(rate-62.3) > 0.05 {
		t.Errorf("rate: got %g, %v", rate, err)
	}
	free := 46.0 + 356/rate
	for _, at := range [][2]float64{{46.0, 356}, {35.3, 1023}, {free, 0}} {
		load, err := measure.SpringLoadN(rate, free, at[0])
		if err != nil || math.Abs(load-at[1]) > 1e-9 {
			t.Errorf("load at %g mm: got %g, %v, want %g", at[0], load, err, at[1])
		}
	}
}

func TestRange(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	calls := map[string]func() (float64, error){
		"coil cold":         func() (float64, error) { return measure.CoilFactor(-234.5, 20) },
		"coil hot":          func() (float64, error) { return measure.CoilFactor(20, 301) },
		"coil NaN":          func() (float64, error) { return measure.CoilFactor(nan, 20) },
		"no resistance":     func() (float64, error) { return measure.CoilResistance(0, 20, 80) },
		"endless":           func() (float64, error) { return measure.CoilResistance(math.MaxFloat64, 20, 80) },
		"resistance hot":    func() (float64, error) { return measure.CoilResistance(1, 20, 800) },
		"temperature of 0":  func() (float64, error) { return measure.CoilTemperatureC(1, 20, 0) },
		"temperature hot":   func() (float64, error) { return measure.CoilTemperatureC(1, 20, 100) },
		"temperature from":  func() (float64, error) { return measure.CoilTemperatureC(1, 2000, 1) },
		"no radius":         func() (float64, error) { return measure.TorqueNm(10, 0) },
		"torque NaN":        func() (float64, error) { return measure.TorqueNm(nan, 10) },
		"torque endless":    func() (float64, error) { return measure.TorqueNm(math.MaxFloat64, 1e5) },
		"force no radius":   func() (float64, error) { return measure.ForceN(10, -1) },
		"force endless":     func() (float64, error) { return measure.ForceN(math.MaxFloat64, 1e-5) },
		"spring longer":     func() (float64, error) { return measure.SpringLoadN(10, 40, 41) },
		"spring endless":    func() (float64, error) { return measure.SpringLoadN(math.MaxFloat64, 40, 10) },
		"rate falls":        func() (float64, error) { return measure.SpringRateNPerMM(300, 40, 200, 30) },
		"rate of one point": func() (float64, error) { return measure.SpringRateNPerMM(300, 40, 300, 40) },
		"rate open":         func() (float64, error) { return measure.SpringRateNPerMM(inf, 40, 300, 30) },
	}
	for name, call := range calls {
		if got, err := call(); !errors.Is(err, measure.ErrRange) || got != 0 {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
}

// TestFitLimits: limit deviations as published: JIS B 0401 hole and shaft tables
// for H7 and g6 at 25 mm and for h9 at 70 mm. Between them lie 7 µm and
// 21 + 20 = 41 µm.
func TestFitLimits(t *testing.T) {
	got, err := measure.FitLimits(25, "H7/g6")
	if err != nil {
		t.Fatal(err)
	}
	want := []measure.Limits{
		{Of: "clearance of H7/g6", Kind: measure.OfClearance, Lo: 0.007, Hi: 0.041},
		{Of: "deviations of H7", Kind: measure.OfDeviation, Lo: 0, Hi: 0.021},
		{Of: "limits of H7", Kind: measure.OfSize, Lo: 25.000, Hi: 25.021},
		{Of: "deviations of g6", Kind: measure.OfDeviation, Lo: -0.020, Hi: -0.007},
		{Of: "limits of g6", Kind: measure.OfSize, Lo: 24.980, Hi: 24.993},
	}
	rounded := cmp.Options{cmpopts.EquateApprox(0, 1e-9), cmpopts.IgnoreFields(measure.Limits{}, "Source")}
	if diff := cmp.Diff(want, got, rounded); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for _, l := range got {
		if l.Source.IsZero() {
			t.Errorf("%s has no source", l.Of)
		}
	}
	got, err = measure.FitLimits(70, "h9")
	if err != nil {
		t.Fatal(err)
	}
	want = []measure.Limits{
		{Of: "deviations of h9", Kind: measure.OfDeviation, Lo: -0.074, Hi: 0},
		{Of: "limits of h9", Kind: measure.OfSize, Lo: 69.926, Hi: 70},
	}
	if diff := cmp.Diff(want, got, rounded); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for _, fit := range []string{"light push fit", "ZC8", "ZC8/h7", "H7/zc8"} {
		var e *reference.FitError
		if _, err := measure.FitLimits(25, fit); !errors.As(err, &e) {
			t.Errorf("%s: %v", fit, err)
		}
	}
}

// FuzzMeasure: every function gives a finite number or an error.
func FuzzMeasure(f *testing.F) {
	f.Add(12.0, 20.0, 80.0, 15.0)
	f.Add(math.MaxFloat64, 5e-324, -234.5, math.Inf(1))
	f.Fuzz(func(t *testing.T, a, b, c, d float64) {
		for name, call := range map[string]func() (float64, error){
			"CoilFactor":       func() (float64, error) { return measure.CoilFactor(a, b) },
			"CoilResistance":   func() (float64, error) { return measure.CoilResistance(a, b, c) },
			"CoilTemperatureC": func() (float64, error) { return measure.CoilTemperatureC(a, b, c) },
			"TorqueNm":         func() (float64, error) { return measure.TorqueNm(a, b) },
			"ForceN":           func() (float64, error) { return measure.ForceN(a, b) },
			"SpringLoadN":      func() (float64, error) { return measure.SpringLoadN(a, b, c) },
			"SpringRateNPerMM": func() (float64, error) { return measure.SpringRateNPerMM(a, b, c, d) },
		} {
			if got, err := call(); err == nil && (math.IsNaN(got) || math.IsInf(got, 0)) {
				t.Errorf("%s of %g, %g, %g, %g: %g", name, a, b, c, d, got)
			}
		}
	})
}
