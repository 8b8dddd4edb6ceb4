package schema

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// A quick check in front of the validator. It is made from the JSON Schemas
// themselves, never written by hand, and may say yes only where the validator
// would; for everything else the validator is asked. A keyword that it does not
// know makes it unsure, and so does a number that is not plain. Sound files,
// which are the rule, are judged without compiling the schemas at all.

// ruling is what the quick check says.
type ruling uint8

const (
	unsure ruling = iota
	yes
	no
)

func ruled(ok bool) ruling {
	if ok {
		return yes
	}
	return no
}

// both is yes when both are, no when one is.
func (r ruling) both(s ruling) ruling {
	switch {
	case r == no || s == no:
		return no
	case r == yes && s == yes:
		return yes
	}
	return unsure
}

// accepts reports that a value is sound for sure.
func accepts(name string, value any) bool {
	r := rules()[name]
	return r != nil && r.judge(value) == yes
}

// judge says whether a value is sound.
func (r *schemaRule) judge(v any) ruling {
	if r.never {
		return no
	}
	verdict := yes
	if r.unsure {
		verdict = unsure
	}
	verdict = verdict.both(r.judgeValue(v))
	if verdict == no {
		return no
	}
	if r.ref != nil {
		verdict = verdict.both(r.ref.judge(v))
	}
	for _, s := range r.all {
		verdict = verdict.both(s.judge(v))
	}
	if len(r.some) > 0 {
		verdict = verdict.both(r.judgeSome(v))
	}
	if r.not != nil {
		switch r.not.judge(v) {
		case yes:
			return no
		case unsure:
			verdict = verdict.both(unsure)
		}
	}
	if branch, sure := r.branch(v); !sure {
		verdict = verdict.both(unsure)
	} else if branch != nil {
		verdict = verdict.both(branch.judge(v))
	}
	if members, ok := v.(map[string]any); ok && r.closed && verdict == yes {
		for name := range members {
			if !r.evaluates(members, name) {
				return no
			}
		}
	}
	return verdict
}

// branch is what if leads to, nil when nothing; sure is false when that
// cannot be told.
func (r *schemaRule) branch(v any) (branch *schemaRule, sure bool) {
	if r.when == nil {
		return nil, true
	}
	switch r.when.judge(v) {
	case yes:
		return r.then, true
	case no:
		return r.otherwise, true
	}
	return nil, false
}

func (r *schemaRule) judgeSome(v any) ruling {
	verdict := no
	for _, s := range r.some {
		switch s.judge(v) {
		case yes:
			return yes
		case unsure:
			verdict = unsure
		}
	}
	return verdict
}

// evaluates reports whether a member of a sound value is known to the schema
// or to one that it takes in. Fields told by a condition or by a branch of
// anyOf are left out, so that the answer errs to no.
func (r *schemaRule) evaluates(members map[string]any, name string) bool {
	if r.properties[name] != nil || r.additional != nil || r.users && ofUser(name) {
		return true
	}
	if r.ref != nil && r.ref.evaluates(members, name) {
		return true
	}
	for _, s := range r.all {
		if s.evaluates(members, name) {
			return true
		}
	}
	branch, _ := r.branch(members)
	return branch != nil && branch.evaluates(members, name)
}

// judgeValue looks at the value itself and what is in it.
func (r *schemaRule) judgeValue(v any) ruling {
	verdict := yes
	if len(r.types) > 0 {
		if verdict = r.judgeType(v); verdict == no {
			return no
		}
	}
	s, isString := v.(string)
	if r.constant != nil && (!isString || s != *r.constant) || r.enum != nil && (!isString || !slices.Contains(r.enum, s)) {
		return no
	}
	switch v := v.(type) {
	case string:
		return verdict.both(r.judgeText(v))
	case json.Number:
		return verdict.both(r.judgeNumber(v))
	case []any:
		return verdict.both(r.judgeList(v))
	case map[string]any:
		return verdict.both(r.judgeMembers(v))
	case nil, bool:
		return verdict
	}
	return unsure
}

func (r *schemaRule) judgeType(v any) ruling {
	verdict := no
	for _, t := range r.types {
		ok := false
		switch v := v.(type) {
		case string:
			ok = t == "string"
		case bool:
			ok = t == "boolean"
		case []any:
			ok = t == "array"
		case map[string]any:
			ok = t == "object"
		case nil:
			ok = t == "null"
		case json.Number:
			ok = t == "number"
			if _, whole := wholeNumber(v); t == "integer" {
				if ok = whole; !whole {
					verdict = unsure // 2.0 is an integer too
				}
			}
		default:
			return unsure
		}
		if ok {
			return yes
		}
	}
	return verdict
}

// wholeNumber reads a number of up to 18 digits and nothing else.
func wholeNumber(n json.Number) (int64, bool) {
	s := strings.TrimPrefix(string(n), "-")
	if s == "" || len(s) > 18 {
		return 0, false
	}
	for i := range len(s) {
		if !isDigit(s[i]) {
			return 0, false
		}
	}
	i, err := strconv.ParseInt(string(n), 10, 64)
	return i, err == nil
}

func (r *schemaRule) judgeNumber(n json.Number) ruling {
	if !r.bounded {
		return yes
	}
	i, whole := wholeNumber(n)
	if !whole {
		return unsure
	}
	return ruled(i >= r.minimum && i <= r.maximum)
}

func (r *schemaRule) judgeText(s string) ruling {
	if r.minLength > 0 || r.maxLength >= 0 {
		if n := utf8.RuneCountInString(s); n < r.minLength || r.maxLength >= 0 && n > r.maxLength {
			return no
		}
	}
	if r.pattern != nil && !r.pattern.MatchString(s) {
		return no
	}
	if r.date {
		if _, err := time.Parse(time.DateOnly, s); err != nil {
			return no
		}
	}
	return yes
}

func (r *schemaRule) judgeList(list []any) ruling {
	if len(list) < r.minItems || r.maxItems >= 0 && len(list) > r.maxItems {
		return no
	}
	verdict := yes
	if r.items != nil {
		for _, item := range list {
			if verdict = verdict.both(r.items.judge(item)); verdict == no {
				return no
			}
		}
	}
	if r.unique {
		for i, x := range list {
			s, ok := x.(string)
			if !ok {
				verdict = verdict.both(unsure)
				continue
			}
			for _, y := range list[:i] {
				if y == s {
					return no
				}
			}
		}
	}
	return verdict
}

func (r *schemaRule) judgeMembers(members map[string]any) ruling {
	if len(members) < r.minMembers {
		return no
	}
	for _, name := range r.required {
		if _, ok := members[name]; !ok {
			return no
		}
	}
	if r.properties == nil && r.additional == nil && r.names == nil {
		return yes
	}
	verdict := yes
	for name, v := range members {
		if r.names != nil {
			verdict = verdict.both(r.names.judge(name))
		}
		switch p := r.properties[name]; {
		case p != nil:
			verdict = verdict.both(p.judge(v))
		case r.users && ofUser(name):
		case r.additional != nil:
			verdict = verdict.both(r.additional.judge(v))
		}
		if verdict == no {
			return no
		}
	}
	return verdict
}
