package slip

import (
	"slices"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
)

func quantity(t *testing.T, text string, d convert.Dimension) convert.Quantity {
	t.Helper()
	q, problem := convert.Parse(text, convert.Of(d), convert.Point)
	if problem != nil {
		t.Fatal(text, problem)
	}
	return q
}

// TestUsual: of two figures the first is printed oftener.
func TestUsual(t *testing.T) {
	for _, tt := range []struct{ often, seldom string }{
		{"8 N·m", "25 N·m"}, {"25 N·m", "26 N·m"}, {"26 N·m", "265 N·m"}, {"265 N·m", "266 N·m"}, {"266 N·m", "2665 N·m"}, {"2665 N·m", "266612 N·m"},
		{"500 N·m", "510 N·m"}, // a zero is no digit more
		{"9 ±1 N·m", "9 ±1.25 N·m"}, {"9 +1/-1 N·m", "9 +1/-1.4 N·m"}, {"±1 N·m", "±1.4 N·m"}, {"max 20 N·m", "max 21 N·m"},
		{"8 to 10 N·m", "8 to 10.0 N·m"}, {"20 to 25 N·m", "20 to 24 N·m"},
	} {
		a, b := quantity(t, tt.often, convert.Torque), quantity(t, tt.seldom, convert.Torque)
		if x, y := roundness(a), roundness(b); x <= y {
			t.Errorf("%s %v, %s %v", tt.often, x, tt.seldom, y)
		}
	}
	if a, b := quantity(t, "12.025 mm", convert.Length), quantity(t, "12.025 N·m", convert.Torque); roundness(a) <= roundness(b) {
		t.Error("lengths have no more digits than torques")
	}
}

// TestWidth: ranges of torque are narrow, clearances are not.
func TestWidth(t *testing.T) {
	last := 2.0
	for _, s := range []string{"22 to 26 N·m", "22 to 28 N·m", "22 to 32 N·m", "22 to 40 N·m", "22 to 60 N·m", "22 to 100 N·m", "22 to 926 N·m"} {
		w := width(quantity(t, s, convert.Torque))
		if w >= last {
			t.Errorf("%s has %v, and one less wide %v", s, w, last)
		}
		last = w
	}
	for s, want := range map[string]float64{"0.05 to 0.14 mm": 1, "0.05 to 0.05 mm": 0.002, "5 mm": 1, "0 to 5 mm": 1, "0.05 to 5 mm": 0.003} {
		if got := width(quantity(t, s, convert.Length)); got != want {
			t.Errorf("%s: %v, want %v", s, got, want)
		}
	}
}

func TestDigits(t *testing.T) {
	for s, want := range map[string]int{"8 N·m": 1, "80 N·m": 1, "0.85 N·m": 2, "max 125 N·m": 3, "±2 N·m": 1, "0 to 5 N·m": 0, "12 to 155 N·m": 2, "1/2 N·m": 0} {
		if got := Digits(quantity(t, s, convert.Torque)); got != want {
			t.Errorf("%s: %d, want %d", s, got, want)
		}
	}
}

// TestBookDigits: in a table of three digits each a fourth is no nearer, and one
// of two is rarer than elsewhere.
func TestBookDigits(t *testing.T) {
	b := NewBench(torque("882 N·m"), "")
	two, three := quantity(t, "82 N·m", convert.Torque), quantity(t, "882 N·m", convert.Torque)
	if b.digits(two) != 1 {
		t.Error("a book of which nothing is known has habits")
	}
	b.Digits = func(d convert.Dimension, n int) (k, all int) {
		if n == 3 {
			return 40, 40
		}
		return 0, 40
	}
	if x, y := b.digits(two), b.digits(three); x >= 1 || y <= 1 {
		t.Errorf("two digits %v, three %v", x, y)
	}
	if got := b.digits(quantity(t, "8.5 bar", convert.Pressure)); got != 1 {
		t.Errorf("pressures: %v", got)
	}
}

// TestOfThread: newtons go with metric threads, pounds with inch threads, and
// either with both or neither.
func TestOfThread(t *testing.T) {
	for _, tt := range []struct {
		threads string
		text    string
		want    float64
	}{
		{"M8x1.25", "25 N·m", 1}, {"M8x1.25", "25 lbf·ft", otherThread}, {"M8x1.25", "2.5 kgf·m", 1},
		{"1/4-20", "25 N·m", otherThread}, {"1/4-20", "25 lbf·in", 1}, {"", "25 lbf·in", 1}, {"M8 1/4-20", "25 lbf·in", 1}, {"G 1/2", "25 lbf·in", 1},
	} {
		r := torque(tt.text)
		switch tt.threads {
		case "":
		case "M8 1/4-20":
			r.Fasteners.Items = []schema.Fastener{{Thread: "M8"}, {Thread: "1/4-20"}}
		default:
			r.Fasteners.Items = []schema.Fastener{{Thread: tt.threads}}
		}
		b := NewBench(r, "")
		q, _ := b.Figure(atTorque).Quantity()
		if got := b.ofThread(atTorque, q.Unit); got != tt.want {
			t.Errorf("%s for %q: %v, want %v", tt.text, tt.threads, got, tt.want)
		}
		if got := b.ofThread(schema.At("new"), q.Unit); got != 1 {
			t.Errorf("a figure of no screw: %v", got)
		}
	}
}

// TestForeign: the doubled share of the unit in the book.
func TestForeign(t *testing.T) {
	b := NewBench(torque("25 N·m"), "")
	u, _ := b.Figure(atTorque).Quantity()
	for _, tt := range []struct {
		n, all int
		want   float64
	}{{0, 11, 1}, {0, 100, foreignUnit}, {1, 100, foreignUnit}, {11, 100, 0.2}, {80, 100, 1}} {
		b.Used = func(convert.Unit) (n, all int) { return tt.n, tt.all }
		if got := b.foreign(u.Unit); got != tt.want {
			t.Errorf("%d of %d: %v, want %v", tt.n, tt.all, got, tt.want)
		}
	}
}

// TestShown: a third of one kind makes way for another kind, what is asked about stands
// only where nothing else is, and what is three hundred times less likely is left out.
func TestShown(t *testing.T) {
	of := func(kind int, reads string, score float64, queried bool) Restored {
		return Restored{Candidate: Candidate{Kind: kinds[kind], Reads: reads}, Score: score, queried: queried}
	}
	for _, tt := range []struct {
		name string
		all  []Restored
		want []string
	}{
		{"another kind", []Restored{of(5, "a", 8, false), of(5, "b", 7, false), of(5, "c", 6, false), of(0, "d", 2, false)}, []string{"a", "b", "d"}},
		{"another kind far behind", []Restored{of(5, "a", 8, false), of(5, "b", 7, false), of(5, "c", 6, false), of(0, "d", 1, false)}, []string{"a", "b", "c"}},
		{"no other kind", []Restored{of(5, "a", 8, false), of(5, "b", 7, false), of(5, "c", 6, false)}, []string{"a", "b", "c"}},
		{"far behind", []Restored{of(5, "a", 8, false), of(0, "d", 0.02, false)}, []string{"a"}},
		{"asked about", []Restored{of(5, "a", 8, true), of(0, "d", 1, false)}, []string{"d"}},
	} {
		found := map[string]Restored{}
		for _, r := range tt.all {
			found[r.Reads] = r
		}
		out, _ := shown(found)
		var got []string
		for _, r := range out {
			got = append(got, r.Reads)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}
