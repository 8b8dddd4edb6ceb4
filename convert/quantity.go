package convert

// Form says how a figure is printed.
type Form uint8

// The forms in which figures are met in print.
const (
	Single    Form = iota // 9 N·m
	Range                 // 8 to 10 N·m
	Deviation             // 9 ±1 N·m, 9 +1/-0 N·m, 9 N·m ±10 %
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
//
// Where both deviations lie on one side of the nominal (25 -0.02/-0.04 mm, as
// fits are printed) one of the magnitudes is negative.
type Quantity struct {
	Form          Form
	First, Second Decimal
	Plus, Minus   Decimal
	Unit          Unit

	// Percent says that Plus and Minus of a Deviation are per cent of First
	// (9 N·m ±10 %); otherwise they are in Unit.
	Percent bool

	// Where the parts stand in the text that was read. SecondAt is the place
	// of the deviations where the form has them.
	FirstAt, SecondAt, UnitAt Place
}

// String is the normal form, digits kept: "8 to 10 N·m", "9 +1/-0 N·m", "9
// N·m ±10 %", "max 2.4 mm", "90°", "±10 %". It reads back as the same
// quantity.
func (q Quantity) String() string {
	b := make([]byte, 0, 32)
	switch q.Form {
	case Range:
		b = q.First.appendTo(b)
		b = append(b, " to "...)
		b = q.Second.appendTo(b)
	case AtMost:
		b = append(b, "max "...)
		b = q.Second.appendTo(b)
	case AtLeast:
		b = append(b, "min "...)
		b = q.First.appendTo(b)
	case Tolerance:
		b = q.appendDeviations(b)
	case Deviation:
		b = q.First.appendTo(b)
		if q.Percent {
			b = q.Unit.appendTo(b)
		}
		b = append(b, ' ')
		b = q.appendDeviations(b)
		if q.Percent {
			return string(append(b, " %"...))
		}
	default:
		b = q.First.appendTo(b)
	}
	return string(q.Unit.appendTo(b))
}

func (q Quantity) appendDeviations(b []byte) []byte {
	if q.Plus == q.Minus && q.Plus.Mant >= 0 {
		return q.Plus.appendTo(append(b, "±"...))
	}
	b = appendSigned(b, q.Plus, '+')
	b = append(b, '/')
	return appendSigned(b, q.Minus.neg(), '-')
}

// appendSigned writes a number with its sign; zero gets the sign of its place.
func appendSigned(b []byte, d Decimal, zero byte) []byte {
	switch {
	case d.Mant == 0:
		b = append(b, zero)
	case d.Mant > 0:
		b = append(b, '+')
	}
	return d.appendTo(b)
}

// appendTo writes the symbol behind a number: close up for the signs of an
// angle, after a blank for all others (SI Brochure 5.4.3).
func (u Unit) appendTo(b []byte) []byte {
	switch s := u.Symbol(); s {
	case "":
		return b
	case "°", "′":
		return append(b, s...)
	default:
		return append(append(b, ' '), s...)
	}
}

// Ordered reports that a range is printed in rising order, or both ends equal.
// Other forms are always in order.
func (q Quantity) Ordered() bool { return q.Form != Range || q.First.Cmp(q.Second) <= 0 }
