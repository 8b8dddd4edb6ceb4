package physics_test

import (
	"os"
	"path/filepath"
	"testing"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// demoTorques reads the torque records of the demo books.
func demoTorques(t testing.TB) []*schema.Record {
	t.Helper()
	files, err := filepath.Glob("../../specs/demo/*.*")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	var out []*schema.Record
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		for e, err := range specs.Read(file, f) {
			if err != nil {
				t.Fatal(err)
			}
			if e.Record != nil && e.Record.Kind == schema.KindTorque {
				out = append(out, e.Record)
			}
		}
		f.Close()
	}
	return out
}

// TestDemoStripped takes from the fasteners of the demo books first their class,
// then the condition of the threads, then the material: at each step the bands
// only widen and no reject appears.
func TestDemoStripped(t *testing.T) {
	steps := []struct {
		name string
		drop func(*schema.Record)
	}{
		{"class", func(r *schema.Record) {
			for i := range r.Fasteners.Items {
				r.Fasteners.Items[i].Class = ""
			}
		}},
		{"condition", func(r *schema.Record) { r.Joint.Threads, r.Joint.Friction = "", schema.Figure{} }},
		{"material", func(r *schema.Record) { r.Joint.Into = "" }},
		{"engagement", func(r *schema.Record) { r.Joint.Engagement = schema.Figure{} }},
		{"head", func(r *schema.Record) {
			for i := range r.Fasteners.Items {
				r.Fasteners.Items[i].Head = ""
			}
		}},
	}
	bands := 0
	for _, r := range demoTorques(t) {
		for _, f := range judgeAll(r) {
			t.Errorf("%s: %s: %s [%s]", r.ID, f.Verdict, f.Message, f.Check)
		}
		before := bandsOf(r)
		for _, step := range steps {
			step.drop(r)
			after := bandsOf(r)
			for i, b := range before {
				bands++
				if wide, ok := after[i]; !ok || !wider(b, wide) {
					t.Errorf("%s, fastener %d without %s: %+v, with it %+v", r.ID, i, step.name, wide, b)
				}
			}
			before = after
			for _, f := range judgeAll(r) {
				if f.Verdict == rule.Reject {
					t.Errorf("%s without %s: rejected: %s [%s]", r.ID, step.name, f.Message, f.Check)
				}
			}
		}
	}
	if bands < 200 {
		t.Errorf("%d bands compared", bands)
	}
}

func bandsOf(r *schema.Record) map[int]joint.Band {
	out := map[int]joint.Band{}
	for i := range r.Fasteners.Items {
		if f, ok := joint.Read(joint.WordsOf(r, i)); ok {
			out[i] = joint.BandOf(f)
		}
	}
	return out
}

func wider(b, wide joint.Band) bool {
	const eps = 1e-9
	return wide.FloorNm <= b.FloorNm*(1+eps) && wide.UsualLoNm <= b.UsualLoNm*(1+eps) &&
		wide.UsualHiNm >= b.UsualHiNm*(1-eps) && wide.CeilingNm >= b.CeilingNm*(1-eps)
}
