package reference

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// brief rows: kind, thread and the figure as printed.
func briefJoints(rows []JointRow) string {
	var out []string
	for _, j := range rows {
		out = append(out, j.Kind+" "+j.Thread+": "+j.Printed)
	}
	return strings.Join(out, "\n")
}

func TestJointRows(t *testing.T) {
	for _, c := range []struct {
		kind, thread, detail, into string
		want                       string
	}{
		// Spark plug maker, European catalogue and installation guide.
		{"spark plug", "M14x1.25", "flat seat", "cast aluminium", "spark plug 14 mm: 25 to 30 N·m\nspark plug 10, 12 and 14 mm: 0.5 to 0.75 turn\nspark plug any: 0.0833 turn"},
		{"spark plug", "M18x1.5", "conical", "cast iron", "spark plug 18 mm: 20 to 30 N·m\nspark plug any: 0.0625 turn"},
		{"spark plug", "M14", "conical", "aluminum", "spark plug 14 mm: 10 to 20 N·m\nspark plug any: 0.0625 turn"},
		// Air-brake fitting maker; pneumatic fitting maker; pipe fitting supplier.
		{"pipe fitting", "M10x1", "", "", "hydraulic or air port stud M10x1: 22 N·m"},
		{"pipe fitting", "M10x1.25", "", "", ""},
		{"pipe fitting", "G 1/4", "", "steel", "pipe thread fitting 1/4: 8 to 12 N·m\npipe thread fitting 1/4: 4 to 5 N·m"},
		{"pipe fitting", "R 1/8", "", "", "pipe thread fitting 1/16 and 1/8: 3 to 5 N·m"},
		{"pipe fitting", "1/16 NPT", "", "", "pipe thread fitting 1/16 and 1/8: 3 to 5 N·m\ntaper pipe NPT up to 1: 1.5 to 3 turn\ntaper pipe NPT under 1: 2 turn"},
		{"pipe fitting", "1 NPT", "", "", "taper pipe NPT up to 1: 1.5 to 3 turn\ntaper pipe NPT 1/2 to 2: 3 turn"},
		{"pipe fitting", "1-1/4 NPTF", "", "", "taper pipe NPT 1-1/4 and larger: 1 to 2.5 turn\ntaper pipe NPT 1/2 to 2: 3 turn"},
		// US Army TM 9-2320-364-20-4 Table 2-67 and TM 55-1520-240-23-1.
		{"tube nut", "7/16-20", "aircraft steel tube", "", "flare nut 37 deg dash -4 (7/16-20): 135 to 150 lb-in"},
		{"flare nut 37", "dash -6", "hose and machined", "", "flare nut 37 deg dash -6 (9/16-18): 1 to 1.5 flat"},
		{"flare nut 45", "dash -6", "", "", "flare nut 45 deg dash -6: 0.75 to 1 flat"},
		{"flare nut", "9/16-18 37° flare", "flared tube", "", "flare nut 37 deg dash -6 (9/16-18): 2.25 to 2.75 flat\nflare nut 37 deg dash -6 (9/16-18): 100 to 125 lb-in\nflare nut 37 deg dash -6 (9/16-18): 270 to 300 lb-in"},
		// US Army TM 5-3895-382-24 Table 11.
		{"clamp", "band 13.5 mm", "", "", "hose clamp, worm drive band 13.5 mm: 4.0 to 5.0 N·m\nhose clamp, worm drive band 13.5 mm: 2.5 to 3.5 N·m"},
		// Set screws, ISO 4029 / ISO 898-5 sheet.
		{"set screw", "M8", "", "", "set screw, hexagon socket M8: max 20 N·m"},
		{"plug", "M16x1.5", "", "cast iron", "drain plug M14 to M18: 20 to 50 N·m"},
		{"plug", "M16x1.5", "", "cast aluminium", ""},
		{"plug", "M8x1", "", "", "glow plug M8x1: 7.8 to 14.7 N·m"},
		{"adjusting nut", "M20x1", "", "", "bearing lock nut M20x1: min 55 N·m\nbearing lock nut any: 2 to 3 x"},
		{"filter", "3/4-16", "", "", "spin-on oil filter any: 0.75 to 1.5 turn"},
		{"nut", "M12", "", "", ""}, // wheel nuts: the documents state no thread
		{"wheel nut", "", "hub-piloted", "", "wheel nut not stated: 450 to 500 lb-ft"},
		{"banjo", "", "", "", "banjo bolt any: "},
		{"prevailing nut", "", "", "", ""},
		{"drain plug", "Tr 20x4", "", "", ""},
		{"drain plug", "nonsense", "", "", ""},
	} {
		if diff := cmp.Diff(c.want, briefJoints(JointRows(c.kind, c.thread, c.detail, c.into))); diff != "" {
			t.Errorf("%q %q %q %q (-want +got):\n%s", c.kind, c.thread, c.detail, c.into, diff)
		}
	}
	if got := len(JointRows("", "", "", "")); got != 155 {
		t.Errorf("%d rows, the table has 155", got)
	}
	// Low-pressure fittings into metal say nothing of plastic.
	if got := JointRows("pipe thread fitting", "", "", "plastic"); len(got) != 0 {
		t.Errorf("into plastic: %s", briefJoints(got))
	}
}

// Torques are in N·m, with what was printed kept; other units stay as they are.
func TestJointUnits(t *testing.T) {
	for _, c := range []struct {
		kind, thread, detail string
		lo, hi, typical      float64
		unit, printed        string
	}{
		{"flare nut 37", "7/16-20", "aluminium tube", 5.65, 7.34, 0, "N·m", "50 to 65 lb-in"}, // 50 and 65 lbf·in
		{"drain plug", "", "geared hub", 10.85, 17.63, 0, "N·m", "8 to 13 lb-ft"},             // the document prints 11 to 18 N·m
		{"drain plug", "", "differential", 0, 0, 47.45, "N·m", "35 lb-ft"},                    // prints 48 N·m
		{"brass fitting", "", "", 0, 0, 27.12, "N·m", "240 lb-in"},                            // prints 27.1 N·m
		{"bearing lock nut", "", "propeller", 0, 0, 1328.7, "N·m", "980 lb-ft"},               // prints 1329 N·m
		{"cutting ring", "", "refit", 30, 60, 0, "deg", "30 to 60 deg"},
		{"hose clamp", "band 7.9 mm", "new hose", 0.7, 1.1, 0.9, "N·m", "0.7 to 1.1 N·m"},
	} {
		rows := JointRows(c.kind, c.thread, c.detail, "")
		if len(rows) != 1 {
			t.Errorf("%s %s %s: %d rows", c.kind, c.thread, c.detail, len(rows))
			continue
		}
		j := rows[0]
		near := func(got, want float64) bool { return math.Abs(got-want) <= 0.0006*want }
		if !near(j.Min, c.lo) || !near(j.Max, c.hi) || !near(j.Typical, c.typical) || j.Unit != c.unit || j.Printed != c.printed {
			t.Errorf("%s %s %s: got %v %v %v %s, %q", c.kind, c.thread, c.detail, j.Min, j.Max, j.Typical, j.Unit, j.Printed)
		}
	}
	units := map[string]bool{"N·m": true, "turn": true, "flat": true, "deg": true, "%": true, "x": true, "": true}
	for _, j := range JointRows("", "", "", "") {
		if !units[j.Unit] || j.Max != 0 && j.Min > j.Max || j.Source.ID == "" || j.Source.Text == "" || j.Unit != "" && j.Printed == "" {
			t.Errorf("%+v", j)
		}
	}
}

func TestPrevailing(t *testing.T) {
	type want struct {
		quantity string
		lo, hi   float64
		printed  string
		seen     Seen
	}
	for _, c := range []struct {
		thread, nut string
		want        []want
	}{
		// US Army TM 1-1500-204-23-6 table 2-8 (prints 1.58 N·m); FAA AC 43.13-1B table 7-2.
		{"7/16-20", "self-locking nut, re-used", []want{
			{"breakaway torque, least allowed", 1.582, 0, "min 14.0 lb-in", SeenTwice}, {"prevailing torque, least allowed", 0.904, 0, "min 8 lb-in", SeenOnce}}},
		// Distributor chart after IFI-100: 14.5 to 20 lb-ft.
		{"3/8-16 UNC", "lock nut grade B, cadmium and wax", []want{{"assembly torque for the clamp load", 19.659, 27.116, "14.5 to 20 lb-ft", SeenOnce}}},
		{"M10", "all-metal nut", []want{{"ISO 2320 removal torque, least allowed (which removal not said)", 1.4, 0, "min 1.4 N·m", SeenOnce}}},
		{"M10x1.25", "class 8 nut", []want{{"ISO 2320 / DIN 267-15 first assembly, most allowed", 0, 10.5, "max 10.5 N·m", Memory}}},
		{"No. 4-40", "self-locking nut, re-used", []want{{"finger test", 0, 0, "", SeenOnce}}},
		{"M7", "class 8 nut", nil},
		{"G 1/2", "", nil},
	} {
		var got []want
		for _, p := range Prevailing(mustThread(t, c.thread)) {
			if p.Nut == c.nut {
				got = append(got, want{p.Quantity, thousandths(p.Min), thousandths(p.Max), p.Printed, p.Source.Seen})
			}
		}
		if diff := cmp.Diff(c.want, got, cmp.AllowUnexported(want{})); diff != "" {
			t.Errorf("%s %s (-want +got):\n%s", c.thread, c.nut, diff)
		}
	}
	// An inch size without pitch has the rows of both series.
	both, coarse, fine := Prevailing(mustThread(t, "1/2")), Prevailing(mustThread(t, "1/2-13")), Prevailing(mustThread(t, "1/2-20"))
	if len(both) != len(coarse)+len(fine) || len(fine) == 0 {
		t.Errorf("1/2 has %d rows, 1/2-13 %d, 1/2-20 %d", len(both), len(coarse), len(fine))
	}
	all := PrevailingRows()
	if len(all) != 129 { // 137 rows, 8 of them rules
		t.Errorf("%d rows, want 129", len(all))
	}
	for _, p := range all {
		if p.thread.D == 0 || p.Source.ID == "" || p.Max != 0 && p.Min > p.Max {
			t.Errorf("%+v", p)
		}
	}
	rules := DragRules()
	if len(rules) != 8 || !strings.HasPrefix(rules[0].Text, "final torque = table torque + running") || rules[0].Source.ID != "ac-43.13-1b" {
		t.Errorf("%d rules, %+v", len(rules), rules[0])
	}
}

func thousandths(v float64) float64 { return math.Round(v*1e3) / 1e3 }

func TestWrenchAndPatternRows(t *testing.T) {
	// ISO 6789:2003 as reproduced in a torque wrench manual: type II class A, ±4 % above 10 N·m, ±6 % up to it.
	w := WrenchRows("permissible deviation")
	if len(w) != 24 || w[0].Type != "II" || w[0].Class != "A" || w[0].Low != "-4" || w[0].High != "4" || w[1].High != "6" || w[0].Source.Seen != SeenOnce || w[2].Source.Seen != Memory {
		t.Errorf("%d rows, %+v", len(w), w[:2])
	}
	if got := len(WrenchRows("")); got != 53 {
		t.Errorf("%d rows of wrenches, want 53", got)
	}
	if got := WrenchRows("adapter line"); len(got) != 1 || got[0].Unit != "TW = TA x L / (L + A)" {
		t.Errorf("adapter in line: %+v", got)
	}
	// Gasket maker worksheet: 25, 50, 100 and once round at 100 %.
	p := PatternRows("circular flange")
	if len(p) != 7 || p[0].Percent != "25 / 50 / 100 / 100" || p[0].Passes != "3 + 1" || p[0].Source.Seen != SeenTwice {
		t.Errorf("%d rows, %+v", len(p), p)
	}
	if got := len(PatternRows("")); got != 24 {
		t.Errorf("%d rows of patterns, want 24", got)
	}
}

func BenchmarkJointRows(b *testing.B) {
	for b.Loop() {
		JointRows("spark plug", "M14x1.25", "", "cast aluminium")
	}
}

func ExampleJointRows() {
	for _, j := range JointRows("set screw", "M6", "", "") {
		fmt.Println(j.Kind, j.Thread, j.Printed)
		fmt.Println(j.Detail)
		fmt.Println(j.Source)
	}
	// Output:
	// set screw, hexagon socket M6 max 8.5 N·m
	// ISO 4026 to 4029, class 45H: test (proof) torque of the socket, a ceiling
	// ISO 4029 / ISO 898-5 sheet; fastener supplier chart
}
