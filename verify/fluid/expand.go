package fluid

import (
	"math"

	"snapgauge/reference"
)

// Temperatures that the relation is used for. From memory: API MPMS 11.1 (2004)
// gives -50 to 150 °C for its generalized products.
const (
	ColdestC = -50.0
	HottestC = 150.0
)

// mostAlpha bounds the coefficient of what is filled into a machine; petrol has
// about 0.00095 per K, ether 0.0016 (common practice, no source).
const mostAlpha = 0.002

// Alpha15 is the volume coefficient at 15 °C (per K) of a lubricating oil of a
// density at 15 °C (kg/m³): alpha = 0.6278/rho. Source: ASTM D1250 / API MPMS
// 11.1, Table 54D, for 800 to 1164 kg/m³.
func Alpha15(density15 float64) (float64, error) {
	k0, rho := reference.Table54D()
	if !finite(density15) || density15 < rho.Lo || density15 > rho.Hi {
		return 0, outOfRange("density %g kg/m³ is not within %g to %g kg/m³", density15, rho.Lo, rho.Hi)
	}
	return k0 / density15, nil
}

// LubricantAlpha15 is the span of the volume coefficient at 15 °C (per K) of all
// lubricating oils that Table 54D holds for.
func LubricantAlpha15() Interval {
	k0, rho := reference.Table54D()
	return Interval{k0 / rho.Hi, k0 / rho.Lo}
}

// exponent is alpha ΔT (1 + 0.8 alpha ΔT) with ΔT from 15 °C.
func exponent(alpha15, tC float64) float64 {
	x := alpha15 * (tC - 15)
	return x * (1 + 0.8*x)
}

func inDomain(alpha15, tC float64) error {
	if !finite(alpha15) || alpha15 <= 0 || alpha15 > mostAlpha {
		return outOfRange("coefficient %g per K is not over 0 to %g per K", alpha15, mostAlpha)
	}
	if !finite(tC) || tC < ColdestC || tC > HottestC {
		return outOfRange("temperature %g °C is not within %g to %g °C", tC, ColdestC, HottestC)
	}
	return nil
}

// VolumeCorrection is the volume at 15 °C over the volume at a temperature (°C):
// VCF = exp(-alpha ΔT (1 + 0.8 alpha ΔT)), ΔT = t - 15 °C, with the volume
// coefficient at 15 °C (per K). Source: ASTM D1250 / API MPMS 11.1, the form of
// Table 54D.
func VolumeCorrection(alpha15, tC float64) (float64, error) {
	if err := inDomain(alpha15, tC); err != nil {
		return 0, err
	}
	return math.Exp(-exponent(alpha15, tC)), nil
}

// Volume is what a volume of a lubricating oil at one temperature (°C) comes to
// at another, in the unit that it was given in. The density is that at 15 °C
// (kg/m³). Source: ASTM D1250 Table 54D.
func Volume(v, density15, fromC, toC float64) (float64, error) {
	alpha, err := Alpha15(density15)
	if err != nil {
		return 0, err
	}
	if !finite(v) || v < 0 {
		return 0, outOfRange("volume %g", v)
	}
	g, err := Growth(Exactly(alpha), Exactly(fromC), Exactly(toC))
	if err != nil {
		return 0, err
	}
	out := v * (1 + g.Lo)
	if !finite(out) {
		return 0, outOfRange("volume %g", v)
	}
	return out, nil
}

// Growth is the part by which a volume grows between two temperatures (°C), for
// a volume coefficient at 15 °C (per K): 0.05 is 5 %, negative where it cools.
// The interval holds every liquid and temperature within those given. Source:
// ASTM D1250, the form of Table 54D.
func Growth(alpha15, fromC, toC Interval) (Interval, error) {
	out := Interval{math.Inf(1), math.Inf(-1)}
	for _, i := range [...]Interval{alpha15, fromC, toC} {
		if !i.Known() {
			return Interval{}, outOfRange("an interval from %g to %g", i.Lo, i.Hi)
		}
	}
	// Growth is monotone in each of the three, so the ends decide.
	for _, a := range [...]float64{alpha15.Lo, alpha15.Hi} {
		for _, from := range [...]float64{fromC.Lo, fromC.Hi} {
			for _, to := range [...]float64{toC.Lo, toC.Hi} {
				if err := inDomain(a, from); err != nil {
					return Interval{}, err
				}
				if err := inDomain(a, to); err != nil {
					return Interval{}, err
				}
				g := math.Expm1(exponent(a, to) - exponent(a, from))
				out.Lo, out.Hi = min(out.Lo, g), max(out.Hi, g)
			}
		}
	}
	return out, nil
}
