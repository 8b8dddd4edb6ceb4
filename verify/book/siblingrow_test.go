package book

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/verify/rule"
)

// FuzzDecodeSibling: what is written down is read back, and nothing breaks it.
func FuzzDecodeSibling(f *testing.F) {
	unit, _ := convert.UnitBySymbol("lbf·ft")
	s := sibling{
		thread: "1/2-13 UNC", read: "75 lb-ft", unit: unit, column: "general table", named: true,
		d: 12.7, p: 25.4 / 13, area: 91.55, nm: 101.7, slack: 0.0067, norm: 737.4,
	}
	f.Add(s.encode())
	f.Add("")
	f.Add("a\x1fb\x1f\x1fN·m\x1f\x1ftrue\x1ffalse\x1f1\x1f2\x1f3\x1f4\x1f5\x1f")
	f.Add("a\x1fb\x1f\x1ffurlong\x1f\x1ftrue\x1ffalse\x1f1\x1f2\x1f3\x1f4\x1f5\x1f6")
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := decodeSibling(&rule.Row{Payload: text})
		if !ok {
			return
		}
		again, ok := decodeSibling(&rule.Row{Payload: got.encode()})
		if !ok || again.encode() != got.encode() {
			t.Errorf("%q is read back as %q", got.encode(), again.encode())
		}
	})
}

// FuzzDecodeCell is the same of a cell.
func FuzzDecodeCell(f *testing.F) {
	unit, _ := convert.UnitBySymbol("lbf·in")
	c := cell{
		sibling: sibling{thread: "5/8-18 UNF", read: "600 to 780 lb-in", unit: unit, named: true, d: 15.9, p: 1.41, area: 165, nm: 78, norm: 2600},
		table:   "shear nut", class: "8.8", lo: 68, hi: 88, slacks: [2]float64{0.01, 0.02},
	}
	c.column = "shear nut\x1f8.8"
	f.Add(c.encode())
	f.Add("")
	f.Add("a\x1db\x1dc\x1d1\x1d2\x1d3\x1dx\x1d")
	f.Add("a\x1db\x1dc\x1d1\x1d2\x1d3\x1d4\x1d")
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := decodeCell(&rule.Row{Payload: text})
		if !ok {
			return
		}
		again, ok := decodeCell(&rule.Row{Payload: got.encode()})
		if !ok || again.encode() != got.encode() {
			t.Errorf("%q is read back as %q", got.encode(), again.encode())
		}
	})
}

func TestDecodeSibling(t *testing.T) {
	unit, _ := convert.UnitBySymbol("N·m")
	want := sibling{thread: "M8x1.25", read: "25 N·m", unit: unit, column: "row", d: 8, p: 1.25, area: 36.6, nm: 25, slack: 0.02, norm: 187.4}
	got, ok := decodeSibling(&rule.Row{Payload: want.encode()})
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(sibling{})); !ok || diff != "" {
		t.Errorf("ok %v (-want +got):\n%s", ok, diff)
	}
	for _, broken := range []string{"", "a\x1fb\x1f\x1ffurlong\x1f\x1ftrue\x1ffalse\x1f1\x1f2\x1f3\x1f4\x1f5\x1f6", "a\x1fb\x1f\x1fN·m\x1f\x1ftrue\x1ffalse\x1f1\x1f2\x1f3\x1f4\x1f5\x1fx"} {
		if _, ok := decodeSibling(&rule.Row{Payload: broken}); ok {
			t.Errorf("%q is read", broken)
		}
	}
}

func TestColumnOf(t *testing.T) {
	for _, c := range []struct{ where, thread, want string }{
		{"general table: M8x1.25, 8.8", "M8x1.25", "general table: 8.8"},
		{"general table: 5/16 in., fine and coarse, SAE 8", "5/16", "general table: sae 8"},
		{"general table: AN steel bolt 8-36, tension nut", "8-36", "general table: an steel bolt tension nut"},
		{"M8 screws, pump", "M8x1.25", "screws, pump"},
		{"main bearing case bolts 1", "M6x0.75", "main bearing case bolts 1"},
		{"general table: 5/8-11, SAE 5", "5/8-11", "general table: sae 5"},
		{"general table: 1-8, SAE 1 or 2", "1-8", "general table: sae 1 or 2"},
		{"general table: 1/2-13, SAE 1 or 2", "1/2-13", "general table: sae 1 or 2"},
		{"table 20, 1/4-20 UNC, grade 8", "1/4-20 UNC", "table 20, grade 8"},
		{"table 2: M8 x 1.25, 8.8", "M8x1.25", "table 2: x 8.8"},
		{"chart: 1 1/8-7, grade 8", "1 1/8-7", "chart: grade 8"},
		{"chart: No. 10, class 2", "No. 10-24", "chart: no. class 2"},
		{"", "M6", ""},
	} {
		if got := columnOf(c.where, c.thread); got != c.want {
			t.Errorf("%q: %q, want %q", c.where, got, c.want)
		}
	}
}

// steps are rows whose ratios of torque are given, sizes rising.
func steps(ratios ...float64) []sibling {
	out := make([]sibling, len(ratios))
	for i, r := range ratios {
		out[i] = sibling{d: float64(i), nm: r, norm: 1}
	}
	return out
}

// TestLine: which rows leave their line, by hand.
func TestLine(t *testing.T) {
	for _, c := range []struct {
		name   string
		ratios []float64
		want   []int // rows further off than may be
	}{
		{"level", []float64{1, 1, 1, 1, 1, 1, 1}, nil},
		{"one off", []float64{1, 1, 1, 1.5, 1, 1, 1}, []int{3}},
		{"one low", []float64{1, 1, 0.6, 1, 1, 1, 1, 1}, []int{2}},
		{"second row", []float64{1, 1.7, 1, 1, 1, 1, 1}, []int{1}},
		{"first row", []float64{1.6, 1, 1, 1, 1, 1, 1}, []int{0}},
		{"first row, less than the ends may be", []float64{1.5, 1, 1, 1, 1, 1, 1}, nil},
		{"last row", []float64{1, 1, 1, 1, 1, 1, 0.5}, []int{6}},
		{"a step of strength", []float64{1, 1, 1, 1, 0.6, 0.6, 0.6, 0.6}, nil},
		{"a slope", []float64{1, 1.1, 1.21, 1.33, 1.46, 1.61, 1.77}, nil},
		{"scatter", []float64{1, 1.5, 0.9, 1.6, 0.8, 1.4, 1, 1.5}, nil},
		{"two alike beside each other: not seen", []float64{1, 1, 1, 1, 1.5, 1.5, 1, 1, 1, 1}, nil},
	} {
		l := lineOf(steps(c.ratios...), 1.25, false)
		var got []int
		for i := range l.off {
			if math.Abs(l.off[i]) > l.most[i] {
				got = append(got, i)
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

// TestAlike: a joint among its like; above some number the middle is that of all.
func TestAlike(t *testing.T) {
	many := make([]float64, 60)
	for i := range many {
		many[i] = 1
	}
	many[17] = 2
	for _, ratios := range [][]float64{{1, 1, 1, 2}, many} {
		l := lineOf(steps(ratios...), 1.6, true)
		for i := range l.off {
			if got, want := math.Abs(l.off[i]) > l.most[i], ratios[i] != 1; got != want {
				t.Errorf("%d of %d: off %v, may be %v", i, len(l.off), l.off[i], l.most[i])
			}
		}
	}
	// Three against each other: nobody knows which.
	if l := lineOf(steps(1, 2, 1, 2), 1.6, true); math.Abs(l.off[1]) > l.most[1] {
		t.Error("two pairs are judged")
	}
}
