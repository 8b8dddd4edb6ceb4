package measure

// TorqueNm is the torque (N·m) of a force (N) that pulls square to a lever of a
// length (mm): force times radius. Source: US Army TM 9-254 page 4-2.
func TorqueNm(forceN, radiusMM float64) (float64, error) {
	if !finite(forceN) || !positive(radiusMM) {
		return 0, outOfRange("%g N at %g mm", forceN, radiusMM)
	}
	return result(forceN * radiusMM / 1000)
}

// ForceN is the force (N) that gives a torque (N·m) at the end of a lever of a
// length (mm), pulling square to it: the inverse of [TorqueNm].
func ForceN(torqueNm, radiusMM float64) (float64, error) {
	if !finite(torqueNm) || !positive(radiusMM) {
		return 0, outOfRange("%g N·m at %g mm", torqueNm, radiusMM)
	}
	return result(torqueNm / radiusMM * 1000)
}

// SpringLoadN is the load (N) of a compression spring pressed to a length (mm),
// by its rate (N/mm) and free length (mm): F = R (L0 - L). Source: Hooke's law,
// as EN 13906-1 writes it (from memory).
func SpringLoadN(rateNPerMM, freeMM, lengthMM float64) (float64, error) {
	if !positive(rateNPerMM) || !positive(freeMM) || !positive(lengthMM) || lengthMM > freeMM {
		return 0, outOfRange("a spring of %g N/mm and %g mm pressed to %g mm", rateNPerMM, freeMM, lengthMM)
	}
	return result(rateNPerMM * (freeMM - lengthMM))
}

// SpringRateNPerMM is the rate (N/mm) of a spring from its loads (N) at two
// lengths (mm): R = ΔF/ΔL. Source: as [SpringLoadN].
func SpringRateNPerMM(load1N, length1MM, load2N, length2MM float64) (float64, error) {
	if load1N < 0 || load2N < 0 || !finite(load1N) || !finite(load2N) || !positive(length1MM) || !positive(length2MM) {
		return 0, outOfRange("%g N at %g mm and %g N at %g mm", load1N, length1MM, load2N, length2MM)
	}
	rate := (load2N - load1N) / (length1MM - length2MM)
	if !positive(rate) {
		return 0, outOfRange("a spring does not take %g N at %g mm and %g N at %g mm", load1N, length1MM, load2N, length2MM)
	}
	return rate, nil
}
