package joint

import (
	"math"
	"strings"
	"sync"

	"snapgauge/reference"
	"snapgauge/schema"
)

// Band is the band of tightening torques (N·m) that facts leave open:
//
//	FloorNm    below it a screw is not even held by its own preload
//	UsualLoNm  the least that is usual
//	UsualHiNm  the most that is usual
//	CeilingNm  above it the screw breaks, whatever the friction was
//
// It is a general band, not a specification.
type Band struct {
	FloorNm, UsualLoNm, UsualHiNm, CeilingNm float64
}

// The mechanics of the band, in shares of the strength of the weakest section,
// the stress area, with the torsion of tightening counted in (VDI 2230-1).
const (
	// usualMost: charts tighten to 0.9 of the minimum yield (VDI 2230-1,
	// nu = 0.9).
	usualMost = 0.9

	// The least usual torque is one of two, never both at once: the screw is
	// used as far as charts do and its friction is the least, or it is spared
	// and its friction is middling.
	//
	// chartLeast: charts that are not made after VDI 2230 take 0.75 of the proof
	// stress, which is 0.68 of the yield of 8.8 and 0.69 of SAE 5.
	chartLeast = 0.65
	// sparedLeast: low, button and countersunk heads are given 0.6 of a full
	// head (torque table of a seller of socket screws), screws into aluminium
	// 0.7 and less of a chart figure, plated ones 0.8 (US Army torque appendix).
	sparedLeast = 0.40

	// Shares of these two for a joint that is harder or softer than most.
	hardShare  = 1.1  // steel and iron: nothing but the head spares the screw
	sealShare  = 0.6  // a gasket or an O-ring sets the figure (common practice, no source)
	studShare  = 0.35 // set with a fraction of what its nut is tightened with (common practice, no source)
	floorShare = 0.1  // plastic, and parts that only keep their place
	// shaftShare: above 39 mm, where ISO 898 ends, a nut without a class is
	// mostly that of a shaft or a bearing, sized by the shaft and not by its
	// load: makers print 170 to 350 N·m for bearing lock nuts M45 to M90.
	shaftShare, shaftMM = 0.03, 39

	// tensileMost: the strength of a screw over the minimum of its class. ISO
	// 898-1 bounds it by hardness only: 10.9 to 380 HV, about 1.2 times 1040 MPa.
	tensileMost = 1.2
	// nutYieldShare: a nut may be used on a stronger screw than its class asks;
	// it strips near its proof stress, so that is the tensile strength that
	// counts, and screws of a weaker class are allowed (ISO 898-2).
	nutYieldShare = 0.8

	// leastMu: no chart counts on less than K = 0.09, which Shigley Table 8-15
	// gives for special low-friction nuts. VDI 2230-1 Table A5 begins at 0.04.
	leastMu = 0.065
	// sparedMu: a paste or a coating of low friction is there to reach the
	// preload, so a screw that has it is not spared. 0.12 is the middle of class
	// B of VDI 2230-1 Table A5, which the guideline tells to aim for.
	sparedMu = 0.12
	// A stated coefficient is the middle of a scatter. One class of VDI 2230-1
	// Table A5 spans 0.6 to 1.4 of its middle; a single batch is narrower.
	statedMuLeast, statedMuMost = 0.85, 1.15
	// For the ceiling the whole class counts.
	statedMuOuter = 1.4
	// outermostMu is the most that is met with: 0.5, a fifth above the outermost
	// measured (Handbook of Bolts and Bolted Joints), as widely as its digits
	// allow; 0.03 is the least. A coefficient beyond is a misprint. Whatever words
	// a record has for its threads, a source may state as much, so it is the
	// friction of the ceiling wherever none is stated.
	outermostMu, slipperiestMu = 0.55, 0.025

	// stainlessMu: stainless steel galls: K 0.3 to 0.5 dry (friction.csv), the outermost
	// measured K is 0.52, which is a coefficient of 0.42.
	stainlessMu = 0.42
	// softStainlessMPa is the yield of class 50 (ISO 3506-1:2020 Table 2), the
	// weakest screw in the tables.
	softStainlessMPa = 210

	// prevailingMost: a locking thread adds to the figure; where its running
	// torque is not given, at most this share. From memory: ISO 2320 allows 3 N·m
	// at M6, about 0.3 of the usual torque.
	prevailingMost = 0.5
)

// BandOf works out the band of facts. Every part of the facts that is not
// known takes its most forgiving value at each end. It is the zero Band where
// the facts have no thread, or numbers that are none.
func BandOf(f Facts) Band {
	mu := f.frictions()
	share := f.share()
	b := Band{FloorNm: math.Inf(1), UsualLoNm: math.Inf(1)}
	for _, t := range f.Threads {
		s := ScrewOf(t)
		if !s.valid() {
			continue
		}
		dLo, dHi, dMost := f.bearings(t)
		weak, strong, tensile := f.strengths(t)
		spared := torqueAtStressNm(s, dLo, weak*sparedLeast, mu.usualMid)
		used := torqueAtStressNm(s, dLo, weak*chartLeast, mu.usualLo)
		lo := min(spared, used)
		b.FloorNm = min(b.FloorNm, lo*min(share, floorShare))
		b.UsualLoNm = min(b.UsualLoNm, lo*share)
		b.UsualHiNm = max(b.UsualHiNm, torqueAtStressNm(s, dHi, strong*usualMost, mu.usualHi))
		b.CeilingNm = max(b.CeilingNm, torqueAtStressNm(s, dMost, tensile*tensileMost, mu.outerHi))
	}
	if !b.ordered() {
		return Band{}
	}
	return b
}

func (b Band) ordered() bool {
	return 0 < b.FloorNm && b.FloorNm <= b.UsualLoNm && b.UsualLoNm <= b.UsualHiNm && b.UsualHiNm <= b.CeilingNm && b.CeilingNm < largest
}

// WithPrevailing widens a band by the running torque (N·m) of a locking
// thread that the figure includes; 0, and what is no torque, means that it is not
// known.
func (b Band) WithPrevailing(runningNm float64) Band {
	if !b.ordered() {
		return b // no band, nothing to add to
	}
	if !positive(runningNm) {
		b.UsualHiNm *= 1 + prevailingMost
		b.CeilingNm *= 1 + prevailingMost
		return b
	}
	b.UsualHiNm += runningNm
	b.CeilingNm += runningNm
	return b
}

// share is how hard the joint lets its screw be tightened, against most.
//
// A seal and plastic lower the usual band, and so the band of a record that
// leaves them out is narrower at its lower end: the one exception to the rule that
// less knowledge widens it. They are no gaps of knowledge: the format has no word
// for "no seal", and they are said where they are. To allow for a gasket wherever
// none is said was measured on the published tables: of slips by 2 to 4 it would
// catch 61 % in place of 92 %, of slips by 4 to 8 99.1 % in place of 100 %. The
// floor (FloorNm), the upper end and the ceiling keep the rule.
func (f *Facts) share() float64 {
	share := 1.0
	switch f.Into {
	case "steel", "stainless steel", "cast iron", "ductile iron":
		share = hardShare
	case "plastic":
		return floorShare
	}
	switch f.Seal {
	case "gasket", "O-ring", "bonded seal":
		share = sealShare
	}
	if f.Part == AnyPart || f.Part == StudPart {
		share = min(share, studShare)
	}
	if f.Part != ScrewPart && len(f.Strengths) == 0 && f.Thread.D > shaftMM {
		share = min(share, shaftShare)
	}
	return share
}

// strengths are the least and greatest minimum yield and the greatest minimum
// tensile strength (MPa) that the class leaves open.
func (f *Facts) strengths(t reference.Thread) (weak, strong, tensile float64) {
	metric := t.Family == reference.Metric
	if len(f.Strengths) == 0 {
		return weakest(metric, t.D), reference.StrongestClass(metric, t.D).Yield, reference.StrongestClass(metric, t.D).Tensile
	}
	for i, r := range f.Strengths {
		if r.Part == "nut" {
			// Its proof stress is what the screw in it may reach.
			r.Tensile, r.Yield = r.Proof, nutYieldShare*r.Proof
		}
		lo := r.Yield
		if r.Part == "nut" {
			lo = min(lo, weakest(metric, t.D))
		}
		if i == 0 {
			weak, strong, tensile = lo, r.Yield, r.Tensile
			continue
		}
		weak, strong, tensile = min(weak, lo), max(strong, r.Yield), max(tensile, r.Tensile)
	}
	return weak, strong, max(tensile, strong)
}

// weakest is the least yield (MPa) of any screw in the tables.
func weakest(metric bool, dMM float64) float64 {
	return min(reference.WeakestClass(metric, dMM).Yield, softStainlessMPa)
}

// bearings are the least, the greatest usual and the greatest possible mean
// bearing diameter (mm) of the heads that may be meant. What bears is a ring
// near the least diameter of the washer face, as VDI 2230 takes it; at its edge
// only a warped or countersunk head does.
func (f *Facts) bearings(t reference.Thread) (least, usual, most float64) {
	least = math.Inf(1)
	switch f.Head {
	case "button", "countersunk", "pan":
		// Wide heads, but with a shallow drive: they are not given more torque
		// than a hexagon.
		for _, b := range reference.BearingOf("", t) {
			least = min(least, (b.Dw+b.Hole)/2)
		}
	}
	for _, b := range reference.BearingOf(f.Head, t) {
		d := (b.Dw + b.Hole) / 2
		least, most = min(least, d), max(most, d)
		if !strings.HasSuffix(b.Kind, ", edge") {
			usual = max(usual, d)
		}
	}
	if most == 0 {
		// A hexagon is about 1.5 d across, its hole 1.1 d.
		return 1.3 * t.D, 1.3 * t.D, 1.3 * t.D
	}
	if usual == 0 {
		usual = most
	}
	return least, usual, most
}

// frictions of the thread and the head: the usual span with its middle, and
// the outermost.
type frictions struct{ usualLo, usualMid, usualHi, outerHi float64 }

// frictions of facts. A stated coefficient narrows what its condition leaves
// open and never goes beyond it, so that leaving it out only widens the band: a
// torque for a friction that is not usual is looked at either way.
func (f *Facts) frictions() frictions {
	mu := usualFrictions(f.Condition)
	mu.outerHi = outermostMu
	if f.mayBeStainless() {
		mu.usualHi = max(mu.usualHi, stainlessMu)
	}
	if !f.statesFriction() {
		return mu
	}
	within := func(x float64) float64 { return min(max(x, mu.usualLo), mu.usualHi) }
	return frictions{
		usualLo: within(f.MuLo * statedMuLeast),
		// Of a stated span the lower end is the middle of the least friction.
		usualMid: max(f.MuLo, mu.usualMid),
		usualHi:  within(f.MuHi * statedMuMost),
		outerHi:  min(max(f.MuHi*statedMuOuter, within(f.MuHi*statedMuMost)), outermostMu),
	}
}

// FrictionBeyondUsual reports a stated coefficient that is whole above what is
// usual for the condition and class, so that the band is not wider for it.
func (f *Facts) FrictionBeyondUsual() bool {
	open := *f
	open.MuLo, open.MuHi = 0, 0
	return f.statesFriction() && f.MuLo > open.frictions().usualHi
}

// statesFriction reports a stated coefficient that is one.
func (f *Facts) statesFriction() bool { return metWith(f.MuLo, f.MuHi) }

// metWith reports a span of friction that is met with.
func metWith(lo, hi float64) bool {
	return slipperiestMu*(1-1e-9) <= lo && lo <= hi && hi <= outermostMu*(1+1e-9)
}

// usualFrictions are those of a condition; where it is not known, the union of
// all, for leaving out a fact must not narrow the band.
func usualFrictions(condition string) frictions {
	if condition == "" {
		return anyFriction()
	}
	mu, _ := reference.UsualFriction(condition)
	return spread(mu)
}

// spread puts the middle of a span at the geometric mean of its ends, or at
// sparedMu.
func spread(mu reference.Interval) frictions {
	lo := max(mu.Lo, leastMu)
	return frictions{usualLo: lo, usualMid: max(math.Sqrt(lo*mu.Hi), sparedMu), usualHi: mu.Hi}
}

var anyFriction = sync.OnceValue(func() frictions {
	u := frictions{usualLo: math.Inf(1), usualMid: math.Inf(1)}
	for _, w := range schema.Vocabulary("threads") {
		mu, known := reference.UsualFriction(w)
		if !known {
			continue
		}
		c := spread(mu)
		u.usualLo, u.usualMid, u.usualHi = min(u.usualLo, c.usualLo), min(u.usualMid, c.usualMid), max(u.usualHi, c.usualHi)
	}
	return u
})

// mayBeStainless reports that the class does not say that the screw is of
// plain or alloy steel.
func (f *Facts) mayBeStainless() bool {
	for i := range f.Strengths {
		if strings.HasPrefix(f.Strengths[i].Standard, "ISO 3506") {
			return true
		}
	}
	return len(f.Strengths) == 0
}
