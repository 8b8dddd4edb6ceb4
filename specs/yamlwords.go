package specs

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"
)

const (
	tabMessage     = "a tab indents this line; YAML is indented with spaces"
	commentMessage = `" #" begins a comment, which swallows the rest of the line; put the text in quotes`
)

// yamlFault says in plain words, and at the place where it is mended, what
// the YAML library says in its own.
func (t *text) yamlFault(err error) *Unreadable {
	if errors.Is(err, io.EOF) {
		if strings.TrimSpace(t.src[t.mark():]) == "" {
			return t.whole("the file is empty; a spec file begins with format: snapgauge/1.0")
		}
		return t.whole("the file holds nothing but comments; a spec file begins with format: snapgauge/1.0")
	}
	var e *yaml.LoadError
	if !errors.As(err, &e) {
		return t.whole("this is not YAML: " + err.Error())
	}
	w := yamlWords{text: t, lines: lineStarts(t.src, t.mark())}
	w.stop = w.offset(e.Mark)
	w.from = w.stop
	if e.ContextMark.Line > 0 {
		w.from = w.offset(e.ContextMark)
	}
	if bad := w.oddSpace(); bad != nil {
		return bad
	}
	return w.say(e.Message, e.ContextMsg)
}

// yamlWords words one error of the library. It stopped at byte stop, in
// something that began at byte from.
type yamlWords struct {
	*text
	lines      []int
	stop, from int
}

func (w *yamlWords) offset(m yaml.Mark) int {
	if m.Line == 0 {
		return min(w.mark()+m.Index, len(w.src))
	}
	r := yamlReader{t: w.text, lines: w.lines}
	return r.offset(m.Line, m.Column)
}

// char is the character at byte i, "" at the end of a line.
func (w *yamlWords) char(i int) string {
	if i >= len(w.src) || w.src[i] == '\n' || w.src[i] == '\r' {
		return ""
	}
	_, n := utf8.DecodeRuneInString(w.src[i:])
	return w.src[i : i+n]
}

// before is the line of byte i up to it.
func (w *yamlWords) before(i int) string {
	return w.src[strings.LastIndexByte(w.src[:i], '\n')+1 : i]
}

func (w *yamlWords) say(message, context string) *Unreadable {
	has := func(part string) bool { return strings.Contains(message, part) }
	char := w.char(w.stop)
	switch {
	case has("max depth"):
		return w.tooDeep(w.stop)
	case has("tab"), char == "\t":
		return w.text.at(w.stop, w.stop, tabMessage)
	case strings.Contains(context, "quoted scalar"):
		return w.quoted(message)
	case has("cannot start any token"):
		return w.text.at(w.stop, w.stop, fmt.Sprintf("a text cannot begin with %s; put it in quotes", char))
	case has("mapping values"):
		return w.secondColon()
	case has("could not find expected ':'"):
		i := min(w.from, len(w.src))
		return w.text.at(i, lineEnd(w.src, i), `a ":" and a space are missing in this line, or it belongs to the line above and must be indented deeper`)
	case has("did not find expected ',' or"), has("expected node content"):
		return w.bracket(message, context, char)
	case has("did not find expected key"):
		return w.notKey(char)
	case has("expected '-' indicator"):
		if why := w.astray(); why != "" {
			return w.text.at(w.stop, w.stop, why)
		}
		return w.text.at(w.stop, w.stop, "a list item (- …) is expected here; give this line the indentation of the list, or less if it belongs outside")
	case has("block sequence entries"):
		return w.text.at(w.stop, w.stop, "a list begins on the line below its name; if this is a text, put it in quotes")
	case has("mapping keys are not allowed"):
		return w.text.at(w.stop, w.stop, `"? " cannot begin a text; put it in quotes`)
	case has("unknown anchor"):
		return w.text.at(w.stop, wordEnd(w.src, w.stop), "this alias names an anchor (&…) that does not stand before it; if it is a text, put it in quotes")
	case strings.Contains(context, "an alias"), strings.Contains(context, "an anchor"):
		return w.text.at(w.from, w.from, "a text cannot begin with "+w.char(w.from)+"; put it in quotes")
	case strings.Contains(context, "tag"), has("tag handle"):
		return w.text.at(w.from, wordEnd(w.src, w.from), "tags (!…) are not read; take it out, or put the text in quotes")
	case strings.Contains(context, "directive"), has("directive"), has("YAML document"):
		return w.text.at(w.from, lineEnd(w.src, w.from), "lines that begin with % are not read; take it out")
	case has("<document start>"):
		return w.text.at(w.stop, w.stop, "the document ended before this line; give all its fields the same indentation")
	case strings.Contains(context, "block scalar"):
		return w.text.at(w.stop, w.stop, "only an indentation, + or - may follow the | or > of a text of several lines")
	case has("comment without preceding"):
		return w.text.at(w.stop, w.stop, "a space is missing before this comment; if it is a text, put it in quotes")
	}
	return w.text.at(w.stop, w.stop, "this is not YAML: "+strings.TrimPrefix(message, "yaml: "))
}

// quoted words a fault within quotes.
func (w *yamlWords) quoted(message string) *Unreadable {
	if strings.Contains(message, "stream") || strings.Contains(message, "document indicator") {
		return w.text.at(w.from, w.from, "this quotation mark is not closed")
	}
	if strings.Contains(message, "escape") || strings.Contains(message, "hexadecimal") {
		i := strings.LastIndexByte(w.src[:min(w.stop+1, len(w.src))], '\\')
		return w.text.at(max(i, 0), i, `this \ does not begin an escape; write \\, or put the text in single quotes`)
	}
	return w.text.at(w.stop, w.stop, "this quoted text is not in order: "+message)
}

// secondColon words a ": " where no name can stand.
func (w *yamlWords) secondColon() *Unreadable {
	line := w.before(w.stop)
	if i := strings.Index(line, ": "); i >= 0 {
		start := w.stop - len(line) + i + 1
		for blank(w.src[start]) {
			start++
		}
		return w.text.at(start, lineEnd(w.src, start), `a second ":" stands in this line; put the text in quotes`)
	}
	above := strings.TrimRight(w.before(max(w.stop-len(line)-1, 0)), "\r")
	if i := strings.IndexByte(above, ':'); i >= 0 && i+1 < len(above) && above[i+1] != ' ' {
		at := w.stop - len(line) - 1 - len(w.before(w.stop-len(line)-1)) + i
		return w.text.at(at, at+1, `a space is missing behind this ":"`)
	}
	i := w.stop - len(strings.TrimLeft(line, " "))
	return w.text.at(i, w.stop, "this field is indented deeper than the line above, which has its value already; give both the same indentation")
}

// bracket words a flow map or list that does not go on as it must, and a value
// that cannot begin as it does.
func (w *yamlWords) bracket(message, context, char string) *Unreadable {
	if strings.Contains(context, "flow") {
		// The usual cause is a # in a bracket: {thread: #10-32}.
		from := min(w.from, w.stop)
		if strings.Contains(message, "node content") {
			from = max(strings.LastIndexByte(w.src[:max(w.stop-1, 0)], '\n'), 0)
		}
		if i := strings.Index(w.src[from:w.stop], " #"); i >= 0 {
			i += from + 1
			return w.text.at(i, lineEnd(w.src, i), commentMessage)
		}
	}
	rest := w.src[skipBlanks(w.src, w.stop):]
	if ends := rest == "" || strings.HasPrefix(rest, "---") || strings.HasPrefix(rest, "..."); ends {
		i := min(w.from, w.stop)
		if c := w.char(i); c != "[" && c != "{" {
			i = strings.LastIndexAny(w.src[:w.stop], "[{")
		}
		if i >= 0 {
			return w.text.at(i, i, fmt.Sprintf("the %s opened here is not closed before the end of the file", w.char(i)))
		}
	}
	if strings.Contains(message, "node content") {
		if context == "while parsing a flow node" || char == "" {
			return w.text.at(w.stop, w.stop, "a value is missing here")
		}
		return w.text.at(w.stop, w.stop, fmt.Sprintf("a text cannot begin with %s; put it in quotes", char))
	}
	return w.text.at(w.from, w.from, fmt.Sprintf("the %s opened here is not closed, or a comma is missing before line %d column %d",
		w.char(w.from), w.position(w.stop).Line, w.position(w.stop).Column))
}

// notKey words what stands where the name of a field must.
func (w *yamlWords) notKey(char string) *Unreadable {
	line := w.before(w.stop)
	if why := w.astray(); why != "" && char != "]" && char != "}" {
		return w.text.at(w.stop, w.stop, why)
	}
	switch {
	case char == "-":
		return w.text.at(w.stop, w.stop, "a list item stands where a field is expected; give it the indentation of its list")
	case char == "]" || char == "}":
		return w.text.at(w.stop, w.stop, fmt.Sprintf("this %s closes nothing", char))
	case strings.ContainsAny(line, `"'`):
		return w.text.at(w.stop, w.stop, "text goes on behind the closing quotation mark; put all of it in quotes, and write a single quote within as ''")
	}
	return w.text.at(w.stop, w.stop, "the name of a field is expected here; look at the indentation and the brackets above")
}
