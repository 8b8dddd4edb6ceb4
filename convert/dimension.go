package convert

// Dimension is a kind of quantity. Two units of one dimension convert.
type Dimension uint8

// The dimensions of unit-factors.csv, a plain number and a share.
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
