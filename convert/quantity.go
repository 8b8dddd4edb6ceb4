package convert

// Form says how a figure is printed.
type Form uint8

// The forms in which figures are met in print.
const (
	Single    Form = iota // 9 N·m
	Range                 // 8 to 10 N·m
	Deviation             // 9 ±1 N·m, 9 +1/-0 N·m
	AtMost                // max 2.4 mm
	AtLeast               // min 0.2 mm
	Tolerance             // ±10 %, +1/-0 N·m: deviations alone, their base stands elsewhere
)

// Place is a half-open range of bytes in the text of a figure.
type Place struct{ Start, End int }

// Quantity is a figure as printed.
//
//	Single     First
//	Range      First to Second, in the order printed
//	Deviation  First +Plus/-Minus; Minus is a magnitude
//	AtMost     Second
//	AtLeast    First
//	Tolerance  +Plus/-Minus; Minus is a magnitude
type Quantity struct {
	Form          Form
	First, Second Decimal
	Plus, Minus   Decimal
	Unit          Unit

	// Percent says that Plus and Minus of a Deviation are per cent of First
	// (9 N·m ±10 %); otherwise they are in Unit.
	Percent bool

	// Where the parts stand in the text that was read.
	FirstAt, SecondAt, UnitAt Place
}
