package schema

import (
	"encoding/json"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// schemaRule is a schema in the form in which it is judged by.
type schemaRule struct {
	unsure bool // it has a keyword that is not known here
	never  bool // the schema false

	types      []string
	enum       []string
	constant   *string
	pattern    *regexp.Regexp
	date       bool
	minLength  int
	maxLength  int
	bounded    bool // it has a minimum or a maximum
	minimum    int64
	maximum    int64
	minItems   int
	maxItems   int
	unique     bool
	items      *schemaRule
	required   []string
	minMembers int
	properties map[string]*schemaRule
	users      bool        // members that begin with x- go
	additional *schemaRule // for members not named
	names      *schemaRule
	closed     bool // unevaluatedProperties: false

	ref, not, when, then, otherwise *schemaRule

	all, some []*schemaRule
}

// rules holds the rule of each schema, made on first use.
var rules = sync.OnceValue(makeRules)

func makeRules() map[string]*schemaRule {
	m := ruleMaker{made: map[string]*schemaRule{}}
	top := map[string]*schemaRule{}
	for name := range raw() {
		top[name] = m.ref(name, "#")
	}
	return top
}

type ruleMaker struct {
	made map[string]*schemaRule // by place
}

// ref makes the rule that a $ref from a file leads to.
func (m *ruleMaker) ref(file, ref string) *schemaRule {
	base, pointer, _ := strings.Cut(ref, "#")
	if base != "" {
		file = strings.TrimPrefix(base, schemaBase)
	}
	place := file + "#" + pointer
	if r := m.made[place]; r != nil {
		return r
	}
	r := &schemaRule{}
	m.made[place] = r // before it is made, for schemas may refer to themselves
	var at any = raw()[file]
	if len(pointer) > 1 {
		for _, step := range steps(pointer[1:]) {
			s, _ := at.(map[string]any)
			at = s[step]
		}
	}
	*r = *m.rule(file, at)
	return r
}

func (m *ruleMaker) rule(file string, schema any) *schemaRule {
	r := &schemaRule{maxLength: -1, maxItems: -1, minimum: -1 << 62, maximum: 1 << 62}
	s, ok := schema.(map[string]any)
	if !ok {
		always, isBool := schema.(bool)
		r.never, r.unsure = isBool && !always, !isBool
		return r
	}
	for keyword, x := range s {
		if !m.keyword(r, file, keyword, x) {
			r.unsure = true
		}
	}
	return r
}

// keyword takes up one keyword; false means that it, or its value, is not
// known here.
func (m *ruleMaker) keyword(r *schemaRule, file, keyword string, x any) (ok bool) {
	sub := func(x any) *schemaRule { return m.rule(file, x) }
	list := func(x any) (rs []*schemaRule) {
		items, isList := x.([]any)
		ok = isList
		for _, item := range items {
			rs = append(rs, sub(item))
		}
		return rs
	}
	ok = true
	switch keyword {
	case "title", "description", "examples", "$schema", "$id", "$defs":
	case "type":
		if t, one := x.(string); one {
			r.types = []string{t}
		} else {
			r.types, ok = stringsOf(x)
		}
	case "enum":
		r.enum, ok = stringsOf(x)
	case "const":
		var s string
		s, ok = x.(string)
		r.constant = &s
	case "pattern":
		p, _ := x.(string)
		re, err := regexp.Compile(p)
		r.pattern, ok = re, err == nil
	case "format":
		r.date = x == "date"
		ok = r.date
	case "minLength":
		r.minLength, ok = intOf(x)
	case "maxLength":
		r.maxLength, ok = intOf(x)
	case "minItems":
		r.minItems, ok = intOf(x)
	case "maxItems":
		r.maxItems, ok = intOf(x)
	case "minProperties":
		r.minMembers, ok = intOf(x)
	case "minimum":
		var n int
		n, ok = intOf(x)
		r.minimum, r.bounded = int64(n), true
	case "maximum":
		var n int
		n, ok = intOf(x)
		r.maximum, r.bounded = int64(n), true
	case "uniqueItems":
		r.unique, ok = x.(bool)
	case "required":
		r.required, ok = stringsOf(x)
	case "items":
		r.items = sub(x)
	case "properties":
		var members map[string]any
		members, ok = x.(map[string]any)
		r.properties = map[string]*schemaRule{}
		for name, p := range members {
			r.properties[name] = sub(p)
		}
	case "patternProperties":
		members, _ := x.(map[string]any)
		r.users = members["^x-"] == true && len(members) == 1
		ok = r.users
	case "additionalProperties":
		r.additional = sub(x)
	case "propertyNames":
		r.names = sub(x)
	case "unevaluatedProperties":
		r.closed = x == false
		ok = r.closed
	case "$ref":
		to, _ := x.(string)
		r.ref = m.ref(file, to)
	case "not":
		r.not = sub(x)
	case "if":
		r.when = sub(x)
	case "then":
		r.then = sub(x)
	case "else":
		r.otherwise = sub(x)
	case "allOf":
		r.all = list(x)
	case "anyOf":
		r.some = list(x)
	default:
		ok = false
	}
	return ok
}

func stringsOf(x any) (list []string, ok bool) {
	items, ok := x.([]any)
	for _, item := range items {
		s, isString := item.(string)
		ok = ok && isString
		list = append(list, s)
	}
	return list, ok
}

func intOf(x any) (int, bool) {
	n, _ := x.(json.Number)
	i, err := strconv.Atoi(n.String())
	return i, err == nil
}
