package reference

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Limit deviations as published, µm.
func TestLimitDeviation(t *testing.T) {
	for _, c := range []struct {
		nominal      float64
		class        string
		upper, lower float64
	}{
		{25, "H7", 21, 0},        // JIS B 0401 (1999) hole table, technical page; ISO hole table 6, mould-base catalogue
		{25, "g6", -7, -20},      // JIS B 0401 (1999) shaft table, tool maker page
		{40, "H7", 25, 0},        // JIS B 0401 hole table E7..H10, coupling maker page
		{40, "k6", 18, 2},        // JIS B 0401 (1999) shaft table, tool maker page
		{20, "p6", 35, 22},       // JIS B 0401 (1999) shaft table, tool maker page
		{8, "f7", -13, -28},      // JIS B 0401 (1999) shaft table, tool maker page
		{50, "s6", 59, 43},       // textbook worked example H7-s6, 50 mm; JIS B 0401 (1999) shaft table
		{12, "n6", 23, 12},       // JIS B 0401 (1999) shaft table, tool maker page
		{28, "js6", 6.5, -6.5},   // JIS B 0401 (1999) shaft table, tool maker page
		{35, "K7", 7, -18},       // ISO hole table 6, mould-base catalogue
		{22, "M7", 0, -21},       // ISO hole table 6, mould-base catalogue
		{15, "P7", -11, -29},     // JIS B 0401 (1999) hole table, technical page
		{27, "R7", -20, -41},     // ISO hole table 6, mould-base catalogue; JIS B 0401 (1999) hole table
		{9, "S7", -17, -32},      // JIS B 0401 (1999) hole table, technical page
		{70, "h9", 0, -74},       // cutting-tool catalogue, shaft tolerances h1 to h9
		{35, "F8", 64, 25},       // JIS B 0401 hole table E7..H10, coupling maker page
		{25, "G7", 28, 7},        // JIS B 0401 hole table E7..H10, coupling maker page
		{100, "E8", 126, 72},     // ISO 286-2:1988/Cor.1:2006: +126, printed +125 before
		{280, "M6", -9, -41},     // textbook table 15.3, note: -9 instead of -11
		{170, "K8", 20, -43},     // ISO hole table 6, mould-base catalogue
		{250, "M6", -8, -37},     // the exception begins over 250 mm: -17 + 9, by the tables
		{3, "K6", 0, -6},         // no Delta up to 3 mm: by the tables
		{2, "K9", 0, -25},        // K beyond 8 up to 3 mm only: by the tables
		{25, "N9", 0, -52},       // no Delta beyond IT8: by the tables
		{25, "P8", -22, -55},     // no Delta for P beyond IT7: by the tables
		{25, "k8", 33, 0},        // k is 0 outside IT4 to IT7: by the tables
		{25, "JS7", 10.5, -10.5}, // half of IT7 exactly
		{25, "h01", 0, -0.6},     // IT01: by the tables
	} {
		upper, lower, source, err := LimitDeviation(c.nominal, c.class)
		if err != nil || math.Abs(upper-c.upper) > 1e-9 || math.Abs(lower-c.lower) > 1e-9 {
			t.Errorf("%v %s: got %v, %v, %v, want %v, %v", c.nominal, c.class, upper, lower, err, c.upper, c.lower)
		}
		if source.ID != "iso-286" || source.Seen != Computed || !strings.Contains(source.Text, "over ") {
			t.Errorf("%v %s: source %+v", c.nominal, c.class, source)
		}
	}
}

// Delta is IT(n) − IT(n−1) by ISO 286-1; the ranges leave no gap; a grade is
// coarser than the one before, and so is a size.
func TestTablesOf286(t *testing.T) {
	tab := iso286()
	last := 0.0
	for _, r := range tab.tolerances {
		if r.over != last {
			t.Errorf("a gap or overlap at %v mm", last)
		}
		last = r.upTo
		for i := 1; i < len(r.um); i++ {
			if r.um[i] <= r.um[i-1] {
				t.Errorf("%v: IT%s is not above IT%s", r.sizeRange, gradeName(i-1), gradeName(i-2))
			}
		}
	}
	if last != mostSize {
		t.Errorf("the tables end at %v mm", last)
	}
	for _, d := range tab.deviations["Delta"] {
		if d.upTo <= 3 {
			continue // none is added there
		}
		it := tab.tolerance(d.upTo).um
		if got, want := d.um, it[d.gradeMin+1]-it[d.gradeMin]; math.Abs(got-want) > 1e-9 {
			t.Errorf("Delta of IT%d %v is %v, the tolerances differ by %v", d.gradeMin, d.sizeRange, got, want)
		}
	}
	for letter, list := range tab.deviations {
		ends := make(map[string]float64)
		for _, d := range list {
			key := fmt.Sprint(d.gradeMin, d.gradeMax)
			if letter != "Delta" && d.over != ends[key] {
				t.Errorf("%s %s: a gap or overlap at %v mm", letter, key, ends[key])
			}
			ends[key] = d.upTo
		}
	}
	// Holes and shafts of one letter mirror each other (ISO 286-1, general rule).
	for _, mm := range []float64{2, 5, 10, 17, 28, 45, 75, 111, 170, 240, 300, 390, 499} {
		for _, pair := range [][2]string{{"D9", "d9"}, {"E8", "e8"}, {"F8", "f8"}, {"G7", "g7"}, {"H7", "h7"}, {"P9", "p9"}, {"R9", "r9"}, {"S9", "s9"}} {
			up, lo, _, err1 := LimitDeviation(mm, pair[0])
			sUp, sLo, _, err2 := LimitDeviation(mm, pair[1])
			if err1 != nil || err2 != nil || up != -sLo || lo != -sUp {
				t.Errorf("%v mm: %s %v %v does not mirror %s %v %v", mm, pair[0], up, lo, pair[1], sUp, sLo)
			}
		}
		// H7/p6 and P7/h6 are the same fit: what Delta is for.
		for _, pair := range [][2]string{{"H7/p6", "P7/h6"}, {"H7/k6", "K7/h6"}, {"H6/r5", "R6/h5"}} {
			a, err1 := Fit(mm, pair[0])
			b, err2 := Fit(mm, pair[1])
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			if mm > 3 && (a.MaxClearance != b.MaxClearance || a.MinClearance != b.MinClearance) {
				t.Errorf("%v mm: %s has %v to %v, %s %v to %v", mm, pair[0], a.MinClearance, a.MaxClearance, pair[1], b.MinClearance, b.MaxClearance)
			}
		}
	}
}

func TestParseFit(t *testing.T) {
	type fit struct{ Hole, Shaft string }
	for _, c := range []struct {
		text string
		want fit
	}{
		{"H7/g6", fit{"H7", "g6"}}, {" H7 / g6 ", fit{"H7", "g6"}}, {"H7-g6", fit{"H7", "g6"}}, {"H7 g6", fit{"H7", "g6"}},
		{"H 7/g 6", fit{"H7", "g6"}}, {"JS7/h6", fit{"JS7", "h6"}}, {"H7", fit{"H7", ""}}, {"g6", fit{"", "g6"}}, {"H 7", fit{"H7", ""}},
		{"H7⁄g6", fit{"H7", "g6"}}, {"H7–g6", fit{"H7", "g6"}}, {"øH7", fit{"H7", ""}}, {"ZC8/h6", fit{"ZC8", "h6"}}, {"h01", fit{"", "h01"}},
		{"H11/c11", fit{"H11", "c11"}}, {"H0", fit{"H0", ""}},
	} {
		hole, shaft, err := ParseFit(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
		}
		if diff := cmp.Diff(c.want, fit{hole, shaft}); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.text, diff)
		}
	}
	for _, c := range []struct {
		text  string
		fault FitFault
		want  string
	}{
		{"", FitUnreadable, "no fit"}, {"/", FitUnreadable, "no fit"}, {"52H7/", FitUnreadable, "no fit"}, {"H7/", FitUnreadable, "no fit"},
		{"press fit", FitUnreadable, "no fit"}, {"H7/6g", FitUnreadable, "no fit"}, {"H1234", FitUnreadable, "no fit"}, {"H7/x-6", FitUnreadable, "no fit"},
		{"H7/H6", FitUnreadable, "two holes"}, {"g6/h7", FitUnreadable, "two shafts"}, {"g6/H7", FitUnreadable, "write H7/g6"},
		{"I7", FitImpossible, "no deviation I"}, {"H7/w6", FitImpossible, "no deviation w"}, {"HH7", FitImpossible, "no deviation HH"},
		{"Js7", FitImpossible, "mixes capitals"}, {"H19", FitImpossible, "grade 19 does not exist"}, {"H00", FitImpossible, "grade 00 does not exist"},
		{"H07/g6", FitImpossible, "grade 07 does not exist"},
	} {
		_, _, err := ParseFit(c.text)
		wantFault(t, c.text, err, c.fault, c.want)
	}
}

func wantFault(t *testing.T, what string, err error, fault FitFault, text string) {
	t.Helper()
	var e *FitError
	if !errors.As(err, &e) || e.Fault != fault || !strings.Contains(e.Message, text) {
		t.Errorf("%s: got %v, want fault %d with %q", what, err, fault, text)
	}
}

func TestLimitDeviationErrors(t *testing.T) {
	for _, c := range []struct {
		nominal float64
		class   string
		fault   FitFault
		want    string
	}{
		{500.001, "H7", FitOutsideSizes, "over 0 up to 500 mm, not for 500.001 mm"},
		{0, "H7", FitOutsideSizes, "not for 0 mm"},
		{-5, "js6", FitOutsideSizes, "not for -5 mm"},
		{math.NaN(), "H7", FitOutsideSizes, "not for"},
		{math.Inf(1), "H7", FitOutsideSizes, "not for"},
		{25, "K9", FitNotInTables, "K ends at K8"},
		{25, "u6", FitNotInTables, "u6 is not in our tables"},
		{25, "J7", FitNotInTables, "J7 is not in our tables"},
		{25, "K2", FitNotInTables, "K2 is not in our tables of ISO 286 for 25 mm"}, // Delta begins with IT3
		{25, "Q7", FitImpossible, "no deviation Q"},
		{25, "7H", FitUnreadable, "no tolerance class"},
	} {
		_, _, _, err := LimitDeviation(c.nominal, c.class)
		wantFault(t, c.class, err, c.fault, c.want)
	}
	if _, _, err := StandardTolerance(25, 19); err == nil || !strings.Contains(err.Error(), "there is no IT19") {
		t.Errorf("IT19: %v", err)
	}
	if _, _, err := StandardTolerance(501, 7); err == nil {
		t.Error("IT7 of 501 mm: no error")
	}
}

func TestFit(t *testing.T) {
	for _, c := range []struct {
		nominal     float64
		fit         string
		most, least float64 // clearance, µm
		kind        string
	}{
		{25, "H7/g6", 41, 7, "clearance"},       // H7 and g6 at 25 mm, JIS B 0401 tables
		{50, "H7/s6", -18, -59, "interference"}, // textbook worked example H7-s6, 50 mm: H7 +25, s6 +43 to +59
		{40, "H7/k6", 23, -18, "transition"},    // H7 and k6 at 40 mm, JIS B 0401 tables
		{70, "H7/h9", 104, 0, "clearance"},      // least clearance zero is still a clearance fit, ISO 286-1
	} {
		f, err := Fit(c.nominal, c.fit)
		if err != nil || f.MaxClearance != c.most || f.MinClearance != c.least || f.Kind != c.kind {
			t.Errorf("%v %s: got %v to %v, %s, %v, want %v to %v, %s", c.nominal, c.fit, f.MinClearance, f.MaxClearance, f.Kind, err, c.least, c.most, c.kind)
		}
		if f.Source.Seen != Computed || !strings.Contains(f.Source.Text, ";") {
			t.Errorf("%v %s: source %+v", c.nominal, c.fit, f.Source)
		}
	}
	for _, c := range []struct {
		nominal float64
		fit     string
		fault   FitFault
		want    string
	}{
		{25, "H7", FitUnreadable, "one part only"}, {25, "g6", FitUnreadable, "one part only"}, {25, "?", FitUnreadable, "no fit"},
		{600, "H7/g6", FitOutsideSizes, "600 mm"}, {25, "H7/u6", FitNotInTables, "u6"}, {25, "U7/h6", FitNotInTables, "U7"},
	} {
		_, err := Fit(c.nominal, c.fit)
		wantFault(t, c.fit, err, c.fault, c.want)
	}
}

func TestGeneralTolerance(t *testing.T) {
	for _, c := range []struct {
		kind, class string
		size, want  float64
	}{
		// ISO 2768-1:1989 Tables 1, 2 and 3
		{"linear", "m", 25, 0.2}, {"length", "M", 30, 0.2}, {"linear", "m", 30.1, 0.3}, {"linear", "f", 0.5, 0.05},
		{"linear", "c", 3, 0.2}, {"linear", "v", 3.1, 0.5}, {"linear", "m", 4000, 2}, {"linear", "f", 2000, 0.5},
		{"radius", "m", 0.5, 0.2}, {"radius", "f", 100, 1}, {"chamfer", "c", 6, 1}, {"radius", "v", 7, 2},
		{"angular", "m", 10, 1}, {"angle", "f", 50, 0.5}, {"angular", "c", 9, 1.5}, {"angular", "v", 1000, 1.0 / 3},
	} {
		got, source, err := GeneralTolerance(c.kind, c.class, c.size)
		if err != nil || math.Abs(got-c.want) > 1e-12 || source.ID != "iso-2768-1" || source.Seen != SeenTwice {
			t.Errorf("%s %s %v: got %v, %v, %v, want %v", c.kind, c.class, c.size, got, source, err, c.want)
		}
	}
	for _, c := range []struct {
		kind, class string
		size        float64
		fault       FitFault
		want        string
	}{
		{"linear", "m", 0.4, FitOutsideSizes, "from 0.5 mm up to 4000 mm, not for 0.4 mm"},
		{"linear", "f", 2001, FitOutsideSizes, "up to 2000 mm"},
		{"linear", "v", 3, FitOutsideSizes, "from 3 mm"},
		{"radius", "m", 0.3, FitOutsideSizes, "from 0.5 mm up, not"},
		{"angular", "m", 0, FitOutsideSizes, "not for 0 mm"},
		{"linear", "k", 25, FitImpossible, "f, m, c and v"},
		{"linear", "", 25, FitImpossible, "f, m, c and v"},
		{"flatness", "H", 25, FitUnreadable, "linear, radius and angular"},
	} {
		_, _, err := GeneralTolerance(c.kind, c.class, c.size)
		wantFault(t, c.kind+" "+c.class, err, c.fault, c.want)
	}
}

func FuzzParseFit(f *testing.F) {
	for _, s := range []string{"H7/g6", "JS7/h6", "H 7 / g 6", "h01", "ZC8", "g6/H7", "52H7/", "ø25 H7", "H07", "K9-x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		hole, shaft, err := ParseFit(s)
		if err != nil {
			var e *FitError
			if !errors.As(err, &e) || e.Message == "" || hole+shaft != "" {
				t.Fatalf("%q: %q %q %v", s, hole, shaft, err)
			}
			return
		}
		// What was read prints as a fit that reads the same.
		again := strings.Trim(hole+"/"+shaft, "/")
		h, sh, err := ParseFit(again)
		if err != nil || h != hole || sh != shaft {
			t.Fatalf("%q reads as %q, which reads as %q %q %v", s, again, h, sh, err)
		}
		// Whatever reads can be worked out, or the tables say why not.
		for _, class := range []string{hole, shaft} {
			if class == "" {
				continue
			}
			up, lo, c, err := LimitDeviation(25, class)
			if err == nil && (!(up > lo) || c.IsZero()) {
				t.Fatalf("%s: %v %v %v", class, up, lo, c)
			}
			var e *FitError
			if err != nil && (!errors.As(err, &e) || e.Fault != FitNotInTables) {
				t.Fatalf("%s: %v", class, err)
			}
		}
	})
}

func BenchmarkFit(b *testing.B) {
	for b.Loop() {
		if _, err := Fit(25, "H7/g6"); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleFit() {
	f, err := Fit(25, "H7/g6")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s %s, clearance %v to %v µm\n", f.Hole, f.Shaft, f.MinClearance, f.MaxClearance)
	// Output: H7 g6, clearance 7 to 41 µm
}
