package schema

import (
	"strconv"
	"strings"
)

// maxSteps bounds the depth of a path; the schema is nowhere deeper.
const maxSteps = 10

// Path names a place within a record. It is a small value: comparable, usable
// as a map key, and built without allocation. The zero Path is the record.
type Path struct {
	steps [maxSteps]step
	n     int
}

type step struct {
	name  string // a member, when not empty
	index int    // else an item
}

// At builds a path of member names (string) and item numbers (int).
func At(steps ...any) Path {
	var p Path
	for _, s := range steps {
		switch s := s.(type) {
		case string:
			p = p.Field(s)
		case int:
			p = p.Index(s)
		}
	}
	return p
}

// Field returns the path of a member. Beyond the greatest depth it returns p.
func (p Path) Field(name string) Path {
	if p.n < maxSteps {
		p.steps[p.n] = step{name: name}
		p.n++
	}
	return p
}

// Index returns the path of an item. Beyond the greatest depth it returns p.
func (p Path) Index(i int) Path {
	if p.n < maxSteps {
		p.steps[p.n] = step{index: i}
		p.n++
	}
	return p
}

// Parent returns the path without its last step; the parent of the record is
// the record.
func (p Path) Parent() Path {
	if p.n > 0 {
		p.n--
		p.steps[p.n] = step{}
	}
	return p
}

// Len is the number of steps.
func (p Path) Len() int { return p.n }

// Step returns step i: a member name, or "" and the number of an item.
func (p Path) Step(i int) (name string, index int) {
	return p.steps[i].name, p.steps[i].index
}

// first is the member of the record that a path leads into, "" for the record.
func (p Path) first() string { return p.steps[0].name }

// Has reports whether q is p or lies below it.
func (p Path) Has(q Path) bool {
	if q.n < p.n {
		return false
	}
	for i := range p.n {
		if p.steps[i] != q.steps[i] {
			return false
		}
	}
	return true
}

// Words is the path as people say it, items counted from one: "tighten 1 to"; "" for
// the record.
func (p Path) Words() string {
	words := make([]string, p.n)
	for i, s := range p.steps[:p.n] {
		if words[i] = s.name; s.name == "" {
			words[i] = strconv.Itoa(s.index + 1)
		}
	}
	return strings.Join(words, " ")
}

// String is the JSON Pointer (RFC 6901) of the path within its record: "" for
// the record itself, "/tighten/0/to/1" for the second value of a torque.
func (p Path) String() string {
	var b strings.Builder
	for i := range p.n {
		b.WriteByte('/')
		if s := p.steps[i]; s.name != "" {
			b.WriteString(escape.Replace(s.name))
		} else {
			b.WriteString(strconv.Itoa(s.index))
		}
	}
	return b.String()
}

var escape = strings.NewReplacer("~", "~0", "/", "~1")
