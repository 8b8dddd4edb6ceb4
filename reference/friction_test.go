package reference

import (
	"math"
	"strings"
	"testing"
)

var threadWords = []string{"dry", "oiled", "moly", "anti-seize", "waxed", "threadlocker", "plated", "as received"}

// Intervals that a condition must hold, typed from print.
func TestFrictionHoldsWhatIsPrinted(t *testing.T) {
	for _, c := range []struct {
		word   string
		lo, hi float64
		source string
	}{
		{"moly", 0.04, 0.10, "VDI 2230-1 Table A5 class A"},
		{"moly", 0.08, 0.16, "VDI 2230-1 Table A5 class B"},
		{"anti-seize", 0.04, 0.16, "VDI 2230-1 Table A5 classes A and B"},
		{"waxed", 0.04, 0.10, "VDI 2230-1 Table A5 class A"},
		{"oiled", 0.11, 0.17, "Shigley Table 8-5, machine oil"},
		{"oiled", 0.08, 0.16, "VDI 2230-1 Table A5 class B"},
		{"dry", 0.15, 0.25, "Shigley Table 8-5, dry steel"},
		{"dry", 0.20, 0.35, "VDI 2230-1 Table A5 class D"},
		{"threadlocker", 0.14, 0.24, "VDI 2230-1 Table A5 class C"},
		{"plated", 0.20, 0.35, "VDI 2230-1 Table A5 class D"},
		{"as received", 0.14, 0.24, "VDI 2230-1 Table A5 class C"},
		{"", 0.04, 0.35, "VDI 2230-1 Table A5, all"},
	} {
		mu, _ := Friction(c.word)
		if mu.Lo > c.lo || mu.Hi < c.hi {
			t.Errorf("%q: %.3f to %.3f does not hold %v to %v (%s)", c.word, mu.Lo, mu.Hi, c.lo, c.hi, c.source)
		}
	}
	for _, c := range []struct {
		word   string
		lo, hi float64
		source string
	}{
		{"moly", 0.11, 0.12, "Shigley Table 8-15 and an aviation torque example"},
		{"oiled", 0.10, 0.26, "fastener maker chart of measured nut factors"},
		{"dry", 0.18, 0.27, "fastener maker chart, steel on steel dry"},
		{"dry", 0.30, 0.50, "fastener maker chart, 302 on 302"},
		{"waxed", 0.10, 0.14, "fastener vendor guide"},
		{"threadlocker", 0.11, 0.14, "adhesive data sheet"},
		{"plated", 0.17, 0.35, "fastener maker chart, zinc"},
		{"", 0.086, 0.52, "Handbook of Bolts and Bolted Joints"},
	} {
		if k := NutFactor(c.word); k.Lo > c.lo || k.Hi < c.hi-1e-9 {
			t.Errorf("%q: K %.3f to %.3f does not hold %v to %v (%s)", c.word, k.Lo, k.Hi, c.lo, c.hi, c.source)
		}
	}
}

func TestFrictionWords(t *testing.T) {
	all, known := Friction("")
	if known {
		t.Error("no condition is no known condition")
	}
	for _, w := range threadWords {
		mu, known := Friction(w)
		usual, knownUsual := UsualFriction(w)
		if !known || !knownUsual {
			t.Errorf("%s is not known", w)
		}
		if mu.Lo < all.Lo || mu.Hi > all.Hi {
			t.Errorf("%s: %.3f to %.3f is outside the union %.3f to %.3f", w, mu.Lo, mu.Hi, all.Lo, all.Hi)
		}
		if usual.Lo < mu.Lo || usual.Hi > mu.Hi || usual.Lo >= usual.Hi {
			t.Errorf("%s: usual %.3f to %.3f against %.3f to %.3f", w, usual.Lo, usual.Hi, mu.Lo, mu.Hi)
		}
		if mu.Source.Seen != Computed || !strings.Contains(mu.Source.Text, "rows ") {
			t.Errorf("%s does not say which rows: %s", w, mu.Source)
		}
	}
	for _, c := range []struct{ other, word string }{
		{"Lubricated", "oiled"}, {"other: greased", "oiled"}, {"MoS2", "moly"}, {"zinc plated", "plated"}, {"clean and dry", "dry"}, {" Dry ", "dry"},
	} {
		got, known := Friction(c.other)
		if want, _ := Friction(c.word); !known || got != want {
			t.Errorf("%q is not read as %s", c.other, c.word)
		}
	}
	for _, w := range []string{"sealant", "other: molasses", "?"} {
		mu, known := Friction(w)
		if known || mu != all || NutFactor(w) != NutFactor("") {
			t.Errorf("%q must give the union, not known", w)
		}
		if _, known := UsualFriction(w); known {
			t.Errorf("%q is known", w)
		}
	}
}

// K and mu of the README of VDI 2230: 0.13, 0.16, 0.18 for 0.10, 0.12, 0.14;
// 0.20 for 0.15, 0.26 for 0.20, 0.37 for 0.30.
func TestNutFactorOfCoefficient(t *testing.T) {
	for _, c := range [][2]float64{{0.10, 0.13}, {0.12, 0.16}, {0.14, 0.18}, {0.15, 0.20}, {0.20, 0.26}, {0.30, 0.37}} {
		if got := kOf(c[0]); math.Abs(got/c[1]-1) > 0.05 {
			t.Errorf("mu %v: K %.3f, want %v within 5 %%", c[0], got, c[1])
		}
		if back := muOf(kOf(c[0])); math.Abs(back-c[0]) > 1e-12 {
			t.Errorf("there and back: %v", back)
		}
	}
}

func TestOutermostNutFactor(t *testing.T) {
	k := OutermostNutFactor()
	if k.Lo != 0.086 || k.Hi != 0.52 || k.Source.ID != "bolt-handbook" {
		t.Errorf("%+v", k)
	}
}

// Every name in friction-words.csv finds rows.
func TestFrictionWordsFindRows(t *testing.T) {
	for _, r := range mustTable("friction-words.csv") {
		for _, column := range []string{"usual", "all"} {
			for name := range strings.SplitSeq(r.text(column), "; ") {
				found := false
				for _, f := range frictionRows() {
					found = found || strings.HasPrefix(f.condition, name)
				}
				if !found {
					t.Errorf("%s, %s: no row begins with %q", r.text("word"), column, name)
				}
			}
		}
	}
}
