package joint

import (
	"math"

	"snapgauge/reference"
)

// Stripping is at what a thread strips, from the least forgiving reading of the
// facts to the most forgiving, with a middling one between.
type Stripping struct {
	TorqueNm, PreloadN Readings
	// OwnThread tells that by the middling reading the thread of the screw
	// strips, not the tapped one.
	OwnThread bool
	Source    reference.Citation // of the strength of what is tapped
}

// Readings are three readings of one number: least, middling, most.
type Readings struct{ Least, Middling, Most float64 }

const (
	// Shear strength of a screw over its tensile strength: 0.60 for 12.9 to 0.70
	// for 4.6 (VDI 2230-1, stripping strength; from memory). FED-STD-H28 takes
	// 0.5, Shigley 0.577.
	shearLeast, shearMiddling, shearMost = 0.5, 0.6, 0.7
	// insertLongest: wire inserts are made up to three diameters long (NASM33537;
	// from memory), and the whole of one may hold where the screw engages less.
	insertLongest = 3
	// Internal and external areas at least material over those at basic size are
	// 0.78 and 0.76 for M10 (Bickford, strip area table); for a thread whose
	// limits are not known.
	leastMaterial = 0.75
)

// StrippingOf works out at what the thread strips. It speaks only where the
// engagement and what is tapped are both known: ok is false otherwise, and for a
// nut, whose height is not the engagement that a record states.
//
// The most forgiving reading has the strongest material of that name, the whole
// stated engagement in threads of basic size, a screw stronger than its class and
// the highest friction. Source: FED-STD-H28 for the areas, VDI 2230-1 for the
// torque; strengths by [reference.Tapped].
func StrippingOf(f Facts) (s Stripping, ok bool) {
	if e := f.EngagementMM; f.Part == NutPart || !positive(e.Hi) || !(0 <= e.Lo && e.Lo <= e.Hi) {
		return Stripping{}, false
	}
	shear, _, known := reference.Tapped(f.Into)
	if f.Into == "" || !known {
		return Stripping{}, false
	}
	mu := f.strippingFrictions()
	s = Stripping{Source: shear.Source}
	s.TorqueNm.Least, s.PreloadN.Least = math.Inf(1), math.Inf(1)
	for _, t := range f.Threads {
		screw := ScrewOf(t)
		if !screw.valid() {
			continue
		}
		load, own := f.stripLoads(t, screw, shear)
		dLo, dHi, dMost := f.bearings(t)
		least := load.Least * armMM(screw, dLo, mu.Least, mu.Least) / 1000
		mid := load.Middling * armMM(screw, (dLo+dHi)/2, mu.Middling, mu.Middling) / 1000
		most := load.Most * armMM(screw, dMost, mu.Most, mu.Most) / 1000
		s.TorqueNm.Least, s.PreloadN.Least = min(s.TorqueNm.Least, least), min(s.PreloadN.Least, load.Least)
		if mid > s.TorqueNm.Middling {
			s.TorqueNm.Middling, s.PreloadN.Middling, s.OwnThread = mid, load.Middling, own
		}
		s.TorqueNm.Most, s.PreloadN.Most = max(s.TorqueNm.Most, most), max(s.PreloadN.Most, load.Most)
	}
	if !s.TorqueNm.rise() || !s.PreloadN.rise() {
		return Stripping{}, false
	}
	return s, true
}

// rise reports readings of finite numbers, each not below the one before; the
// least may be 0.
func (r Readings) rise() bool {
	const rounding = 1 + 1e-9
	return 0 <= r.Least && r.Least <= r.Middling*rounding && r.Middling <= r.Most*rounding && 0 < r.Most && r.Most < math.MaxFloat64/2
}

// WithPrevailing adds the running torque (N·m) of a locking thread that the
// figure includes; 0 means that it is not known.
func (s Stripping) WithPrevailing(runningNm float64) Stripping {
	t := &s.TorqueNm
	switch {
	case !t.rise():
	case positive(runningNm):
		t.Middling, t.Most = t.Middling+runningNm, t.Most+runningNm
	default:
		t.Middling, t.Most = t.Middling*(1+prevailingMost), t.Most*(1+prevailingMost)
	}
	return s
}

// stripLoads are the loads (N) at which the weaker of the two threads strips.
func (f *Facts) stripLoads(t reference.Thread, s Screw, shear reference.Interval) (load Readings, own bool) {
	tapped, screw := f.stripAreas(t, s)
	_, strong, tensile := f.strengths(t)
	weakest := tensile
	for i := range f.Strengths {
		if x := f.Strengths[i].Tensile; x > 0 {
			weakest = min(weakest, x)
		}
	}
	if len(f.Strengths) == 0 {
		weakest = min(weakest, reference.WeakestClass(t.Family == reference.Metric, t.D).Tensile)
	}
	tensile = max(tensile, strong)
	screwLoad := Readings{
		screw.Least * shearLeast * weakest, screw.Middling * shearMiddling * tensile, screw.Most * shearMost * tensileMost * tensile,
	}
	load = Readings{tapped.Least * shear.Lo, tapped.Middling * math.Sqrt(shear.Lo*shear.Hi), tapped.Most * shear.Hi}
	own = screwLoad.Middling < load.Middling
	load.Least, load.Middling, load.Most = min(load.Least, screwLoad.Least), min(load.Middling, screwLoad.Middling), min(load.Most, screwLoad.Most)
	return load, own
}

// stripAreas are the shearing areas (mm²) of the tapped thread and of the
// screw's own. The middling reading has least material on the middle of the
// stated engagement.
func (f *Facts) stripAreas(t reference.Thread, s Screw) (tapped, screw Readings) {
	e := f.EngagementMM
	mid := (e.Lo + e.Hi) / 2
	perMM := fullThread * math.Pi * s.DiameterMM
	own := ownThread * math.Pi * (s.DiameterMM - 1.082532*s.PitchMM)
	tapped = Readings{perMM * leastMaterial * e.Lo, perMM * leastMaterial * mid, perMM * e.Hi}
	screw = Readings{own * leastMaterial * e.Lo, own * leastMaterial * mid, own * e.Hi}
	if l, err := StripLimitsOf(t, "", ""); err == nil {
		// The tables are per mm of engagement, so one of 1 mm is scaled.
		in, errIn := InternalStripAreaMM2(l, 1)
		ex, errEx := ExternalStripAreaMM2(l, 1)
		if errIn == nil && errEx == nil {
			tapped.Least, tapped.Middling = min(in*e.Lo, tapped.Most), min(in*mid, tapped.Most)
			screw.Least, screw.Middling = min(ex*e.Lo, screw.Most), min(ex*mid, screw.Most)
		}
	}
	if f.Insert {
		// The insert holds the screw; what may strip is its hole.
		longest := max(e.Hi, insertLongest*s.DiameterMM)
		least, errLeast := InsertStripAreaMM2(s.DiameterMM, s.PitchMM, max(e.Lo, 1e-9))
		middle, errMiddle := InsertStripAreaMM2(s.DiameterMM, s.PitchMM, mid)
		most, errMost := InsertStripAreaMM2(s.DiameterMM, s.PitchMM, longest)
		if errLeast == nil && errMiddle == nil && errMost == nil {
			tapped = Readings{least.Lo, math.Sqrt(middle.Lo * middle.Hi), most.Hi}
		}
	}
	return tapped, screw
}

// ownThread: at basic size (Kn = d - 1.082532 P, Es = d2) the bracket of the
// external area is P/2 + 0.57735 · 0.433013 P = 3/4 P.
const ownThread = 0.75

// strippingFrictions are the least, middling and highest friction: what is
// usual, its geometric middle, and the outermost.
func (f *Facts) strippingFrictions() Readings {
	mu := f.frictions()
	return Readings{mu.usualLo, math.Sqrt(mu.usualLo * mu.usualHi), mu.outerHi}
}
