package convert

import "strings"

// Dimension is a kind of quantity. Two units of one dimension convert.
type Dimension uint8

// The dimensions: a plain number, a share, and what a workshop measures.
const (
	NoDimension Dimension = iota
	Number                // a number without unit: a friction coefficient
	Ratio                 // a share: %
	Torque
	Force
	Pressure
	Volume
	Length
	Mass
	Temperature           // a point on the scale
	TemperatureDifference // a span on the scale
	Angle
	Resistance
	Voltage
	Current
	Charge
	Power
	Time
	RotationalSpeed
	Speed
	Flow
	KinematicViscosity
	DynamicViscosity
	SpringRate
	Density
	ThreadPitch
	dimensions // count
)

// What a dimension is called, the symbol of its SI unit, and the units that
// are usual in print, for messages.
var dimensionNames = [dimensions]struct{ name, si, usual string }{
	NoDimension:           {"nothing", "", ""},
	Number:                {"number", "", ""},
	Ratio:                 {"share", "%", "%"},
	Torque:                {"torque", "N·m", "N·m|lbf·ft|lbf·in"},
	Force:                 {"force", "N", "N|lbf|kgf"},
	Pressure:              {"pressure", "Pa", "bar|kPa|psi"},
	Volume:                {"volume", "m³", "L|US qt|imp qt"},
	Length:                {"length", "m", "mm|in"},
	Mass:                  {"mass", "kg", "kg|g|lb"},
	Temperature:           {"temperature", "K", "°C|°F"},
	TemperatureDifference: {"temperature difference", "K", "°C|°F"},
	Angle:                 {"angle", "rad", "°|turn"},
	Resistance:            {"resistance", "Ω", "Ω|kΩ"},
	Voltage:               {"voltage", "V", "V|mV"},
	Current:               {"current", "A", "A|mA"},
	Charge:                {"charge", "C", "A·h"},
	Power:                 {"power", "W", "kW|hp"},
	Time:                  {"time", "s", "min|s|h"},
	RotationalSpeed:       {"rotational speed", "rad/s", "rpm"},
	Speed:                 {"speed", "m/s", "km/h|mph"},
	Flow:                  {"flow", "m³/s", "L/min|US gpm"},
	KinematicViscosity:    {"kinematic viscosity", "m²/s", "mm²/s"},
	DynamicViscosity:      {"dynamic viscosity", "Pa·s", "mPa·s"},
	SpringRate:            {"spring rate", "N/m", "N/mm|lbf/in"},
	Density:               {"density", "kg/m³", "kg/m³|g/cm³"},
	ThreadPitch:           {"thread pitch", "m", "mm|TPI"},
}

// String names the dimension: "torque", "rotational speed".
func (d Dimension) String() string {
	if d >= dimensions {
		return "unknown dimension"
	}
	return dimensionNames[d].name
}

// SI is the SI unit of the dimension (N·m, Pa, m³, m, K …). A share has none
// but %, a plain number none at all.
func (d Dimension) SI() Unit {
	if d >= dimensions {
		return 0
	}
	u, _ := unitIn(dimensionNames[d].si, d)
	return u
}

// usual lists the units of the dimension that are usual in print.
func (d Dimension) usual() []Unit {
	if d >= dimensions || dimensionNames[d].usual == "" {
		return nil
	}
	var us []Unit
	for s := range strings.SplitSeq(dimensionNames[d].usual, "|") {
		if u, ok := unitIn(s, d); ok {
			us = append(us, u)
		}
	}
	return us
}

// withArticle is the name as one of its kind: "a torque", "an angle".
func (d Dimension) withArticle() string {
	switch d {
	case Number:
		return "a number without unit"
	case Angle:
		return "an angle"
	}
	return "a " + d.String()
}

// Dimensions is a set of dimensions: what a place in a record accepts.
type Dimensions uint32

// Of makes a set.
func Of(ds ...Dimension) Dimensions {
	var s Dimensions
	for _, d := range ds {
		s |= 1 << d
	}
	return s
}

// Has reports whether d is in the set.
func (s Dimensions) Has(d Dimension) bool { return s&(1<<d) != 0 }

// String names the dimensions with their articles: "a torque", "a torque or a
// share".
func (s Dimensions) String() string {
	var names []string
	for d := range dimensions {
		if s.Has(d) {
			names = append(names, d.withArticle())
		}
	}
	return or(names)
}

// or joins words as in speech: "a", "a or b", "a, b or c".
func or(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " or " + words[n]
}
