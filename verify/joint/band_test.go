package joint_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/verify/joint"
)

func band(t testing.TB, w joint.Words) joint.Band {
	t.Helper()
	f, ok := joint.Read(w)
	if !ok {
		t.Fatalf("no facts in %+v", w)
	}
	return joint.BandOf(f)
}

// TestBandHolds: published figures lie in the usual band, and figures that
// break the screw lie above the ceiling.
func TestBandHolds(t *testing.T) {
	screw := func(thread, class, threads string) joint.Words {
		return joint.Words{Type: "screw", Thread: thread, Class: class, Threads: threads}
	}
	tests := []struct {
		words  joint.Words
		usual  []float64 // N·m
		broken []float64
		source string
	}{
		{screw("M10x1.25", "8.8", ""), []float64{44, 51, 57}, []float64{510}, "Mastik catalogue p. 685, after VDI 2230, mu 0.10, 0.12, 0.14"},
		{screw("M10x1.25", "10.9", ""), []float64{65, 75, 84}, []float64{750}, "the same"},
		{screw("M8", "8.8", "dry"), []float64{25}, []float64{250}, "machine manual, mu 0.14 (check-torque-tables)"},
		{screw("1/4-20", "SAE 5", "dry"), []float64{8 * 1.3558}, []float64{96}, "US Army TM 10-6640-238-13 Table G-1: 8 lb-ft; broken: 8 lb-ft read as 96"},
		{screw("1/2-13", "SAE 8", "dry"), []float64{120 * 1.3558}, nil, "US Army TM 10-6640-238-13 Table G-1: 120 lb-ft"},
		{screw("1/4", "", ""), []float64{50 * 0.11298, 70 * 0.11298}, []float64{75 * 1.3558}, "US Army TM 1-1730-232-13&P Table F-2; broken: 75 lbf·ft (70 lbf·in typed as lbf·ft is not certain to break a screw of ASTM A574 at a friction of 0.5)"},
		{screw("M6x1", "A2-70", "dry"), []float64{7.4, 11.8}, []float64{74}, "Mastik catalogue p. 686, mu 0.10 and 0.20, after VDI 2230"},
	}
	for _, tt := range tests {
		b := band(t, tt.words)
		for _, x := range tt.usual {
			if x < b.UsualLoNm || x > b.UsualHiNm {
				t.Errorf("%s %s: %.3g N·m outside %.3g to %.3g (%s)", tt.words.Thread, tt.words.Class, x, b.UsualLoNm, b.UsualHiNm, tt.source)
			}
		}
		for _, x := range tt.broken {
			if x <= b.CeilingNm {
				t.Errorf("%s %s: %.3g N·m is below the ceiling %.3g (%s)", tt.words.Thread, tt.words.Class, x, b.CeilingNm, tt.source)
			}
		}
	}
}

// words for the property tests: a spread of what records say.
var (
	someThreads    = []string{"M3", "M6x1", "M8", "M8x1.25", "M10x1.25", "M24", "1/4-20", "1/4", "No. 10-32", "5/8-18", "1-1/8-7", "M45x1.5"}
	someClasses    = []string{"", "4.6", "8.8", "10.9", "12.9", "A2-50", "A2-70", "A4-80", "SAE 1 or 2", "SAE 5", "SAE 8", "ASTM A574", "8.8 or 9.8", "10", "6.9", "AN4"}
	someTypes      = []string{"", "screw", "nut", "stud"}
	someHeads      = []string{"", "hex", "hex flange", "socket cap", "button", "countersunk", "pan", "hexalobular", "other: square"}
	someConditions = []string{"", "dry", "oiled", "moly", "anti-seize", "waxed", "threadlocker", "sealant", "plated", "as received", "other: graphite"}
	someInto       = []string{"", "steel", "stainless steel", "cast iron", "ductile iron", "cast aluminium", "wrought aluminium", "magnesium", "brass", "other: bronze"}
	someSeals      = []string{"", "gasket", "O-ring", "sealant", "crush washer"}
)

func eachWords(yield func(joint.Words)) {
	// Every thread and class with every other word, one or two at a time.
	for _, th := range someThreads {
		for _, cl := range someClasses {
			for i := 0; i < len(someConditions)*len(someInto); i += 3 {
				yield(joint.Words{
					Type: someTypes[i%len(someTypes)], Thread: th, Class: cl, Head: someHeads[i%len(someHeads)],
					Threads: someConditions[i%len(someConditions)], Into: someInto[i/len(someConditions)], Seal: someSeals[i%len(someSeals)],
				})
			}
		}
	}
}

// TestOrdered: floor, usual band and ceiling follow one another.
func TestOrdered(t *testing.T) {
	n := 0
	eachWords(func(w joint.Words) {
		b := band(t, w)
		n++
		if !ordered(b) {
			t.Errorf("%+v: %+v", w, b)
		}
	})
	if n < 5000 {
		t.Errorf("only %d bands", n)
	}
}

func ordered(b joint.Band) bool {
	return 0 < b.FloorNm && b.FloorNm <= b.UsualLoNm && b.UsualLoNm < b.UsualHiNm && b.UsualHiNm <= b.CeilingNm && b.CeilingNm < 1e9
}

// TestLessIsWider: leaving out a fact never narrows a band.
func TestLessIsWider(t *testing.T) {
	drop := map[string]func(*joint.Words){
		"type":    func(w *joint.Words) { w.Type = "" },
		"class":   func(w *joint.Words) { w.Class = "" },
		"head":    func(w *joint.Words) { w.Head = "" },
		"threads": func(w *joint.Words) { w.Threads = "" },
		"into":    func(w *joint.Words) { w.Into = "" },
		"pitch": func(w *joint.Words) {
			switch w.Thread {
			case "M8x1.25":
				w.Thread = "M8"
			case "1/4-20":
				w.Thread = "1/4"
			}
		},
	}
	bad := 0
	eachWords(func(w joint.Words) {
		b := band(t, w)
		for name, f := range drop {
			less := w
			f(&less)
			if wide := band(t, less); !within(b, wide) {
				if bad++; bad < 20 {
					t.Errorf("without %s %+v is narrower:\n %+v\n %+v", name, w, b, wide)
				}
			}
		}
	})
}

// TestFloorKeepsTheRule: leaving out a seal, or that a part is of plastic, does
// not widen the usual band downwards (see the package), but the floor, the upper
// end and the ceiling are as wide without as with any of them.
func TestFloorKeepsTheRule(t *testing.T) {
	eachWords(func(w joint.Words) {
		for _, soft := range []func(*joint.Words){
			func(w *joint.Words) { w.Seal = "gasket" }, func(w *joint.Words) { w.Seal = "O-ring" },
			func(w *joint.Words) { w.Seal = "bonded seal" }, func(w *joint.Words) { w.Into = "plastic" },
		} {
			less, more := w, w
			less.Seal, less.Into = "", ""
			soft(&more)
			b, wide := band(t, more), band(t, less)
			b.UsualLoNm, wide.UsualLoNm = 1, 1
			if !within(b, wide) {
				t.Fatalf("%+v: %+v, without seal and material %+v", more, b, wide)
			}
		}
	})
}

func within(b, wide joint.Band) bool {
	const eps = 1e-9
	return wide.UsualLoNm <= b.UsualLoNm*(1+eps) && wide.UsualHiNm >= b.UsualHiNm*(1-eps) &&
		wide.CeilingNm >= b.CeilingNm*(1-eps) && wide.FloorNm <= b.FloorNm*(1+eps)
}

// TestStatedFriction: a stated coefficient narrows the band, a wider one
// widens it.
func TestStatedFriction(t *testing.T) {
	w := joint.Words{Type: "screw", Thread: "M8x1.25", Class: "8.8"}
	open := band(t, w)
	w.FrictionLo, w.FrictionHi = 0.12, 0.12
	one := band(t, w)
	w.FrictionLo, w.FrictionHi = 0.08, 0.14
	two := band(t, w)
	if !within(one, open) || !within(one, two) {
		t.Errorf("0.12 gives %+v, 0.08 to 0.14 %+v, nothing %+v", one, two, open)
	}
	// VDI 2230 table for M8x1.25 8.8 is near 25 N·m at 0.12.
	if one.UsualLoNm > 20 || one.UsualHiNm < 27 || one.UsualHiNm > 40 {
		t.Errorf("M8x1.25 8.8 at 0.12: %+v", one)
	}
}

func TestSofterJoints(t *testing.T) {
	w := joint.Words{Type: "screw", Thread: "M6x1", Class: "8.8", Threads: "dry"}
	plain := band(t, w)
	for name, f := range map[string]func(*joint.Words){
		"gasket":  func(w *joint.Words) { w.Seal = "gasket" },
		"O-ring":  func(w *joint.Words) { w.Seal = "O-ring" },
		"plastic": func(w *joint.Words) { w.Into = "plastic" },
		"stud":    func(w *joint.Words) { w.Type = "stud" },
	} {
		soft := w
		f(&soft)
		if b := band(t, soft); b.UsualLoNm >= plain.UsualLoNm || b.CeilingNm != plain.CeilingNm {
			t.Errorf("%s: %+v, without %+v", name, b, plain)
		}
	}
	// Bearing lock nuts, one maker's table: M45x1.5 170 N·m, M90x2 350 N·m.
	for thread, nm := range map[string]float64{"M45x1.5": 170, "M90x2": 350} {
		if b := band(t, joint.Words{Type: "nut", Thread: thread}); nm < b.UsualLoNm {
			t.Errorf("bearing lock nut %s: %v N·m is below %+v", thread, nm, b)
		}
	}
	w.Into = "steel"
	if b := band(t, w); b.UsualLoNm <= plain.UsualLoNm {
		t.Errorf("into steel: %+v, not said %+v", b, plain)
	}
}

func TestWithPrevailing(t *testing.T) {
	b := joint.Band{FloorNm: 1, UsualLoNm: 10, UsualHiNm: 20, CeilingNm: 40}
	want := joint.Band{FloorNm: 1, UsualLoNm: 10, UsualHiNm: 25, CeilingNm: 45}
	if diff := cmp.Diff(want, b.WithPrevailing(5)); diff != "" {
		t.Errorf("5 N·m running (-want +got):\n%s", diff)
	}
	if got := b.WithPrevailing(0); got.UsualHiNm <= b.UsualHiNm || got.CeilingNm <= b.CeilingNm || got.UsualLoNm != b.UsualLoNm {
		t.Errorf("running torque not known: %+v", got)
	}
}

func TestReadRefuses(t *testing.T) {
	for _, w := range []joint.Words{
		{Type: "screw"},
		{Type: "plug", Thread: "M14x1.5"},
		{Type: "set screw", Thread: "M6"},
		{Type: "prevailing nut", Thread: "M6"},
		{Type: "adjusting nut", Thread: "M35x1.5"},
		{Type: "screw", Thread: "G 1/2"},
		{Type: "screw", Thread: "3/8 NPT"},
		{Type: "screw", Thread: "M8x25"},
		{Type: "screw", Thread: "as before"},
	} {
		if f, ok := joint.Read(w); ok {
			t.Errorf("%+v: read as %+v", w, f)
		}
	}
}

// TestMissing: what a missing fact widened is told.
func TestMissing(t *testing.T) {
	f, ok := joint.Read(joint.Words{Thread: "1/4"})
	if !ok {
		t.Fatal("no facts")
	}
	want := []string{"the type of fastener", "the pitch", "the class", "the head", "the condition of the threads", "what it is screwed into"}
	if diff := cmp.Diff(want, f.Missing); diff != "" {
		t.Errorf("missing (-want +got):\n%s", diff)
	}
	f, ok = joint.Read(joint.Words{Type: "screw", Thread: "1/4-20", Class: "SAE 5", Head: "hex", Threads: "dry", Into: "steel"})
	if !ok || len(f.Missing) > 0 {
		t.Errorf("all is said, yet missing %v", f.Missing)
	}
	for _, class := range []string{"6.9", "8.8 special", "AN4"} {
		f, _ = joint.Read(joint.Words{Type: "screw", Thread: "1/4-20", Class: class, Head: "hex", Threads: "dry", Into: "steel"})
		if !slices.Contains(f.Missing, "a class that is in the tables for this thread") {
			t.Errorf("class %q: missing %v", class, f.Missing)
		}
	}
}

func TestTexts(t *testing.T) {
	f, _ := joint.Read(joint.Words{Type: "screw", Thread: "M8x1.25", Class: "8.8"})
	if got, want := f.ThreadText(), "M8x1.25: stress area 36.6 mm²"; got != want {
		t.Errorf("got %q, want %q", got, want) // ISO 898-1: 36.6
	}
	g, _ := joint.Read(joint.Words{Type: "screw", Thread: "1/4", Class: "AN4"})
	for _, got := range []string{f.ClassText(), g.ClassText(), g.ThreadText()} {
		if got == "" {
			t.Error("no text")
		}
	}
	if c := f.Source(); c.IsZero() {
		t.Error("no source")
	}
	for _, facts := range []*joint.Facts{&f, &g} {
		if len(facts.Sources()) < 3 {
			t.Errorf("sources of %s: %v", facts.Thread.Text, facts.Sources())
		}
	}
}

// FuzzBand: whatever the words, the band is ordered and finite, and dropping
// the class widens it.
func FuzzBand(f *testing.F) {
	f.Add("screw", "M8x1.25", "8.8", "hex", "dry", "steel", "", 0.0, 0.0)
	f.Add("nut", "1/4", "SAE 1 or 2", "", "oiled", "cast aluminium", "gasket", 0.0, 0.0)
	f.Add("", "No. 10-32", "", "", "", "", "", 0.12, 0.16)
	f.Add("stud", "M100x6", "10", "other: x", "other: y", "plastic", "O-ring", 0.5, 0.1)
	f.Add("", "1", "1", "", "0", "0", "", 92.0, 0.0)
	f.Fuzz(func(t *testing.T, kind, thread, class, head, threads, into, seal string, lo, hi float64) {
		w := joint.Words{Type: kind, Thread: thread, Class: class, Head: head, Threads: threads, Into: into, Seal: seal, FrictionLo: lo, FrictionHi: hi}
		facts, ok := joint.Read(w)
		if !ok {
			return
		}
		b := joint.BandOf(facts)
		if !(b.CeilingNm < 1e9) || !ordered(b) {
			t.Fatalf("%+v: %+v", w, b)
		}
		w.Class = ""
		if wide := band(t, w); !within(b, wide) {
			t.Errorf("without class %q: %+v, with it %+v", class, wide, b)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	w := joint.Words{Type: "screw", Thread: "M8x1.25", Class: "8.8", Head: "hex", Threads: "dry", Into: "cast iron"}
	for b.Loop() {
		if _, ok := joint.Read(w); !ok {
			b.Fatal("no facts")
		}
	}
}

func BenchmarkBandOf(b *testing.B) {
	f, _ := joint.Read(joint.Words{Type: "screw", Thread: "M8x1.25", Class: "8.8", Head: "hex", Threads: "dry", Into: "cast iron"})
	for b.Loop() {
		if joint.BandOf(f).CeilingNm == 0 {
			b.Fatal("no band")
		}
	}
}
