package reference

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

func TestCopperResistanceFactor(t *testing.T) {
	for _, c := range []struct {
		r1, from, to float64
		printed      string
	}{
		{0.1, 20, 50, "0.11179"}, // cable page, worked example
		// Copper wire, table of multiplying factors from 25 °C.
		{1, 25, 40, "1.058"},
		{1, 25, 50, "1.096"},
		{1, 25, 75, "1.193"},
		{1, 25, 100, "1.289"},
		{1, 25, 125, "1.385"},
		{1, 25, 150, "1.482"},
		{1, 25, 200, "1.674"},
	} {
		got := c.r1 * CopperResistanceFactor(c.from, c.to)
		_, decimals, _ := strings.Cut(c.printed, ".")
		if s := strconv.FormatFloat(got, 'f', len(decimals), 64); s != c.printed {
			t.Errorf("%v Ω from %v to %v °C: got %s, want %s", c.r1, c.from, c.to, s, c.printed)
		}
	}
	// Electromagnet-coil page, worked example: 2 Ω at 20 °C is 2.3144 Ω at 60 °C
	// by the coefficient 0.00393, 2.3143 by 234.5: the last digit shows the form.
	if s := strconv.FormatFloat(2*(1+CopperAlpha20*(60-20)), 'f', 4, 64); s != "2.3144" {
		t.Errorf("by the coefficient: %s", s)
	}
	if s := strconv.FormatFloat(2*CopperResistanceFactor(20, 60), 'f', 4, 64); s != "2.3143" {
		t.Errorf("by 234.5: %s", s)
	}
	// A counter-example: a question-and-answer page makes 108 Ω at 22 °C into
	// 134.73 Ω at 80 °C with the coefficient of 0 °C. It must not come out.
	if got := 108 * CopperResistanceFactor(22, 80); math.Abs(got-132.42) > 0.005 {
		t.Errorf("108 Ω at 22 °C: got %.3f Ω at 80 °C, want 132.42", got)
	}
	// IEC 60028: about +28 % at 90 °C.
	if got := CopperResistanceFactor(20, 90); math.Abs(got-1.28) > 0.006 {
		t.Errorf("20 to 90 °C: %v", got)
	}
	// Both ways round give one, and the two forms agree to a part in ten thousand.
	for _, to := range []float64{-40, 0, 20, 90, 200} {
		f := CopperResistanceFactor(20, to)
		if back := f * CopperResistanceFactor(to, 20); math.Abs(back-1) > 1e-12 {
			t.Errorf("20 to %v °C and back: %v", to, back)
		}
		if lin := 1 + CopperAlpha20*(to-20); math.Abs(f/lin-1) > 2e-4 {
			t.Errorf("20 to %v °C: %v by 234.5, %v by the coefficient", to, f, lin)
		}
	}
	for _, c := range [][2]float64{{-234.5, 20}, {20, -234.5}, {-300, -300}, {math.NaN(), 20}, {20, math.NaN()}} {
		if got := CopperResistanceFactor(c[0], c[1]); !math.IsNaN(got) {
			t.Errorf("%v to %v °C: %v", c[0], c[1], got)
		}
	}
	if math.Abs(CopperResistivity20-0.017241) > 5e-7 { // IEC 60028: 0.017241 Ω·mm²/m
		t.Errorf("resistivity %v", CopperResistivity20)
	}
	for _, c := range ElectricalConstants() {
		if c.Item == "" || c.Value == "" || c.Source.IsZero() {
			t.Errorf("%+v", c)
		}
	}
}

func BenchmarkCopperResistanceFactor(b *testing.B) {
	for b.Loop() {
		CopperResistanceFactor(20, 90)
	}
}
