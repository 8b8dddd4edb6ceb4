package convert

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Spellings of the file that are no spelling of a unit: they carry a number or
// a remark.
var notSpellings = map[string]bool{
	`.001"`: true, "0.001 in": true, `1/64"`: true, "1/64 in": true, `1/32"`: true, `1/16"`: true,
	"1/4 turn": true, "quarter turn": true, "flat (1/6 turn)": true, "W (symbol-font slip)": true,
	"x1.25": true, "pitch 1.25": true, "1.25P": true, "-20 (as 1/4-20)": true,
}

// Spellings that are refused, and why.
var refused = map[string]Kind{
	"gal": Ambiguous, "gal.": Ambiguous, "gallon": Ambiguous, "gallons": Ambiguous,
	"qt": Ambiguous, "qt.": Ambiguous, "qts": Ambiguous, "quart": Ambiguous, "quarts": Ambiguous,
	"pt": Ambiguous, "pt.": Ambiguous, "pts": Ambiguous, "pint": Ambiguous, "pints": Ambiguous,
	"cup": Ambiguous, "cups": Ambiguous, "fl oz": Ambiguous, "fl. oz.": Ambiguous, "fluid ounce": Ambiguous, "fluid ounces": Ambiguous,
	"gpm": Ambiguous, "GPM": Ambiguous, "gal/min": Ambiguous, "lb/gal": Ambiguous, "lbs/gal": Ambiguous, "gr": Ambiguous,
	"Ib-in": UnknownUnit,
}

func TestSpellingsMetInPrint(t *testing.T) {
	read := 0
	for _, c := range csvUnits(t) {
		want := c.unit(t)
		for _, s := range c.spellings {
			if notSpellings[s] {
				continue
			}
			kind := refused[s]
			if c.quantity == "volume" && (s == "oz" || s == "ozs") {
				kind = Ambiguous
			}
			got, p := ReadUnit(s, Of(want.Dimension()))
			if strings.Contains(s, "C") && want.Dimension() == TemperatureDifference {
				want, _ = unitIn("°C", TemperatureDifference) // one row for K and °C
			}
			switch {
			case kind == 0 && (p != nil || got != want):
				t.Errorf("%s: ReadUnit(%q) = %s, %v", c.quantity, s, got, p)
			case kind != 0 && (p == nil || p.Kind != kind):
				t.Errorf("%s: ReadUnit(%q) = %s, %v; want refused as %v", c.quantity, s, got, p, kind)
			case kind != 0:
				found := false
				for _, q := range p.Readings {
					found = found || q.Unit == want
				}
				if !found {
					t.Errorf("%s: ReadUnit(%q) readings %v lack %s", c.quantity, s, texts(p.Readings, Point), want)
				}
			}
			read++
		}
	}
	if read < 600 {
		t.Errorf("only %d spellings read", read)
	}
}

func TestUnreadUnits(t *testing.T) {
	torque := Of(Torque)
	for _, tt := range []struct {
		spelling string
		want     Dimensions
		kind     Kind
		certain  bool
		readings []string
		says     string
	}{
		// Forms that are no torque: rules of form, unit-factors.csv "form-check".
		{"lb", torque, CutShort, false, []string{"lbf·ft", "lbf·in"}, "lever is cut off"},
		{"lbs", torque, CutShort, false, []string{"lbf·ft", "lbf·in"}, ""},
		{"kg", torque, CutShort, false, []string{"kgf·m", "kgf·cm"}, ""},
		{"N", torque, CutShort, false, []string{"N·m", "N·cm"}, ""},
		{"m", torque, CutShort, false, []string{"N·m", "kgf·m"}, "force is cut off"},
		{"ft", torque, CutShort, false, []string{"lbf·ft"}, ""},
		{"mm", torque, WrongDimension, true, nil, "is a length"},
		{"oz", torque, CutShort, false, []string{"ozf·in", "ozf·ft"}, ""},
		{"in/lb", torque, WrongForm, false, []string{"lbf·in"}, `"in/lb" is a quotient and no torque; write lbf·in`},
		{"lb/in", torque, WrongForm, false, []string{"lbf·in"}, ""},
		{"ft/lb", torque, WrongForm, false, []string{"lbf·ft"}, ""},
		{"lb/ft", torque, WrongForm, false, []string{"lbf·ft"}, ""},
		{"kg/m", torque, WrongForm, false, []string{"kgf·m"}, ""},
		{"kg/cm", torque, WrongForm, false, []string{"kgf·cm"}, ""},
		{"Nm/m", torque, WrongForm, false, []string{"N·m"}, ""},
		{"N/m", torque, WrongForm, false, []string{"N·m"}, ""},
		// By country.
		{"qt", Of(Volume), Ambiguous, false, []string{"US qt", "imp qt"}, `"qt" is a US or an imperial measure; write US qt or imp qt`},
		{"pt", Of(Volume), Ambiguous, false, []string{"US pt", "imp pt"}, ""},
		{"gal", Of(Volume), Ambiguous, false, []string{"US gal", "imp gal"}, ""},
		{"oz", Of(Volume), Ambiguous, false, []string{"US fl oz", "imp fl oz"}, ""},
		// Another dimension for sure.
		{"L", torque, WrongDimension, true, nil, `"L" is a volume; here a torque is wanted`},
		{"gal", torque, WrongDimension, true, nil, "is a volume"},
		{"N·m", Of(Force), WrongDimension, true, nil, "is a torque"},
		{"°", torque, WrongDimension, true, nil, "is an angle"},
		// Misread by a scanner: spellings in the call-outs C0023, C0033, C0034, C0475.
		{"Ib-ft", torque, UnknownUnit, false, []string{"lbf·ft"}, "misread lbf·ft"},
		{"1b-ft", torque, UnknownUnit, false, []string{"lbf·ft"}, ""},
		{"NŽm", torque, UnknownUnit, false, []string{"N·m"}, ""},
		{"Nom", torque, UnknownUnit, false, []string{"N·m"}, ""},
		{"N•rn", torque, UnknownUnit, false, []string{"N·m"}, ""},
		{"N ). m", torque, UnknownUnit, false, []string{"N·m"}, ""},
		{"1b", torque, UnknownUnit, false, []string{"lbf·ft", "lbf·in"}, ""},
		// Slips of a typist.
		{"lbf·tf", torque, UnknownUnit, false, nil, "did you mean lbf·ft?"},
		{"newton meetre", torque, UnknownUnit, false, nil, "did you mean N·m?"},
		{"furlong", torque, UnknownUnit, false, nil, "a torque is written in N·m, lbf·ft or lbf·in"},
		{strings.Repeat("x", 200), torque, UnknownUnit, false, nil, "…"},
		{strings.Repeat("€", 30), torque, UnknownUnit, false, nil, ""},
		{strings.Repeat("℃", 30), torque, UnknownUnit, false, nil, ""},
		{"", torque, UnknownUnit, false, nil, ""},
		// Case that decides.
		{"mPa", Of(Pressure), Ambiguous, false, []string{"MPa"}, "m is milli and M is mega"},
		{"MOHM", Of(Resistance), Ambiguous, false, []string{"mΩ", "MΩ"}, "wrong case"},
		{"MN·m", torque, Ambiguous, false, []string{"N·m", "mN·m"}, "meganewton"},
		{"N·m", Of(Number), WrongDimension, true, nil, "a number without unit is wanted"},
	} {
		u, p := ReadUnit(tt.spelling, tt.want)
		if p == nil {
			t.Errorf("ReadUnit(%q) = %s, want %v", tt.spelling, u, tt.kind)
			continue
		}
		var readings []string
		for _, q := range p.Readings {
			readings = append(readings, q.Unit.Symbol())
		}
		if d := cmp.Diff(tt.readings, readings); p.Kind != tt.kind || p.Certain() != tt.certain || d != "" || !strings.Contains(p.Error(), tt.says) {
			t.Errorf("ReadUnit(%q): %v (certain %v): %s\nwant %v, %q, readings -want +got:\n%s", tt.spelling, p.Kind, p.Certain(), p, tt.kind, tt.says, d)
		}
		if p.At != (Place{0, len(tt.spelling)}) {
			t.Errorf("ReadUnit(%q): at %v", tt.spelling, p.At)
		}
	}
}

// In a set of dimensions the spelling is read in the one that has it.
func TestReadUnitInSeveralDimensions(t *testing.T) {
	for _, tt := range []struct {
		spelling string
		want     Dimensions
		symbol   string
		d        Dimension
	}{
		{"nm", Of(Torque, Ratio), "N·m", Torque},
		{"%", Of(Torque, Ratio), "%", Ratio},
		{"kg", Of(Force), "kgf", Force},
		{"kg", Of(Mass), "kg", Mass},
		{"'", Of(Angle), "′", Angle},
		{"'", Of(Length), "ft", Length},
		{"K", Of(Resistance), "kΩ", Resistance},
		{"K", Of(Temperature), "K", Temperature},
		{"°C", Of(TemperatureDifference), "°C", TemperatureDifference},
		{"FOOT-POUNDS", Of(Torque), "lbf·ft", Torque},
		{"lb\u00a0·\u202fft", Of(Torque), "lbf·ft", Torque},
		{"℉", Of(Temperature), "°F", Temperature},
		{"kgf/cm^2", Of(Pressure), "kgf/cm²", Pressure},
		{"min⁻¹", Of(RotationalSpeed), "rpm", RotationalSpeed},
	} {
		u, p := ReadUnit(tt.spelling, tt.want)
		if p != nil || u.Symbol() != tt.symbol || u.Dimension() != tt.d {
			t.Errorf("ReadUnit(%q) = %s, a %s, %v; want %s, a %s", tt.spelling, u, u.Dimension(), p, tt.symbol, tt.d)
		}
	}
}
