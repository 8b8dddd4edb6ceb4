package reference

import (
	"fmt"
	"strings"
	"testing"
)

func TestLook(t *testing.T) {
	for _, c := range []struct{ term, title, label, value string }{
		{"M8", "M8x1.25", "stress area", "36.6 mm²"},
		{"M8", "M8x1.25", "same size", "M8x1, M8x0.75"},
		{"M8x1.25", "M8x1.25", "clearance hole, ISO 273 medium", "9 mm (seen in two sources)"},
		{"M8x1.25", "M8x1.25", "hex, ISO 4014 / ISO 4017 grade A", "bears on 11.63 mm (seen in two sources)"},
		{"M8x1.5", "M8x1.5", "series", "not listed, worked out by the profile"},
		{"M25", "M25x1.5", "pitch", "1.5 mm"},
		{"1/4-20", "1/4-20 UNC", "tensile stress area", "20.52 mm² (0.0318 in²)"},
		{"1/4", "1/4-28 UNF", "pitch", "0.9071 mm (28 per inch)"},
		{"1/4 UNF", "1/4-28 UNF", "same size", "1/4-20 UNC, 1/4-32 UNEF"},
		{"G 1/2", "G 1/2", "thread", "parallel pipe thread"},
		{"Tr 20x4", "Tr 20x4", "pitch", "4 mm"}, // its source: known by name
		{"#8 tapping", "#8 tapping screw", "thread", "other thread: it cuts its own, and no table of metric or inch threads holds for it"},
		{"UNC 1/4-20", "1/4-20 UNC", "series", "UNC"},
		{"10.9", "10.9, bolt from M1.6 to M39", "proof stress", "830 MPa"},
		{"8.8", "8.8, bolt over M16 to M39", "tensile strength, least", "830 MPa"},
		{"SAE 5", "SAE 5, bolt over 1 to 1-1/2 in", "proof stress", "510.2 MPa (74 ksi)"},
		{"8", "8, nut from M8 to M10", "proof stress", "870 MPa"},
		{"lbf·in", "lbf·in", "factor", "1 lbf·in = 0.1129848290276167 N·m"},
		{"psi", "psi", "factor", "1 psi = 8896443230521/1290320000 Pa"},
		{"°F", "°F", "absolute zero", "-459.67 °F"},
		{"qt", "imp qt", "factor", "1 imp qt = 0.0011365225 m³"},
		{"rpm", "rpm", "factor", "1 rpm = 1/30·π rad/s"},
		{"oiled", "threads oiled", "coefficient of friction, any material", "0.07 to 0.35"},
		{"cadmium", "cadmium", "nut factor K, typical", "0.16"},
		{"cast  aluminium", "tapped cast aluminium", "tensile strength", "213 to 330 MPa"},
		{"AZ91D", "magnesium AZ91D, die cast", "shear strength", "140 MPa"},
		{"AZ91D", "magnesium AZ91D, die cast, other source", "tensile strength", "160 to 200 MPa"},
		{"hot-oil", "WARNING (hot-oil)", "goes with", "torque, fill"},
		{"warning", "WARNING (signal-warning)", "definition", "Could kill or seriously injure if not avoided."},
		{"vdi-2230", "vdi-2230", "document", Cite("vdi-2230").Text},
		// Rules of practice as rules.csv has them, TM 9-2320-362-14&P table F-1.
		{"grade 5", "torque: general figure, inch grade 5", "7/16", "43 lbf·ft"},
		{"metric high grade", "torque: general figure, metric high grade", "M20", "541 N·m"},
		{"aluminium without inserts", "torque: reduce for capscrews into aluminium without inserts", "value", "-30 % or more"},
		{"preload scatter", "torque: preload scatter with a torque wrench", "value", "±25 to 30 %"},
		{"setting tool", "torque: setting tool type II class A, up to 10 N·m", "value", "±6 %"},
		{"snug", "torque: angle stage after a snug torque", "remark", "normally multiples of 15"},
		{"rotating torque", "torque: bearing rotating torque (preload)", "used", "half"},
		{"end play, military", "clearance: crankshaft end play, military diesel", "worn limit", "0.026 in"},
		{"journal", "clearance: crank main and rod bearing oil clearance, most on a 2.716 in journal", "value", "up to 0.0035 in"},
		{"bearing oil clearance", "clearance: crank main and rod bearing oil clearance", "remark", "met from 0.0005 to 0.0015"},
		{"pull the dipstick", "level: automatic transmission, dipstick: do not pull the dipstick above", "value", "104 °C (220 °F)"},
		{"hot band", "fill: hot band of a transmission dipstick", "value", "71 to 149 °C (160 to 300 °F)"},
		// ISO 965-2 limits 6g: M10x1.25, fastener handbook.
		{"M10x1.25-6g", "limits of size of M10x1.25", "screw 6g, pitch diameter", "9.042 to 9.160 mm"},
		{"M10", "limits of size of M10x1.5", "nut 6H, minor diameter", "8.376 to 8.676 mm"},
		{"M10x1.5-6H/4g6g", "limits of size of M10x1.5", "screw 4g6g, major diameter", "9.732 to 9.968 mm"},
		{"1/4-20 UNC-2A", "limits of size of 1/4-20 UNC", "nut 2B, minor diameter", "4.978 to 5.258 mm"}, // 0.196 to 0.207 in
		// ISO 2320 (1997), from memory; FAA AC 43.13-1B table 7-2.
		{"M8", "locking nuts on M8", "class 8 nut, ISO 2320 / DIN 267-15 first assembly, most allowed", "max 6 N·m"},
		{"1/2", "locking nuts on 1/2-13", "self-locking nut, re-used, prevailing torque, least allowed", "min 10 lb-in (converted: min 1.13 N·m)"},
		{"1/4", "locking nuts on 1/4-20", "self-locking nut, re-used, finger test", "re-use only if fingers cannot run it on"},
		{"M8", "set screw, hexagon socket", "M8, ISO 4026 to 4029, class 45H: test (proof) torque of the socket, a ceiling", "max 20 N·m"},
		{"G 1/2", "pipe thread fitting", "1/2, Uni thread with gasket into G female, in metal", "14 to 15 N·m"},
		// Limit deviations, sources at TestLimitDeviation.
		{"H7", "hole H7, limit deviations", "over 18 to 30 mm", "+21 / 0 µm"},
		{"g6", "shaft g6, limit deviations", "over 18 to 30 mm", "-7 / -20 µm"},
		{"js6", "shaft js6, limit deviations", "over 18 to 30 mm", "+6.5 / -6.5 µm"},
		{"s6", "shaft s6, limit deviations", "over 30 to 50 mm", "+59 / +43 µm"},
		{"K9", "hole K9, limit deviations", "over 0 to 3 mm", "0 / -25 µm"},
		{"H7/p6", "shaft p6, limit deviations", "over 18 to 30 mm", "+35 / +22 µm"},
		{"25 H7", "25 mm, hole H7", "limits of size", "25.000 to 25.021 mm"},
		{"ø28 js6", "28 mm, shaft js6", "limits of size", "27.9935 to 28.0065 mm"},
		{"25 mm H7/g6", "25 mm, H7/g6", "clearance", "7 to 41 µm"},
		{"50 H7/s6", "50 mm, H7/s6", "kind", "interference"},
		{"IT7", "IT7, standard tolerance", "over 18 to 30 mm", "21 µm"},
		{"IT 01", "IT01, standard tolerance", "over 18 to 30 mm", "0.6 µm"},
		{"ISO 2768-mK", "general tolerances, linear, class m", "over 6 to 30 mm", "±0.2 mm"},
		{"2768", "general tolerances, angular, class c", "over 0 to 10 mm", "±1°30'"},
		{"ISO 2768-v", "general tolerances, angular, class v", "over 400 mm", "±20'"},
		{"iso 2768 f", "general tolerances, radius, class f", "from 0.5 to 3 mm", "±0.2 mm"},
		// Fluids, sources at TestFluidFigures.
		{"ATF", "ATF, automatic transmission fluid", "kinematic viscosity at 100 °C", "4 to 7.7 mm²/s"},
		{"ISO VG 46", "ISO VG 46, hydraulic oil", "kinematic viscosity at 40 °C", "41.4 to 50.6 mm²/s"},
		{"VG46", "ISO VG 46, hydraulic oil", "volume coefficient at 15 °C", "0.000726 1/K"},
		{"SAE 10W", "SAE 10W, engine oil", "pumping viscosity at -30 °C", "max 60000 mPa·s"},
		{"DOT 4", "DOT 4, brake fluid", "boiling point, wet", "min 155 °C"},
		{"mineral oil", "mineral oil", "density at 15 °C", "860 to 980 kg/m³"},
		{"copper", "inferred temperature of zero resistance of copper", "value", "-234.5 °C"},
		{"aluminium", "temperature coefficient of resistance of aluminium at 20 °C", "value", "0.00403 1/K"},
		{"spark plug", "spark plug", "14 mm, flat seat with gasket, in aluminium", "25 to 30 N·m"},
		{"hose clamps", "hose clamp, worm drive", "band 13.5 mm, new hose", "4.0 to 5.0 N·m"},
		{"hose clamp", "hose clamp, worm drive", "band 1/2 in, most uses", "35 lb-in (converted: 3.95 N·m)"},
		{"banjo", "banjo bolt", "copper or aluminium washers each side", "no published table here: use the maker figure, never a plain-bolt table"},
		{"tube nut", "flare nut 37 deg", "dash -32 (2-1/2-12), hose and machined fitting seat, in steel", "0.75 flat"},
		{"prevailing torque", "locking nuts", "rule", "final torque = table torque + running (drag, tare) torque"},
		{"crush washer", "copper crush washer", "rule", "renew; a solid one may be annealed"},
		{"split pins", "cotter pin", "renew", "always"},
		{"circular flange", "pattern: circular flange", "part of the final torque", "25 / 50 / 100 / 100 %"},
		{"pattern", "pattern: wheel", "rule", "opposite nuts alternately"},
		{"torque wrench", "torque wrench: permissible deviation", "type II, class A, above 10 N·m", "-4 to 4 % (adjustable wrench with scale)"},
		{"wrench", "torque wrench: after a drop", "rule", "check before use"},
		{"resolution", "torque wrench: resolution of an electronic wrench", "type I, class C, E, 2017 edition", "up to 0.25 of the permissible deviation at that reading"},
	} {
		if !found(Look(c.term), c.title, c.label, c.value) {
			t.Errorf("%q: no %q: %q under %q in\n%s", c.term, c.label, c.value, c.title, printed(Look(c.term)))
		}
	}
	for _, term := range []string{"", " ", "nothing at all", "8.7", "?", "25 H", "25 q9", "600 H7", "u6", "IT19", "25 K9"} {
		if got := Look(term); len(got) != 0 {
			t.Errorf("%q: %s", term, printed(got))
		}
	}
	for _, term := range []string{"M8", "1/4", "SAE 5", "lb", "oiled", "steel", "torque", "dipstick", "notice", "Tr 20x4", "1 BSW"} {
		for _, e := range Look(term) {
			if e.Title == "" || len(e.Lines) == 0 || e.Source.Text == "" {
				t.Errorf("%q: an entry without title, lines or source: %+v", term, e)
			}
		}
	}
	// A full designation asks for the thread alone, M8 is no hole, and what cannot
	// be worked out at a size leaves the rest.
	if got := Look("M8x1.25"); len(got) != 1 {
		t.Errorf("M8x1.25: %s", printed(got))
	}
	if got := printed(Look("M8")); strings.Contains(got, "hole M8") {
		t.Errorf("M8: %s", got)
	}
	if got := Look("25 H7/u6"); len(got) != 1 || got[0].Title != "25 mm, hole H7" {
		t.Errorf("25 H7/u6: %s", printed(got))
	}
	if got := printed(Look("M8x1.25-9z")); strings.Contains(got, "limits") {
		t.Errorf("M8x1.25-9z: %s", got)
	}
	if got := printed(Look("M8x1.25-5g")); strings.Contains(got, "limits of size") { // no tolerance Td of grade 5
		t.Errorf("M8x1.25-5g: %s", got)
	}
	// A size is not a list of grades.
	for _, e := range Look("1/4") {
		if strings.HasPrefix(e.Title, "SAE") || strings.Contains(e.Title, ", nut") {
			t.Errorf("1/4 is looked up as %s", e.Title)
		}
	}
}

// Whatever holds for no machine in particular says so where it stands.
func TestLookIsNoSpecification(t *testing.T) {
	for _, term := range []string{
		"spark plug", "hose clamp", "drain plug", "wheel nut", "prevailing torque", "crush washer", "gasket", "ATF", "ISO VG 46", "SAE 15W-40",
		"DOT 4", "circular flange", "torque wrench", "oiled", "dipstick", "backlash",
	} {
		list := Look(term)
		if len(list) == 0 {
			t.Errorf("%q: nothing is known", term)
		}
		for _, e := range list {
			if !strings.Contains(fmt.Sprint(e.Lines), "not a specification") && e.Title != "WARNING ("+term+")" {
				t.Errorf("%q: %s does not say that it is no specification", term, e.Title)
			}
		}
	}
}

func found(list []Entry, title, label, value string) bool {
	for _, e := range list {
		if e.Title != title {
			continue
		}
		for _, l := range e.Lines {
			if l[0] == label && l[1] == value {
				return true
			}
		}
	}
	return false
}

func printed(list []Entry) string {
	var b strings.Builder
	for _, e := range list {
		fmt.Fprintln(&b, e.Title)
		for _, l := range e.Lines {
			fmt.Fprintf(&b, "  %s: %s\n", l[0], l[1])
		}
	}
	return b.String()
}

func BenchmarkLook(b *testing.B) {
	for b.Loop() {
		Look("M8x1.25")
	}
}

func ExampleLook() {
	for _, e := range Look("10.9") {
		fmt.Println(e.Title)
		for _, l := range e.Lines {
			fmt.Printf("  %s: %s\n", l[0], l[1])
		}
		fmt.Println(" ", e.Source)
	}
	// Output:
	// 10.9, bolt from M1.6 to M39
	//   standard: ISO 898-1
	//   tensile strength, least: 1040 MPa
	//   yield, least: 940 MPa
	//   proof stress: 830 MPa
	//   ISO 898-1:2013 Table 3 (and 1999 edition Table 3)
}

func FuzzLook(f *testing.F) {
	for _, s := range []string{"M8", "25 H7/g6", "IT7", "ISO 2768-mK", "SAE 15W-40", "1/2", "G 1/2", "crush washer", "lock nut", "wrench", "qt", "M8x1.25-5g6g"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, e := range Look(s) {
			if e.Title == "" || len(e.Lines) == 0 || e.Source.Text == "" {
				t.Fatalf("%q: an entry without title, lines or source: %+v", s, e)
			}
			for _, l := range e.Lines {
				if l[0] == "" || l[1] == "" || strings.Contains(l[1], "NaN") || strings.Contains(l[1], "Inf") {
					t.Fatalf("%q: %s has the line %q", s, e.Title, l)
				}
			}
		}
	})
}

// What is noted for checks is not for people, nor are figures in a row without
// the sizes they are for.
func TestLookRulesAreForPeople(t *testing.T) {
	shown := 0
	for _, area := range []string{"torque", "clearance", "fill", "level", "electrical", "pressure", "units"} {
		for _, e := range lookRules(area) {
			shown++
			text := printed([]Entry{e})
			for _, word := range []string{"warn", "hint", "explain", "error outside", "error below", "order-of-magnitude", "as above", "exactly 1", " same", "/15/", "..", "deg\n", "last digit"} {
				if strings.Contains(text, word) {
					t.Errorf("%q in\n%s", word, text)
				}
			}
		}
	}
	if all := len(Rules("")) - len(Rules("units")); shown < all {
		t.Errorf("%d rules shown, there are %d", shown, all)
	}
}
