package sense

import (
	"testing"

	"snapgauge/reference"
)

// TestFrictionBounds holds the bounds of friction-implausible to the tables: they
// lie outside all that is measured, by K = 0.015 + 1.2 µ (VDI 2230, hexagon heads),
// and by no more than a half.
func TestFrictionBounds(t *testing.T) {
	k := reference.OutermostNutFactor()
	if mu := (k.Lo - 0.015) / 1.2; leastFriction >= mu || leastFriction < mu/2 {
		t.Errorf("least: %v against %v measured", leastFriction, mu)
	}
	if mu := (k.Hi - 0.015) / 1.2; greatestFriction <= mu || greatestFriction > mu*1.5 {
		t.Errorf("greatest: %v against %v measured", greatestFriction, mu)
	}
	// VDI 2230-1 Table A5: class A begins at 0.04.
	if moly, _ := reference.Friction("moly"); moly.Lo <= leastFriction {
		t.Errorf("least: %v against %v of the tables", leastFriction, moly.Lo)
	}
}
