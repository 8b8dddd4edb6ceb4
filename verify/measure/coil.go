package measure

import "snapgauge/reference"

// Temperatures (°C) at which the straight line of IEC 60028 is used: that of
// windings that still have their insulation (common practice, no source).
const (
	coilColdestC = -100.0
	coilHottestC = 300.0
)

func coilTemperature(tC float64) error {
	if !(tC >= coilColdestC && tC <= coilHottestC) {
		return outOfRange("%g °C is not within %g to %g °C", tC, coilColdestC, coilHottestC)
	}
	return nil
}

// CoilFactor is the resistance of a copper winding at one temperature (°C) over
// that at another: (234.5 + to)/(234.5 + from). Source: IEC 60028 in the form of
// the handbooks.
func CoilFactor(fromC, toC float64) (float64, error) {
	if err := coilTemperature(fromC); err != nil {
		return 0, err
	}
	if err := coilTemperature(toC); err != nil {
		return 0, err
	}
	return reference.CopperResistanceFactor(fromC, toC), nil
}

// CoilResistance is what a resistance of a copper winding comes to at another
// temperature (°C), in the unit that it was given in. Source: as [CoilFactor].
func CoilResistance(r, fromC, toC float64) (float64, error) {
	f, err := CoilFactor(fromC, toC)
	if err != nil {
		return 0, err
	}
	if !positive(r) {
		return 0, outOfRange("a resistance of %g", r)
	}
	return result(r * f)
}

// CoilTemperatureC is the mean temperature (°C) of a copper winding by its
// resistance, from that at a known temperature (°C): the inverse of
// [CoilResistance]. Source: as [CoilFactor].
func CoilTemperatureC(rKnown, atC, r float64) (float64, error) {
	if err := coilTemperature(atC); err != nil {
		return 0, err
	}
	if !positive(rKnown) || !positive(r) {
		return 0, outOfRange("resistances of %g and %g", rKnown, r)
	}
	t := r/rKnown*(atC-reference.CopperZeroC) + reference.CopperZeroC
	if err := coilTemperature(t); err != nil {
		return 0, err
	}
	return t, nil
}
