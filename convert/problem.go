package convert

// Kind says what kind of trouble a figure is in.
type Kind uint8

// The kinds of problem.
const (
	NoNumber       Kind = iota + 1 // no number at all
	NoUnit                         // a number without the unit that it needs
	BadNumber                      // a number that cannot be read
	UnknownUnit                    // a spelling that is in no table
	Ambiguous                      // two readings in the wanted dimension: qt, gal
	CommaDoubt                     // 1,300 or 6,5
	CutShort                       // lb for lbf·ft
	WrongForm                      // in/lb for lbf·in
	WrongDimension                 // 6 L as a torque
	TwoUnits                       // 8 N·m to 90 lbf·in
	TooLarge                       // more digits than can be kept
)

// Problem says why a figure could not be read, or not surely. It is an error.
type Problem struct {
	Kind     Kind
	At       Place      // bytes in the text
	Message  string     // lower case, no full stop, one sentence
	Readings []Quantity // what it may have been, likeliest first
	Settled  bool       // a second value decided
}

// Error is the message.
func (p *Problem) Error() string { return p.Message }

// Certain reports that no reading exists under which the figure could be right.
func (p *Problem) Certain() bool { return p.Kind == WrongDimension }
