package convert

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Figures that are read, and what they are in normal form. Forms: design of the
// spec file, "Text"; rows with an id are call-outs of US government manuals in
// testdata/callouts.
var clearFigures = []struct {
	text string
	want Dimension
	mark Mark
	read string
}{
	{"6 N·m", Torque, Point, "6 N·m"},
	{"6.0 N·m", Torque, Point, "6.0 N·m"},
	{"8 to 10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8-10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8–10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8 – 10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8...10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8..10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8 ~ 10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8 N·m to 10 N·m", Torque, Point, "8 to 10 N·m"},
	{"8 N·m - 10 Nm", Torque, Point, "8 to 10 N·m"},
	{"8 lb-ft-10 lb-ft", Torque, Point, "8 to 10 lbf·ft"},
	{"8 N·m to 10", Torque, Point, "8 to 10 N·m"},
	{"9 ±1 N·m", Torque, Point, "9 ±1 N·m"},
	{"9 ± 1 N·m", Torque, Point, "9 ±1 N·m"},
	{"9±1 N·m", Torque, Point, "9 ±1 N·m"},
	{"9 +/-1 N·m", Torque, Point, "9 ±1 N·m"},
	{"9 +- 1 N·m", Torque, Point, "9 ±1 N·m"},
	{"9 N·m ±1 N·m", Torque, Point, "9 ±1 N·m"},
	{"9 +1/-0 N·m", Torque, Point, "9 +1/-0 N·m"},
	{"9 + 1/ - 0 N·m", Torque, Point, "9 +1/-0 N·m"},
	{"9 -0/+1 N·m", Torque, Point, "9 +1/-0 N·m"},
	{"9 +1 −0 N·m", Torque, Point, "9 +1/-0 N·m"},
	{"9 +0.5/-1 N·m", Torque, Point, "9 +0.5/-1 N·m"},
	{"25 -0.02/-0.04 mm", Length, Point, "25 -0.02/-0.04 mm"},
	{"1 -1/2/-1 mm", Length, Point, "1 -1/2/-1 mm"},
	{"25 +0.04/+0.02 mm", Length, Point, "25 +0.04/+0.02 mm"},
	{"+0.5 -0.2 mm", Length, Point, "+0.5/-0.2 mm"},
	{"+1/-0 N·m", Torque, Point, "+1/-0 N·m"},
	{"±0.1 mm", Length, Point, "±0.1 mm"},
	{"50 0/-0.025 mm", Length, Point, "50 +0/-0.025 mm"}, // ISO 129-1 sets a deviation of zero without a sign (from memory)
	{"50 +0.025/0 mm", Length, Point, "50 +0.025/-0 mm"},
	{"50 mm +0.025/0", Length, Point, "50 +0.025/-0 mm"},
	{"0/-0.025 mm", Length, Point, "+0/-0.025 mm"},
	{"0 to 0.025 mm", Length, Point, "0 to 0.025 mm"},
	{"0·5 mm", Length, Point, "0.5 mm"}, // the raised point of British print
	{"0·05 to 0·10 mm", Length, Point, "0.05 to 0.10 mm"},
	{"quarter turn", Angle, Point, "1/4 turn"},
	{"half a turn", Angle, Point, "1/2 turn"},
	{"One turn", Angle, Point, "1 turn"},
	{"±10 %", Ratio, Point, "±10 %"},
	{"+10/-5 %", Ratio, Point, "+10/-5 %"},
	{"9 N·m ±10 %", Torque, Point, "9 N·m ±10 %"},
	{"9 N·m ±10%", Torque, Point, "9 N·m ±10 %"},
	{"9 ±10 % N·m", Torque, Point, "9 N·m ±10 %"},
	{"9 N·m +10 %/-5 %", Torque, Point, "9 N·m +10/-5 %"},
	{"90° ±5 %", Angle, Point, "90° ±5 %"},
	{"0.12 ±10 %", Number, Point, "0.12 ±10 %"},
	{"4 1/2 US qt", Volume, Point, "4 1/2 US qt"},
	{"4-1/2 US qt", Volume, Point, "4 1/2 US qt"},
	{"4½ US qt", Volume, Point, "4 1/2 US qt"},
	{"4 ½ US qt", Volume, Point, "4 1/2 US qt"},
	{"¼ turn", Angle, Point, "1/4 turn"},
	{"⅝ in", Length, Point, "5/8 in"},
	{"¾ in", Length, Point, "3/4 in"},
	{"⅓ turn", Angle, Point, "1/3 turn"},
	{"⅔ turn", Angle, Point, "2/3 turn"},
	{"⅙ turn", Angle, Point, "1/6 turn"},
	{"⅚ turn", Angle, Point, "5/6 turn"},
	{"⅛ in", Length, Point, "1/8 in"},
	{"⅜ in", Length, Point, "3/8 in"},
	{"⅞ in", Length, Point, "7/8 in"},
	{"1⁄4 turn", Angle, Point, "1/4 turn"},
	{"1/4 turn", Angle, Point, "1/4 turn"},
	{"1/4-1/2 turn", Angle, Point, "1/4 to 1/2 turn"},
	{"0-1/4 turn", Angle, Point, "0 to 1/4 turn"},
	{"1 1/4 to 1 1/2 turns", Angle, Point, "1 1/4 to 1 1/2 turn"},
	{"max 2.4 mm", Length, Point, "max 2.4 mm"},
	{"Max. 2.4 mm", Length, Point, "max 2.4 mm"},
	{"maximum: 2.4 mm", Length, Point, "max 2.4 mm"},
	{"≤ 2.4 mm", Length, Point, "max 2.4 mm"},
	{"up to 2.4 mm", Length, Point, "max 2.4 mm"},
	{"2.4 mm max.", Length, Point, "max 2.4 mm"},
	{"0.0203 mm max.", Length, Point, "max 0.0203 mm"},  // D0026
	{"0.0002 in. max.", Length, Point, "max 0.0002 in"}, // D0012
	{"min 0.2 mm", Length, Point, "min 0.2 mm"},
	{"0.2 mm minimum", Length, Point, "min 0.2 mm"},
	{"at least 0.2 mm", Length, Point, "min 0.2 mm"},
	{">= 0.2 mm", Length, Point, "min 0.2 mm"},
	{"0.14 max", Number, Point, "max 0.14"},
	{"min 5 min", Time, Point, "min 5 min"},
	{"5 min", Time, Point, "5 min"},
	{"5 min.", Time, Point, "5 min"},
	{"90°", Angle, Point, "90°"},
	{"90 deg", Angle, Point, "90°"},
	{"30′", Angle, Point, "30′"},
	{"-10 to 5 °C", Temperature, Point, "-10 to 5 °C"},
	{"−10 to 5 °C", Temperature, Point, "-10 to 5 °C"},
	{"-10 - -5 °C", Temperature, Point, "-10 to -5 °C"},
	{"-10 to −5 °C", Temperature, Point, "-10 to -5 °C"},
	{"-20F to +120F", Temperature, Point, "-20 to 120 °F"}, // D0267
	{"-15°F.", Temperature, Point, "-15 °F"},               // D0269
	{"100 degrees F", Temperature, Point, "100 °F"},        // D0427
	{"-1/4 turn", Angle, Point, "-1/4 turn"},
	{"-4 1/2 °C", Temperature, Point, "-4 1/2 °C"},
	{".50 in", Length, Point, "0.50 in"},
	{".00 to .06 in.", Length, Point, "0.00 to 0.06 in"}, // D0273
	{"50. N·m", Torque, Point, "50 N·m"},
	{"6 N·m", Torque, Point, "6 N·m"},
	{" 6 N·m ", Torque, Point, "6 N·m"},
	{"6N·m", Torque, Point, "6 N·m"},
	{"114 000 L", Volume, Point, "114000 L"}, // F0024
	{"114 000 L", Volume, Point, "114000 L"},
	{"1 234.5 L", Volume, Point, "1234.5 L"},
	{"1,300.5 N·m", Torque, Point, "1300.5 N·m"},
	{"1,300 to 1,450.5 N·m", Torque, Point, "1300 to 1450.5 N·m"},
	{"1,300,000 Pa", Pressure, Point, "1300000 Pa"},
	{"1.300.000 Pa", Pressure, Comma, "1300000 Pa"},
	{"6,5 N·m", Torque, Comma, "6.5 N·m"},
	{",5 N·m", Torque, Comma, "0.5 N·m"},
	{"1,300 N·m", Torque, Comma, "1.300 N·m"},
	{"1.300,5 N·m", Torque, Comma, "1300.5 N·m"},
	{"1.5e3 Pa", Pressure, Point, "15e2 Pa"},
	{"15E-1 Pa", Pressure, Point, "1.5 Pa"},
	{"12e+2 Pa", Pressure, Point, "12e2 Pa"},
	{"0.12", Number, Point, "0.12"},
	{"0.08 to 0.14", Number, Point, "0.08 to 0.14"},
	{"1500 r/min", RotationalSpeed, Point, "1500 rpm"},
	{"1500 1/min", RotationalSpeed, Point, "1500 rpm"},
	{"1500 min-1", RotationalSpeed, Point, "1500 rpm"},
	{"500 min-1 to 600 min-1", RotationalSpeed, Point, "500 to 600 rpm"},
	{"1.8to 2.4 kg-m", Torque, Point, "1.8 to 2.4 kgf·m"}, // C0273, cleaned
	{"69.802--69.832 mm", Length, Point, "69.802 to 69.832 mm"},
	{"20 – 25 lb-ft", Torque, Point, "20 to 25 lbf·ft"}, // C0048
	{"87 lb-ft", Torque, Point, "87 lbf·ft"},
	{"75-80 in-lbs", Torque, Point, "75 to 80 lbf·in"},
	{"270-300 inch pounds", Torque, Point, "270 to 300 lbf·in"}, // C0247
	{"40 N • m", Torque, Point, "40 N·m"},
	{"195 ±20 lb. ft.", Torque, Point, "195 ±20 lbf·ft"}, // C0243
	{"10 lb.", Force, Point, "10 lbf"},
	{"30 psig", Pressure, Point, "30 psi"}, // D0420
	{"2.5 bar(g)", Pressure, Point, "2.5 bar"},
	{"1,200,000 barrels", Volume, Point, "1200000 bbl"},
	{"17 in/64", Length, Point, "17 in/64"},
	{"1.25 mm", ThreadPitch, Point, "1.25 mm"},
	{"20 TPI", ThreadPitch, Point, "20 TPI"},
}

func TestParse(t *testing.T) {
	for _, tt := range clearFigures {
		q, p := Parse(tt.text, Of(tt.want), tt.mark)
		if p != nil {
			t.Errorf("Parse(%q): %v: %v", tt.text, p.Kind, p)
			continue
		}
		if got := q.String(); got != tt.read {
			t.Errorf("Parse(%q) = %q, want %q", tt.text, got, tt.read)
		}
		if d := q.Unit.Dimension(); q.Unit != 0 && d != tt.want {
			t.Errorf("Parse(%q) is %s, want %s", tt.text, d, tt.want)
		}
	}
}

func TestParseKeepsPartsAndPlaces(t *testing.T) {
	unit := func(s string) Unit { u, _ := UnitBySymbol(s); return u }
	for _, tt := range []struct {
		text string
		want Dimensions
		q    Quantity
	}{
		{"6.0 N·m", Of(Torque), Quantity{First: Decimal{60, -1, 0}, Unit: unit("N·m"), FirstAt: Place{0, 3}, UnitAt: Place{4, 8}}},
		{"8 to 10 Nm", Of(Torque), Quantity{Form: Range, First: Decimal{8, 0, 0}, Second: Decimal{10, 0, 0}, Unit: unit("N·m"), FirstAt: Place{0, 1}, SecondAt: Place{5, 7}, UnitAt: Place{8, 10}}},
		{"9 +1/-0 Nm", Of(Torque), Quantity{Form: Deviation, First: Decimal{9, 0, 0}, Plus: Decimal{1, 0, 0}, Unit: unit("N·m"), FirstAt: Place{0, 1}, SecondAt: Place{2, 7}, UnitAt: Place{8, 10}}},
		{"9 Nm ±10 %", Of(Torque), Quantity{Form: Deviation, First: Decimal{9, 0, 0}, Plus: Decimal{10, 0, 0}, Minus: Decimal{10, 0, 0}, Percent: true, Unit: unit("N·m"), FirstAt: Place{0, 1}, SecondAt: Place{5, 9}, UnitAt: Place{2, 4}}},
		{"max 2.4 mm", Of(Length), Quantity{Form: AtMost, Second: Decimal{24, -1, 0}, Unit: unit("mm"), SecondAt: Place{4, 7}, UnitAt: Place{8, 10}}},
		{"2.4 mm max", Of(Length), Quantity{Form: AtMost, Second: Decimal{24, -1, 0}, Unit: unit("mm"), SecondAt: Place{0, 3}, UnitAt: Place{4, 6}}},
		{"min .20 mm", Of(Length), Quantity{Form: AtLeast, First: Decimal{20, -2, 0}, Unit: unit("mm"), FirstAt: Place{4, 7}, UnitAt: Place{8, 10}}},
		{"4 1/2 US qt", Of(Volume), Quantity{First: Decimal{9, 0, 2}, Unit: unit("US qt"), FirstAt: Place{0, 5}, UnitAt: Place{6, 11}}},
		{"-4 1/2 °C", Of(Temperature), Quantity{First: Decimal{-9, 0, 2}, Unit: unit("°C"), FirstAt: Place{0, 6}, UnitAt: Place{7, 10}}},
		{"±10 %", Of(Torque, Ratio), Quantity{Form: Tolerance, Plus: Decimal{10, 0, 0}, Minus: Decimal{10, 0, 0}, Unit: unit("%"), SecondAt: Place{0, 4}, UnitAt: Place{5, 6}}},
		{"114 000 L", Of(Volume), Quantity{First: Decimal{114000, 0, 0}, Unit: unit("L"), FirstAt: Place{0, 7}, UnitAt: Place{8, 9}}},
		{"0.12", Of(Number), Quantity{First: Decimal{12, -2, 0}, FirstAt: Place{0, 4}, UnitAt: Place{4, 4}}},
	} {
		got, p := Parse(tt.text, tt.want, Point)
		if p != nil {
			t.Errorf("Parse(%q): %v", tt.text, p)
			continue
		}
		if d := cmp.Diff(tt.q, got); d != "" {
			t.Errorf("Parse(%q) -want +got:\n%s", tt.text, d)
		}
	}
}

// Figures that are refused: the kind of problem, where it is, what it may have
// been and what the message says.
var doubtfulFigures = []struct {
	text     string
	want     Dimension
	mark     Mark
	kind     Kind
	at       string // the text at the place
	readings []string
	says     string
}{
	{"", Torque, Point, NoNumber, "", nil, "the figure is empty; write a number and its unit"},
	{"see note", Torque, Point, NoNumber, "see note", nil, `"see note" does not begin with a number; write it as "8 N·m" is written`},
	{"none", Number, Point, NoNumber, "none", nil, `"none" does not begin with a number`},
	{"hand tight", NoDimension, Point, NoNumber, "hand tight", nil, ""},
	{"max", Length, Point, NoNumber, "max", nil, ""},
	{"max ±1 mm", Length, Point, NoNumber, "max ±1 mm", nil, ""},
	{"8", Torque, Point, NoUnit, "8", []string{"8 N·m", "8 lbf·ft", "8 lbf·in"}, `"8" has no unit; write 8 N·m, 8 lbf·ft or 8 lbf·in`},
	{"320-425", Torque, Point, NoUnit, "320-425", []string{"320 to 425 N·m", "320 to 425 lbf·ft", "320 to 425 lbf·in"}, ""}, // C0449
	{"9 ±10 %", Torque, Point, NoUnit, "9 ±10 %", []string{"9 N·m ±10 %", "9 lbf·ft ±10 %", "9 lbf·in ±10 %"}, ""},
	{"8", NoDimension, Point, NoUnit, "8", nil, "is wanted"},

	{"10 lb", Torque, Point, CutShort, "lb", []string{"10 lbf·ft", "10 lbf·in"}, `"10 lb": "lb" is a weight or a force and no torque, its lever is cut off; write 10 lbf·ft or 10 lbf·in`},
	{"130-167 lb", Torque, Point, CutShort, "lb", []string{"130 to 167 lbf·ft", "130 to 167 lbf·in"}, ""}, // C0511
	{"365 N", Torque, Point, CutShort, "N", []string{"365 N·m", "365 N·cm"}, ""},                          // C0194
	{"80°", Temperature, Point, CutShort, "°", []string{"80 °C", "80 °F"}, "does not name the scale"},
	{"10 in/lb", Torque, Point, WrongForm, "in/lb", []string{"10 lbf·in"}, `"in/lb" is a quotient and no torque; write 10 lbf·in`},
	{"1.3 kg/m", Torque, Point, WrongForm, "kg/m", []string{"1.3 kgf·m"}, ""}, // C0328
	{"1,300 lb", Torque, Point, CutShort, "lb", []string{"1300 lbf·ft", "1300 lbf·in", "1.300 lbf·ft", "1.300 lbf·in"}, ""},
	{"6.6 qt", Volume, Point, Ambiguous, "qt", []string{"6.6 US qt", "6.6 imp qt"}, `"6.6 qt": "qt" is a US or an imperial measure; write 6.6 US qt or 6.6 imp qt`},
	{"9 N·m ±1 lb", Torque, Point, TwoUnits, "N·m ±1 lb", nil, ""},

	{"1,300 N·m", Torque, Point, CommaDoubt, "1,300", []string{"1300 N·m", "1.300 N·m"}, `the comma marks thousands or decimals; write 1300 N·m or 1.300 N·m, or put "decimal: comma"`},
	{"1,300 to 1,450 N·m", Torque, Point, CommaDoubt, "1,300", []string{"1300 to 1450 N·m", "1.300 to 1.450 N·m"}, ""},
	{"900 to 1,450 N·m", Torque, Point, CommaDoubt, "1,450", []string{"900 to 1450 N·m", "900 to 1.450 N·m"}, ""},
	{"1,300 ±1,5 N·m", Torque, Point, CommaDoubt, "1,5", []string{"1.300 ±1.5 N·m"}, ""},
	{"2,949-2.950 in.", Length, Point, CommaDoubt, "2,949", []string{"2949 to 2.950 in", "2.949 to 2.950 in"}, ""}, // D0041
	{"-1,300 N·m", Torque, Point, CommaDoubt, "-1,300", []string{"-1300 N·m", "-1.300 N·m"}, ""},
	{"6,5 N·m", Torque, Point, CommaDoubt, "6,5", []string{"6.5 N·m"}, "the comma seems to mark decimals; write 6.5 N·m"},
	{"0,125 N·m", Torque, Point, CommaDoubt, "0,125", []string{"0.125 N·m"}, ""},
	{",5 N·m", Torque, Point, CommaDoubt, ",5", []string{"0.5 N·m"}, ""},
	{"1234,567 N·m", Torque, Point, CommaDoubt, "1234,567", []string{"1234.567 N·m"}, ""},
	{"1.300.000 Pa", Pressure, Point, CommaDoubt, "1.300.000", []string{"1300000 Pa"}, "those of thousands; write 1300000 Pa"},
	{"1.300 N·m", Torque, Comma, CommaDoubt, "1.300", []string{"1300 N·m", "1.300 N·m"}, "the point marks thousands or decimals; write 1300 N·m or 1,300 N·m"},
	{"6.5 N·m", Torque, Comma, CommaDoubt, "6.5", []string{"6.5 N·m"}, "the point seems to mark decimals; write 6,5 N·m"},
	{"1,300 qt", Volume, Point, CommaDoubt, "1,300", []string{"1300 US qt", "1300 imp qt", "1.300 US qt", "1.300 imp qt"}, ""},

	{"6 L", Torque, Point, WrongDimension, "L", nil, `"6 L": "L" is a volume; here a torque is wanted`},
	{"0.12 mm", Number, Point, WrongDimension, "mm", nil, "a number without unit is wanted"},
	{"6 Ib-ft", Torque, Point, UnknownUnit, "Ib-ft", []string{"6 lbf·ft"}, "misread lbf·ft"},
	{"50 1b-ft", Torque, Point, UnknownUnit, "1b-ft", []string{"50 lbf·ft"}, ""},
	{"5.5 N ). m", Torque, Point, UnknownUnit, "N ). m", []string{"5.5 N·m"}, ""}, // C0475
	{"1,300 Nom", Torque, Point, UnknownUnit, "Nom", []string{"1300 N·m", "1.300 N·m"}, ""},
	{"6 lbf·tf", Torque, Point, UnknownUnit, "lbf·tf", nil, "did you mean lbf·ft?"},
	{"8 xx to 10 N·m", Torque, Point, UnknownUnit, "xx", nil, ""},
	{"12 N·m (cold)", Torque, Point, UnknownUnit, "N·m (cold)", nil, ""},
	{"8 N·m (71 lbf·in)", Torque, Point, TwoUnits, "(71 lbf·in)", nil, "holds two figures; write them as a list: [8 N·m, 71 lbf·in]"},
	{"8 to 10 N·m (71 to 89 lbf·in)", Torque, Point, TwoUnits, "(71 to 89 lbf·in)", nil, "[8 to 10 N·m, 71 to 89 lbf·in]"},
	{"23 N·m / 17 lbf·ft", Torque, Point, TwoUnits, "/ 17 lbf·ft", nil, "[23 N·m, 17 lbf·ft]"},
	{"23 N·m + 90°", Torque, Point, TwoUnits, "+ 90°", nil, "write the angle as the next step: {turn: 90°}"},
	{"23 to N·m", Torque, Point, BadNumber, "to N·m", nil, "has no second number"},
	{"23 - N·m", Torque, Point, BadNumber, "- N·m", nil, "has no second number"},
	{"quarter", Angle, Point, NoNumber, "quarter", nil, ""},
	{"8 N·m to 90 lbf·in", Torque, Point, TwoUnits, "N·m to 90 lbf·in", nil, "has two units"},

	{"75 25 lb. in.", Torque, Point, BadNumber, "75 25 lb. in.", nil, "numbers side by side"}, // C0211
	{"8-10-12 N·m", Torque, Point, BadNumber, "-12 N·m", nil, "more than two numbers"},
	{"max 8-10 N·m", Torque, Point, BadNumber, "max 8-10 N·m", nil, "a limit has one number"},
	{"9 ± N·m", Torque, Point, BadNumber, "± ", nil, "no number behind ±"},
	{"-10--5 °C", Temperature, Point, BadNumber, "--", nil, "write to between the numbers"},
	{"1.2.3 N·m", Torque, Point, BadNumber, "1.2.3", nil, "do not make a number"},
	{"1,2,3 N·m", Torque, Point, BadNumber, "1,2,3", nil, ""},
	{"1/0 turn", Angle, Point, BadNumber, "1/0", nil, "a fraction of nothing"},
	{"045 mm", Length, Point, BadNumber, "045", []string{"0.045 mm", "0.45 mm", "45 mm"}, "a decimal point may be lost"}, // D0249
	{"03 mm", Length, Point, BadNumber, "03", []string{"0.03 mm", "0.3 mm", "3 mm"}, ""},                                 // D0366
	{"-03 mm", Length, Point, BadNumber, "03", []string{"-0.03 mm", "-0.3 mm", "-3 mm"}, ""},
	{"03.5 mm", Length, Point, BadNumber, "03.5", nil, ""},
	{"045 to 0.55 mm", Length, Point, BadNumber, "045", nil, ""},
	{"0123456 mm", Length, Point, BadNumber, "0123456", nil, ""},
	{"045678 mm", Length, Point, BadNumber, "045678", []string{"0.045678 mm", "0.45678 mm", "45678 mm"}, ""},
	{"045 lb", Torque, Point, BadNumber, "045", nil, ""},

	{"8/10 N·m", Torque, Point, Ambiguous, "8/10", []string{"8 to 10 N·m", "0.8 N·m"}, `"8/10" is a fraction or a range; write 8 to 10 N·m or 0.8 N·m`},
	{"8/10 N·m", Torque, Comma, Ambiguous, "8/10", []string{"8 to 10 N·m", "0.8 N·m"}, "write 8 to 10 N·m or 0,8 N·m"},
	{"12/15 lb-ft", Torque, Point, Ambiguous, "12/15", []string{"12 to 15 lbf·ft", "0.8 lbf·ft"}, ""},
	{"11/2 in", Length, Point, Ambiguous, "11/2", []string{"1 1/2 in", "5.5 in"}, ""},
	{"4/2 in", Length, Point, Ambiguous, "4/2", []string{"2 in"}, ""},
	{"8/10", Number, Point, Ambiguous, "8/10", []string{"8 to 10", "0.8"}, ""},
	{"8/10 xx", Torque, Point, Ambiguous, "8/10", nil, ""},
	{"8/10", Torque, Point, Ambiguous, "8/10", nil, ""},
	{"0.0025/0.0045 in", Length, Point, Ambiguous, "0.0025/0.0045", []string{"0.0025 to 0.0045 in"}, "a quotient or a range"}, // D0275
	{"30 + 3 lb. ft.", Torque, Point, Ambiguous, "+ 3", []string{"30 ±3 lbf·ft", "30 +3/-0 lbf·ft"}, "has one sign only"},     // C0175
	{"30 lb-ft +3", Torque, Point, Ambiguous, "+3", []string{"30 ±3 lbf·ft", "30 +3/-0 lbf·ft"}, ""},

	{"1234567890123456789 N·m", Torque, Point, TooLarge, "1234567890123456789", nil, "more than 18 digits"},
	{"0.0000000000000000000000000000001 N·m", Torque, Point, TooLarge, "0.0000000000000000000000000000001", nil, "more than 30 decimals"},
	{"1e31 N·m", Torque, Point, TooLarge, "1e31", nil, ""},
	{"1e1000001 N·m", Torque, Point, TooLarge, "e1000001", nil, "more than 30 decimals or zeros"},
	{"1e-31 N·m", Torque, Point, TooLarge, "1e-31", nil, ""},
	{"123456/8 in", Length, Point, TooLarge, "123456/8", nil, ""},
}

func TestParseProblems(t *testing.T) {
	for _, tt := range doubtfulFigures {
		q, p := Parse(tt.text, Of(tt.want), tt.mark)
		if p == nil {
			t.Errorf("Parse(%q) = %v, want %v", tt.text, q, tt.kind)
			continue
		}
		if q != (Quantity{}) {
			t.Errorf("Parse(%q) gives %v beside a problem", tt.text, q)
		}
		var readings []string
		for _, r := range p.Readings {
			readings = append(readings, r.String())
		}
		if d := cmp.Diff(tt.readings, readings); p.Kind != tt.kind || d != "" {
			t.Errorf("Parse(%q): %v: %v, want %v; readings -want +got:\n%s", tt.text, p.Kind, p, tt.kind, d)
		}
		if got := tt.text[p.At.Start:p.At.End]; got != tt.at {
			t.Errorf("Parse(%q): problem at %q, want %q", tt.text, got, tt.at)
		}
		if !strings.Contains(p.Message, tt.says) {
			t.Errorf("Parse(%q): %s\nwant: %s", tt.text, p.Message, tt.says)
		}
		if p.Certain() != (tt.kind == WrongDimension) {
			t.Errorf("Parse(%q): certain %v", tt.text, p.Certain())
		}
		if m := p.Message; strings.HasSuffix(m, ".") || m == "" || strings.Contains(m, "  ") {
			t.Errorf("Parse(%q): message %q", tt.text, m)
		}
	}
}

func TestParseAllocatesNothing(t *testing.T) {
	for _, tt := range clearFigures {
		want := Of(tt.want)
		if n := testing.AllocsPerRun(10, func() { Parse(tt.text, want, tt.mark) }); n > 0 {
			t.Errorf("Parse(%q) allocates %v times", tt.text, n)
		}
	}
}
