package specs

import (
	"fmt"

	"snapgauge/schema"
)

// UnreadableID is the check id under which an [Unreadable] is reported.
const UnreadableID = "unreadable"

// Unreadable says why a file, a record or a line could not be read, and how
// to mend it. It is the only kind of error that the readers give.
type Unreadable struct {
	File    string
	Span    schema.Span // the zero Span when it is about the whole file
	Message string      // one sentence, lower case, no full stop
}

func (u *Unreadable) Error() string {
	if u.Span.IsZero() {
		return fmt.Sprintf("%s: %s", u.File, u.Message)
	}
	return fmt.Sprintf("%s:%s: %s", u.File, u.Span.Start, u.Message)
}
