package convert

import (
	"encoding/csv"
	"math"
	"math/big"
	"os"
	"strings"
	"testing"

	"github.com/martinlindhe/unit"
)

// csvUnit is a row of testdata/unit-factors.csv, whose factors are those of NIST
// SP 811 Appendix B and of the definitions.
type csvUnit struct {
	quantity, symbol, ucum, factor, offset, printed string
	spellings                                       []string
}

func csvUnits(tb testing.TB) []csvUnit {
	tb.Helper()
	f, err := os.Open("testdata/unit-factors.csv")
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		tb.Fatal(err)
	}
	var us []csvUnit
	for _, r := range rows[1:] {
		if r[0] != "form-check" {
			us = append(us, csvUnit{r[0], r[1], r[2], r[4], r[5], r[6], strings.Split(r[7], "|")})
		}
	}
	if len(us) != 121 {
		tb.Fatalf("%d units in the file, want 121", len(us))
	}
	return us
}

// What the file calls otherwise than print does.
var csvSymbols = map[string]string{
	"gal (US)": "US gal", "qt (US)": "US qt", "pt (US)": "US pt", "cup (US)": "US cup", "fl oz (US)": "US fl oz",
	"gal (imp)": "imp gal", "qt (imp)": "imp qt", "pt (imp)": "imp pt", "fl oz (imp)": "imp fl oz",
	"thou / mil": "thou", "1/64 in": "in/64", "deg": "°", "' (arcmin)": "′", "rev": "turn", "cc/min": "mL/min",
	"gr": "grain", "lb/gal (US)": "lb/US gal", "mm/rev (pitch)": "mm",
}

func (c *csvUnit) unit(tb testing.TB) Unit {
	tb.Helper()
	symbol, quantity := c.symbol, c.quantity
	if s, ok := csvSymbols[symbol]; ok {
		symbol = s
	}
	switch symbol {
	case "K (difference), °C difference":
		symbol, quantity = "K", "temperature difference"
	case "°F difference":
		symbol, quantity = "°F", "temperature difference"
	}
	for d := range dimensions {
		if d.String() == quantity {
			if u, ok := unitIn(symbol, d); ok {
				return u
			}
		}
	}
	tb.Errorf("no unit %s %s", c.quantity, c.symbol)
	return 0
}

// exact reads the factor column: a decimal, a fraction, pi/180, 2*pi.
func (c *csvUnit) exact(tb testing.TB) (*big.Rat, int) {
	tb.Helper()
	s, pi := c.factor, 0
	if strings.Contains(s, "pi") {
		pi = 1
		s = strings.NewReplacer("*pi", "", "pi", "1").Replace(s)
	}
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		tb.Errorf("factor %q of %s", c.factor, c.symbol)
	}
	return r, pi
}

func TestFactorsAreExact(t *testing.T) {
	for _, c := range csvUnits(t) {
		u := c.unit(t)
		want, wantPi := c.exact(t)
		got, gotPi := u.Factor()
		if got.Cmp(want) != 0 || gotPi != wantPi {
			t.Errorf("%s: factor %s·π^%d, want %s·π^%d", c.symbol, got.RatString(), gotPi, want.RatString(), wantPi)
		}
		offset := u.Offset()
		if (offset == nil) != (c.offset == "0") || offset != nil && offset.FloatString(2) != c.offset {
			t.Errorf("%s: offset %v, want %s", c.symbol, offset, c.offset)
		}
		if ucum := strings.TrimSuffix(c.ucum, "-"); u.UCUM() != ucum {
			t.Errorf("%s: UCUM %q, want %q", c.symbol, u.UCUM(), ucum)
		}
	}
}

// The units that the file of factors has not, from their definitions.
func TestFactorsOfFurtherUnits(t *testing.T) {
	for _, tt := range []struct {
		symbol string
		want   string
		source string
	}{
		{"bbl", "0.158987294928", "NIST SP 811 B.8: barrel [for petroleum, 42 gallons (US)], 42 × 0.003785411784"},
		{"N·mm", "1/1000", "SI prefix"},
		{"tf", "9806.65", "1000 kgf"},
		{"imp cup", "0.000284130625", "half an imperial pint, 0.56826125 L / 2"},
		{"km", "1000", "SI prefix"},
		{"mi", "1609.344", "NIST SP 811 B.8: 5280 ft, exact"},
		{"short ton", "907.18474", "NIST SP 811 B.8: 2000 lb, exact"},
		{"long ton", "1016.0469088", "NIST SP 811 B.8: 2240 lb, exact"},
		{"flat", "1/3", "60° of a hexagon, π/3"},
		{"kgf/cm", "980.665", "kgf over 0.01 m"},
		{"N/cm", "100", "SI prefix"},
		{"lb/imp gal", "45359237/454609", "lb over imperial gallon; NIST SP 811 prints 9.977 637 E+01"},
	} {
		u, ok := UnitBySymbol(tt.symbol)
		if !ok {
			t.Errorf("no unit %s", tt.symbol)
			continue
		}
		want, _ := new(big.Rat).SetString(tt.want)
		if got, _ := u.Factor(); got.Cmp(want) != 0 {
			t.Errorf("%s = %s, want %s (%s)", tt.symbol, got.RatString(), tt.want, tt.source)
		}
	}
}

// Products of definitions must give the factors of the table: gn, lb, in, US
// gal and imperial gal (NIST SP 811 B.8, bold).
func TestFactorsCloseOverDefinitions(t *testing.T) {
	rat := func(s string) *big.Rat { r, _ := new(big.Rat).SetString(s); return r }
	gn, lb, in, gal, imp := rat("9.80665"), rat("0.45359237"), rat("0.0254"), rat("0.003785411784"), rat("0.00454609")
	mul := func(rs ...*big.Rat) *big.Rat {
		p := big.NewRat(1, 1)
		for _, r := range rs {
			p.Mul(p, r)
		}
		return p
	}
	inv := func(r *big.Rat) *big.Rat { return new(big.Rat).Inv(r) }
	n := func(a, b int64) *big.Rat { return big.NewRat(a, b) }
	for symbol, want := range map[string]*big.Rat{
		"lbf":       mul(lb, gn),
		"lbf·in":    mul(lb, gn, in),
		"lbf·ft":    mul(lb, gn, in, n(12, 1)),
		"ozf·in":    mul(lb, gn, in, n(1, 16)),
		"psi":       mul(lb, gn, inv(in), inv(in)),
		"lbf/in":    mul(lb, gn, inv(in)),
		"US gal":    mul(in, in, in, n(231, 1)),
		"US qt":     mul(gal, n(1, 4)),
		"US pt":     mul(gal, n(1, 8)),
		"US cup":    mul(gal, n(1, 16)),
		"US fl oz":  mul(gal, n(1, 128)),
		"imp qt":    mul(imp, n(1, 4)),
		"imp pt":    mul(imp, n(1, 8)),
		"imp fl oz": mul(imp, n(1, 160)),
		"bbl":       mul(gal, n(42, 1)),
		"US gpm":    mul(gal, n(1, 60)),
		"imp gpm":   mul(imp, n(1, 60)),
		"cfm":       mul(in, in, in, n(1728, 60)),
		"inHg":      mul(rat("13595.1"), gn, in),
		"mmHg":      mul(rat("13595.1"), gn, n(1, 1000)),
		"inH2O":     mul(n(1000, 1), gn, in),
		"ftH2O":     mul(n(1000, 1), gn, in, n(12, 1)),
		"Torr":      mul(n(101325, 760)),
		"hp":        mul(n(550*12, 1), lb, gn, in),
		"PS":        mul(n(75, 1), gn),
		"kgf/cm²":   mul(gn, n(10000, 1)),
		"mph":       mul(n(5280*12, 3600), in),
		"lb/US gal": mul(lb, inv(gal)),
		"TPI":       inv(in),
	} {
		u, _ := UnitBySymbol(symbol)
		if got, _ := u.Factor(); got.Cmp(want) != 0 {
			t.Errorf("%s = %s, its definition gives %s", symbol, got.RatString(), want.RatString())
		}
	}
}

// roundsTo reports whether an exact value rounds to printed digits, either way
// at a tie.
func roundsTo(exact *big.Rat, printed string) bool {
	mant, exp, _ := strings.Cut(strings.ReplaceAll(printed, " ", ""), "E")
	v, ok := new(big.Rat).SetString(mant + "e" + exp)
	if !ok {
		return false
	}
	_, decimals, _ := strings.Cut(mant, ".")
	half, _ := new(big.Rat).SetString("0.5e" + exp)
	half.Mul(half, ratPow10(-int32(len(decimals))))
	diff := v.Sub(v, exact)
	return diff.Abs(diff).Cmp(half) <= 0
}

// The digits of NIST SP 811 Appendix B, as printed.
func TestSP811Digits(t *testing.T) {
	compared := 0
	for _, c := range csvUnits(t) {
		u := c.unit(t)
		r, pi := u.Factor()
		if pi == 1 {
			r.Mul(r, piRat)
		}
		for part := range strings.SplitSeq(c.printed, ";") {
			part = strings.TrimSpace(part)
			if strings.Contains(part, "°F)") { // water and mercury at another temperature
				continue
			}
			digits, _, _ := strings.Cut(part, " (")
			if !strings.Contains(digits, "E") {
				continue
			}
			compared++
			if !roundsTo(r, digits) {
				t.Errorf("%s: %s does not round to %s", c.symbol, r.FloatString(12), digits)
			}
		}
	}
	if compared < 55 {
		t.Errorf("only %d printed factors compared", compared)
	}
	if roundsTo(big.NewRat(68948, 10), "6.894 757 E+03") {
		t.Error("a rounded psi passes for the printed one")
	}
}

// Every unit reads back from its normal form, and has one in each dimension.
func TestSymbolsReadBack(t *testing.T) {
	type key struct {
		s string
		d Dimension
	}
	seen := map[key]bool{}
	n := 0
	for u := range Units() {
		n++
		got, p := ReadUnit(u.Symbol(), Of(u.Dimension()))
		if p != nil || got != u {
			t.Errorf("ReadUnit(%q, %s) = %v, %v", u.Symbol(), u.Dimension(), got, p)
		}
		k := key{u.Symbol(), u.Dimension()}
		if seen[k] {
			t.Errorf("two units %v", k)
		}
		seen[k] = true
		if by, ok := UnitBySymbol(u.Symbol()); !ok || by.Symbol() != u.Symbol() || by > u {
			t.Errorf("UnitBySymbol(%q) = %v, %v", u.Symbol(), by, ok)
		}
		f, pi := u.Factor()
		exact, _ := f.Float64()
		if pi == 1 {
			exact *= math.Pi
		}
		if got := u.scale().factor; abs(got-exact) > 1e-15*exact {
			t.Errorf("%s: float factor %v, want %v", u, got, exact)
		}
		for _, x := range []float64{1, -40, 1234.5} {
			if back := u.FromSI(u.ToSI(x)); abs(back-x) > 1e-12*abs(x) {
				t.Errorf("%s: %v there and back is %v", u, x, back)
			}
		}
	}
	if n < 130 {
		t.Errorf("%d units", n)
	}
	if _, ok := UnitBySymbol("nm"); ok {
		t.Error("UnitBySymbol reads a spelling")
	}
	if s := Unit(60000).Symbol() + Unit(0).Symbol(); s != "" {
		t.Errorf("no unit has the symbol %q", s)
	}
	if Unit(60000).ToSI(3) != 3 {
		t.Error("no unit converts")
	}
}

func TestDimensionNames(t *testing.T) {
	for d := Torque; d < dimensions; d++ {
		si := d.SI()
		if f, pi := si.Factor(); si == 0 || f.Cmp(big.NewRat(1, 1)) != 0 || pi != 0 {
			t.Errorf("%s: SI unit %q has factor %v", d, si, f)
		}
		if len(d.usual()) == 0 {
			t.Errorf("%s: no usual unit", d)
		}
	}
	for _, tt := range []struct{ got, want string }{
		{Torque.String(), "torque"},
		{RotationalSpeed.String(), "rotational speed"},
		{Dimension(99).String(), "unknown dimension"},
		{Torque.SI().Symbol(), "N·m"},
		{Ratio.SI().Symbol(), "%"},
		{Number.SI().Symbol(), ""},
		{Dimension(99).SI().Symbol(), ""},
		{Of(Torque).String(), "a torque"},
		{Of(Torque, Ratio).String(), "a share or a torque"},
		{Of(Angle, Number, Time).String(), "a number without unit, an angle or a time"},
		{Kind(99).String(), "unknown kind"},
		{CutShort.String(), "cut short"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}

// Where martinlindhe/unit is rounded, and where it agrees. The exact values are
// those of NIST SP 811 Appendix B.8; the library states its own in its sources.
func TestLibraryConstants(t *testing.T) {
	for _, tt := range []struct {
		symbol  string
		library float64
		rounded bool
	}{
		{"psi", float64(unit.PoundsPerSquareInch), true}, // 6894.8 Pa
		{"lbf", float64(unit.PoundForce), true},          // 4.448222 N
		{"Torr", float64(unit.Torr), true},               // 133.3224 Pa, the rounded mmHg
		{"inHg", float64(unit.InchOfMercury), true},      // 3386.389 Pa
		{"km/h", float64(unit.KilometersPerHour), true},  // 0.277778 m/s
		{"N", float64(unit.Newton), false},
		{"kgf", float64(unit.KilogramForce), false},
		{"dyn", float64(unit.Dyne), false},
		{"bar", float64(unit.Bar), false},
		{"mbar", float64(unit.Millibar), false},
		{"atm", float64(unit.Atmosphere), false},
		{"at", float64(unit.TechAtmosphere), false},
		{"in", float64(unit.Inch), false},
		{"ft", float64(unit.Foot), false},
		{"yd", float64(unit.Yard), false},
		{"mi", float64(unit.Mile), false},
		{"in³", float64(unit.CubicInch), false},
		{"ft³", float64(unit.CubicFoot), false},
		{"US gal", float64(unit.USLiquidGallon), false},
		{"US qt", float64(unit.USLiquidQuart), false},
		{"US pt", float64(unit.USLiquidPint), false},
		{"US fl oz", float64(unit.USFluidOunce), false},
		{"imp gal", float64(unit.ImperialGallon), false},
		{"imp qt", float64(unit.ImperialQuart), false},
		{"imp pt", float64(unit.ImperialPint), false},
		{"imp fl oz", float64(unit.ImperialFluidOunce), false},
		{"lb", float64(unit.AvoirdupoisPound), false},
		{"oz", float64(unit.AvoirdupoisOunce), false},
		{"t", float64(unit.Tonne), false},
		{"°", float64(unit.Degree), false},
		{"mph", float64(unit.MilesPerHour), false},
	} {
		u, ok := UnitBySymbol(tt.symbol)
		if !ok {
			t.Fatalf("no unit %s", tt.symbol)
		}
		f, pi := u.Factor()
		exact, _ := f.Float64()
		if pi == 1 {
			exact *= math.Pi
		}
		off := abs(tt.library/exact - 1)
		if tt.rounded && (off < 1e-9 || off > 1e-5) {
			t.Errorf("%s: the library is off by %.2g and was rounded when this was written", tt.symbol, off)
		}
		if !tt.rounded && off > 3e-16 { // a float step or two
			t.Errorf("%s: the library has %v, exact is %v", tt.symbol, tt.library, exact)
		}
	}
	// Units that are not in our table, rounded in the library: poundal is
	// lb·ft/s² = 0.138254954376 N, knot 1852/3600 m/s.
	if float64(unit.Poundal) == 0.138254954376 || float64(unit.Knot) == 1852.0/3600 {
		t.Error("poundal or knot is exact now")
	}
	// Its temperatures come back with float dust.
	if got := unit.FromFahrenheit(212).Celsius(); got == 100 || abs(got-100) > 1e-9 {
		t.Errorf("library: 212 °F is %v °C", got)
	}
	q, _ := Parse("212 °F", Of(Temperature), Point)
	c, _ := UnitBySymbol("°C")
	if got, err := q.To(c, false); err != nil || got.ExactLo != "100" {
		t.Errorf("212 °F is %s °C, %v; want 100", got.ExactLo, err)
	}
}
