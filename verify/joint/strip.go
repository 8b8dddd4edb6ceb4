package joint

import (
	"math"

	"snapgauge/reference"
)

// StripLimits are the limits of size (mm) that the stripping of a thread depends
// on, at least material: the screw at its smallest, the tapped hole at its
// largest.
type StripLimits struct {
	PitchMM            float64
	ExternalMajorMinMM float64 // Ds min
	ExternalPitchMinMM float64 // Es min
	InternalPitchMaxMM float64 // En max
	InternalMinorMaxMM float64 // Kn max
}

// StripLimitsOf takes the limits of a thread in its tolerance classes; an empty
// class is the usual one, 6g and 6H (ISO 965-1), 2A and 2B (ASME B1.1).
func StripLimitsOf(t reference.Thread, external, internal string) (StripLimits, error) {
	l, err := reference.Limits(t, external, internal)
	if err != nil {
		return StripLimits{}, err
	}
	out := StripLimits{
		PitchMM:            t.Pitch,
		ExternalMajorMinMM: l.External.MajorMin, ExternalPitchMinMM: l.External.PitchMin,
		InternalPitchMaxMM: l.Internal.PitchMax, InternalMinorMaxMM: l.Internal.MinorMax,
	}
	if !out.valid() {
		return StripLimits{}, ErrRange
	}
	return out, nil
}

func (l StripLimits) valid() bool {
	return positive(l.PitchMM) && positive(l.ExternalMajorMinMM) && positive(l.ExternalPitchMinMM) &&
		positive(l.InternalPitchMaxMM) && positive(l.InternalMinorMaxMM)
}

// ExternalStripAreaMM2 is the area (mm²) that shears when the thread of the
// screw strips over an engagement (mm), at the minor diameter of the nut:
//
//	As = pi n Le Kn_max [1/(2n) + 0.57735 (Es_min - Kn_max)]
//
// Source: FED-STD-H28, as in Bickford, 4th ed. It is an error if the threads do
// not meet.
func ExternalStripAreaMM2(l StripLimits, engagementMM float64) (float64, error) {
	if !l.valid() || !positive(engagementMM) {
		return 0, ErrRange
	}
	return finite(stripAreaMM2(l.PitchMM, engagementMM, l.InternalMinorMaxMM, l.ExternalPitchMinMM-l.InternalMinorMaxMM))
}

// InternalStripAreaMM2 is the area (mm²) that shears when the tapped thread
// strips over an engagement (mm), at the major diameter of the screw:
//
//	An = pi n Le Ds_min [1/(2n) + 0.57735 (Ds_min - En_max)]
//
// Source and error as for [ExternalStripAreaMM2].
func InternalStripAreaMM2(l StripLimits, engagementMM float64) (float64, error) {
	if !l.valid() || !positive(engagementMM) {
		return 0, ErrRange
	}
	return finite(stripAreaMM2(l.PitchMM, engagementMM, l.ExternalMajorMinMM, l.ExternalMajorMinMM-l.InternalPitchMaxMM))
}

// stripAreaMM2 is pi n Le D [1/(2n) + overlap/sqrt(3)] with n = 1/P.
func stripAreaMM2(pitch, engagement, diameter, overlap float64) float64 {
	return math.Pi * engagement / pitch * diameter * (pitch/2 + 0.57735*overlap)
}

// StrengthRatio is J = As sigma_screw / (An sigma_nut): above 1 the tapped
// thread strips before the screw's own. The strengths (MPa) are both tensile or
// both shear. Source: FED-STD-H28.
func StrengthRatio(l StripLimits, screwMPa, tappedMPa float64) (float64, error) {
	if !positive(screwMPa) || !positive(tappedMPa) {
		return 0, ErrRange
	}
	external, err := ExternalStripAreaMM2(l, 1)
	if err != nil {
		return 0, err
	}
	internal, err := InternalStripAreaMM2(l, 1)
	if err != nil {
		return 0, err
	}
	return finite(external * screwMPa / (internal * tappedMPa))
}

// NeededEngagementMM is the engagement (mm) with which the screw breaks before
// a thread strips:
//
//	Le = 2 At / (pi n Kn_max [1/(2n) + 0.57735 (Es_min - Kn_max)])
//
// times the strength ratio J where the tapped part is the weaker. Source:
// FED-STD-H28, as in Bickford, 4th ed.; it takes the shear strength of the screw
// as half of its tensile strength.
func NeededEngagementMM(s Screw, l StripLimits, screwMPa, tappedMPa float64) (float64, error) {
	if !s.valid() {
		return 0, ErrRange
	}
	ratio, err := StrengthRatio(l, screwMPa, tappedMPa)
	if err != nil {
		return 0, err
	}
	area, err := ExternalStripAreaMM2(l, 1)
	if err != nil {
		return 0, err
	}
	return finite(2 * s.StressAreaMM2 / area * max(1, ratio))
}

// EngagementForLoadMM is the engagement (mm) with which a tapped thread of a
// shear strength (MPa) strips at a load (N). Source: FED-STD-H28, as
// [InternalStripAreaMM2].
func EngagementForLoadMM(l StripLimits, loadN, shearMPa float64) (float64, error) {
	area, err := InternalStripAreaMM2(l, 1)
	if err != nil || !positive(loadN) || !positive(shearMPa) {
		return 0, ErrRange
	}
	return finite(loadN / (area * shearMPa))
}

// StripLoadN is the load (N) at which a thread of that area (mm²) strips in a
// material of that shear strength (MPa). Source: FED-STD-H28.
func StripLoadN(areaMM2, shearMPa float64) (float64, error) { return LoadN(areaMM2, shearMPa) }

// PullOutLoadN is the quick estimate of the load (N) at which a tapped thread
// strips: pi dm tau L / 3, with the pitch diameter dm and engagement L (mm) and a
// shear strength (MPa). A third is empirical, the ideal is a half. Source:
// Handbook of Bolts and Bolted Joints, after Barrett (NASA RP-1228).
func PullOutLoadN(pitchDiameterMM, engagementMM, shearMPa float64) (float64, error) {
	if !positive(pitchDiameterMM) || !positive(engagementMM) || !positive(shearMPa) {
		return 0, ErrRange
	}
	return finite(math.Pi * pitchDiameterMM * shearMPa * engagementMM / 3)
}

// Outer thread of an insert, in shares of the screw's diameter and pitch; from
// memory.
const (
	// wireInsert: a wire insert sits in a thread of the same pitch one thread
	// depth larger, d + 1.299 P (NASM33537).
	wireInsert = 1.299038
	// solidInsert: bushes run from M12 outside for M8 to M8 outside for M4 and
	// 7/16 in outside for 1/4 in.
	solidInsert = 2.0
)

// InsertOuterMM is the outer thread diameter (mm) that an insert for a screw of
// a diameter and pitch (mm) may have: of a wire insert at least, of a solid bush
// at most. From memory: NASM33537 and makers' lists.
func InsertOuterMM(diameterMM, pitchMM float64) (Span, error) {
	if !positive(diameterMM) || !positive(pitchMM) {
		return Span{}, ErrRange
	}
	wire := diameterMM + wireInsert*pitchMM
	return Span{wire, max(wire, solidInsert*diameterMM)}, nil
}

// InsertStripAreaMM2 is the area (mm²) that shears when an insert pulls out of
// its hole, over the length (mm) that holds, for its outer thread. It runs from
// the least to the largest insert, at 0.6 to 0.875 of the cylinder of that
// diameter: an ISO 68-1 tapped thread at basic size shears over 7/8 of it, at
// least material over some 0.68 (FED-STD-H28), and the thread of an insert is
// not known here.
func InsertStripAreaMM2(diameterMM, pitchMM, lengthMM float64) (Span, error) {
	outer, err := InsertOuterMM(diameterMM, pitchMM)
	if err != nil || !positive(lengthMM) {
		return Span{}, ErrRange
	}
	s := Span{insertLeast * math.Pi * outer.Lo * lengthMM, fullThread * math.Pi * outer.Hi * lengthMM}
	if _, err := finite(s.Hi); err != nil {
		return Span{}, err
	}
	return s, nil
}

const (
	// fullThread: at basic size (Ds = d, En = d2) the bracket of the internal area
	// is P/2 + 0.57735 · 0.649519 P = 7/8 P.
	fullThread  = 0.875
	insertLeast = 0.6
)
