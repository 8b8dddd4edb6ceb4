package joint_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/verify/joint"
)

// TestTotalFriction: the relation is the inverse of the torque relation with one
// friction, apart from the rounding of 1/(2 pi) to 0.16 and of 1/cos 30° / 2 to
// 0.577 and 0.58: VDI's M10x1.25 of 8.8 at 0.12, 31.6 kN and 51 N·m, gives 0.12 back.
func TestTotalFriction(t *testing.T) {
	s := joint.Screw{DiameterMM: 10, PitchMM: 1.25, PitchDiameterMM: 9.188, StressAreaMM2: 61.2}
	got, err := joint.TotalFriction(s, (14.63+11)/2, 51, 31_600)
	ok(t, err)
	within1(t, "mu", got, 0.12, 0.0015)
	for _, mu := range []float64{0.06, 0.10, 0.14, 0.30} {
		nm, err := joint.TorqueNm(s, 12.815, 20_000, mu, mu)
		ok(t, err)
		back, err := joint.TotalFriction(s, 12.815, nm, 20_000)
		ok(t, err)
		within1(t, "mu there and back", back, mu, 0.01*mu+0.0005)
	}
	// Less torque than the slope of the thread alone needs.
	if mu, err := joint.TotalFriction(s, 12.815, 3, 20_000); err == nil {
		t.Errorf("3 N·m for 20 kN: mu %v, want an error", mu)
	}
}

// TestHeadPressure: M10 of 8.8 at 30 kN under a hexagon (dw 14.63 mm of ISO 4014,
// hole 11 mm of ISO 273): pi/4 (214.04 - 121) = 73.07 mm², worked by hand, 410.6 MPa.
func TestHeadPressure(t *testing.T) {
	got, err := joint.HeadPressureMPa(30_000, 14.63, 11)
	ok(t, err)
	within1(t, "pressure", got, 410.6, 0.5)
	back, err := joint.HeadLoadN(got, 14.63, 11)
	ok(t, err)
	within1(t, "load back", back, 30_000, 1e-6)
	for _, call := range []func() (float64, error){
		func() (float64, error) { return joint.HeadPressureMPa(30_000, 11, 11) },
		func() (float64, error) { return joint.HeadPressureMPa(0, 14, 11) },
		func() (float64, error) { return joint.HeadLoadN(math.Inf(1), 14, 11) },
		func() (float64, error) { return joint.HeadLoadN(500, 14, -1) },
	} {
		if x, err := call(); err == nil {
			t.Errorf("got %v, want an error", x)
		}
	}
}

// TestLimitPressure: VDI 2230-1 Table A9 as remembered: grey iron GJL-250 850 MPa,
// die-cast aluminium 220 to 290, soft steel 260 to 490 by edition. The span holds
// them all, and nothing is said of plastic.
func TestLimitPressure(t *testing.T) {
	for material, inside := range map[string][]float64{
		"cast iron": {850}, "cast aluminium": {220, 290}, "steel": {260, 490, 710},
	} {
		limit, source, known := joint.LimitPressureMPa(material)
		if !known || source.IsZero() || limit.Lo <= 0 {
			t.Errorf("%s: %+v, %v, %v", material, limit, source, known)
		}
		for _, x := range inside {
			if !limit.Within(x) {
				t.Errorf("%s: %v MPa outside %+v", material, x, limit)
			}
		}
	}
	if limit, _, known := joint.LimitPressureMPa("plastic"); known {
		t.Errorf("plastic: %+v", limit)
	}
}

// TestAngle: 90° of a pitch of 1.5 mm is 0.375 mm. A bar of 58 mm² and 50 mm of
// steel has 205 000 · 58 / 50 = 237 800 N/mm, worked by hand; between parts four
// times as stiff 190 240 N/mm, so the angle adds 71 340 N.
func TestAngle(t *testing.T) {
	screw, err := joint.StiffnessNPerMM(58, 50, joint.SteelModulusMPa)
	ok(t, err)
	within1(t, "screw", screw, 237_800, 1e-6)
	both, err := joint.SeriesNPerMM(screw, 4*screw)
	ok(t, err)
	within1(t, "screw and parts", both, 190_240, 1e-6)
	load, err := joint.AnglePreloadN(1.5, 90, both)
	ok(t, err)
	within1(t, "preload", load, 71_340, 1e-6)
}

// TestAngleSpan: what is known narrows the span, and the tensile strength ends
// it. 60° on an M8x1 of 10.9 over 30 mm is far within it.
func TestAngleSpan(t *testing.T) {
	s := joint.ScrewOf(mustThread(t, "M8x1"))
	open, err := joint.AngleSpanN(s, 60, 30, 0, 0)
	ok(t, err)
	known, err := joint.AngleSpanN(s, 60, 30, 900_000, 0)
	ok(t, err)
	if !(open.Lo < known.Lo && known.Hi < open.Hi && known.Lo < known.Hi) {
		t.Errorf("parts known %+v, not known %+v", known, open)
	}
	twice, err := joint.AngleSpanN(s, 120, 30, 0, 0)
	ok(t, err)
	within1(t, "twice the angle", twice.Lo, 2*open.Lo, 1e-6)
	ended, err := joint.AngleSpanN(s, 720, 30, 0, 1040)
	ok(t, err)
	if most := 1.2 * 1040 * s.StressAreaMM2; ended.Hi > most+1e-6 || ended.Lo > ended.Hi {
		t.Errorf("two turns: %+v, the screw breaks at %v", ended, most)
	}
	for name, call := range map[string]func() (joint.Span, error){
		"no screw":       func() (joint.Span, error) { return joint.AngleSpanN(joint.Screw{}, 60, 30, 0, 0) },
		"no angle":       func() (joint.Span, error) { return joint.AngleSpanN(s, 0, 30, 0, 0) },
		"no length":      func() (joint.Span, error) { return joint.AngleSpanN(s, 60, math.NaN(), 0, 0) },
		"parts negative": func() (joint.Span, error) { return joint.AngleSpanN(s, 60, 30, -1, 0) },
		"parts infinite": func() (joint.Span, error) { return joint.AngleSpanN(s, 60, 30, math.Inf(1), 0) },
		"strength NaN":   func() (joint.Span, error) { return joint.AngleSpanN(s, 60, 30, 0, math.NaN()) },
	} {
		if got, err := call(); err == nil {
			t.Errorf("%s: %+v, want an error", name, got)
		}
	}
}

// TestAdapter: US Army TM 1-1500-204-23-9 paragraph 8: 300 lb-in with L 10 in and
// A 4 in, set 214; an adapter that points back shortens the lever.
func TestAdapter(t *testing.T) {
	got, err := joint.AdapterSetting(300, 10, 4)
	ok(t, err)
	within1(t, "setting", got, 214, 0.5)
	back, err := joint.AdapterTorque(got, 10, 4)
	ok(t, err)
	within1(t, "torque", back, 300, 1e-9)
	got, err = joint.AdapterSetting(300, 10, -4)
	ok(t, err)
	within1(t, "reversed: TA L/(L - A)", got, 500, 1e-9)
	for _, call := range []func() (float64, error){
		func() (float64, error) { return joint.AdapterSetting(300, 10, -10) },
		func() (float64, error) { return joint.AdapterSetting(300, 0, 4) },
		func() (float64, error) { return joint.AdapterTorque(-1, 10, 4) },
		func() (float64, error) { return joint.AdapterTorque(1, 10, math.NaN()) },
	} {
		if x, err := call(); err == nil {
			t.Errorf("got %v, want an error", x)
		}
	}
}

// TestRunning: ISO 2320 rows M10: 1.4 N·m least at a removal, 10.5 most at first
// assembly (from memory); from either alone the other is near.
func TestRunning(t *testing.T) {
	both, _ := joint.RunningSpanNm(1.4, 10.5)
	if diff := cmp.Diff(joint.Span{Lo: 1.4, Hi: 10.5}, both); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	least, _ := joint.RunningSpanNm(1.4, 0)
	within1(t, "most from least", least.Hi, 10.5, 0.2)
	most, _ := joint.RunningSpanNm(0, 10.5)
	within1(t, "least from most", most.Lo, 1.4, 0.03)
	if got, known := joint.RunningSpanNm(0, 0); known {
		t.Errorf("no rows: %+v", got)
	}
	for _, call := range []func() (float64, error){
		func() (float64, error) { return joint.TorqueWithRunning(0, 1) },
		func() (float64, error) { return joint.TorqueWithRunning(10, -1) },
		func() (float64, error) { return joint.LeastPreloadN(100, 0.9) },
		func() (float64, error) { return joint.LoadN(0, 1) },
		func() (float64, error) { return joint.ElongationMM(0, 1, 1, 1) },
		func() (float64, error) { return joint.LeverTorqueNm(1, math.Inf(1)) },
		func() (float64, error) { return joint.SeriesNPerMM(1, 0) },
		func() (float64, error) { return joint.AnglePreloadN(1, -1, 1) },
		func() (float64, error) { return joint.TotalFriction(joint.Screw{}, 1, 1, 1) },
	} {
		if x, err := call(); err == nil {
			t.Errorf("got %v, want an error", x)
		}
	}
}

// TestUseAt: VDI 2230's table for M10x1.25 of 8.8 (Mastik catalogue p. 685): at 0.9
// of the yield and mu 0.12 31.6 kN and 51 N·m; the span holds them, the hexagons
// of that size being several.
func TestUseAt(t *testing.T) {
	f, known := joint.Read(joint.Words{Type: "screw", Thread: "M10x1.25", Class: "8.8", Head: "hex", FrictionLo: 0.12, FrictionHi: 0.12})
	if !known {
		t.Fatal("no facts")
	}
	u, err := joint.UseAt(f, 0.9)
	ok(t, err)
	if !u.TorqueNm.Within(51) || u.TorqueNm.Hi > 1.1*51 || u.TorqueNm.Lo < 0.9*51 {
		t.Errorf("torque %+v, 51 N·m is printed", u.TorqueNm)
	}
	within1(t, "preload, kN", u.PreloadN.Lo/1000, 31.6, 0.2)
	within1(t, "preload, kN", u.PreloadN.Hi/1000, 31.6, 0.2)
	yield, err := joint.UseAt(f, 1)
	ok(t, err)
	within1(t, "at yield", yield.PreloadN.Hi, u.PreloadN.Hi/0.9, 1e-6)
	open, _ := joint.Read(joint.Words{Type: "screw", Thread: "M10x1.25"})
	wide, err := joint.UseAt(open, 0.9)
	ok(t, err)
	if wide.TorqueNm.Lo > u.TorqueNm.Lo || wide.TorqueNm.Hi < u.TorqueNm.Hi || wide.PreloadN.Lo > u.PreloadN.Lo {
		t.Errorf("without class and friction %+v, with %+v", wide, u)
	}
	for _, share := range []float64{0, -1, 3, math.NaN()} {
		if got, err := joint.UseAt(f, share); err == nil {
			t.Errorf("share %v: %+v, want an error", share, got)
		}
	}
	if got, err := joint.UseAt(joint.Facts{}, 0.9); err == nil {
		t.Errorf("no facts: %+v, want an error", got)
	}
}

// TestStripping: the readings follow one another, more engagement and a stronger
// material hold more, and without them nothing is said.
func TestStripping(t *testing.T) {
	w := joint.Words{
		Type: "screw", Thread: "M10x1.5", Class: "10.9", Head: "hex", Threads: "dry",
		Into: "cast aluminium", EngagementMM: joint.Span{Lo: 9.5, Hi: 10.5},
	}
	strip := func(change func(*joint.Words)) (joint.Stripping, bool) {
		x := w
		change(&x)
		f, known := joint.Read(x)
		if !known {
			t.Fatalf("%+v: no facts", x)
		}
		return joint.StrippingOf(f)
	}
	base, known := strip(func(*joint.Words) {})
	if !known || !ordered3(base.TorqueNm) || !ordered3(base.PreloadN) || base.OwnThread || base.Source.IsZero() {
		t.Fatalf("%+v, %v", base, known)
	}
	// 10 mm of M10 shear over 214.77 mm² (Bickford) at 128 to 221 MPa.
	within1(t, "middling", base.PreloadN.Middling, 214.77*math.Sqrt(128*221), 50)
	within1(t, "least", base.PreloadN.Least, 204.03*128, 50)
	for name, change := range map[string]func(*joint.Words){
		"longer": func(w *joint.Words) { w.EngagementMM = joint.Span{Lo: 19.5, Hi: 20.5} },
		"steel":  func(w *joint.Words) { w.Into = "steel" },
		"insert": func(w *joint.Words) { w.Insert = "wire insert" },
	} {
		more, known := strip(change)
		if !known || more.TorqueNm.Middling <= base.TorqueNm.Middling || more.TorqueNm.Most <= base.TorqueNm.Most || !ordered3(more.TorqueNm) {
			t.Errorf("%s: %+v, plain %+v", name, more, base)
		}
	}
	if own, _ := strip(func(w *joint.Words) { w.Into, w.Class = "steel", "4.6" }); !own.OwnThread {
		t.Errorf("4.6 into steel: %+v", own)
	}
	for name, change := range map[string]func(*joint.Words){
		"no engagement": func(w *joint.Words) { w.EngagementMM = joint.Span{} },
		"no material":   func(w *joint.Words) { w.Into = "" },
		"plastic":       func(w *joint.Words) { w.Into = "plastic" },
		"a nut":         func(w *joint.Words) { w.Type = "nut" },
	} {
		if s, known := strip(change); known {
			t.Errorf("%s: %+v", name, s)
		}
	}
	more := base.WithPrevailing(5)
	within1(t, "running torque", more.TorqueNm.Most, base.TorqueNm.Most+5, 1e-9)
}

// TestStrippingWidens: leaving out a fact never lets the most forgiving reading
// strip at less.
func TestStrippingWidens(t *testing.T) {
	w := joint.Words{
		Type: "screw", Thread: "M8x1.25", Class: "8.8", Head: "hex", Threads: "oiled",
		Into: "cast aluminium", EngagementMM: joint.Span{Lo: 7.5, Hi: 8.5},
	}
	f, _ := joint.Read(w)
	base, _ := joint.StrippingOf(f)
	for name, drop := range map[string]func(*joint.Words){
		"type": func(w *joint.Words) { w.Type = "" }, "class": func(w *joint.Words) { w.Class = "" },
		"head": func(w *joint.Words) { w.Head = "" }, "threads": func(w *joint.Words) { w.Threads = "" },
		"pitch": func(w *joint.Words) { w.Thread = "M8" },
	} {
		less := w
		drop(&less)
		g, _ := joint.Read(less)
		if s, known := joint.StrippingOf(g); !known || s.TorqueNm.Most < base.TorqueNm.Most*(1-1e-9) || s.TorqueNm.Least > base.TorqueNm.Least*(1+1e-9) {
			t.Errorf("without %s %+v, with it %+v", name, s, base)
		}
	}
}

func ordered3(r joint.Readings) bool {
	return 0 < r.Least && r.Least <= r.Middling && r.Middling <= r.Most && r.Most < 1e12
}
