package joint_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/joint"
)

// TestWordsOf: what a record says, with a stated friction as widely as its
// digits allow.
func TestWordsOf(t *testing.T) {
	tests := []struct {
		friction string
		lo, hi   float64
	}{
		{"", 0, 0},
		{"0.14", 0.135, 0.145},
		{"0.08 to 0.14", 0.075, 0.145},
		{"0.14 to 0.08", 0.075, 0.145},
		{"0.12 ±0.02", 0.095, 0.145},
		{"max 0.14", 0, 0}, // no lower end is stated
		{"0", 0, 0},
	}
	for _, tt := range tests {
		r := &schema.Record{}
		r.Fasteners.Items = []schema.Fastener{{}, {Type: "nut", Thread: "M8", Class: "8", Head: "hex"}}
		r.Joint = schema.Joint{Threads: "dry", Into: "steel", Seal: "gasket"}
		if tt.friction != "" {
			q, problem := convert.Parse(tt.friction, convert.Of(convert.Number), convert.Point)
			if problem != nil {
				t.Fatal(problem)
			}
			r.Joint.Friction = schema.Figure{Values: []convert.Value{{Text: tt.friction, Quantity: q}}}
		}
		got := joint.WordsOf(r, 1)
		if math.Abs(got.FrictionLo-tt.lo) > 1e-12 || math.Abs(got.FrictionHi-tt.hi) > 1e-12 {
			t.Errorf("%q: %v to %v, want %v to %v", tt.friction, got.FrictionLo, got.FrictionHi, tt.lo, tt.hi)
		}
		got.FrictionLo, got.FrictionHi = 0, 0
		want := joint.Words{Type: "nut", Thread: "M8", Class: "8", Head: "hex", Threads: "dry", Into: "steel", Seal: "gasket"}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
	}
}

// TestOtherDimension: a figure that is no coefficient states no friction.
func TestOtherDimension(t *testing.T) {
	q, problem := convert.Parse("12 %", convert.Of(convert.Ratio), convert.Point)
	if problem != nil {
		t.Fatal(problem)
	}
	r := &schema.Record{}
	r.Fasteners.Items = []schema.Fastener{{Thread: "M8"}}
	r.Joint.Friction = schema.Figure{Values: []convert.Value{{Text: "12 %", Quantity: q}}}
	if w := joint.WordsOf(r, 0); w.FrictionLo != 0 || w.FrictionHi != 0 {
		t.Errorf("got %+v", w)
	}
}

// TestNutClass: a nut of class 8 holds what a screw of 8.8 bears, and may sit
// on a weaker one (ISO 898-2: proof stress of class 8 at M10 870 MPa).
func TestNutClass(t *testing.T) {
	nut := band(t, joint.Words{Type: "nut", Thread: "M10x1.5", Class: "8"})
	screw := band(t, joint.Words{Type: "screw", Thread: "M10x1.5", Class: "8.8"})
	if nut.CeilingNm < screw.CeilingNm || nut.UsualHiNm < screw.UsualHiNm || nut.UsualLoNm >= screw.UsualLoNm {
		t.Errorf("nut %+v, screw %+v", nut, screw)
	}
	f, _ := joint.Read(joint.Words{Type: "nut", Thread: "M10x1.5", Class: "8"})
	if got, want := f.ClassText(), "8: proof stress 870 MPa"; len(got) < len(want) || got[:len(want)] != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func ExampleBandOf() {
	f, ok := joint.Read(joint.Words{Type: "screw", Thread: "M8x1.25", Class: "8.8", Head: "hex", Threads: "dry", Into: "steel"})
	b := joint.BandOf(f)
	fmt.Println(ok, b.UsualLoNm < 25 && 25 < b.UsualHiNm, b.CeilingNm < 250)
	// Output: true true true
}
