package schema

import (
	"math/rand/v2"
	"testing"
)

func TestWithout(t *testing.T) {
	gear := func(text string) []SerialRange { return []SerialRange{ParseSerialRange("gear", text, "")} }
	tests := []struct {
		name string
		b    Box
		cut  []Box
		want string // "" for nothing
	}{
		{"nothing cut", Box{Variants: []string{"A", "B"}, Serials: gear("5 to 9")}, nil, "variant A or B, gear 5 to 9"},
		{"all cut", Box{Variants: []string{"A"}, Serials: gear("5 to 9")}, []Box{{Serials: gear("to 6")}, {Serials: gear("from 7")}}, ""},
		{"one variant cut", Box{Variants: []string{"A", "B", "C"}}, []Box{{Variants: []string{"B"}}}, "variant A or C"},
		{"the middle cut", Box{Serials: gear("5 to 9")}, []Box{{Serials: gear("6 to 8")}}, "gear 5"},
		{"numbers begin with 1", Box{}, []Box{{Serials: gear("from 1")}}, ""},
		{"an unnamed variant is left", Box{}, []Box{{Variants: []string{"A"}}}, "all"},
		{"an empty box", Box{Serials: gear("9 to 5")}, nil, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			left, ok := Without(tt.b, tt.cut)
			got := ""
			if ok {
				got = left.String()
			}
			if got != tt.want {
				t.Errorf("Without(%s, %v) = %q, want %q", tt.b, tt.cut, got, tt.want)
			}
		})
	}
}

// TestWithoutCovers: what is left lies in b and outside the cut, and there is
// something left just when the cut does not cover b.
func TestWithoutCovers(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	left := 0
	for range 5000 {
		b, cut := randomBox(r), randomBoxes(r)
		w, ok := Without(b, cut)
		if !ok {
			if !b.IsEmpty() && !Covers(cut, b) {
				t.Fatalf("nothing left of %s without %v", b, cut)
			}
			continue
		}
		left++
		if !Covers([]Box{b}, w) && len(w.Variants) > 0 {
			t.Fatalf("%s lies outside %s", w, b)
		}
		if _, meets := Overlap([]Box{w}, cut); meets && len(w.Variants) > 0 {
			t.Fatalf("%s meets %v", w, cut)
		}
	}
	if left < 500 {
		t.Errorf("%d left, too few", left)
	}
}
