package convert

// Mark is the decimal mark of a file.
type Mark uint8

// The decimal marks.
const (
	Point Mark = iota
	Comma
)

// Parse reads a figure as printed in one of the wanted dimensions.
func Parse(text string, want Dimensions, mark Mark) (Quantity, *Problem) { return Quantity{}, nil }
