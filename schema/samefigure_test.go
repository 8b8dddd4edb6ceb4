package schema

import (
	"strings"
	"testing"

	"snapgauge/convert"
)

// figureOf reads a figure whose values are parted by |.
func figureOf(want convert.Dimensions, text string, words wording) *Figure {
	f := &Figure{Want: want}
	for _, v := range strings.Split(text, "|") {
		f.Values = append(f.Values, convert.Value{Text: v})
	}
	f.read(convert.Point, words)
	return f
}

func TestSameFigure(t *testing.T) {
	// 71 lbf·in is 8.02 N·m, 50 lbf·ft 67.8 N·m, 45 lbf·ft 61.0 N·m, 6.2 L 6.55 US qt (NIST SP 811, Appendix B).
	for _, tt := range []struct {
		want     convert.Dimensions
		was, now string
		how      Sameness
	}{
		{wantTorque, "6 N·m", "6 N·m", Same},
		{wantTorque, "6 N·m", "6 Nm", Same},
		{wantTorque, "71 lbf·in", "71 in-lbs", Same},
		{wantTorque, "71 lbf·in|8 N·m", "8 N·m|71 lbf·in", Same},
		{wantTorque, "8 to 10 N·m", "8-10 N·m", Same},
		{wantTorque, "8 N·m", "8.0 N·m", Restated},
		{wantTorque, "9 ±1 N·m", "8 to 10 N·m", Restated},
		{wantTorque, "71 lbf·in", "8.0 N·m", Restated},
		{wantTorque, "71 lbf·in|8 N·m", "8 N·m", Restated},
		{wantTorque, "8 N·m", "8 N·m|71 lbf·in", Restated},
		{wantTorque, "50 lbf·ft", "68 N·m", Restated},
		{wantTorque, "6 N·m", "9 N·m", Moved},
		{wantTorque, "8 N·m", "8.2 N·m", Moved}, // within the rounding of 8, but somebody wrote it
		{wantTorque, "71 lbf·in", "9.0 N·m", Moved},
		{wantTorque, "71 lbf·in|8 N·m", "71 lbf·in|9 N·m", Moved},
		{wantTorque, "8 N·m", "8 N·m|71 lbf·ft", Moved},
		{wantTorque, "45 lbf·ft", "60 N·m", Moved}, // only a step of 5 would explain it
		{wantTorque, "8 to 10 N·m", "8 to 11 N·m", Moved},
		{wantTorque, "9 N·m", "9 ±1 N·m", Moved},
		{wantTorque, "max 9 N·m", "9 N·m", Moved},
		{wantTorque, "max 9 N·m", "min 9 N·m", Moved},
		{wantOffTorque, "±10 %", "±5 %", Moved},
		{wantOffTorque, "±10 %", "±1 N·m", Moved},
		{wantTemperature, "20 °C", "68 °F", Restated},
		{wantTemperature, "20 °C", "70 °F", Moved},
		{convert.Of(convert.Pressure), "5 bar", "5 bar(a)", Moved},
		{convert.Of(convert.Pressure), "5 psi", "5 psig", Restated},
		{convert.Of(convert.Pressure), "5 psig", "5 psia", Moved},
		{wantSpeed, "idling", "idling", Same},
		{wantSpeed, "idling", "off", Moved},
		{wantSpeed, "idling", "800 rpm", Moved},
		{wantTorque, "6 Nx", "6  Nx", Same}, // unread, and the same text
		{wantTorque, "6 Nx", "6 N·m", Unclear},
		{wantTorque, "6", "7", Unclear},
	} {
		a, b := figureOf(tt.want, tt.was, anyWord), figureOf(tt.want, tt.now, anyWord)
		if tt.want != wantSpeed {
			a, b = figureOf(tt.want, tt.was, noWord), figureOf(tt.want, tt.now, noWord)
		}
		if got := SameFigure(a, b); got != tt.how {
			t.Errorf("%s to %s: %s, want %s", tt.was, tt.now, got, tt.how)
		}
		if got, back := SameFigure(a, b), SameFigure(b, a); got != back {
			t.Errorf("%s to %s: %s, and back %s", tt.was, tt.now, got, back)
		}
	}
}

// FuzzSameFigure: a figure is the same as itself, and what it is to another the other is
// to it.
func FuzzSameFigure(f *testing.F) {
	f.Add("71 lbf·in|8 N·m", "8.0 N·m")
	f.Add("8 to 10 N·m", "9 ±1 N·m")
	f.Add("max 2 N·m", "2 N·m|3 Nx")
	f.Fuzz(func(t *testing.T, x, y string) {
		a, b := figureOf(wantTorque, x, noWord), figureOf(wantTorque, y, noWord)
		if strings.Count(x, "|") == 0 {
			if got := SameFigure(a, a); got != Same {
				t.Errorf("%q to itself: %s", x, got)
			}
		}
		if got, back := SameFigure(a, b), SameFigure(b, a); got != back {
			t.Errorf("%q to %q: %s, and back %s", x, y, got, back)
		}
	})
}
