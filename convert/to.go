package convert

// Converted is the result of a conversion.
type Converted struct {
	Quantity         Quantity
	Digits           int    // significant digits kept
	OpenZeros        bool   // trailing zeros of an integer left the digit count open; all were taken as significant
	ExactLo, ExactHi string // exact decimal text, or a long decimal if it does not terminate
}

// To converts to another unit of the dimension and rounds once.
func (q Quantity) To(u Unit, limits bool) (Converted, error) { return Converted{}, nil }

// FromFloat shows an SI value in a unit at so many significant digits.
func FromFloat(si float64, u Unit, digits int) Quantity { return Quantity{} }
