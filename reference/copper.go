package reference

// Standard annealed copper after IEC 60028.
const (
	// CopperZeroC is the inferred temperature of zero resistance, °C.
	CopperZeroC = -234.5
	// CopperAlpha20 is the temperature coefficient of resistance at 20 °C, per K.
	CopperAlpha20 = 0.00393
	// CopperResistivity20 is the resistivity at 20 °C, Ω·mm²/m.
	CopperResistivity20 = 1.0 / 58
)

// CopperResistanceFactor is R2/R1 of a copper winding that goes from t1C to t2C,
// both in °C: (234.5 + t2)/(234.5 + t1), the form of the handbooks for
// IEC 60028. At or below the inferred zero of resistance, where the
// straight line has no meaning, it is NaN.
func CopperResistanceFactor(t1C, t2C float64) float64 {
	return (t2C - CopperZeroC) / (t1C - CopperZeroC)
}
