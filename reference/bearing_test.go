package reference

import (
	"math"
	"slices"
	"testing"
)

func TestBearingsInPrint(t *testing.T) {
	for _, c := range []struct {
		head, thread, kind string
		dw, hole           float64
	}{
		{"hex", "M8", "hex, ISO 4014 / ISO 4017 grade A", 11.63, 9}, // ISO 4014, ISO 273 medium
		{"hex", "M10", "hex, ISO 4014 / ISO 4017 grade A", 14.63, 11},
		{"hex", "M14", "hex, ISO 4014 / ISO 4017 grade A", 19.37, 15.5}, // not the 19.64 of ISO 8676
		{"hex", "M12", "hex-old, DIN 931 / DIN 933 (withdrawn, still common)", 17.4, 13.5},
		{"hex", "M16", "hex, ISO 4014 / ISO 4017 grade B", 22, 17.5},
		{"hex flange", "M6", "hex-flange, ISO 4162 small series", 11.6, 6.6},
		{"hex flange", "M10", "hex-flange, EN 1665 heavy series, edge", 22.3, 11},
		{"socket cap", "M8", "socket-cap, ISO 4762", 12.33, 9},
		{"socket cap", "M8", "socket-cap, ISO 4762, edge", 13, 9},
		{"hex", "1/2-13", "hex, ASME B18.2.1 hex cap screw, edge", 19.05, 13.97}, // washer face about the width across flats
		{"socket cap", "1/4-20", "socket-cap, ASME B18.3", 9.525, 6.985},
	} {
		th, _ := ParseThread(c.thread)
		list := BearingOf(c.head, th)
		i := slices.IndexFunc(list, func(b Bearing) bool { return b.Kind == c.kind })
		if i < 0 {
			t.Errorf("%s %s: no %q in %+v", c.head, c.thread, c.kind, list)
			continue
		}
		if b := list[i]; math.Abs(b.Dw-c.dw) > 1e-9 || math.Abs(b.Hole-c.hole) > 1e-6 {
			t.Errorf("%s %s: got %v %v, want %v %v", c.head, c.thread, b.Dw, b.Hole, c.dw, c.hole)
		}
	}
}

func TestEveryHeadOfEveryThreadHasABearing(t *testing.T) {
	heads := []string{"", "hex", "hex flange", "socket cap", "button", "countersunk", "pan", "hexalobular", "other: wing"}
	for _, th := range Threads() {
		lo, hi := math.Inf(1), 0.0
		for _, head := range heads {
			list := bearingsOf(head, th)
			if len(list) == 0 {
				t.Fatalf("%s %s: nothing", head, th.Designation)
			}
			for _, b := range list {
				// Wider than the thread, and no wider than the cone of a countersunk head.
				if b.Dw <= b.Hole || b.Hole <= th.D || b.Dw > 3.3*th.D || b.Source.IsZero() || b.Kind == "" {
					t.Errorf("%q %s: %+v", head, th.Designation, b)
				}
				m := (b.Dw + b.Hole) / 2
				if head == "" {
					lo, hi = min(lo, m), max(hi, m)
				} else if m < lo-1e-9 || m > hi+1e-9 {
					t.Errorf("%q %s: mean %v outside the union %v to %v", head, th.Designation, m, lo, hi)
				}
			}
		}
	}
	if BearingOf("hex", Thread{}) != nil {
		t.Error("a thread without diameter has no bearing")
	}
}

func TestEstimatedBearingsAreMarked(t *testing.T) {
	for _, c := range []struct{ head, thread string }{
		{"hex", "M42"}, {"hex flange", "1/2-13"}, {"socket cap", "M64"}, {"button", "M8"}, {"pan", "M4"}, {"countersunk", "M6"},
	} {
		th, _ := ParseThread(c.thread)
		for _, b := range BearingOf(c.head, th) {
			if b.Source.Seen != Computed || Cite(b.Source.ID).IsZero() {
				t.Errorf("%s %s: %+v", c.head, c.thread, b)
			}
		}
	}
	// JIS small hexagons: only the width across flats was seen.
	th, _ := ParseThread("M10")
	for _, b := range BearingOf("hex", th) {
		if b.Kind == "hex-small, JIS small hex" && b.Source.Seen != Computed {
			t.Errorf("%+v", b)
		}
	}
}

// The list handed out is the caller's own.
func TestBearingsAreCopies(t *testing.T) {
	th, _ := ParseThread("M8")
	BearingOf("hex", th)[0].Dw = 0
	if BearingOf("hex", th)[0].Dw == 0 {
		t.Error("the table was changed by a caller")
	}
	ReadClass("8.8", 8, true).Rows[0].Yield = 0
	ReadClass("8.8", 8, true).Rows[0].Yield = 0
	if ReadClass("8.8", 8, true).Rows[0].Yield != 640 {
		t.Error("the table was changed by a caller")
	}
	Threads()[0].D = 0
	Cautions()[0].ID = ""
	Rules("")[0].Text = ""
	if Threads()[0].D == 0 || Cautions()[0].ID == "" || Rules("")[0].Text == "" {
		t.Error("the table was changed by a caller")
	}
}

func BenchmarkBearingOf(b *testing.B) {
	th, _ := ParseThread("M8")
	for b.Loop() {
		BearingOf("", th)
	}
}
