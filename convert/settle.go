package convert

// Value is one text of a figure and what it was read as.
type Value struct {
	Text     string
	Quantity Quantity
	Problem  *Problem
}

// Read reports that there is a quantity to work with.
func (v *Value) Read() bool { return v.Problem == nil }

// Settle lets the values of one figure decide each other's doubts.
func Settle(values []Value) {}
