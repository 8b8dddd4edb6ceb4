package reference

import (
	"strings"
	"testing"
)

func TestTappedHoldsWhatIsPrinted(t *testing.T) {
	for _, c := range []struct {
		into           string
		shear, tensile float64
		source         string
	}{
		{"cast aluminium", 186, 324, "NADCA A-3-2, A380"},
		{"cast aluminium", 131, 317, "SAE J453, lowest shear"},
		{"cast aluminium", 221, 276, "356.0-T6 permanent mould"},
		{"cast iron", 262, 207, "SAE J431 G3000: shear exceeds tensile in grey iron"},
		{"cast iron", 330, 350, "EN 1561, class 35"},
		{"cast iron", 440, 490, "ASTM A536: the words leave ductile iron open"},
		{"ductile iron", 400, 448, "ASTM A536 65-45-12"},
		{"steel", 241, 324, "SAE 1010"},
		{"steel", 600, 1040, "a nut may be as strong as a 10.9 screw"},
		{"wrought aluminium", 207, 310, "Aluminum Association, 6061-T6"},
		{"magnesium", 140, 230, "NADCA, AZ91D"},
		{"stainless steel", 420, 700, "ISO 3506, class 70"},
		{"brass", 207, 338, "from memory"},
	} {
		shear, tensile, known := Tapped(c.into)
		if !known || c.shear < shear.Lo || c.shear > shear.Hi || c.tensile < tensile.Lo || c.tensile > tensile.Hi {
			t.Errorf("%s: %v to %v and %v to %v MPa do not hold %v and %v (%s)", c.into, shear.Lo, shear.Hi, tensile.Lo, tensile.Hi, c.shear, c.tensile, c.source)
		}
	}
	for _, into := range []string{"plastic", "", "other: oak"} {
		if _, _, known := Tapped(into); known {
			t.Errorf("nothing is known of %q", into)
		}
	}
	a, _, _ := Tapped("Aluminium")
	b, _, _ := Tapped("cast aluminium")
	if a != b || a.Source.IsZero() {
		t.Error("aluminium alone is read as cast, the weaker")
	}
}

// The spans hold every row of the table they name.
func TestTappedHoldsItsRows(t *testing.T) {
	for into, m := range materials() {
		if m.rows == "" {
			continue
		}
		for name := range strings.SplitSeq(m.rows, "; ") {
			found := false
			for _, r := range mustTable("female-strength.csv") {
				if !strings.Contains(r.text("material"), name) || strings.HasPrefix(r.text("material"), "RANGE") {
					continue
				}
				found = true
				for _, what := range []struct {
					column string
					in     Interval
				}{{"shear", m.shear}, {"tensile", m.tensile}} {
					lo, hi := r.number(what.column+"_MPa"), r.number(what.column+"_max_MPa")
					if lo > 0 && (lo < what.in.Lo || max(lo, hi) > what.in.Hi) {
						t.Errorf("%s: %s of %s, %v to %v, is outside %v to %v", into, what.column, r.text("material"), lo, hi, what.in.Lo, what.in.Hi)
					}
				}
			}
			if !found {
				t.Errorf("%s: no row of female-strength.csv is called %q", into, name)
			}
		}
	}
}
