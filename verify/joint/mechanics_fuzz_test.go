package joint_test

import (
	"math"
	"testing"

	"snapgauge/verify/joint"
)

// FuzzMechanics calls every pure function with whatever numbers: each gives a
// finite positive result, an ordered span, or an error.
func FuzzMechanics(f *testing.F) {
	f.Add(10.0, 1.5, 9.026, 58.0, 12.8, 50.0, 30_000.0, 45.0)
	f.Add(1.6, 0.35, 1.373, 1.27, 3.0, 3.0, 600.0, 0.15)
	f.Add(0.0, math.NaN(), -1.0, math.Inf(1), 1e300, 1e-300, 1e12, 0.0)
	f.Add(1e11, 1e11, 1e11, 1e11, 1e-11, 1e-11, 1e11, 1e-11)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		s := joint.Screw{DiameterMM: a, PitchMM: b, PitchDiameterMM: c, StressAreaMM2: d}
		l := joint.StripLimits{PitchMM: b, ExternalMajorMinMM: a, ExternalPitchMinMM: c, InternalPitchMaxMM: e, InternalMinorMaxMM: g}
		for name, call := range map[string]func() (float64, error){
			"TotalFriction":        func() (float64, error) { return joint.TotalFriction(s, e, i, h) },
			"ExternalStripAreaMM2": func() (float64, error) { return joint.ExternalStripAreaMM2(l, h) },
			"InternalStripAreaMM2": func() (float64, error) { return joint.InternalStripAreaMM2(l, h) },
			"StrengthRatio":        func() (float64, error) { return joint.StrengthRatio(l, h, i) },
			"NeededEngagementMM":   func() (float64, error) { return joint.NeededEngagementMM(s, l, h, i) },
			"EngagementForLoadMM":  func() (float64, error) { return joint.EngagementForLoadMM(l, h, i) },
			"StripLoadN":           func() (float64, error) { return joint.StripLoadN(h, i) },
			"PullOutLoadN":         func() (float64, error) { return joint.PullOutLoadN(c, e, g) },
			"HeadPressureMPa":      func() (float64, error) { return joint.HeadPressureMPa(h, e, a) },
			"HeadLoadN":            func() (float64, error) { return joint.HeadLoadN(h, e, a) },
			"LoadN":                func() (float64, error) { return joint.LoadN(d, h) },
			"LeastPreloadN":        func() (float64, error) { return joint.LeastPreloadN(h, i) },
			"ElongationMM":         func() (float64, error) { return joint.ElongationMM(h, g, d, i) },
			"LeverTorqueNm":        func() (float64, error) { return joint.LeverTorqueNm(h, i) },
			"StiffnessNPerMM":      func() (float64, error) { return joint.StiffnessNPerMM(d, g, h) },
			"SeriesNPerMM":         func() (float64, error) { return joint.SeriesNPerMM(h, i) },
			"AnglePreloadN":        func() (float64, error) { return joint.AnglePreloadN(b, i, h) },
			"AdapterSetting":       func() (float64, error) { return joint.AdapterSetting(h, a, b) },
			"AdapterTorque":        func() (float64, error) { return joint.AdapterTorque(h, a, b) },
			"TorqueWithRunning":    func() (float64, error) { return joint.TorqueWithRunning(h, i) },
		} {
			if x, err := call(); err == nil && !finiteAbove(x) {
				t.Errorf("%s: %v without an error", name, x)
			}
		}
		for name, call := range map[string]func() (joint.Span, error){
			"AngleSpanN":         func() (joint.Span, error) { return joint.AngleSpanN(s, i, g, h, e) },
			"InsertOuterMM":      func() (joint.Span, error) { return joint.InsertOuterMM(a, b) },
			"InsertStripAreaMM2": func() (joint.Span, error) { return joint.InsertStripAreaMM2(a, b, g) },
		} {
			if x, err := call(); err == nil && !(finiteAbove(x.Lo) && finiteAbove(x.Hi) && x.Lo <= x.Hi) {
				t.Errorf("%s: %+v without an error", name, x)
			}
		}
		if x, known := joint.RunningSpanNm(h, i); known && !(finiteAbove(x.Lo) && finiteAbove(x.Hi) && x.Lo <= x.Hi) {
			t.Errorf("RunningSpanNm: %+v", x)
		}
	})
}

func finiteAbove(x float64) bool { return x > 0 && !math.IsInf(x, 0) }

// FuzzStripping: whatever the words, the readings are ordered and finite.
func FuzzStripping(f *testing.F) {
	f.Add("screw", "M8x1.25", "8.8", "hex", "dry", "cast aluminium", "", 11.5, 12.5, 0.9)
	f.Add("stud", "1/4", "", "", "", "magnesium", "wire insert", 0.0, 0.1, 1.0)
	f.Add("", "M300x6", "12.9", "pan", "moly", "steel", "bush", 1e11, 1e11, 2.0)
	f.Add("screw", "M8x1.25", "8.8", "hex", "dry", "brass", "", math.NaN(), math.Inf(1), math.NaN())
	f.Fuzz(func(t *testing.T, kind, thread, class, head, threads, into, insert string, lo, hi, share float64) {
		w := joint.Words{
			Type: kind, Thread: thread, Class: class, Head: head, Threads: threads, Into: into,
			Insert: insert, EngagementMM: joint.Span{Lo: lo, Hi: hi},
		}
		facts, known := joint.Read(w)
		if !known {
			return
		}
		if s, known := joint.StrippingOf(facts); known {
			r, p := s.TorqueNm, s.PreloadN
			if !(r.Least >= 0 && r.Least <= r.Middling*(1+1e-9) && r.Middling <= r.Most*(1+1e-9) && r.Most < 1e300) ||
				!(p.Least >= 0 && p.Least <= p.Middling*(1+1e-9) && p.Middling <= p.Most*(1+1e-9)) {
				t.Errorf("%+v: %+v", w, s)
			}
		}
		if u, err := joint.UseAt(facts, share); err == nil {
			if !(finiteAbove(u.TorqueNm.Lo) && u.TorqueNm.Lo <= u.TorqueNm.Hi && finiteAbove(u.PreloadN.Lo) && u.PreloadN.Lo <= u.PreloadN.Hi) {
				t.Errorf("%+v: %+v", w, u)
			}
		}
	})
}
