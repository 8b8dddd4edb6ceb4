package convert

import (
	"math"
	"testing"
)

func TestDecimal(t *testing.T) {
	for _, tt := range []struct {
		d      Decimal
		text   string
		float  float64
		digits int
		step   string
	}{
		{Decimal{}, "0", 0, 1, "1"},
		{Decimal{6, 0, 0}, "6", 6, 1, "1"},
		{Decimal{60, -1, 0}, "6.0", 6, 2, "1/10"},
		{Decimal{50, -2, 0}, "0.50", 0.5, 2, "1/100"},
		{Decimal{50, -3, 0}, "0.050", 0.05, 2, "1/1000"},
		{Decimal{0, -2, 0}, "0.00", 0, 1, "1/100"},
		{Decimal{-15, -1, 0}, "-1.5", -1.5, 2, "1/10"},
		{Decimal{12, 3, 0}, "12e3", 12000, 2, "1000"},
		{Decimal{9, 0, 2}, "4 1/2", 4.5, 1, "1/2"},
		{Decimal{-9, 0, 2}, "-4 1/2", -4.5, 1, "1/2"},
		{Decimal{1, 0, 4}, "1/4", 0.25, 1, "1/4"},
		{Decimal{4, 0, 2}, "4/2", 2, 1, "1/2"},
		{Decimal{9, 0, 1}, "9", 9, 1, "1"},
		{Decimal{1, 1, 4}, "1/4", 2.5, 1, "1/4"},
		{Decimal{123456789012345678, -17, 0}, "1.23456789012345678", 1.23456789012345678, 18, "1/100000000000000000"},
		{Decimal{1, 30, 0}, "1e30", 1e30, 1, "1000000000000000000000000000000"},
		{Decimal{1, -30, 0}, "0.000000000000000000000000000001", 1e-30, 1, "1/1000000000000000000000000000000"},
	} {
		if got := tt.d.String(); got != tt.text {
			t.Errorf("%+v: %q, want %q", tt.d, got, tt.text)
		}
		if got := tt.d.Float(); got != tt.float {
			t.Errorf("%+v: float %v, want %v", tt.d, got, tt.float)
		}
		if got, _ := tt.d.Rat().Float64(); got != tt.float {
			t.Errorf("%+v: rat %v, want %v", tt.d, got, tt.float)
		}
		if got := tt.d.Digits(); got != tt.digits {
			t.Errorf("%+v: %d digits, want %d", tt.d, got, tt.digits)
		}
		if got := tt.d.Step().RatString(); got != tt.step {
			t.Errorf("%+v: step %s, want %s", tt.d, got, tt.step)
		}
	}
}

func TestDecimalCmp(t *testing.T) {
	for _, tt := range []struct {
		a, b Decimal
		want int
	}{
		{Decimal{6, 0, 0}, Decimal{60, -1, 0}, 0},
		{Decimal{6, 0, 0}, Decimal{7, 0, 0}, -1},
		{Decimal{1, 0, 2}, Decimal{5, -1, 0}, 0},
		{Decimal{1, 0, 3}, Decimal{333333333333333333, -18, 0}, 1},
		{Decimal{-1, 0, 0}, Decimal{1, -9, 0}, -1},
		{Decimal{123456789012345678, -17, 0}, Decimal{123456789012345679, -17, 0}, -1},
		{Decimal{1, 30, 0}, Decimal{1, 29, 0}, 1},
	} {
		if got := tt.a.Cmp(tt.b); got != tt.want {
			t.Errorf("%s against %s: %d, want %d", tt.a, tt.b, got, tt.want)
		}
		if got := tt.b.Cmp(tt.a); got != -tt.want {
			t.Errorf("%s against %s: %d, want %d", tt.b, tt.a, got, -tt.want)
		}
	}
}

func TestBounds(t *testing.T) {
	inf := math.Inf(1)
	const lbfin = 0.1129848290276167
	for _, tt := range []struct {
		d        Dimension
		text     string
		lo, hi   float64
		wlo, whi float64
		nominal  float64
		ordered  bool
	}{
		{Torque, "9 N·m", 9, 9, 8.5, 9.5, 9, true},
		{Torque, "9.0 N·m", 9, 9, 8.95, 9.05, 9, true},
		{Torque, "8 to 10 N·m", 8, 10, 7.5, 10.5, 9, true},
		{Torque, "10.0 to 8 N·m", 8, 10, 7.5, 10.05, 9, false},
		{Torque, "8 to 8 N·m", 8, 8, 7.5, 8.5, 8, true},
		{Torque, "80 lbf·in", 80 * lbfin, 80 * lbfin, 79.5 * lbfin, 80.5 * lbfin, 80 * lbfin, true},
		{Torque, "9 +1/-0 N·m", 9, 10, 8, 11, 9, true},
		{Torque, "9.0 ±1.0 N·m", 8, 10, 7.9, 10.1, 9, true},
		{Torque, "20 N·m ±10 %", 18, 22, 17.4, 22.6, 20, true},
		{Length, "max 2.4 mm", -inf, 0.0024, -inf, 0.00245, 0.0024, true},
		{Length, "min 0.2 mm", 0.0002, inf, 0.00015, inf, 0.0002, true},
		{Length, "25 -0.02/-0.04 mm", 0.02496, 0.02498, 0.024455, 0.025485, 0.025, true},
		{Length, "1/2 in", 0.0127, 0.0127, 0.00635, 0.01905, 0.0127, true},
		{Length, "+0.5/-0.2 mm", -0.0002, 0.0005, -0.00025, 0.00055, 0, true},
		{Ratio, "±10 %", -0.1, 0.1, -0.105, 0.105, 0, true},
		{Temperature, "20 °C", 293.15, 293.15, 292.65, 293.65, 293.15, true},
		{Temperature, "±5 °F", -25.0 / 9, 25.0 / 9, -27.5 / 9, 27.5 / 9, 0, true},
		{Temperature, "-10 to 5 °C", 263.15, 278.15, 262.65, 278.65, 270.65, true},
		{Angle, "90°", math.Pi / 2, math.Pi / 2, 89.5 * math.Pi / 180, 90.5 * math.Pi / 180, math.Pi / 2, true},
		{ThreadPitch, "16 to 20 TPI", 0.00127, 0.0015875, 0.0254 / 20.5, 0.0254 / 15.5, 0.00142875, true},
		{Number, "0.12", 0.12, 0.12, 0.115, 0.125, 0.12, true},
	} {
		q := must(t, tt.text, tt.d)
		near := func(name string, got, want float64) {
			t.Helper()
			if got != want && abs(got-want) > 1e-12*max(1, abs(want)) {
				t.Errorf("%s: %s %v, want %v", tt.text, name, got, want)
			}
		}
		lo, hi := q.Bounds()
		near("lower bound", lo, tt.lo)
		near("upper bound", hi, tt.hi)
		lo, hi = q.Widened()
		near("lower widened bound", lo, tt.wlo)
		near("upper widened bound", hi, tt.whi)
		near("nominal", q.Nominal(), tt.nominal)
		if q.Ordered() != tt.ordered {
			t.Errorf("%s: ordered %v", tt.text, q.Ordered())
		}
	}
}
