package sheet

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// texts of a drawing of a class, in their order.
func texts(d *Drawing, class string) string {
	var out []string
	for _, s := range d.Shapes {
		if s.Kind == "text" && s.Class == class {
			out = append(out, s.Text)
		}
	}
	return strings.Join(out, " ")
}

func picture(t *testing.T, steps, layout string) []*Picture {
	t.Helper()
	e := records(t, "  - {id: a, kind: torque, where: x, fastener: {type: screw, thread: M6x1, count: 4}, tighten: ["+steps+"], "+layout+"source: {ref: manual, at: page 9}}\n")
	return cardOf(t, made(t, Input{Records: e}), "a").Torque.Pictures
}

const square = "layout: {places: {1: [0, 0], 2: [100, 0], 3: [100, 100], 4: [0, 100]}}, "

// The marks are numbered by the order, and by it only; without one they bear the
// numbers of the places.
func TestPictureNumbers(t *testing.T) {
	const to = "to: [8 N·m, 71 lbf·in]"
	for _, x := range []struct{ name, steps, inside, below, say string }{
		{"no order", "{" + to + "}", "1 2 3 4", "", "numbers of the places; no order is recorded"},
		{"a pattern is no order", "{" + to + ", pattern: criss-cross}", "1 2 3 4", "", "numbers of the places; no order is recorded"},
		{"order", "{" + to + ", order: [3, 1, 4, 2]}", "2 4 1 3", "no. 1 no. 2 no. 3 no. 4", "in the mark: order of tightening; below it: no. of the place"},
		{"as numbered", "{" + to + ", order: [1, 2, 3, 4]}", "1 2 3 4", "", "in the mark: place and order of tightening"},
		{"some only", "{" + to + ", order: [3, 1]}", "2  1 ", "no. 1 no. 2 no. 3 no. 4", "in the mark: order of tightening; below it: no. of the place"},
		{"round again", "{" + to + ", order: [3, 1, 4, 2, 3]}", "2 4 1/5 3", "no. 1 no. 2 no. 3 no. 4", "in the mark: order of tightening; below it: no. of the place"},
	} {
		pictures := picture(t, x.steps, square)
		if len(pictures) != 1 {
			t.Fatalf("%s: %d pictures", x.name, len(pictures))
		}
		p := pictures[0]
		if got := texts(&p.Drawing, "place"); got != x.inside {
			t.Errorf("%s: in the marks %q, want %q", x.name, got, x.inside)
		}
		if got := texts(&p.Drawing, "aside"); got != x.below {
			t.Errorf("%s: below them %q, want %q", x.name, got, x.below)
		}
		if p.Say != x.say {
			t.Errorf("%s: %q, want %q", x.name, p.Say, x.say)
		}
	}
	two := picture(t, "{"+to+", order: [3, 1, 4, 2]}, {turn: 90°, order: [1, 2, 3, 4]}, {turn: 90°, order: [1, 2, 3, 4]}", square)
	if len(two) != 2 || !strings.HasSuffix(two[1].Say, "; order 1 → 2 → 3 → 4") {
		t.Errorf("two orders give %d pictures", len(two))
	}
}

// No layout, no picture; nor one of coordinates that are no numbers.
func TestNoPicture(t *testing.T) {
	for _, layout := range []string{"", "layout: {places: {1: [0, here], 2: [1, 1]}}, "} {
		e := "  - {id: a, kind: torque, where: x, fastener: {type: screw, thread: M6x1, count: 4}, tighten: [{to: [8 N·m, 71 lbf·in], order: [1, 2, 3, 4]}], source: {ref: manual, at: page 9}}\n"
		entries := records(t, e)
		if layout != "" {
			entries[0].Record.Layout.Places = append(entries[0].Record.Layout.Places, placeAt(1, "0", "here"), placeAt(2, "1", "1"))
		}
		c := cardOf(t, made(t, Input{Records: entries}), "a")
		if len(c.Torque.Pictures) != 0 {
			t.Errorf("%q is drawn", layout)
		}
	}
}

// Places lie as the source draws them, x to the right, y up, both to one scale; all
// marks lie within the picture and apart from one another.
func TestPicturePlaces(t *testing.T) {
	for name, layout := range map[string]string{
		"square":  square,
		"wide":    "layout: {places: {1: [0, 0], 2: [900, 0], 3: [900, 10], 4: [0, 10]}}, ",
		"one":     "layout: {places: {1: [7, 7]}}, ",
		"in line": "layout: {places: {1: [0, 5], 2: [1, 5], 3: [2, 5]}}, ",
		"twice":   "layout: {places: {1: [1, 1], 2: [1, 1]}}, ",
	} {
		p := picture(t, "{to: [8 N·m, 71 lbf·in], order: [4, 2, 3, 1]}", layout)[0]
		w, h := num(t, p.W), num(t, p.H)
		if w > 110 || h > 130 || w < 4 || h < 4 {
			t.Errorf("%s: %g × %g mm", name, w, h)
		}
		var marks []Shape
		for _, s := range p.Shapes {
			if s.Kind == "circle" {
				marks = append(marks, s)
				if x, y, r := num(t, s.X), num(t, s.Y), num(t, s.R); x-r < 0 || x+r > w || y-r < 0 || y+r > h {
					t.Errorf("%s: a mark lies outside", name)
				}
			}
		}
		if name != "square" {
			continue
		}
		x := func(i int) float64 { return num(t, marks[i].X) }
		y := func(i int) float64 { return num(t, marks[i].Y) }
		if !(x(1) > x(0) && x(3) == x(0) && y(3) < y(0) && y(1) == y(0) && math.Abs((x(1)-x(0))-(y(0)-y(3))) < 0.02) {
			t.Errorf("the square is drawn as %v", marks)
		}
	}
}

// The fasteners of a list differ by the form of their marks.
func TestPictureKeys(t *testing.T) {
	p := cardOf(t, made(t, Input{Records: records(t, caseHalf)}), "case").Torque.Pictures[0]
	if diff := cmp.Diff([]Key{{"circle", "short"}, {"square", "long"}}, p.Keys); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	kinds := map[string]int{}
	for _, s := range p.Shapes {
		if s.Class == "mark" {
			kinds[s.Kind]++
		}
	}
	if diff := cmp.Diff(map[string]int{"circle": 2, "polygon": 2}, kinds); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	d := &Drawing{}
	for _, name := range markNames {
		marker{d, 4}.mark(name, 10, 10)
	}
	forms := map[string]bool{}
	for _, s := range d.Shapes {
		forms[s.Kind+s.Points] = true
	}
	if len(forms) != len(markNames) {
		t.Errorf("%d forms of %d marks", len(forms), len(markNames))
	}
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		t.Fatalf("%q is no coordinate", s)
	}
	return x
}
