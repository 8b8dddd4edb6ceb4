package joint

import "math"

// SteelModulusMPa is the modulus of elasticity of steel screws at room
// temperature. Source: VDI 2230-1 (205 000 N/mm²).
const SteelModulusMPa = 205_000

// StiffnessNPerMM is the stiffness (N/mm) of a bar: E A / L. Source: VDI 2230-1,
// the inverse of the resilience L/(E A).
func StiffnessNPerMM(areaMM2, lengthMM, modulusMPa float64) (float64, error) {
	if !positive(areaMM2) || !positive(lengthMM) || !positive(modulusMPa) {
		return 0, ErrRange
	}
	return finite(areaMM2 * modulusMPa / lengthMM)
}

// SeriesNPerMM is the stiffness of screw and clamped parts together (N/mm):
// their compliances add. Source: VDI 2230-1, elastic resilience of the joint.
func SeriesNPerMM(screw, parts float64) (float64, error) {
	if !positive(screw) || !positive(parts) {
		return 0, ErrRange
	}
	return finite(1 / (1/screw + 1/parts))
}

// AnglePreloadN is the preload (N) that an angle (degrees) adds once the parts
// are snug, while the screw stays below yield: F = k P angle/360, with the
// stiffness of screw and parts together (N/mm). Source: Bickford, turn-of-nut
// relation; VDI 2230-1, angle-controlled tightening.
func AnglePreloadN(pitchMM, angleDeg, stiffnessNPerMM float64) (float64, error) {
	if !positive(pitchMM) || !positive(angleDeg) || !positive(stiffnessNPerMM) {
		return 0, ErrRange
	}
	return finite(stiffnessNPerMM * pitchMM * angleDeg / 360)
}

// Span is an interval of a number, Lo not above Hi.
type Span struct{ Lo, Hi float64 }

// Within reports whether x lies in the span.
func (s Span) Within(x float64) bool { return s.Lo <= x && x <= s.Hi }

// What is not known of a clamped joint.
const (
	// endShare: head and engaged thread give as much as a bar of 0.4 d each (VDI
	// 2230-1, resilience of head and engaged thread).
	endShare = 0.8
	// softParts: clamped parts are at least as stiff as the screw: ratios of 3 to 8
	// are usual for metal parts, 1 for long sleeves (common practice, no source).
	softParts = 1.0
)

// AngleSpanN is the preload (N) that an angle (degrees) adds after a snug
// torque, for a clamped length (mm) of a steel screw. The span runs from a screw
// threaded over its length between parts as compliant as itself to a full shank
// between rigid parts. Where the stiffness of the parts (N/mm) is known, it
// takes the place of that guess; 0 means that it is not. It ends at the preload
// at which the thread of a screw of that tensile strength (MPa) breaks, for an
// angle past yield adds little more; 0 means that the class is not known.
//
// A gasket or a flange that is not yet flat swallows angle: the lower end holds
// only for parts that are snug. Source: VDI 2230-1, as [AnglePreloadN].
func AngleSpanN(s Screw, angleDeg, clampedMM, partsNPerMM, tensileMPa float64) (Span, error) {
	if !s.valid() || !positive(angleDeg) || !positive(clampedMM) || partsNPerMM < 0 || tensileMPa < 0 ||
		partsNPerMM != 0 && !positive(partsNPerMM) || tensileMPa != 0 && !positive(tensileMPa) {
		return Span{}, ErrRange
	}
	soft := SteelModulusMPa * s.StressAreaMM2 / (clampedMM + endShare*s.DiameterMM)
	stiff := SteelModulusMPa * math.Pi / 4 * s.DiameterMM * s.DiameterMM / clampedMM
	stiff = max(stiff, soft)
	lo, hi := soft/(1+1/softParts), stiff
	if partsNPerMM > 0 {
		lo, hi = 1/(1/soft+1/partsNPerMM), 1/(1/stiff+1/partsNPerMM)
	}
	turn := s.PitchMM * angleDeg / 360
	out := Span{lo * turn, hi * turn}
	if tensileMPa > 0 {
		most := tensileMost * tensileMPa * s.StressAreaMM2
		out.Lo, out.Hi = min(out.Lo, most), min(out.Hi, most)
	}
	if _, err := finite(out.Lo); err != nil {
		return Span{}, err
	}
	if _, err := finite(out.Hi); err != nil {
		return Span{}, err
	}
	return out, nil
}
