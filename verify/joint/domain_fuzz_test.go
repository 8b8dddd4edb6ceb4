package joint_test

import (
	"math"
	"testing"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
)

// FuzzFacts calls the composed functions over their whole domain: facts need not
// come from words. A band is ordered and finite or zero, readings and uses are
// ordered and finite or not given.
func FuzzFacts(f *testing.F) {
	inf, nan := math.Inf(1), math.NaN()
	f.Add("M8x1.25", "8.8", "cast aluminium", 0.12, 0.12, 11.0, 13.0, false, 1.0, 640.0, 5.0, 0.9, uint8(1))
	f.Add("M8x1.25", "8.8", "cast aluminium", 0.12, inf, 1.0, inf, false, 1.0, 640.0, inf, 0.9, uint8(1))
	f.Add("M8x1.25", "8.8", "steel", 1.0, 1e308, -12.0, 8.0, false, 1.0, 640.0, -inf, 1.0, uint8(0))
	f.Add("M8", "", "magnesium", 0.14, 0.10, 5e-324, 5e-324, true, 1.0, 640.0, nan, 0.5, uint8(2))
	f.Add("", "", "", nan, nan, nan, nan, true, nan, nan, 0.0, nan, uint8(9))
	f.Add("1/4-20", "SAE 5", "brass", 0.2, 0.3, 0.0, 12.0, true, inf, -1.0, 1e308, 2.0, uint8(3))
	f.Add("M8x1.25", "", "steel", 0.0, 0.0, 1e-9, 1e11, true, 1e308, 1e308, 1e300, 1e-300, uint8(1))
	f.Fuzz(func(t *testing.T, thread, class, into string, muLo, muHi, eLo, eHi float64, insert bool, scale, stress, running, share float64, part uint8) {
		facts := joint.Facts{Part: joint.Part(part), Into: into, MuLo: muLo, MuHi: muHi, EngagementMM: joint.Span{Lo: eLo, Hi: eHi}, Insert: insert}
		if th, problem := reference.ParseThread(thread); problem == nil {
			facts.Thread = th
			th.D, th.Pitch = th.D*scale, th.Pitch*scale
			facts.Threads = []reference.Thread{th}
			facts.Strengths = reference.ReadClass(class, th.D, th.Family == reference.Metric).Rows
			for i := range facts.Strengths {
				if stress != 640 {
					facts.Strengths[i].Yield, facts.Strengths[i].Tensile = stress, stress*1.2
				}
			}
		}
		sane := func(b joint.Band) bool {
			return b == joint.Band{} || 0 < b.FloorNm && b.FloorNm <= b.UsualLoNm && b.UsualLoNm <= b.UsualHiNm && b.UsualHiNm <= b.CeilingNm && !math.IsInf(b.CeilingNm, 0)
		}
		b := joint.BandOf(facts)
		if !sane(b) {
			t.Errorf("%+v: %+v", facts, b)
		}
		if wide := b.WithPrevailing(running); !sane(wide) || wide.CeilingNm < b.CeilingNm {
			t.Errorf("with %v running: %+v, %+v", running, b, wide)
		}
		rising := func(r joint.Readings) bool {
			return r.Least >= 0 && r.Least <= r.Middling*(1+1e-9) && r.Middling <= r.Most*(1+1e-9) && r.Most > 0 && !math.IsInf(r.Most, 0)
		}
		if s, ok := joint.StrippingOf(facts); ok {
			if !rising(s.TorqueNm) || !rising(s.PreloadN) {
				t.Errorf("%+v: %+v", facts, s)
			}
			if s = s.WithPrevailing(running); !rising(s.TorqueNm) {
				t.Errorf("with %v running: %+v", running, s)
			}
		} else if s != (joint.Stripping{}) {
			t.Errorf("not known, and yet %+v", s)
		}
		if u, err := joint.UseAt(facts, share); err == nil {
			for _, s := range []joint.Span{u.PreloadN, u.TorqueNm} {
				if !(s.Lo > 0 && s.Lo <= s.Hi && !math.IsInf(s.Hi, 0)) {
					t.Errorf("%+v: %+v", facts, u)
				}
			}
		}
	})
}

// FuzzSteps asks for fasteners and steps that a record need not have, with figures
// as they come: nothing panics, and of what is not there nothing is said.
func FuzzSteps(f *testing.F) {
	f.Add(1, 1, 0, 0, "25 N·m", "", "0.12", "12 mm", true)
	f.Add(0, 0, 3, 0, "", "3 N·m", "0", "", false)
	f.Add(2, 3, -1, -1, "max 1e300 N·m", "min 1 N·m", "0.5 to 0.1", "0 mm", false)
	f.Add(1, 2, 0, 5, "-5 to 5 N·m", "5 %", "1e-300", "max 1e300 mm", true)
	f.Fuzz(func(t *testing.T, fasteners, steps, i, k int, torque, running, friction, engagement string, yield bool) {
		read := func(text string, d convert.Dimension) schema.Figure {
			q, problem := convert.Parse(text, convert.Of(d), convert.Point)
			if text == "" || problem != nil {
				return schema.Figure{}
			}
			return schema.Figure{Values: []convert.Value{{Text: text, Quantity: q}}}
		}
		r := &schema.Record{}
		for range min(max(fasteners, 0), 4) {
			r.Fasteners.Items = append(r.Fasteners.Items, schema.Fastener{Type: "screw", Thread: "M8x1.25", Class: "8.8"})
		}
		for range min(max(steps, 0), 4) {
			r.Tighten = append(r.Tighten, schema.Step{To: read(torque, convert.Torque), Only: []string{"1"}, Yield: yield})
		}
		r.Joint.Friction, r.Joint.Engagement, r.Joint.Into = read(friction, convert.Number), read(engagement, convert.Length), "steel"
		r.Prevailing.Torque = read(running, convert.Torque)
		there := 0 <= i && i < len(r.Fasteners.Items)
		if role := joint.RoleOf(r, i, k); role != joint.Unjudged && !(there && 0 <= k && k < len(r.Tighten)) {
			t.Errorf("fastener %d, step %d: %v", i, k, role)
		}
		w := joint.WordsOf(r, i)
		if !there && w != (joint.Words{}) {
			t.Errorf("fastener %d: %+v", i, w)
		}
		j, ok := joint.Known(w)
		if !ok {
			return
		}
		b := j.BandIn(r)
		if !(0 < b.FloorNm && b.FloorNm <= b.UsualLoNm && b.UsualLoNm <= b.UsualHiNm && b.UsualHiNm <= b.CeilingNm && !math.IsInf(b.CeilingNm, 0)) {
			t.Errorf("%+v: %+v", w, b)
		}
		for n := range r.Tighten {
			to := &r.Tighten[n].To
			for m := range to.Values {
				lo, hi, ok := joint.Ends(&to.Values[m])
				if ok && !(lo <= hi && hi > 0) {
					t.Errorf("%s: %v to %v", torque, lo, hi)
				}
				if side := b.Side(&to.Values[m], joint.Stage); side == "low" {
					t.Errorf("%s: a stage is too low", torque)
				}
			}
		}
	})
}
