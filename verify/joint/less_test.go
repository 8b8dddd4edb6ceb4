package joint_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
)

// drawn draws words at random, three in four with a stated friction that is met
// with (0.03 to 0.5, as its digits allow).
func drawn(r *rand.Rand) joint.Words {
	pick := func(list []string) string { return list[r.IntN(len(list))] }
	w := joint.Words{
		Type: pick(someTypes), Thread: pick(someThreads), Class: pick(someClasses), Head: pick(someHeads),
		Threads: pick(someConditions), Into: pick(someInto), Seal: pick(someSeals),
	}
	if r.IntN(4) > 0 {
		w.FrictionLo = 0.025 + r.Float64()*0.525
		w.FrictionHi = w.FrictionLo + r.Float64()*(0.55-w.FrictionLo)
		if r.IntN(2) == 0 {
			w.FrictionHi = min(0.55, w.FrictionLo+0.01)
		}
	}
	return w
}

// TestFrictionDropped: leaving out a stated friction, or all that is said of
// friction, never narrows a band, whatever else is said. So it is with a condition,
// but where it contradicts the coefficient: moly at 0.40.
func TestFrictionDropped(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	bad := 0
	for range 20_000 {
		w := drawn(rng)
		b := band(t, w)
		if !ordered(b) {
			t.Fatalf("%+v: %+v", w, b)
		}
		no, bare, noWord := w, w, w
		no.FrictionLo, no.FrictionHi = 0, 0
		bare.FrictionLo, bare.FrictionHi, bare.Threads = 0, 0, ""
		noWord.Threads = ""
		usual, _ := reference.UsualFriction(w.Threads)
		if w.FrictionLo > usual.Hi || w.FrictionHi < usual.Lo {
			noWord = w
		}
		for name, less := range map[string]joint.Words{"friction": no, "friction and condition": bare, "condition": noWord} {
			if wide := band(t, less); !within(b, wide) && bad < 10 {
				bad++
				t.Errorf("without %s %+v is narrower:\n %+v\n %+v", name, w, b, wide)
			}
		}
	}
}

// TestCeilingOfUnknownFriction: 115 N·m on M8 of 8.8 and 175 N·m of 12.9 break no
// screw where a friction of 0.40 is stated, and none where it is left out.
func TestCeilingOfUnknownFriction(t *testing.T) {
	for class, nm := range map[string]float64{"8.8": 115, "12.9": 175} {
		for _, mu := range []float64{0, 0.12, 0.40, 0.5} {
			w := joint.Words{Type: "screw", Thread: "M8x1.25", Class: class, FrictionLo: mu, FrictionHi: mu}
			if b := band(t, w); (mu == 0 || mu >= 0.4) && nm > b.CeilingNm {
				t.Errorf("%s at friction %v: %v N·m is above the ceiling, %+v", class, mu, nm, b)
			}
		}
		for _, c := range someConditions {
			if b := band(t, joint.Words{Type: "screw", Thread: "M8x1.25", Class: class, Threads: c}); nm > b.CeilingNm {
				t.Errorf("%s, threads %q: %v N·m is above the ceiling, %+v", class, c, nm, b)
			}
		}
	}
}

// TestFrictionBeyondUsual: 0.30 is more than is usual for plain steel, not for
// stainless steel (K 0.3 to 0.5 dry).
func TestFrictionBeyondUsual(t *testing.T) {
	for _, tt := range []struct {
		class  string
		lo, hi float64
		want   bool
	}{{"8.8", 0.295, 0.305, true}, {"8.8", 0.115, 0.125, false}, {"A2-70", 0.295, 0.305, false}, {"8.8", 0, 0, false}, {"8.8", 0.08, 0.4, false}} {
		f, ok := joint.Read(joint.Words{Type: "screw", Thread: "M8", Class: tt.class, FrictionLo: tt.lo, FrictionHi: tt.hi})
		if !ok || f.FrictionBeyondUsual() != tt.want {
			t.Errorf("%+v: %v", tt, !tt.want)
		}
	}
}

// TestMisprintedFriction: a coefficient that is not met with states none.
func TestMisprintedFriction(t *testing.T) {
	w := joint.Words{Type: "screw", Thread: "M8x1.25", Class: "8.8"}
	open := band(t, w)
	for _, mu := range [][2]float64{{0.012, 0.012}, {1.2, 1.2}, {0.08, 0.8}, {0.7, 0.7}} {
		w.FrictionLo, w.FrictionHi = mu[0], mu[1]
		if b := band(t, w); b != open {
			t.Errorf("%v: %+v, without %+v", mu, b, open)
		}
	}
}

// TestBeyondM39: beyond the sizes of ISO 898-1 the strength by the name of the
// class is taken. A stronger class bears more.
func TestBeyondM39(t *testing.T) {
	for _, thread := range []string{"M42x4.5", "M48x5", "M56x5.5", "M64x6", "M42x3"} {
		last := 0.0
		for _, class := range []string{"4.6", "5.6", "8.8", "10.9", "12.9"} {
			f, ok := joint.Read(joint.Words{Type: "screw", Thread: thread, Class: class})
			if !ok || len(f.Strengths) == 0 {
				t.Fatalf("%s %s: the class is not known", thread, class)
			}
			b := joint.BandOf(f)
			if b.UsualHiNm <= last {
				t.Errorf("%s %s: %+v, the class below %v", thread, class, b, last)
			}
			last = b.UsualHiNm
		}
	}
	// M42 of 10.9 at mu 0.12: 5 400 N·m by the relation of VDI 2230, 0.9 of 940 MPa on
	// 1121 mm² (ISO 898-1), worked out by hand to one digit.
	if b := band(t, joint.Words{Type: "screw", Thread: "M42x4.5", Class: "10.9"}); b.UsualLoNm > 4500 || b.UsualHiNm < 5400 || b.CeilingNm > 30_000 {
		t.Errorf("M42x4.5 10.9: %+v", b)
	}
}

// TestNeighbouringGrades: SAE 6 has no rows; it lies between SAE 5 and SAE 7.
func TestNeighbouringGrades(t *testing.T) {
	five, seven := band(t, joint.Words{Type: "screw", Thread: "1/2-13", Class: "SAE 5"}), band(t, joint.Words{Type: "screw", Thread: "1/2-13", Class: "SAE 7"})
	for _, class := range []string{"SAE 6", "SAE 6 or 7"} {
		b := band(t, joint.Words{Type: "screw", Thread: "1/2-13", Class: class})
		if b.UsualLoNm != five.UsualLoNm || b.UsualHiNm != seven.UsualHiNm || b.CeilingNm != seven.CeilingNm {
			t.Errorf("%s: %+v, SAE 5 %+v, SAE 7 %+v", class, b, five, seven)
		}
	}
}

// TestOtherMaterials: of a screw that is not of steel nothing is said.
func TestOtherMaterials(t *testing.T) {
	for _, class := range []string{"nylon", "plastic", "Brass", "aluminium", "aluminum 7075-T6", "titanium", "PA66", "silicon bronze", "CU2"} {
		if f, ok := joint.Read(joint.Words{Type: "screw", Thread: "M8", Class: class}); ok {
			t.Errorf("class %q: %+v", class, joint.BandOf(f))
		}
	}
	for _, class := range []string{"8.8", "stainless", "A2-70", "steel", "AN4", ""} {
		if _, ok := joint.Read(joint.Words{Type: "screw", Thread: "M8", Class: class}); !ok {
			t.Errorf("class %q: nothing is said", class)
		}
	}
}

// TestAbsent: what is not there is no panic.
func TestAbsent(t *testing.T) {
	r := &schema.Record{}
	if w := joint.WordsOf(r, 3); w != (joint.Words{}) {
		t.Errorf("no fastener: %+v", w)
	}
	if w := joint.WordsOf(nil, 0); w != (joint.Words{}) {
		t.Errorf("no record: %+v", w)
	}
	for _, at := range [][2]int{{0, 5}, {-1, -1}, {0, 0}, {5, 0}} {
		if role := joint.RoleOf(r, at[0], at[1]); role != joint.Unjudged {
			t.Errorf("%v: %v", at, role)
		}
	}
	r.Tighten = make([]schema.Step, 1)
	if role := joint.RoleOf(r, 2, 0); role != joint.Unjudged {
		t.Errorf("no fastener: %v", role)
	}
	if joint.RoleOf(nil, 0, 0) != joint.Unjudged || joint.AppliesTo(r, nil, 0) || joint.AppliesTo(nil, &r.Tighten[0], 0) || joint.IntoYield(nil) {
		t.Error("something is said of nothing")
	}
	only := &schema.Step{Only: []string{"long"}}
	if joint.AppliesTo(r, only, 0) || joint.AppliesTo(r, only, -1) {
		t.Error("a step applies to no fastener")
	}
	if _, included := joint.RunningTorque(nil); included {
		t.Error("a running torque of nothing")
	}
	if _, _, ok := joint.Ends(nil); ok {
		t.Error("ends of nothing")
	}
	b := joint.Band{FloorNm: 1, UsualLoNm: 10, UsualHiNm: 20, CeilingNm: 40}
	if side := b.Side(nil, joint.Final); side != "" {
		t.Errorf("side of nothing: %q", side)
	}
	if got := (*joint.Judged)(nil).BandIn(r); got != (joint.Band{}) {
		t.Errorf("%+v", got)
	}
	var none *convert.Value
	if side := b.Side(none, joint.Stage); side != "" {
		t.Errorf("%q", side)
	}
}

func ExampleBand_WithPrevailing() {
	b := joint.Band{FloorNm: 1, UsualLoNm: 10, UsualHiNm: 20, CeilingNm: 40}
	fmt.Println(b.WithPrevailing(5))
	// Output: {1 10 25 45}
}
