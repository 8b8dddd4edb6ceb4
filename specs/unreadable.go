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
	Span    schema.Span // about the whole file: the empty stretch at its beginning
	Message string      // one sentence, lower case, no full stop
}

// Whole makes an Unreadable about a file as a whole.
func Whole(file, message string) *Unreadable {
	return &Unreadable{File: file, Span: stretch(schema.Position{Line: 1, Column: 1}, ""), Message: message}
}

func (u *Unreadable) Error() string {
	return fmt.Sprintf("%s:%s: %s", u.File, u.Span.Start, u.Message)
}
