package joint

import (
	"errors"
	"math"

	"snapgauge/reference"
)

// ErrRange says that a number is missing, negative or not finite.
var ErrRange = errors.New("joint: a dimension, load or friction is missing, negative or not finite")

// Screw is the geometry of a screw thread that its strength depends on.
type Screw struct {
	DiameterMM      float64 // d
	PitchMM         float64 // P
	PitchDiameterMM float64 // d2
	StressAreaMM2   float64 // As (A0 of VDI 2230)
}

// ScrewOf takes the geometry of a thread. Where the tables give no pitch
// diameter or stress area, they are worked out from the basic profile: d2 =
// d - 0.649519 P, and d3 = d - 1.226869 P with As = pi/4 ((d2+d3)/2)² for
// metric threads (ISO 724, ISO 898-1), As = pi/4 (d - 0.9743 P)² for unified
// ones (ASME B1.1).
func ScrewOf(t reference.Thread) Screw {
	s := Screw{DiameterMM: t.D, PitchMM: t.Pitch, PitchDiameterMM: t.PitchDiameter, StressAreaMM2: t.StressArea}
	if s.PitchDiameterMM <= 0 {
		s.PitchDiameterMM = t.D - 0.649519*t.Pitch
	}
	if s.StressAreaMM2 <= 0 {
		root := t.D - 0.938194*t.Pitch
		if t.Family == reference.Unified {
			root = t.D - 0.9743*t.Pitch
		}
		s.StressAreaMM2 = math.Pi / 4 * root * root
	}
	return s
}

// stressDiameterMM is d0, the diameter of the stress area.
func (s Screw) stressDiameterMM() float64 { return math.Sqrt(4 * s.StressAreaMM2 / math.Pi) }

func (s Screw) valid() bool {
	return positive(s.DiameterMM) && positive(s.PitchMM) && positive(s.PitchDiameterMM) && positive(s.StressAreaMM2)
}

// PreloadAtStressN is the preload (N) at which tension and the torsion of
// tightening together reach a share of a stress (MPa) in the thread, for a
// friction coefficient of the thread:
//
//	FM = nu R A0 / sqrt(1 + 3 [3/2 d2/d0 (P/(pi d2) + 1.155 muG)]²)
//
// Source: VDI 2230-1, assembly preload (with R = Rp0.2 min and nu = 0.9 it is
// the tabulated preload). It is an error if a number is not positive and
// finite; a friction of 0 is allowed.
func PreloadAtStressN(s Screw, stressMPa, share, muThread float64) (float64, error) {
	if !s.valid() || !positive(stressMPa) || !positive(share) || !friction(muThread) {
		return 0, ErrRange
	}
	return finite(preloadN(s, stressMPa*share, muThread))
}

func preloadN(s Screw, stressMPa, muThread float64) float64 {
	twist := 1.5 * s.PitchDiameterMM / s.stressDiameterMM() *
		(s.PitchMM/(math.Pi*s.PitchDiameterMM) + 1.155*muThread)
	return stressMPa * s.StressAreaMM2 / math.Sqrt(1+3*twist*twist)
}

// StressAtPreloadMPa is the inverse of [PreloadAtStressN] with a share of 1:
// the equivalent stress (MPa) in the thread while it is tightened to a preload
// (N). Source: VDI 2230-1, as there.
func StressAtPreloadMPa(s Screw, preload, muThread float64) (float64, error) {
	if !s.valid() || !positive(preload) || !friction(muThread) {
		return 0, ErrRange
	}
	return finite(preload / preloadN(s, 1, muThread))
}

// TorqueNm is the tightening torque (N·m) that gives a preload (N):
//
//	MA = FM (0.16 P + 0.58 d2 muG + Dkm/2 muK)
//
// with the mean bearing diameter Dkm = (dw + dh)/2 of the head (mm). Source:
// VDI 2230-1, assembly torque.
func TorqueNm(s Screw, meanBearingMM, preload, muThread, muHead float64) (float64, error) {
	if !s.valid() || !positive(meanBearingMM) || !positive(preload) || !friction(muThread) || !friction(muHead) {
		return 0, ErrRange
	}
	return finite(preload * armMM(s, meanBearingMM, muThread, muHead) / 1000)
}

// PreloadN is the inverse of [TorqueNm]: the preload (N) that a torque (N·m)
// gives.
func PreloadN(s Screw, meanBearingMM, torque, muThread, muHead float64) (float64, error) {
	if !s.valid() || !positive(meanBearingMM) || !positive(torque) || !friction(muThread) || !friction(muHead) {
		return 0, ErrRange
	}
	return finite(torque * 1000 / armMM(s, meanBearingMM, muThread, muHead))
}

// armMM is torque over preload, in mm. 0.16 is 1/(2 pi) and 0.58 is
// 1/(2 cos 30°), as VDI 2230 rounds them.
func armMM(s Screw, meanBearingMM, muThread, muHead float64) float64 {
	return 0.16*s.PitchMM + 0.58*s.PitchDiameterMM*muThread + meanBearingMM/2*muHead
}

// NutFactorTorqueNm is the torque (N·m) of the short form T = K F d, for a
// preload (N) and a diameter (mm). Source: Shigley, Mechanical Engineering
// Design, section on bolt torque; JIS B 1083.
func NutFactorTorqueNm(k, preload, diameterMM float64) (float64, error) {
	if !positive(k) || !positive(preload) || !positive(diameterMM) {
		return 0, ErrRange
	}
	return finite(k * preload * diameterMM / 1000)
}

// NutFactorPreloadN is the inverse of [NutFactorTorqueNm].
func NutFactorPreloadN(k, torque, diameterMM float64) (float64, error) {
	if !positive(k) || !positive(torque) || !positive(diameterMM) {
		return 0, ErrRange
	}
	return finite(torque * 1000 / (k * diameterMM))
}

// NutFactor is the K of T = K F d that friction and geometry give: the arm of
// [TorqueNm] over the diameter. Source: VDI 2230-1 and the definition of K.
func NutFactor(s Screw, meanBearingMM, muThread, muHead float64) (float64, error) {
	if !s.valid() || !positive(meanBearingMM) || !friction(muThread) || !friction(muHead) {
		return 0, ErrRange
	}
	return finite(armMM(s, meanBearingMM, muThread, muHead) / s.DiameterMM)
}

// torqueAtStressNm is the torque at which the thread reaches a stress, with
// one friction in thread and under head.
func torqueAtStressNm(s Screw, meanBearingMM, stressMPa, mu float64) float64 {
	return preloadN(s, stressMPa, mu) * armMM(s, meanBearingMM, mu, mu) / 1000
}

// largest keeps products and roots away from the edge of float64.
const largest = 1e12

func positive(x float64) bool  { return x > 0 && x < largest }
func friction(mu float64) bool { return mu >= 0 && mu < largest }

func finite(x float64) (float64, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) || x <= 0 {
		return 0, ErrRange
	}
	return x, nil
}
