package joint

// LoadN is the load (N) at which an area (mm²) carries a stress (MPa): with the
// stress area and the proof stress the proof load of the class. Source: ISO
// 898-1, F = As S.
func LoadN(areaMM2, stressMPa float64) (float64, error) {
	if !positive(areaMM2) || !positive(stressMPa) {
		return 0, ErrRange
	}
	return finite(areaMM2 * stressMPa)
}

// LeastPreloadN is the preload (N) that is left of the greatest when tightening
// scatters by a factor: FMmin = FMmax / alphaA. Source: VDI 2230-1, tightening
// factor. A factor below 1 is an error.
func LeastPreloadN(greatestN, tighteningFactor float64) (float64, error) {
	if !positive(greatestN) || !positive(tighteningFactor) || tighteningFactor < 1 {
		return 0, ErrRange
	}
	return finite(greatestN / tighteningFactor)
}

// ElongationMM is the elongation (mm) of a length (mm) of a screw under a load
// (N): F L / (A E). Source: Hooke's law, as in Shigley, section on the stiffness
// of fasteners.
func ElongationMM(loadN, lengthMM, areaMM2, modulusMPa float64) (float64, error) {
	k, err := StiffnessNPerMM(areaMM2, lengthMM, modulusMPa)
	if err != nil || !positive(loadN) {
		return 0, ErrRange
	}
	return finite(loadN / k)
}

// LeverTorqueNm is the torque (N·m) of a force (N) on a lever arm (mm). Source:
// US Army TM 9-254 page 4-2, T = F r.
func LeverTorqueNm(forceN, armMM float64) (float64, error) {
	if !positive(forceN) || !positive(armMM) {
		return 0, ErrRange
	}
	return finite(forceN * armMM / 1000)
}
