package convert

import (
	"math/big"
	"testing"
)

// The worked cases of rounding: NIST SP 811 B.3 and B.7.2, NIST LC 1137, and
// what US Army technical manuals print.
func TestTo(t *testing.T) {
	for _, tt := range []struct {
		d      Dimension
		from   string
		to     string
		limits bool
		want   string
		digits int
		lo, hi string // exact
		source string
	}{
		{Length, "36 ft", "m", false, "11.0 m", 3, "10.9728", "10.9728", "case 1: NIST SP 811 B.7.2"},
		{Length, "36 in", "cm", false, "91 cm", 2, "91.44", "91.44", "case 2: NIST LC 1137"},
		{Length, "40.1 in", "cm", false, "101.9 cm", 4, "101.854", "101.854", "case 3: NIST LC 1137"},
		{Pressure, "11.8 atm", "MPa", false, "1.20 MPa", 3, "1.195635", "1.195635", "case 4: NIST SP 811 B.3"},
		{Torque, "85 lbf·ft", "N·m", false, "115 N·m", 3, "115.244525608169034", "115.244525608169034", "case 10"},
		{Torque, "30 lbf·ft", "N·m", false, "41 N·m", 2, "40.674538449942012", "40.674538449942012", "case 11"},
		{Torque, "100 lbf·ft", "N·m", false, "136 N·m", 3, "135.58179483314004", "135.58179483314004", "case 12"},
		{Torque, "300 lbf·ft", "N·m", false, "407 N·m", 3, "406.74538449942012", "406.74538449942012", "case 15"},
		{Torque, "420 lbf·ft", "N·m", false, "569 N·m", 3, "569.443538299188168", "569.443538299188168", "case 16"},
		{Torque, "80 lbf·ft", "N·m", false, "108 N·m", 3, "108.465435866512032", "108.465435866512032", "case 17"},
		{Torque, "21 lbf·ft", "N·m", false, "28 N·m", 2, "28.4721769149594084", "28.4721769149594084", "case 17"},
		{Length, "max 0.008 in", "mm", false, "max 0.20 mm", 2, "0.2032", "0.2032", "case 18"},
		{Length, "max 0.008 in", "mm", true, "max 0.20 mm", 2, "0.2032", "0.2032", "case 18"},
		{Length, "max 0.015 in", "mm", true, "max 0.38 mm", 2, "0.381", "0.381", "case 18"},
		{Length, "3.325 in", "mm", false, "84.46 mm", 4, "84.455", "84.455", "case 19: tie to even"},
		{Length, "min 3.325 in", "mm", true, "min 84.46 mm", 4, "84.455", "84.455", "case 19: inwards too"},
		{Length, "0.35 mm", "in", false, "0.0138 in", 3, "0.013779527559055118110…", "0.013779527559055118110…", "case 20"},
		{Length, "0.55 mm", "in", false, "0.0217 in", 3, "0.021653543307086614173…", "0.021653543307086614173…", "case 20"},
		{Length, "0.0015 in", "mm", false, "0.038 mm", 2, "0.0381", "0.0381", "case 21"},
		{Length, "0.0035 in", "mm", false, "0.089 mm", 2, "0.0889", "0.0889", "case 21"},
		{Torque, "43 N·m", "kgf·m", false, "4.4 kgf·m", 2, "4.3847797158050914431…", "4.3847797158050914431…", "case 22"},
		{Torque, "8 to 10 N·m", "lbf·in", false, "71 to 89 lbf·in", 2, "70.805966330617474932…", "88.507457913271843665…", "case 23"},
		{Torque, "8 to 10 N·m", "lbf·in", true, "71 to 88 lbf·in", 2, "70.805966330617474932…", "88.507457913271843665…", "case 23: inwards"},
		{Length, "max 0.0035 in", "mm", true, "max 0.088 mm", 2, "0.0889", "0.0889", "case 24"},
		{Pressure, "19 psi", "kPa", false, "131 kPa", 3, "131.00038857019886540…", "", "where B.7.2 and the first-digit rule part"},

		{Torque, "10 to 8 N·m", "lbf·in", true, "88 to 71 lbf·in", 2, "", "", "printed falling"},
		{Torque, "9 ±1 N·m", "lbf·in", false, "80 ±9 lbf·in", 2, "70.805966330617474932…", "88.507457913271843665…", "computed"},
		{Torque, "9 ±1 N·m", "lbf·in", true, "80 +8/-9 lbf·in", 2, "", "", "80 - 9 = 71, 80 + 8 = 88 lie within"},
		{Torque, "9 +1/-0 N·m", "lbf·in", false, "80 +9/-0 lbf·in", 2, "", "", "computed"},
		{Torque, "9 N·m ±10 %", "lbf·in", false, "80 lbf·in ±10 %", 2, "71.691040909750193369…", "87.622383334139125229…", "computed"},
		{Length, "10 ±0.02 mm", "in", false, "0.3937 ±0.0008 in", 4, "", "", "a deviation keeps a digit"},
		{Length, "±0.1 mm", "in", false, "±0.004 in", 1, "-0.0039370078740157480315…", "0.0039370078740157480315…", "computed"},
		{Length, "±0.1 mm", "in", true, "±0.003 in", 1, "", "", "inwards"},
		{Ratio, "±10 %", "%", false, "±10 %", 2, "-10", "10", "nothing to do"},
		{Temperature, "180 °F", "°C", false, "82 °C", 2, "82.222222222222222222…", "", "decimals kept"},
		{Temperature, "-40 °F", "°C", false, "-40 °C", 2, "-40", "-40", "the one point"},
		{Temperature, "20 °C", "°F", false, "68 °F", 2, "68", "68", "NIST SP 811 B.8: 1.8 t + 32"},
		{Temperature, "20 °C", "K", false, "293 K", 3, "293.15", "293.15", "NIST SP 811 B.8"},
		{Temperature, "80 ±5 °C", "°F", false, "176 ±9 °F", 3, "167", "185", "a deviation has no zero point"},
		{Temperature, "20 1/2 °C", "°F", false, "68.9 °F", 3, "68.9", "68.9", "a half degree is a decimal"},
		{TemperatureDifference, "3 °C", "°F", false, "5 °F", 1, "5.4", "5.4", "D0056"},
		{Angle, "90°", "turn", false, "0.250 turn", 3, "0.25", "0.25", "definition; 90 has a rounding error of 0.56 %"},
		{Angle, "1/4 turn", "°", false, "90°", 2, "90", "90", "definition"},
		{Angle, "90°", "rad", false, "1.57 rad", 3, "1.5707963267948966192…", "", "π/2"},
		{Angle, "1 rad", "°", false, "60°", 1, "57.295779513082320877…", "", "180/π"},
		{ThreadPitch, "20 TPI", "mm", false, "1.27 mm", 3, "1.27", "1.27", "25.4/20"},
		{ThreadPitch, "max 20 TPI", "mm", false, "min 1.27 mm", 3, "1.27", "1.27", "more threads, less pitch"},
		{ThreadPitch, "1.5 to 2 mm", "TPI", false, "17 to 13 TPI", 2, "12.7", "16.933333333333333333…", "25.4 over the pitch"},
		{Volume, "4 1/2 US qt", "L", false, "4.3 L", 2, "4.258588257", "4.258588257", "half a quart in nine"},
		{Torque, "0 to 100 lbf·ft", "N·m", false, "0 to 136 N·m", 3, "0", "135.58179483314004", "C0576"},
		{Torque, "0 lbf·ft", "N·m", false, "0 N·m", 0, "0", "0", "zero"},
		{Torque, "6.0 N·m", "N·m", false, "6.0 N·m", 2, "6", "6", "the same unit"},
		{Torque, "0.000001 N·m", "dyn·cm", false, "10 dyn·cm", 1, "10", "10", "one digit, as 1"},
		{Length, "1/2 in", "mm", false, "13 mm", 2, "12.7", "12.7", "a fraction is known to a tenth"},
		{Length, "3/8 in", "mm", false, "9.5 mm", 2, "9.525", "9.525", "a fraction is known to a tenth"},
	} {
		q := must(t, tt.from, tt.d)
		u, ok := unitIn(tt.to, tt.d)
		if !ok {
			t.Fatalf("no unit %s", tt.to)
		}
		c, err := q.To(u, tt.limits)
		if err != nil {
			t.Errorf("%s to %s: %v", tt.from, tt.to, err)
			continue
		}
		if got := c.Quantity.String(); got != tt.want || c.Digits != tt.digits {
			t.Errorf("%s to %s (limits %v) = %q with %d digits, want %q with %d (%s)", tt.from, tt.to, tt.limits, got, c.Digits, tt.want, tt.digits, tt.source)
		}
		if tt.lo != "" && c.ExactLo != tt.lo && c.ExactLo[:min(len(c.ExactLo), len(tt.lo))] != tt.lo || tt.hi != "" && c.ExactHi != tt.hi {
			t.Errorf("%s to %s: exactly %s to %s, want %s to %s", tt.from, tt.to, c.ExactLo, c.ExactHi, tt.lo, tt.hi)
		}
	}
}

func TestToSaysWhenZerosAreOpen(t *testing.T) {
	nm, _ := UnitBySymbol("N·m")
	for text, want := range map[string]bool{"300 lbf·ft": true, "85 lbf·ft": false, "30.0 lbf·ft": false, "85 to 90 lbf·ft": true, "8 ±10 lbf·ft": false} {
		c, err := must(t, text, Torque).To(nm, false)
		if err != nil || c.OpenZeros != want {
			t.Errorf("%s: open zeros %v, %v; want %v", text, c.OpenZeros, err, want)
		}
	}
}

func TestToRefuses(t *testing.T) {
	litre, _ := UnitBySymbol("L")
	dyn, _ := UnitBySymbol("dyn·cm")
	mm, _ := unitIn("mm", ThreadPitch)
	for _, tt := range []struct {
		q    Quantity
		to   Unit
		want string
	}{
		{must(t, "6 N·m", Torque), litre, "6 N·m is a torque and does not convert to L, a volume"},
		{must(t, "1234567890123456 kN·m", Torque), dyn, "1234567890123456 kN·m has too many digits in dyn·cm"},
		{must(t, "0 TPI", ThreadPitch), mm, "0 TPI has too many digits in mm"},
		{must(t, "0.12", Number), litre, "0.12 is a number without unit and does not convert to L, a volume"},
	} {
		if _, err := tt.q.To(tt.to, false); err == nil || err.Error() != tt.want {
			t.Errorf("%s to %s: %v, want %s", tt.q, tt.to, err, tt.want)
		}
	}
}

// Rounding alone: ties, steps and directions.
func TestRound(t *testing.T) {
	for _, tt := range []struct {
		value  string
		exp    int32
		how    rounding
		want   string
		source string
	}{
		{"1.655000", -2, even, "1.66", "case 6: CSA B125.1 Annex A.2"},
		{"1.625000", -2, even, "1.62", "case 6: CSA B125.1 Annex A.2"},
		{"123.55", -1, even, "123.6", "case 7"},
		{"12.545001", -2, even, "12.55", "case 8: IS 2 rule II"},
		{"0.3552", -2, even, "0.36", "case 9: IS 2"},
		{"2.651", -1, even, "2.7", "case 9: IS 2"},
		{"15.205", -1, even, "15.2", "case 9: IS 2"},
		{"5.6492", 0, even, "6", "case 14: nearest"},
		{"6.7791", 0, even, "7", "case 14: nearest"},
		{"5.6492", 0, up, "6", "case 14: inwards"},
		{"6.7791", 0, down, "6", "case 14: inwards"},
		{"12.254", -1, even, "12.3", "case 25: one step only"},
		{"-2.5", 0, even, "-2", "tie to even below zero"},
		{"-2.1", 0, down, "-3", "towards -∞"},
		{"-2.9", 0, up, "-2", "towards +∞"},
		{"1234", 2, even, "1200", "hundreds"},
	} {
		r, _ := new(big.Rat).SetString(tt.value)
		d, ok := decimalOf(roundRat(r, tt.exp, tt.how), tt.exp)
		if !ok || d.String() != tt.want {
			t.Errorf("%s to 10^%d: %s, want %s (%s)", tt.value, tt.exp, d, tt.want, tt.source)
		}
	}
	// Case 5: the factor built from rounded factors, NIST SP 811 B.3.
	lb, ft := big.NewRat(4535924, 10000000), big.NewRat(3048, 10000)
	if got := roundRat(new(big.Rat).Mul(lb, ft), -7, even).Int64(); got != 1382550-4 && got != 1382550-1 && got != 1382550 {
		t.Errorf("0.453 592 4 × 0.3048 to seven decimals is %d", got)
	}
}

func TestFromFloat(t *testing.T) {
	for _, tt := range []struct {
		si     float64
		unit   string
		digits int
		want   string
	}{
		{8.02192, "lbf·in", 3, "71.0 lbf·in"},
		{8.02192, "N·m", 1, "8 N·m"},
		{0.1, "%", 2, "10 %"},
		{373.15, "°C", 3, "100 °C"},
		{0, "N·m", 3, "0 N·m"},
		{-1.5, "N·m", 2, "-1.5 N·m"},
		{1234.5, "N·m", 2, "1200 N·m"},
		{0.00012345, "m", 3, "0.000123 m"},
		{1e-40, "m", 1, "0.0000000000000000000000000000000000000001 m"},
		{3.2e22, "m", 2, "32e21 m"},
	} {
		u, _ := UnitBySymbol(tt.unit)
		if got := FromFloat(tt.si, u, tt.digits).String(); got != tt.want {
			t.Errorf("FromFloat(%v, %s, %d) = %q, want %q", tt.si, tt.unit, tt.digits, got, tt.want)
		}
	}
}
