package specs

import (
	"fmt"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"
)

// stand is a field or a list item that is open where a line begins: what
// belongs to the same map or list begins in its column.
type stand struct {
	column int
	name   string // of the field, "" for the dash of a list
}

// fieldName matches the name of a field that begins a text.
var fieldName = regexp.MustCompile(`^("[^"]*"|'[^']*'|[^\s:#'"\[{][^:]*):(?:\s|$)`)

// open lists what is open above the line of byte i, the deepest first.
func (w *yamlWords) open(i int) (all []stand) {
	limit := len(w.src) + 1 // what is open further up begins left of it
	for n := sort.SearchInts(w.lines, i+1) - 2; n >= 0 && limit > 0; n-- {
		line := w.src[w.lines[n]:lineEnd(w.src, w.lines[n])]
		text := strings.TrimLeft(line, " ")
		if strings.TrimSpace(text) == "" || text[0] == '#' {
			continue
		}
		column := len(line) - len(text) + 1
		begins := column
		var here []stand // of this line, the deepest last
		for strings.HasPrefix(text, "- ") {
			here = append(here, stand{column: column})
			rest := strings.TrimLeft(text[1:], " ")
			column += len(text) - len(rest)
			text = rest
		}
		if m := fieldName.FindStringSubmatch(text); m != nil {
			here = append(here, stand{column, clip(strings.Trim(m[1], `"'`))})
		}
		for k := len(here) - 1; k >= 0; k-- {
			dash := here[k].name == ""
			if here[k].column >= limit || dash && here[k].column == limit-1 {
				continue
			}
			all = append(all, here[k])
			if limit = here[k].column; dash {
				limit++ // the name of a list may stand in the column of its dashes
			}
		}
		limit = min(limit, begins+1)
	}
	return all
}

// astray words a line that begins at byte stop, in a column where it cannot.
// It is "" where nothing above tells more.
func (w *yamlWords) astray() string {
	before := w.before(w.stop)
	if strings.Trim(before, " ") != "" {
		return ""
	}
	column := len(before) + 1
	open := w.open(w.stop)
	if w.char(w.stop) == "-" {
		var lists []string
		for _, s := range open {
			if s.name == "" {
				lists = append(lists, fmt.Sprint(s.column))
			}
		}
		if len(lists) == 0 {
			return ""
		}
		return "give this list item the indentation of its list: column " + strings.Join(lists, " or ")
	}
	what := "this line is indented like none above"
	var right, left stand // the nearest fields on either side
	for _, s := range open {
		switch {
		case s.name == "" && s.column == column:
			what = "a list item (- …) is expected in the column of this line"
		case s.name == "":
		case s.column > column:
			right = s
		case s.column < column && left.name == "":
			left = s
		}
	}
	like := func(s stand) string { return fmt.Sprintf("of %q (column %d)", s.name, s.column) }
	switch {
	case right.name != "" && left.name != "":
		return fmt.Sprintf("%s; give it the indentation %s, or %s if it does not belong there", what, like(right), like(left))
	case left.name != "":
		return fmt.Sprintf("%s; give it the indentation %s if it does not belong to the list", what, like(left))
	}
	return ""
}

const oddSpaces = `[\x{A0}\x{2000}-\x{200A}\x{202F}\x{205F}\x{3000}]`

var (
	oddIndent = regexp.MustCompile(`^(?: |- )*-?(` + oddSpaces + `)`)
	oddColon  = regexp.MustCompile(`:(` + oddSpaces + `)`)
)

// oddSpace looks for a space that YAML does not take for one, in the lines
// where the parser met a fault and in the one above: an editor shows it as it
// shows any other.
func (w *yamlWords) oddSpace() *Unreadable {
	above := strings.TrimRight(w.src[:w.stop-len(w.before(w.stop))], " \r\n")
	for _, i := range []int{w.from, len(above), w.stop} {
		start := i - len(w.before(i))
		line := w.src[start:lineEnd(w.src, start)]
		if m := oddIndent.FindStringSubmatchIndex(line); m != nil {
			return w.indentedBy(start+m[2], start+m[3])
		}
		if m := oddColon.FindStringSubmatchIndex(line); m != nil && i != len(above) {
			return w.at(start+m[2], start+m[3], nameSpace(line[m[2]:m[3]])+` follows this ":"; put a plain space there`)
		}
	}
	return nil
}

func (t *text) indentedBy(i, j int) *Unreadable {
	return t.at(i, j, nameSpace(t.src[i:j])+" indents this line; YAML is indented with plain spaces")
}

func nameSpace(s string) string {
	r, _ := utf8.DecodeRuneInString(s)
	name := "a space of another kind"
	switch r {
	case '\u00a0':
		name = "a no-break space"
	case '\u202f':
		name = "a narrow no-break space"
	}
	return fmt.Sprintf("%s (U+%04X)", name, r)
}
