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
		{"Tr 20x4", "Tr 20x4", "pitch", "4 mm"},
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
		{"cadmium", "cadmium", "K, typical", "0.16"},
		{"cast  aluminium", "tapped cast aluminium", "tensile strength", "213 to 330 MPa"},
		{"AZ91D", "magnesium AZ91D, die cast", "shear strength", "140 MPa"},
		{"AZ91D", "magnesium AZ91D, die cast, other source", "tensile strength", "160 to 200 MPa"},
		{"hot-oil", "WARNING (hot-oil)", "goes with", "torque, fill"},
		{"warning", "WARNING (signal-warning)", "definition", "Could kill or seriously injure if not avoided."},
		{"vdi-2230", "vdi-2230", "document", Cite("vdi-2230").Text},
		{"hot band", "fill: hot band of a transmission dipstick", "to", "149"},
	} {
		if !found(Look(c.term), c.title, c.label, c.value) {
			t.Errorf("%q: no %q: %q under %q in\n%s", c.term, c.label, c.value, c.title, printed(Look(c.term)))
		}
	}
	for _, term := range []string{"", " ", "nothing at all", "8.7", "?"} {
		if got := Look(term); len(got) != 0 {
			t.Errorf("%q: %s", term, printed(got))
		}
	}
	for _, term := range []string{"M8", "1/4", "SAE 5", "lb", "oiled", "steel", "torque", "dipstick", "notice"} {
		for _, e := range Look(term) {
			if e.Title == "" || len(e.Lines) == 0 || e.Source.Text == "" {
				t.Errorf("%q: an entry without title, lines or source: %+v", term, e)
			}
		}
	}
	// A size is not a list of grades.
	for _, e := range Look("1/4") {
		if strings.HasPrefix(e.Title, "SAE") || strings.Contains(e.Title, "nut") {
			t.Errorf("1/4 is looked up as %s", e.Title)
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
