package schema

import (
	"maps"
	"math/big"
	"reflect"
	"slices"
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
