package reference

// Bearing is the ring on which a head or nut turns.
type Bearing struct {
	Kind   string  // "hex, ISO 4014 / ISO 4017 grade A"
	Dw     float64 // outer diameter, mm
	Hole   float64 // clearance hole, mm
	Source Citation
}

// BearingOf returns the plausible bearing rings of a head on a thread.
func BearingOf(head string, t Thread) []Bearing { return nil }
