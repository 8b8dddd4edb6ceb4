package joint_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/verify/joint"
)

// TestKnown: what is remembered is what would be read anew, also for words that
// are not remembered.
func TestKnown(t *testing.T) {
	n := 0
	eachWords(func(w joint.Words) {
		if n++; n%40 != 0 {
			return
		}
		w.EngagementMM = joint.Span{Lo: 9, Hi: 10}
		want, wantOK := joint.Read(w)
		for range 2 {
			j, ok := joint.Known(w)
			strip, strips := joint.StrippingOf(want)
			if ok != wantOK || j.Band != joint.BandOf(want) || j.Stripping != strip || j.Strips != strips {
				t.Fatalf("%+v: %+v, %v", w, j, ok)
			}
			if diff := cmp.Diff(want.Missing, j.Facts.Missing); diff != "" {
				t.Fatalf("%+v (-want +got):\n%s", w, diff)
			}
		}
	})
	for _, w := range []joint.Words{
		{Type: "plug", Thread: "M8"},
		{Thread: "M8", Insert: strings.Repeat("long ", 100)},
		{Thread: "M8", FrictionLo: math.NaN()},
	} {
		want, wantOK := joint.Read(w)
		j, ok := joint.Known(w)
		if ok != wantOK || ok && j.Facts.Thread.Designation != want.Thread.Designation {
			t.Errorf("%+v: %v, %+v", w, ok, j)
		}
	}
}

func BenchmarkKnown(b *testing.B) {
	w := joint.Words{Type: "screw", Thread: "M8x1.25", Class: "8.8", Head: "hex", Threads: "dry", Into: "cast iron"}
	for b.Loop() {
		if _, ok := joint.Known(w); !ok {
			b.Fatal("no facts")
		}
	}
}
