package convert

import (
	"math"
	"testing"
)

// must reads a figure of a test.
func must(tb testing.TB, text string, d Dimension) Quantity {
	tb.Helper()
	q, p := Parse(text, Of(d), Point)
	if p != nil {
		tb.Fatalf("Parse(%q): %v", text, p)
	}
	return q
}

func TestAgree(t *testing.T) {
	for _, tt := range []struct {
		d             Dimension
		first, second string
		outcome       Outcome
		end           End
		want          string // second recomputed
		source        string
	}{
		{Length, "1 in", "25.4 mm", Exact, Whole, "25.4 mm", "NIST SP 811 B.8"},
		{Temperature, "-40 °F", "-40 °C", Exact, Whole, "-40 °C", "D0355"},
		{Angle, "90°", "1/4 turn", Exact, Whole, "1/4 turn", "definition"},
		{Torque, "9 N·m", "9.0 N·m", Exact, Whole, "9.0 N·m", "same value"},
		{ThreadPitch, "20 TPI", "1.27 mm", Exact, Whole, "1.27 mm", "25.4/20"},
		{ThreadPitch, "1.5 mm", "17 TPI", Rounded, Whole, "17 TPI", "25.4/1.5 = 16.93"},

		// Worked cases of rounding: seen in US Army technical manuals.
		{Torque, "85 lbf·ft", "115 N·m", Rounded, Whole, "115 N·m", "case 10, C0003"},
		{Torque, "30 lbf·ft", "41 N·m", Rounded, Whole, "41 N·m", "case 11"},
		{Torque, "100 lbf·ft", "136 N·m", Rounded, Whole, "136 N·m", "case 12"},
		{Torque, "200 lbf·in", "23 N·m", Rounded, Whole, "23 N·m", "case 13"},
		{Torque, "50 to 60 lbf·in", "6 to 7 N·m", Rounded, Lower, "6 to 7 N·m", "case 14"},
		{Torque, "300 lbf·ft", "408 N·m", RoundedFromSecond, Whole, "407 N·m", "case 15, C0064"},
		{Torque, "420 lbf·ft", "570 N·m", Rounded, Whole, "569 N·m", "case 16: a multiple of 5"},
		{Torque, "80 lbf·ft", "109 N·m", RoundedFromSecond, Whole, "108 N·m", "case 17"},
		{Torque, "21 lbf·ft", "29 N·m", RoundedFromSecond, Whole, "28 N·m", "case 17, C0016"},
		{Length, "max 0.008 in", "max 0.20 mm", Rounded, Upper, "max 0.20 mm", "case 18"},
		{Length, "3.325 in", "84.45 mm", Rounded, Whole, "84.46 mm", "case 19: a tie counts for both sides"},
		{Length, "1 in", "13 mm", Disagree, Whole, "25 mm", "half an inch"},
		{Length, "12.7 mm", "1 in", Disagree, Whole, "0 in", "half an inch"},
		{Length, "1 in", "30 mm", RoundedFromSecond, Whole, "25 mm", "30 mm is 1.18 in"},
		{Length, "0.35 mm", "0.0137 in", RoundedFromSecond, Whole, "0.0138 in", "case 20: 0.0137 in is 0.348 mm"},
		{Length, "0.550 mm", "0.0216 in", Truncated, Whole, "0.0217 in", "case 20, with one more digit"},
		{Length, "0.0015 in", "0.3810 mm", Disagree, Whole, "0.0381 mm", "case 21: decimal slip"},
		{Length, "0.0035 in", "0.8890 mm", Disagree, Whole, "0.0889 mm", "case 21: decimal slip"},
		{Torque, "43 N·m", "4.3 kgf·m", Truncated, Whole, "4.4 kgf·m", "case 22: N·m divided by ten"},
		{Torque, "8 to 10 N·m", "71 to 88 lbf·in", RoundedFromSecond, Upper, "71 to 89 lbf·in", "case 23: inwards"},
		{Torque, "8 to 10 N·m", "71 to 89 lbf·in", Rounded, Lower, "71 to 89 lbf·in", "case 23: nearest"},

		// Habits, one by one.
		{Torque, "80 ft-lb", "110 N·m", Rounded, Whole, "108 N·m", "C0150: steps of 5"},
		{Torque, "35 ft-lb", "45 N·m", Rounded, Whole, "47 N·m", "C0185: steps of 5"},
		{Length, "1.8 in", "46.0 mm", Rounded, Whole, "45.7 mm", "D0021: steps of 1"},
		{Torque, "40 N·m", "29.5 lb-ft", Rounded, Whole, "29.5 lbf·ft", "C0253"},
		{Length, "12 in", "300 mm", Rounded, Whole, "305 mm", "D0415: trailing zeros"},
		{Mass, "100 lb", "50 kg", Rounded, Whole, "45 kg", "both round"},
		{Torque, "113 N·m", "70 lbf·ft", Disagree, Whole, "83 lbf·ft", "trailing zeros are not free"},
		{Length, "1/8 in", "3 mm", Rounded, Whole, "3 mm", "D0060"},
		{Length, "10 mm", "3/8 in", Rounded, Whole, "3/8 in", "D0061, turned: 0.394 in"},
		{Length, "13 mm", "1/2 in", Rounded, Whole, "1/2 in", "a fraction is rounded within a twentieth"},
		{Length, "17 mm", "1/2 in", Disagree, Whole, "1/2 in", "not within its whole step"},
		{Torque, "8 N·m", "9 N·m", Disagree, Whole, "8 N·m", "one unit, two values"},
		{Torque, "84 to 108 lb-in.", "10 to 12 N·m", Inward, Lower, "9 to 12 N·m", "C0574"},
		{Length, "min 0.35 mm", "min 0.014 in", Rounded, Lower, "min 0.014 in", "case 20 as a limit"},
		{Length, "min 3.320 in", "min 84.4 mm", Inward, Lower, "min 84.3 mm", "84.328 up"},
		{Torque, "84 lb-in.", "10 N·m", Loose, Whole, "9 N·m", "9.49, no limit: nothing is inward"},
		{Torque, "15.3 to 18.7 N·m", "12 to 14 lb-ft", Inward, Lower, "11 to 14 lbf·ft", "C0527"},
		{Torque, "168-192 lb-in", "19-21 N·m", Truncated, Upper, "19 to 22 N·m", "C0516"},
		{Torque, "20 lb-in", "2.2 N·m", Truncated, Whole, "2.3 N·m", "C0479"},
		{Torque, "360 to 400 lb-ft", "484 to 540 N·m", RoundedFromSecond, Lower, "488 to 542 N·m", "C0422"},
		{Torque, "61.3 lbf·ft", "83.4 N·m", Loose, Whole, "83.1 N·m", "factor 1.36"},
		{Torque, "47.00 lbf·ft", "6.5001 kgf·m", Loose, Whole, "6.4980 kgf·m", "factor 0.1383"},
		{Pressure, "50-65 psi", "344.8-448.2 kPa", RoundedFromSecond, Lower, "344.7 to 448.2 kPa", "D0301"},
		{Torque, "430.0 N·m", "43.00 kgf·m", Loose, Whole, "43.85 kgf·m", "N·m divided by ten"},
		{Length, "1.3765 in", "34.965 mm", Truncated, Whole, "34.963 mm", "D0080: truncated from the second"},
		{Length, "4.103 in", "104.20 mm", Loose, Whole, "104.22 mm", "D0245, turned: 4.1024 in"},
		{Length, "104.20 mm", "4.130 in", Disagree, Whole, "4.102 in", "transposed digits: lengths are not loose by 1.5 %"},
		{Torque, "120 in-lb", "15 N·m", Coarse, Whole, "14 N·m", "C0404"},
		{Torque, "26 lbf·in", "5 N·m", Disagree, Whole, "3 N·m", "a multiple of 5, but far off"},
		{Temperature, "180 °F", "80 °C", Rounded, Whole, "82 °C", "D0308"},
		{Temperature, "100 °C", "213 °F", RoundedFromSecond, Whole, "212 °F", "213 °F is 100.6 °C"},
		{Temperature, "100.0 °C", "213 °F", Loose, Whole, "212 °F", "one degree"},
		{Temperature, "100.0 °C", "214 °F", Disagree, Whole, "212 °F", "two degrees"},
		{TemperatureDifference, "3 °C", "5 °F", Rounded, Whole, "5 °F", "D0056"},

		// Errors of print.
		{Torque, "135 inch-pounds", "1.52 kg-m", Disagree, Whole, "1.56 kgf·m", "C0347"},
		{Torque, "90 to 100 lb-ft", "125 to 150 N·m", Disagree, Upper, "122 to 136 N·m", "C0322"},
		{Torque, "30 to 30 lb-ft", "41 to 81 N·m", Disagree, Upper, "41 to 41 N·m", "C0586"},
		{Torque, "70 to 75 ft lb", "98 to 105 N·m", Disagree, Lower, "95 to 102 N·m", "factor 1.4 for 1.356"},
		{Torque, "150 lb-ft", "180 N·m", Disagree, Whole, "203 N·m", "wrong conversion"},
		{Length, "0.003 in", "0.76 mm", Disagree, Whole, "0.08 mm", "decimal slip"},

		// Form against form.
		{Torque, "36 ±2 lb-ft", "49 ±3 N·m", Rounded, NominalEnd, "49 ±3 N·m", "C0232"},
		{Torque, "32 ±5 lb-ft", "43 ±6 N·m", Loose, PlusEnd, "43 ±7 N·m", "C0517"},
		{Torque, "640 ±80 lb-ft", "875 ±100 N·m", Loose, NominalEnd, "868 ±108 N·m", "C0327"},
		{Torque, "75 ±25 lb-in", "8.50 ±2.83 N·m", RoundedFromSecond, NominalEnd, "8.47 ±2.82 N·m", "C0211"},
		{Torque, "9 +1/-0 N·m", "80 +9/-0 lbf·in", Rounded, NominalEnd, "80 +9/-0 lbf·in", "computed"},
		{Torque, "9 +1/-0 N·m", "80 +0/-9 lbf·in", Disagree, MinusEnd, "80 +9/-0 lbf·in", "deviations exchanged"},
		{Torque, "9 N·m ±10 %", "80 ±8 lbf·in", Rounded, NominalEnd, "80 lbf·in ±10 %", "computed"},
		{Torque, "9 N·m ±10 %", "80 lbf·in ±10 %", Rounded, NominalEnd, "80 lbf·in ±10 %", "computed"},
		{Torque, "9 N·m ±10 %", "80 lbf·in ±15 %", Disagree, PlusEnd, "80 lbf·in ±10 %", "two shares"},
		{Torque, "8 to 10 N·m", "80 ±9 lbf·in", Rounded, Lower, "71 to 89 lbf·in", "range against deviation"},
		{Torque, "80 ±9 lbf·in", "8 to 10 N·m", Rounded, Lower, "9 ±1 N·m", "and the other way"},
		{Torque, "9 N·m ±10 %", "72 to 88 lbf·in", Rounded, Lower, "80 lbf·in ±10 %", "8.1 to 9.9 N·m"},
		{Torque, "9 ±1 N·m", "80 lbf·in", Rounded, Whole, "80 ±9 lbf·in", "nominal against one number"},
		{Torque, "9 N·m", "71 to 89 lbf·in", Loose, Whole, "80 lbf·in", "a number within the range"},
		{Torque, "8 to 10 N·m", "80 lbf·in", Loose, Whole, "71 to 89 lbf·in", "a number within the range"},
		{Torque, "8 to 10 N·m", "50 lbf·in", Disagree, Lower, "71 to 89 lbf·in", "a number below the range"},
		{Torque, "8 to 10 N·m", "200 lbf·in", Disagree, Upper, "71 to 89 lbf·in", "a number above the range"},
		{Torque, "10 to 8 N·m", "71 to 89 lbf·in", Rounded, Lower, "89 to 71 lbf·in", "printed falling"},
		{Length, "max 2.4 mm", "0.094 in", Rounded, Whole, "max 0.094 in", "limit against number"},
		{Length, "1.2 to 2.4 mm", "max 0.094 in", Rounded, Upper, "0.047 to 0.094 in", "limit against range"},
		{Length, "min 1.2 mm", "0.047 to 0.094 in", Rounded, Lower, "min 0.047 in", "limit against range"},
		{Length, "max 2.4 mm", "min 0.094 in", Disagree, Whole, "max 0.094 in", "opposite limits"},
		{Length, "±0.1 mm", "±0.004 in", Rounded, PlusEnd, "±0.004 in", "tolerances"},
		{Length, "±0.1 mm", "0.004 in", Disagree, Whole, "±0.004 in", "tolerance against number"},
		{Temperature, "±5 °C", "±9 °F", Exact, PlusEnd, "±9 °F", "deviations of a temperature have no zero point"},
		{Temperature, "80 ±5 °C", "176 ±9 °F", Exact, NominalEnd, "176 ±9 °F", "nor beside a nominal value"},
		{Torque, "0 to 100 lb-ft", "0 to 136 N·m", Rounded, Upper, "0 to 136 N·m", "C0576"},
		{Torque, "0 N·m", "1 lbf·ft", Disagree, Whole, "0 lbf·ft", "nothing against something"},
	} {
		first, second := must(t, tt.first, tt.d), must(t, tt.second, tt.d)
		a := Agree(first, second)
		if a.Outcome != tt.outcome || a.End != tt.end {
			t.Errorf("Agree(%q, %q) = %v at the %v, want %v at the %v (%s)", tt.first, tt.second, a.Outcome, a.End, tt.outcome, tt.end, tt.source)
		}
		if got := a.Want.String(); got != tt.want {
			t.Errorf("Agree(%q, %q) wants %q, want %q (%s)", tt.first, tt.second, got, tt.want, tt.source)
		}
	}
}

func TestAgreeRatio(t *testing.T) {
	for _, tt := range []struct {
		first, second string
		ratio         float64
	}{
		{"71 lbf·in", "8 N·m", 8 / (71 * 0.1129848290276167)},
		{"71 lbf·ft", "8 N·m", 8 / (71 * 1.3558179483314004)},
		{"60 to 71 lbf·ft", "81 to 93 N·m", 93 / (71 * 1.3558179483314004)}, // the end that decides
		{"8 N·m", "8.0 N·m", 1},
	} {
		if got := Agree(must(t, tt.first, Torque), must(t, tt.second, Torque)).Ratio; math.Abs(got-tt.ratio) > 1e-12 {
			t.Errorf("Agree(%q, %q): ratio %v, want %v", tt.first, tt.second, got, tt.ratio)
		}
	}
}

// A reject needs certainty: a near miss is not certain, nor is one coarse digit.
func TestAgreeCertain(t *testing.T) {
	for _, tt := range []struct {
		d             Dimension
		first, second string
		certain       bool
	}{
		{Torque, "71 lbf·in", "8 N·m", false},
		{Torque, "71 lbf·ft", "8 N·m", true},  // factor 12
		{Torque, "17 lbf·in", "8 N·m", true},  // transposed
		{Torque, "71 lbf·in", "80 N·m", true}, // decimal slip
		{Torque, "71 lbf·in", "7 N·m", false}, // one printed unit
		{Torque, "71 lbf·in", "6 N·m", true},  // two, a quarter of the value
		{Torque, "135 inch-pounds", "1.52 kg-m", false},
		{Torque, "90 to 100 lb-ft", "125 to 150 N·m", false}, // C0322, a wrong conversion: round figures, off by about their tens
		{Torque, "70 to 75 ft lb", "98 to 105 N·m", false},   // 3 %
		{Length, "0.003 in", "0.76 mm", true},
		{Length, "1/2 in", "38 mm", true},
		{Length, "1/2 in", "15 mm", false},
		{Mass, "100 lb", "70 kg", true},
		{Mass, "100 lb", "60 kg", true},  // more than the tens of 60
		{Mass, "100 lb", "48 kg", false}, // 6 %, two units, and less than the ten of 100
		{Temperature, "-40 °F", "-.40 °C", true},
		{Temperature, "100 °C", "220 °F", false}, // 4 K
		{Temperature, "100 °C", "240 °F", true},
		{Torque, "8 N·m", "8 N·m", false},
		{Length, "max 2.4 mm", "min 0.94 in", false},
	} {
		a := Agree(must(t, tt.first, tt.d), must(t, tt.second, tt.d))
		if a.Certain() != tt.certain {
			t.Errorf("Agree(%q, %q) = %v, certain %v, want %v", tt.first, tt.second, a.Outcome, a.Certain(), tt.certain)
		}
	}
}

// What cannot be compared.
func TestAgreeAcrossDimensions(t *testing.T) {
	share, span := must(t, "±10 %", Ratio), must(t, "±1 N·m", Torque)
	if a := Agree(share, span); a.Outcome != Coarse || !math.IsNaN(a.Ratio) {
		t.Errorf("a share against a deviation: %v, %v", a.Outcome, a.Ratio)
	}
	if a := Agree(must(t, "6 L", Volume), must(t, "6 N·m", Torque)); a.Outcome != Disagree || a.Certain() {
		t.Errorf("litres against newton metres: %v, certain %v", a.Outcome, a.Certain())
	}
	// More digits than a float tells apart.
	a, b := must(t, "0.12345678901234567 m", Length), must(t, "0.12345678901234568 m", Length)
	if got := Agree(a, b).Outcome; got == Exact {
		t.Errorf("the seventeenth digit is not seen: %v", got)
	}
	huge := must(t, "1e30 m", Length)
	if got := Agree(huge, must(t, "1.0000 mm", Length)); got.Outcome != Disagree || got.Want.First.Mant == 0 {
		t.Errorf("huge against small: %+v", got)
	}
}

func TestOutcomeNames(t *testing.T) {
	for o, want := range map[Outcome]string{Exact: "exact", RoundedFromSecond: "rounded from the second", Disagree: "disagree", 99: "unknown outcome"} {
		if got := o.String(); got != want {
			t.Errorf("%d: %q, want %q", o, got, want)
		}
	}
	for e, want := range map[End]string{Whole: "value", MinusEnd: "lower deviation", 99: "unknown end"} {
		if got := e.String(); got != want {
			t.Errorf("%d: %q, want %q", e, got, want)
		}
	}
}
