package convert

import (
	"strings"
	"unicode/utf8"
)

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

var kindNames = [...]string{
	"none", "no number", "no unit", "bad number", "unknown unit", "ambiguous", "comma in doubt",
	"cut short", "wrong form", "wrong dimension", "two units", "too large",
}

// String names the kind.
func (k Kind) String() string {
	if int(k) >= len(kindNames) {
		return "unknown kind"
	}
	return kindNames[k]
}

// Problem says why a figure could not be read, or not surely. It is an error.
type Problem struct {
	Kind     Kind
	At       Place      // bytes in the text
	Message  string     // lower case, no full stop: what is wrong, and how to mend it
	Readings []Quantity // what it may have been, likeliest first
	Settled  bool       // a second value decided

	decimal uint8 // bit i: reading i takes a comma (or point) in doubt as the decimal mark
	grouped uint8 // bit i: reading i takes it as a mark of thousands
}

// Error is the message.
func (p *Problem) Error() string { return p.Message }

// Certain reports that no reading exists under which the figure could be
// right: its unit is known and measures something else, "6 L" as a torque. An
// unknown unit is not certain, for no table of spellings is complete.
func (p *Problem) Certain() bool { return p.Kind == WrongDimension }

// quote puts a text between quotation marks, as it stands; a long one is cut.
func quote(s string) string {
	const most = 60
	if len(s) > most {
		n := most
		for n > 0 && !utf8.RuneStart(s[n]) {
			n--
		}
		s = s[:n] + "…"
	}
	return `"` + strings.ToValidUTF8(s, "�") + `"`
}
