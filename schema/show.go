package schema

import (
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Examples in sentences, written as the file in hand would have them: the flow
// style of YAML, or JSON.

// style tells how the tree in hand was written down.
func (w *walker) style() writing {
	if hasPlain(w.root) {
		return inYAML
	}
	return inJSON
}

type writing bool

const (
	inJSON writing = false
	inYAML writing = true
)

// hasPlain reports that a tree has a plain scalar, as only YAML has.
func hasPlain(n *Node) bool {
	return n != nil && (n.Plain || slices.ContainsFunc(n.Items, hasPlain) || slices.ContainsFunc(n.Keys, hasPlain))
}

// show writes a value of a schema on one line.
func (w writing) show(x any) string {
	switch x := x.(type) {
	case string:
		return w.text(x)
	case []any:
		items := make([]string, len(x))
		for i := range x {
			items[i] = w.show(x[i])
		}
		return "[" + strings.Join(items, ", ") + "]"
	case map[string]any:
		var members []string
		for _, name := range namesInOrder(x) {
			members = append(members, w.member(name, x[name]))
		}
		return "{" + strings.Join(members, ", ") + "}"
	case bool:
		return strconv.FormatBool(x)
	case interface{ String() string }: // a number
		return x.String()
	}
	return ""
}

// member writes a name and its value.
func (w writing) member(name string, x any) string { return w.text(name) + ": " + w.show(x) }

// text writes a text, in YAML without quotation marks where that can be.
func (w writing) text(s string) string {
	if w == inYAML && isPlain(s) {
		return s
	}
	return strconv.Quote(s)
}

// isPlain reports that a text is itself as a plain scalar within brackets.
func isPlain(s string) bool {
	switch {
	case s == "" || s != strings.TrimSpace(s) || s == "~" || s == "null":
		return false
	case strings.ContainsAny(s[:1], "-?:") && (len(s) == 1 || s[1] == ' '),
		strings.ContainsAny(s[:1], "#&*!|>'\"%@`"):
		return false
	}
	return !strings.ContainsAny(s, ",[]{}\n\t") && !strings.Contains(s, ": ") && !strings.Contains(s, " #") && !strings.HasSuffix(s, ":")
}

// namesInOrder lists the names of a mapping as the format orders them; names
// that are the user's by letter.
func namesInOrder(m map[string]any) []string {
	names := slices.Sorted(maps.Keys(m))
	for _, t := range formatTables() {
		if !slices.ContainsFunc(names, func(name string) bool { return t.byName[name] == nil }) {
			slices.SortFunc(names, func(a, b string) int { return slices.Index(t.names, a) - slices.Index(t.names, b) })
			break
		}
	}
	return names
}

// formatTables lists the tables of all structs that records and heads are made
// of.
var formatTables = sync.OnceValue(func() []*table {
	var list []*table
	seen := map[reflect.Type]bool{}
	var add func(t reflect.Type)
	add = func(t reflect.Type) {
		switch t.Kind() {
		case reflect.Slice, reflect.Pointer:
			add(t.Elem())
		case reflect.Struct:
			if seen[t] || t.PkgPath() != recordType.PkgPath() || t == reflect.TypeFor[Figure]() {
				return
			}
			seen[t] = true
			list = append(list, tableOf(t))
			for i := range t.NumField() {
				add(t.Field(i).Type)
			}
		}
	}
	add(recordType)
	add(headType)
	return list
})
