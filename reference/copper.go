package reference

import (
	"math"
	"slices"
	"sync"
)

// Standard annealed copper after IEC 60028 (1925).
const (
	// CopperZeroC is the inferred temperature of zero resistance, °C.
	CopperZeroC = -234.5
	// CopperAlpha20 is the temperature coefficient of resistance at 20 °C, per K.
	CopperAlpha20 = 0.00393
	// CopperResistivity20 is the resistivity at 20 °C, Ω·mm²/m.
	CopperResistivity20 = 1.0 / 58
)

// CopperResistanceFactor is R2/R1 of a copper winding that goes from t1C to t2C,
// both in °C: (234.5 + t2)/(234.5 + t1), the form of the handbooks to IEC 60028.
// It is NaN where a temperature is at or below the inferred zero of resistance,
// for the straight line means nothing there.
func CopperResistanceFactor(t1C, t2C float64) float64 {
	r1, r2 := t1C-CopperZeroC, t2C-CopperZeroC
	if !(r1 > 0) || !(r2 > 0) {
		return math.NaN()
	}
	return r2 / r1
}

// Constant is a constant or relation, with its value as printed.
type Constant struct {
	Item, Value, Unit, Note string
	Source                  Citation
}

var electrical = sync.OnceValue(func() []Constant {
	var out []Constant
	for _, r := range mustTable("electrical.csv") {
		out = append(out, Constant{r.text("item"), r.text("value"), r.text("unit"), r.text("note"), r.cite()})
	}
	return out
})

// ElectricalConstants returns what is known of conductors of copper and
// aluminium, in table order.
func ElectricalConstants() []Constant { return slices.Clone(electrical()) }
