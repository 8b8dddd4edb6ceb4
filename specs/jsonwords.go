package specs

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

const unfinishedJSON = `the text ends in the middle of a value; a closing }, ] or " is missing`

// wordJSON says in plain words why JSON could not be read at byte i.
func (t *text) wordJSON(i int, err error) *Unreadable {
	if errors.Is(err, io.ErrUnexpectedEOF) || i >= len(t.src) {
		return t.at(len(t.src), len(t.src), unfinishedJSON)
	}
	// The library points before blanks and commas as often as behind them.
	for i < len(t.src)-1 && blank(t.src[i]) && !t.inString(i) {
		i++
	}
	c, n := utf8.DecodeRuneInString(t.src[i:])
	why := ""
	if err != nil {
		why = err.Error()
	}
	msg := ""
	switch {
	case strings.Contains(why, "surrogate"), strings.Contains(why, "escape"):
		msg = `this escape does not stand for a character; write \\ for a backslash`
	case strings.Contains(why, "in string"):
		msg = `a line or a control character ends this text; close it with " or write \n`
	case strings.Contains(why, "in number"), c == '+', c == '.':
		msg = "this is no JSON number; put the figure in double quotes"
	case c == '\'':
		msg = `single quotes do not hold a text in JSON; use "`
	case c == '/' || c == '#':
		msg = "JSON has no comments; take this one out"
	case c == ']' || c == '}':
		msg = fmt.Sprintf("%q does not go here; a value is missing, a comma is one too many, or another bracket is open", c)
	case strings.Contains(why, "expecting ',' or"):
		msg = fmt.Sprintf("a comma or a closing bracket is missing before %q", c)
	case strings.Contains(why, "','"), c == ',':
		msg = "this comma stands without a value before and behind it; put a value in or take the comma out"
	case strings.Contains(why, "expecting ':'"), strings.Contains(why, "':'"):
		msg = `a ":" is missing between this name and its value`
	case strings.Contains(why, "name"):
		msg = `a name in double quotes is missing here`
	default:
		msg = fmt.Sprintf("a value cannot begin with %q; put text in double quotes", c)
	}
	return t.at(i, i+n, msg)
}

// inString reports whether byte i lies within a text on its line.
func (t *text) inString(i int) bool {
	in := false
	for j := strings.LastIndexByte(t.src[:i], '\n') + 1; j < i; j++ {
		switch {
		case t.src[j] == '\\' && in:
			j++
		case t.src[j] == '"':
			in = !in
		}
	}
	return in
}
