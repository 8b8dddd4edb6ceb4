package schema

import (
	"slices"
	"strings"
)

// DecodeHead reads the head of a file from its root. The records themselves
// are not looked at: their list may as well be empty. Spots of problems are
// paths from the root of the file.
func DecodeHead(root *Node) (*Head, []Problem) {
	h := &Head{}
	w := &walker{what: "spec file", root: root}
	value := w.fields(root, Path{}, tableOf(headType), valueOf(h), func(name string, n *Node) (any, bool) {
		switch name {
		case "$schema":
			return shallow(n), true
		case "records":
			if n.isEmpty() {
				return w.emptied(n, At(name)), true
			}
			return shallow(n), true // a list becomes an empty one
		}
		return nil, false
	})
	h.ReadFigures()
	problems := w.judge(specfileSchema, value, tableOf(headType), "")
	for _, p := range problems {
		about := p.At.Path.first()
		if about == "" {
			about = p.Want // a field that is missing
		}
		h.Broken = h.Broken || !slices.Contains(listsNothing, about)
	}
	return h, problems
}

// listsNothing are the fields of the head that no record refers to.
var listsNothing = []string{"format", "machine", "entered", "decimal", "wrenches"}

// DecodeRecord reads one record of a file: it fills the typed record, reads
// every figure with the decimal mark of the head, lets misprint.use speak for
// the misprint, and validates the shape. The record is never nil; where the
// shape is broken it holds what could be read, and the problems say the rest.
// Head may be nil. Spots are paths within the record.
func DecodeRecord(n *Node, head *Head) (*Record, []Problem) {
	r := &Record{}
	w := &walker{what: "record", root: n}
	value := w.fields(n, Path{}, tableOf(recordType), valueOf(r), nil)
	r.finish(head)
	return r, w.judge(recordSchema, value, tableOf(recordType), r.Kind)
}

// line is a line of NDJSON: a record that carries its head.
type line struct {
	lineHead
	Record
}

type lineHead struct {
	Format   string   `spec:"format"`
	Machine  Machine  `spec:"machine"`
	Variants []string `spec:"variants"`
	Serials  []Serial `spec:"serials"`
	Decimal  string   `spec:"decimal"`
}

// DecodeLine reads one line of NDJSON as [DecodeRecord] does, and its head
// with it.
func DecodeLine(n *Node) (*Head, *Record, []Problem) {
	l := &line{}
	w := &walker{what: "line", root: n}
	value := w.fields(n, Path{}, tableOf(lineType), valueOf(l), nil)
	h := &Head{
		Format: l.Format, Machine: l.Machine, Variants: l.Variants, Serials: l.Serials, Decimal: l.Decimal,
		OfOneLine: true,
	}
	l.Record.finish(h)
	return h, &l.Record, w.judge(lineSchema, value, tableOf(lineType), l.Kind)
}

// finish reads what needs the head: serial ranges and figures.
func (r *Record) finish(head *Head) {
	for i := range r.Applies {
		for j := range r.Applies[i].Serials {
			s := &r.Applies[i].Serials[j]
			form, _ := head.SerialForm(s.Name)
			*s = ParseSerialRange(s.Name, s.Text, form)
		}
	}
	decimal := ""
	if head != nil {
		decimal = head.Decimal
	}
	r.ReadFigures(decimal)
}

// kindOfField maps the fields that only one kind of record has to that kind.
func kindOfField(name string) string {
	for _, k := range []string{KindTorque, KindFill, KindTolerance} {
		if _, ok := tableOf(kindTypes[k]).byName[name]; ok {
			return k
		}
	}
	return ""
}

// fieldsOfKind lists the fields that a record of a kind may have; all, when the
// kind is unknown.
func fieldsOfKind(kind string, t *table) []string {
	if _, known := kindTypes[kind]; !known {
		return t.names
	}
	var names []string
	for _, name := range t.names {
		if k := kindOfField(name); k == "" || k == kind {
			names = append(names, name)
		}
	}
	return names
}

// ofUser reports whether a member belongs to the user and is not looked at.
func ofUser(name string) bool { return strings.HasPrefix(name, "x-") }

// isEmpty reports whether a value is absent, null or blank text.
func (n *Node) isEmpty() bool {
	return n == nil || n.Kind == NullNode || n.Kind == TextNode && strings.TrimSpace(n.Text) == ""
}
