package convert

// Outcome says how two printed values of one figure agree.
type Outcome uint8

// The outcomes, in the order in which they are tried.
const (
	Exact Outcome = iota
	Rounded
	RoundedFromSecond
	Truncated
	Inward
	Loose
	Coarse
	Disagree
)

func (o Outcome) String() string { return "" }

// End names a part of a figure.
type End uint8

// The ends and deviations of a figure.
const (
	Whole End = iota // a single number or a limit
	Lower
	Upper
	NominalEnd
	PlusEnd
	MinusEnd
)

// Agreement is what [Agree] found.
type Agreement struct {
	Outcome Outcome
	End     End      // which end or deviation decided
	Ratio   float64  // second / first, both exact
	Want    Quantity // second recomputed from first, in second's unit and at second's digits
}

// Certain reports a disagreement that no habit of rounding explains.
func (a Agreement) Certain() bool { return false }

// Agree compares two printed values of one figure.
func Agree(first, second Quantity) Agreement { return Agreement{} }
