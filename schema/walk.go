package schema

import (
	"encoding/json"
	"fmt"
	"math/big"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"

	"snapgauge/convert"
)

// walker goes once over a tree of nodes. It fills the typed value and builds
// beside it the plain value that the validator judges. What it reports itself
// (an emptied field, a split number) stands in the plain value as null, and
// done keeps the validator silent about it.
type walker struct {
	what     string // record, line, spec file
	root     *Node
	problems []Problem
	done     map[Path]bool
	unknown  []member // members that no field of their struct is named for
}

type member struct {
	of    Path
	name  string
	known []string // the names there are
}

// report keeps a problem, after which nothing more is said of its place.
func (w *walker) report(p Problem) {
	w.problems = append(w.problems, p)
	w.silence(p.At.Path)
}

// silence keeps the validator from saying anything of a place or below it.
func (w *walker) silence(p Path) {
	if w.done == nil {
		w.done = map[Path]bool{}
	}
	w.done[p] = true
}

// silenced reports whether all is said of a place.
func (w *walker) silenced(p Path) bool {
	for ; p.Len() > 0; p = p.Parent() {
		if w.done[p] {
			return true
		}
	}
	return w.done[p]
}

// fields reads a mapping into a struct. Extra may take members that the struct
// does not have; it may be nil.
func (w *walker) fields(n *Node, p Path, t *table, v reflect.Value, extra func(name string, n *Node) (any, bool)) any {
	if n == nil || n.Kind != MapNode {
		return shallow(n)
	}
	if step, ok := v.Addr().Interface().(*Step); ok {
		only, _ := n.Member("only")
		step.OnlyOne = only != nil && only.Kind != ListNode
	}
	plain := make(map[string]any, len(n.Keys))
	for i, key := range n.Keys {
		name := key.Text
		if _, doubled := plain[name]; doubled || ofUser(name) || i >= len(n.Items) {
			continue
		}
		if index, ok := t.byName[name]; ok {
			plain[name] = w.value(n.Items[i], p.Field(name), v.FieldByIndex(index))
			continue
		}
		if extra != nil {
			if x, ok := extra(name, n.Items[i]); ok {
				plain[name] = x
				continue
			}
		}
		plain[name] = nil
		w.unknown = append(w.unknown, member{p, name, t.names})
	}
	return plain
}

// value reads one value into a field of any type that records have.
func (w *walker) value(n *Node, p Path, v reflect.Value) any {
	if n.isEmpty() {
		return w.emptied(n, p)
	}
	switch x := v.Addr().Interface().(type) {
	case *string:
		return w.text(n, p, x)
	case *Word:
		return w.text(n, p, (*string)(x))
	case *int:
		return w.integer(n, p, x)
	case *bool:
		return truth(n, x)
	case **bool:
		var b bool
		plain := truth(n, &b)
		if plain == b {
			*x = &b
		}
		return plain
	case *Figure:
		return w.figure(n, p, x)
	case *[]string:
		if name, _ := p.Step(p.Len() - 1); name == "only" && n.Kind != ListNode {
			return w.one(n, p, x)
		}
		return w.texts(n, p, x)
	case *[]int:
		return w.integers(n, p, x)
	case *Fasteners:
		return w.fasteners(n, p, x)
	case *[]Box:
		return w.boxes(n, p, x)
	case *[]Serial:
		return w.serials(n, p, x)
	case *[]NamedSource:
		return w.sources(n, p, x)
	case *[]PlaceAt:
		return w.places(n, p, x)
	}
	if v.Kind() == reflect.Slice {
		return w.list(n, p, v)
	}
	return w.fields(n, p, tableOf(v.Type()), v, nil)
}

// emptied reports a value that is not there.
func (w *walker) emptied(n *Node, p Path) any {
	message := nameOf(p) + " is empty; give a value"
	if name, _ := p.Step(max(p.Len()-1, 0)); !requiredSomewhere()[name] {
		message += " or leave it out"
	}
	if n != nil && n.Cut {
		message = nameOf(p) + " is empty: # starts a comment in YAML; put the value in quotes"
	}
	w.report(Problem{Fault: EmptiedField, At: keySpot(p), Message: message, Want: "a value"})
	return nil
}

// shallow is a value as the validator needs it to say that it is of the wrong
// kind: without what lies below it.
func shallow(n *Node) any {
	if n == nil {
		return nil
	}
	switch n.Kind {
	case MapNode:
		return map[string]any{}
	case ListNode:
		return []any{}
	case TextNode:
		return n.Text
	case NumberNode:
		if !fitNumber(n.Text) {
			return 0 // its size is nobody's concern, its kind is wrong
		}
		return json.Number(n.Text)
	case BoolNode:
		return n.Text == "true"
	}
	return nil
}

// fitNumber reports whether the text of a JSON number is one that the
// validator can bear: it takes numbers for fractions of whole numbers and
// fails on great exponents.
func fitNumber(text string) bool {
	if len(text) > 40 {
		return false
	}
	mantissa, exponent := text, ""
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		mantissa, exponent = text[:i], text[i+1:]
	}
	if exponent != "" {
		if e, err := strconv.Atoi(exponent); err != nil || e < -99 || e > 99 {
			return false
		}
	}
	_, ok := new(big.Rat).SetString(mantissa)
	return ok && !strings.ContainsAny(mantissa, "/xXbBoOpP_")
}

// number is a number as the validator needs it.
func (w *walker) number(n *Node, p Path) any {
	if !fitNumber(n.Text) {
		w.report(Problem{Fault: WrongValue, At: spot(p), Read: clip(n.Text, 60), Want: "a number of a usual size",
			Message: fmt.Sprintf("%s: the number %s is too long or too great", nameOf(p), short(n.Text))})
		return nil
	}
	return json.Number(n.Text)
}

// text reads text. The mapping {other: …} is the text "other: …"; whether that
// goes here, the schema says.
func (w *walker) text(n *Node, p Path, x *string) any {
	switch n.Kind {
	case TextNode:
		*x = n.Text
		return n.Text
	case NumberNode:
		return w.number(n, p)
	case MapNode:
		plain := map[string]any{}
		for i, key := range n.Keys {
			if ofUser(key.Text) || i >= len(n.Items) {
				continue
			}
			item := n.Items[i]
			switch {
			case key.Text != "other":
				plain[key.Text] = nil
			case item.isEmpty():
				plain["other"] = w.emptied(item, p.Field("other"))
				w.silence(p)
			default:
				plain["other"] = shallow(item)
				if item.Kind == TextNode {
					*x = "other: " + item.Text
				}
			}
		}
		return plain
	}
	return shallow(n)
}

// integer reads a whole number: a JSON number, or a plain scalar of YAML.
func (w *walker) integer(n *Node, p Path, x *int) any {
	switch {
	case n.Kind == NumberNode:
		plain := w.number(n, p)
		if plain == nil {
			return nil
		}
		if r, ok := new(big.Rat).SetString(n.Text); ok && r.IsInt() && r.Num().IsInt64() {
			*x = int(r.Num().Int64())
		}
		return plain
	case n.Kind == TextNode && n.Plain && isJSONNumber(n.Text):
		if i, err := strconv.Atoi(n.Text); err == nil {
			*x = i
		}
		return json.Number(n.Text)
	}
	return shallow(n)
}

// isJSONNumber reports whether a plain scalar is a number as JSON writes it,
// without exponent and of a length to be borne.
func isJSONNumber(s string) bool {
	digits, fraction, dotted := strings.Cut(strings.TrimPrefix(s, "-"), ".")
	all := func(s string) bool {
		for i := range len(s) {
			if s[i] < '0' || s[i] > '9' {
				return false
			}
		}
		return s != ""
	}
	return len(s) <= 40 && all(digits) && (digits == "0" || digits[0] != '0') && (!dotted || all(fraction))
}

func truth(n *Node, x *bool) any {
	switch {
	case n.Kind == BoolNode, n.Kind == TextNode && n.Plain && (n.Text == "true" || n.Text == "false"):
		*x = n.Text == "true"
		return *x
	}
	return shallow(n)
}

// figure reads a figure: text, or a list of text.
func (w *walker) figure(n *Node, p Path, f *Figure) any {
	switch n.Kind {
	case TextNode:
		if utf8.RuneCountInString(n.Text) <= maxFigure {
			f.Values = []convert.Value{{Text: n.Text}}
		}
		return n.Text
	case NumberNode:
		return w.number(n, p)
	case ListNode:
		if joined, split := joinSplit(n.Items); split {
			w.splitNumber(n, p, joined)
			return nil
		}
		plain := make([]any, len(n.Items))
		values := make([]convert.Value, 0, len(n.Items))
		for i, item := range n.Items {
			switch {
			case item.isEmpty():
				w.emptied(item, p.Index(i))
			case item.Kind == TextNode:
				plain[i] = item.Text
				if utf8.RuneCountInString(item.Text) <= maxFigure {
					values = append(values, convert.Value{Text: item.Text})
				}
			default:
				plain[i] = shallow(item)
			}
		}
		// A figure with a broken value is no figure: the paths of the others
		// would be wrong.
		if len(values) == len(n.Items) && len(values) > 0 {
			f.Values, f.List = values, true
		}
		return plain
	}
	return shallow(n)
}

// maxFigure is the greatest length of a figure's text, as in the schema.
const maxFigure = 200

// one reads a text that stands for a list of one.
func (w *walker) one(n *Node, p Path, x *[]string) any {
	switch n.Kind {
	case TextNode:
		*x = []string{n.Text}
		return n.Text
	case NumberNode:
		plain := w.number(n, p)
		if plain != nil {
			*x = []string{n.Text}
		}
		return plain
	}
	return shallow(n)
}

// integers reads a list of whole numbers. Where an item is none the list is not
// kept, for its length and its gaps would mislead; of several such items one
// problem speaks.
func (w *walker) integers(n *Node, p Path, x *[]int) any {
	if n.Kind != ListNode {
		return shallow(n)
	}
	plain := make([]any, len(n.Items))
	list := make([]int, len(n.Items))
	var odd []string
	sound := true
	for i, item := range n.Items {
		list[i] = -1
		plain[i] = w.value(item, p.Index(i), valueOf(&list[i]))
		sound = sound && list[i] >= 0
		if _, isNumber := plain[i].(json.Number); !isNumber && !w.silenced(p.Index(i)) {
			odd = append(odd, describe(item))
		}
	}
	if sound {
		*x = list
	}
	if len(odd) > 1 {
		shown := odd[:min(len(odd), 4)]
		message := andList(shown)
		if more := len(odd) - len(shown); more > 0 {
			message = strings.Join(shown, ", ") + fmt.Sprintf(" and %d more", more)
		}
		w.report(Problem{Fault: WrongValue, At: spot(p), Want: "whole numbers in digits",
			Message: fmt.Sprintf("%s has %s; whole numbers in digits go here, such as [1, 4, 2, 3]", nameOf(p), message)})
		return nil
	}
	return plain
}

// texts reads a list of text; whole numbers among them are kept as text. For
// the variants of a box, one text may stand for the list (see boxes).
func (w *walker) texts(n *Node, p Path, x *[]string) any {
	if n.Kind != ListNode {
		return shallow(n)
	}
	plain := make([]any, len(n.Items))
	for i, item := range n.Items {
		switch {
		case item.isEmpty():
			w.emptied(item, p.Index(i))
		case item.Kind == TextNode:
			*x = append(*x, item.Text)
			plain[i] = item.Text
		case item.Kind == NumberNode:
			if plain[i] = w.number(item, p.Index(i)); plain[i] != nil {
				*x = append(*x, item.Text)
			}
		default:
			plain[i] = shallow(item)
		}
	}
	return plain
}

// list reads a list of anything else. A broken item
// keeps its place, so that paths stay right.
func (w *walker) list(n *Node, p Path, v reflect.Value) any {
	if n.Kind != ListNode {
		return shallow(n)
	}
	plain := make([]any, len(n.Items))
	v.Set(reflect.MakeSlice(v.Type(), len(n.Items), len(n.Items)))
	for i, item := range n.Items {
		plain[i] = w.value(item, p.Index(i), v.Index(i))
	}
	return plain
}
