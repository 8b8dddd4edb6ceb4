package schema

import (
	"fmt"
	"maps"
	"math/big"
	"reflect"
	"regexp/syntax"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// A shape is a compiled schema with what it takes in from others put together,
// members by name. It becomes a form when it is known what type it is read into.
// The test fails on a keyword, or a use of one, that is not known here.
type shape struct {
	texts  []textShape
	number *numberForm
	truth  bool
	list   *listShape
	object *objectShape
}

type textShape struct {
	words    []string
	not      string
	pattern  string
	date     bool
	min, max int
}

type listShape struct {
	min, max int
	unique   bool
	items    *shape
}

type objectShape struct {
	members map[string]*shape
	facts   []factShape
	only    []string // nil is no limit
	closed  bool
	others  *shape
	names   *textShape
	users   bool
	min     int
	part    partShape
}

type factShape struct{ member, text string }

func (f factShape) String() string { return f.member + " is " + f.text }

type partShape struct {
	need []string
	some [][][]string
	none [][]string
	may  []string
	when []branchShape
}

type branchShape struct {
	all             []string
	then, otherwise *partShape
}

// whatever is the shape of the schema true.
func whatever() *shape {
	return &shape{
		texts: []textShape{{}}, number: &numberForm{min: leastNumber, max: greatestNumber}, truth: true,
		list: &listShape{}, object: &objectShape{},
	}
}

func (s *shape) whatever() bool { return reflect.DeepEqual(s, whatever()) }
func (o *objectShape) open() bool {
	return reflect.DeepEqual(o, &objectShape{})
}

// known are the fields of a compiled schema that are read here; Location and
// Draft say nothing.
var known = []string{
	"Location", "Draft", "Format", "Always", "Ref", "Types", "Constant", "Enum", "Not", "AllOf", "AnyOf", "If", "Then", "Else",
	"MinProperties", "Required", "Properties", "PropertyNames", "PatternProperties", "AdditionalProperties", "UnevaluatedProperties",
	"MinItems", "MaxItems", "UniqueItems", "Items2020", "MinLength", "MaxLength", "Pattern", "Minimum", "Maximum",
}

// shapeOf puts a schema together.
func shapeOf(t *testing.T, s *jsonschema.Schema) *shape {
	t.Helper()
	unknown(t, s)
	out := whatever()
	if s.Always != nil {
		if !*s.Always {
			return &shape{}
		}
		return out
	}
	if s.Types != nil {
		out = both(t, out, ofTypes(s.Types))
	}
	for _, words := range [][]any{s.Enum, s.Constant} {
		if words != nil {
			text := textShape{}
			for _, w := range words {
				text.words = append(text.words, w.(string))
			}
			out = both(t, out, &shape{texts: []textShape{text}})
		}
	}
	out = both(t, out, textPart(t, s))
	out = both(t, out, numberPart(t, s))
	if s.MinItems >= 0 || s.MaxItems >= 0 || s.UniqueItems || s.Items2020 != nil {
		own := whatever()
		own.list = &listShape{min: max(s.MinItems, 0), max: max(s.MaxItems, 0), unique: s.UniqueItems}
		if s.MaxItems == 0 {
			t.Fatalf("%s: maxItems of 0 is not known", s.Location)
		}
		if s.Items2020 != nil {
			own.list.items = shapeOf(t, s.Items2020)
		}
		out = both(t, out, own)
	}
	if own := objectPart(t, s); own != nil {
		out = both(t, out, own)
	}
	if s.Ref != nil {
		out = both(t, out, shapeOf(t, s.Ref))
	}
	for _, sub := range s.AllOf {
		out = both(t, out, shapeOf(t, sub))
	}
	if s.AnyOf != nil {
		out = both(t, out, anyShape(t, s.AnyOf))
	}
	if s.Not != nil {
		sets := requiredSets(s.Not.AnyOf)
		if sets == nil {
			t.Fatalf("%s: this not is not known", s.Location)
		}
		out = both(t, out, &shape{object: &objectShape{part: partShape{none: sets}}})
	}
	if s.If != nil {
		out = both(t, out, conditional(t, s))
	}
	if u := s.UnevaluatedProperties; u != nil {
		if u.Always == nil || *u.Always {
			t.Fatalf("%s: unevaluatedProperties other than false is not known", s.Location)
		}
		if out.object != nil {
			out.object.closed = true
		}
	}
	return out
}

// unknown fails on what is not known here.
func unknown(t *testing.T, s *jsonschema.Schema) {
	t.Helper()
	v := reflect.ValueOf(s).Elem()
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if !f.IsExported() || slices.Contains(known, f.Name) || v.Field(i).IsZero() {
			continue
		}
		if x := v.Field(i).Interface(); !unsaid(f.Name, x) {
			t.Fatalf("%s: the decoder does not know what %s is (%v)", s.Location, f.Name, x)
		}
	}
}

// unsaid reports the value that a field has where its keyword is absent.
func unsaid(name string, x any) bool {
	return x == -1 || name == "MinContains" && x == 1 || name == "ContainsEval" && x == true
}

func ofTypes(types []string) *shape {
	any, out := whatever(), &shape{}
	for _, typ := range types {
		switch typ {
		case "string":
			out.texts = any.texts
		case "integer":
			out.number = &numberForm{whole: !slices.Contains(types, "number"), min: leastNumber, max: greatestNumber}
		case "number":
			out.number = any.number
		case "boolean":
			out.truth = true
		case "array":
			out.list = any.list
		case "object":
			out.object = any.object
		}
	}
	return out
}

func textPart(t *testing.T, s *jsonschema.Schema) *shape {
	own := whatever()
	text := &own.texts[0]
	text.min, text.max = max(s.MinLength, 0), max(s.MaxLength, 0)
	if s.MaxLength == 0 {
		t.Fatalf("%s: maxLength of 0 is not known", s.Location)
	}
	if s.Pattern != nil {
		text.pattern = s.Pattern.String()
	}
	if text.date = s.Format == "date"; s.Format != "" && !text.date {
		t.Fatalf("%s: the format %s is not known", s.Location, s.Format)
	}
	return own
}

func numberPart(t *testing.T, s *jsonschema.Schema) *shape {
	own := whatever()
	bound := func(to *int64, r *big.Rat) {
		if r == nil {
			return
		}
		if !r.IsInt() || !r.Num().IsInt64() {
			t.Fatalf("%s: the bound %v is not known", s.Location, r)
		}
		*to = r.Num().Int64()
	}
	bound(&own.number.min, s.Minimum)
	bound(&own.number.max, s.Maximum)
	return own
}

// objectPart is what a schema itself says of an object, nil for nothing.
func objectPart(t *testing.T, s *jsonschema.Schema) *shape {
	o := &objectShape{min: max(s.MinProperties, 0)}
	o.part.need = slices.Sorted(slices.Values(s.Required))
	for name, sub := range s.Properties {
		if o.members == nil {
			o.members = map[string]*shape{}
		}
		o.members[name] = shapeOf(t, sub)
	}
	o.part.may = slices.Sorted(maps.Keys(s.Properties))
	for re, sub := range s.PatternProperties {
		if re.String() != "^x-" || sub.Always == nil || !*sub.Always {
			t.Fatalf("%s: the patternProperties %s is not known", s.Location, re)
		}
		o.users = true
	}
	switch a := s.AdditionalProperties.(type) {
	case nil:
	case bool:
		if a {
			t.Fatalf("%s: additionalProperties true is not known", s.Location)
		}
		o.only = o.part.may
		if o.only == nil {
			o.only = []string{}
		}
	case *jsonschema.Schema:
		o.others = shapeOf(t, a)
	}
	if n := s.PropertyNames; n != nil {
		o.names = namesOf(t, n)
	}
	if o.open() {
		return nil
	}
	own := whatever()
	own.object = o
	return own
}

// namesOf is the form of names: a pattern, and a word that is none.
func namesOf(t *testing.T, s *jsonschema.Schema) *textShape {
	unknown(t, s)
	text := textPart(t, s).texts[0]
	if s.Not != nil {
		if len(s.Not.Constant) != 1 {
			t.Fatalf("%s: this not is not known", s.Location)
		}
		text.not = s.Not.Constant[0].(string)
	}
	return &text
}

// requiredSets returns the members that each of some schemas asks for, nil when
// one of them asks for anything else.
func requiredSets(list []*jsonschema.Schema) (sets [][]string) {
	for _, s := range list {
		bare := *s
		bare.Required = nil
		if len(s.Required) == 0 || !emptySchema(&bare) {
			return nil
		}
		sets = append(sets, s.Required)
	}
	return sets
}

// emptySchema reports a schema without a keyword.
func emptySchema(s *jsonschema.Schema) bool {
	v := reflect.ValueOf(s).Elem()
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if !f.IsExported() || f.Name == "Location" || f.Name == "Draft" || v.Field(i).IsZero() {
			continue
		}
		if !unsaid(f.Name, v.Field(i).Interface()) {
			return false
		}
	}
	return true
}

// anyShape puts the branches of anyOf together: texts of each branch, but a map,
// list or number of one only.
func anyShape(t *testing.T, list []*jsonschema.Schema) *shape {
	if sets := requiredSets(list); sets != nil {
		own := whatever()
		own.object.part.some = [][][]string{sets}
		return own
	}
	out := &shape{}
	for _, s := range list {
		b := shapeOf(t, s)
		out.texts = append(out.texts, b.texts...)
		out.truth = out.truth || b.truth
		if b.number != nil && out.number != nil || b.list != nil && out.list != nil || b.object != nil && out.object != nil {
			t.Fatalf("%s: two branches of anyOf for one kind are not known", s.Location)
		}
		if b.number != nil {
			out.number = b.number
		}
		if b.list != nil {
			out.list = b.list
		}
		if b.object != nil {
			out.object = b.object
		}
	}
	return out
}

// conditional is what if, then and else say. The condition is a type, members
// that are there, or the text of a member that is there.
func conditional(t *testing.T, s *jsonschema.Schema) *shape {
	then, otherwise := whatever(), whatever()
	if s.Then != nil {
		then = shapeOf(t, s.Then)
	}
	if s.Else != nil {
		otherwise = shapeOf(t, s.Else)
	}
	bare := *s.If
	bare.Types = nil
	if len(s.If.Types) > 0 && emptySchema(&bare) {
		is := ofTypes(s.If.Types)
		out := *otherwise
		if is.texts != nil {
			out.texts = then.texts
		}
		if is.truth {
			out.truth = then.truth
		}
		if is.list != nil {
			out.list = then.list
		}
		if is.object != nil {
			out.object = then.object
		}
		if is.number != nil {
			t.Fatalf("%s: a condition on numbers is not known", s.If.Location)
		}
		return &out
	}
	bare = *s.If
	bare.Required, bare.Properties = nil, nil
	if len(s.If.Required) == 0 || !emptySchema(&bare) {
		t.Fatalf("%s: this condition is not known", s.If.Location)
	}
	own := *then // which speaks of all that is no object
	o := &objectShape{}
	own.object = o
	b := branchShape{all: slices.Clone(s.If.Required)}
	for name, p := range s.If.Properties {
		bare := *p
		bare.Constant = nil
		if len(p.Constant) != 1 || !emptySchema(&bare) || !slices.Contains(s.If.Required, name) {
			t.Fatalf("%s: this condition is not known", p.Location)
		}
		f := factShape{name, p.Constant[0].(string)}
		o.facts = append(o.facts, f)
		b.all = append(b.all, f.String())
	}
	o.members = map[string]*shape{}
	for _, side := range []struct {
		of *shape
		to **partShape
	}{{then, &b.then}, {otherwise, &b.otherwise}} {
		if side.of.whatever() {
			continue
		}
		// The value is an object, for the condition or for what stands beside it.
		from := side.of.object
		if from == nil || from.closed || from.only != nil || from.others != nil || from.names != nil || from.min > 0 || from.users {
			t.Fatalf("%s: this branch is not known", s.Location)
		}
		o.facts = append(o.facts, from.facts...)
		for name, m := range from.members {
			if o.members[name] != nil {
				t.Fatalf("%s: %s stands in two branches", s.Location, name)
			}
			o.members[name] = m
		}
		*side.to = &from.part
	}
	if len(o.members) == 0 {
		o.members = nil
	}
	o.part.when = []branchShape{b}
	return &own
}

// both is the shape of what has two shapes.
func both(t *testing.T, a, b *shape) *shape {
	if a.whatever() {
		return b
	}
	if b.whatever() {
		return a
	}
	out := &shape{truth: a.truth && b.truth}
	switch {
	case a.texts == nil || b.texts == nil:
	case len(a.texts) == 1:
		out.texts = bothTexts(t, b.texts, a.texts[0])
	case len(b.texts) == 1:
		out.texts = bothTexts(t, a.texts, b.texts[0])
	default:
		t.Fatalf("two choices of text are not known: %v and %v", a.texts, b.texts)
	}
	if a.number != nil && b.number != nil {
		out.number = &numberForm{
			whole: a.number.whole || b.number.whole,
			min:   max(a.number.min, b.number.min), max: min(a.number.max, b.number.max),
		}
	}
	if a.list != nil && b.list != nil {
		l := &listShape{min: max(a.list.min, b.list.min), unique: a.list.unique || b.list.unique, items: a.list.items}
		l.max = leastLimit(a.list.max, b.list.max)
		switch {
		case a.list.items == nil:
			l.items = b.list.items
		case b.list.items != nil:
			l.items = both(t, a.list.items, b.list.items)
		}
		out.list = l
	}
	if a.object != nil && b.object != nil {
		out.object = bothObjects(t, a.object, b.object)
	}
	return out
}

// leastLimit is the lesser of two limits, of which 0 is none.
func leastLimit(a, b int) int {
	if a == 0 || b == 0 {
		return max(a, b)
	}
	return min(a, b)
}

func bothTexts(t *testing.T, list []textShape, with textShape) (out []textShape) {
	for _, a := range list {
		b := with
		if a.pattern != "" && b.pattern != "" || a.words != nil && b.words != nil || a.not != "" && b.not != "" {
			t.Fatalf("two patterns, or two lists of words, are not known: %v and %v", a, b)
		}
		a.pattern += b.pattern
		a.words = append(a.words, b.words...)
		a.not += b.not
		a.date = a.date || b.date
		a.min, a.max = max(a.min, b.min), leastLimit(a.max, b.max)
		out = append(out, a)
	}
	return out
}

func bothObjects(t *testing.T, a, b *objectShape) *objectShape {
	out := &objectShape{
		members: maps.Clone(a.members),
		facts:   append(slices.Clone(a.facts), b.facts...),
		closed:  a.closed || b.closed,
		users:   (a.users || b.users) && (a.users || a.only == nil) && (b.users || b.only == nil),
		min:     max(a.min, b.min),
		others:  a.others, names: a.names, only: a.only,
	}
	if b.only != nil {
		out.only = b.only
		if a.only != nil {
			out.only = slices.DeleteFunc(slices.Clone(a.only), func(name string) bool { return !slices.Contains(b.only, name) })
		}
	}
	if b.others != nil {
		out.others = b.others
	}
	if b.names != nil {
		out.names = b.names
	}
	if a.others != nil && (b.others != nil || b.members != nil) || b.others != nil && a.members != nil || a.names != nil && b.names != nil {
		t.Fatal("names of the user in two schemas of one object are not known")
	}
	for name, m := range b.members {
		if out.members == nil {
			out.members = map[string]*shape{}
		}
		if other := out.members[name]; other != nil {
			m = both(t, other, m)
		}
		out.members[name] = m
	}
	p, q := a.part, b.part
	out.part = partShape{
		need: union(p.need, q.need), some: append(slices.Clone(p.some), q.some...), none: append(slices.Clone(p.none), q.none...),
		may: union(p.may, q.may), when: append(slices.Clone(p.when), q.when...),
	}
	return out
}

func union(a, b []string) []string {
	all := slices.Concat(a, b)
	slices.Sort(all)
	if all = slices.Compact(all); len(all) == 0 {
		return nil
	}
	return all
}

// runsOf writes a pattern as runs of classes, where it is no more than that.
func runsOf(text string) string {
	re, err := syntax.Parse(text, syntax.Perl)
	if err != nil || re.Op != syntax.OpConcat {
		return ""
	}
	parts := re.Sub
	if n := len(parts); n < 3 || parts[0].Op != syntax.OpBeginText || parts[n-1].Op != syntax.OpEndText {
		return ""
	}
	var runs []run
	for _, p := range parts[1 : len(parts)-1] {
		r, ok := runsIn(p)
		if !ok {
			return ""
		}
		runs = append(runs, r...)
	}
	var b strings.Builder
	b.WriteString(", runs: []run{")
	for i, r := range runs {
		if i+1 < len(runs) && r.min != r.max {
			if next := runs[i+1]; next.min == 0 || r.class[0]&next.class[0]|r.class[1]&next.class[1] != 0 {
				return ""
			}
		}
		fmt.Fprintf(&b, "{[2]uint64{%#x, %#x}, %d, %d},", r.class[0], r.class[1], r.min, r.max)
	}
	return b.String() + "}"
}

func runsIn(p *syntax.Regexp) (runs []run, ok bool) {
	if p.Flags&syntax.FoldCase != 0 {
		return nil, false
	}
	class := func(from, to rune) (c [2]uint64) {
		for r := from; r <= to; r++ {
			c[r>>6] |= 1 << (r & 63)
		}
		return c
	}
	switch p.Op {
	case syntax.OpLiteral:
		for _, r := range p.Rune {
			if r > 127 {
				return nil, false
			}
			runs = append(runs, run{class(r, r), 1, 1})
		}
		return runs, true
	case syntax.OpCharClass:
		r := run{min: 1, max: 1}
		for i := 0; i < len(p.Rune); i += 2 {
			if p.Rune[i+1] > 127 {
				return nil, false
			}
			c := class(p.Rune[i], p.Rune[i+1])
			r.class[0] |= c[0]
			r.class[1] |= c[1]
		}
		return []run{r}, true
	case syntax.OpStar, syntax.OpPlus:
		r, ok := runsIn(p.Sub[0])
		if !ok || len(r) != 1 || r[0].min != 1 || r[0].max != 1 {
			return nil, false
		}
		r[0].min, r[0].max = 0, -1
		if p.Op == syntax.OpPlus {
			r[0].min = 1
		}
		return r, true
	}
	return nil, false
}
