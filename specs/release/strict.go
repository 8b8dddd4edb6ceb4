package release

import (
	"maps"
	"slices"
)

// Validators that hold a schema to more than draft 2020-12 asks (the strict mode of
// ajv) want the type beside every keyword that is about one type, one type a
// schema, and each required member declared where it is required. The schemas of
// a release are written out so; they accept the same.

// keywordType tells which type a keyword is about.
var keywordType = map[string]string{
	"properties": "object", "patternProperties": "object", "additionalProperties": "object", "unevaluatedProperties": "object",
	"propertyNames": "object", "required": "object", "minProperties": "object", "maxProperties": "object",
	"items": "array", "prefixItems": "array", "contains": "array", "minItems": "array", "maxItems": "array", "uniqueItems": "array",
	"minLength": "string", "maxLength": "string", "pattern": "string", "format": "string",
	"minimum": "number", "maximum": "number", "exclusiveMinimum": "number", "exclusiveMaximum": "number", "multipleOf": "number",
}

// Where schemas stand within one: those of the same value, those of what is in it.
var (
	inPlace     = []string{"if", "then", "else", "not"}
	inPlaceList = []string{"allOf", "anyOf", "oneOf"}
	within      = []string{"items", "contains", "additionalProperties", "unevaluatedProperties", "propertyNames"}
	withinMap   = []string{"properties", "patternProperties", "$defs"}
)

// strict writes a schema out in its place. Known is the type that the schemas
// around it give the value; "" for none.
func strict(x any, known string) {
	s, ok := x.(map[string]any)
	if !ok {
		return
	}
	declare(s)
	switch kind := s["type"].(type) {
	case string:
		known = kind
	case []any:
		known = ""
		apart(s, kind)
	case nil:
		if kind := about(s); kind != "" && kind != known && !(kind == "number" && known == "integer") {
			s["type"], known = kind, kind
		}
	}
	for _, name := range inPlace {
		strict(s[name], known)
	}
	for _, name := range inPlaceList {
		list, _ := s[name].([]any)
		for _, sub := range list {
			strict(sub, known)
		}
	}
	for _, name := range within {
		strict(s[name], "")
	}
	for _, name := range withinMap {
		subs, _ := s[name].(map[string]any)
		for _, sub := range subs {
			strict(sub, "")
		}
	}
}

// declare names required members among the properties. They are declared beside
// it or above it anyway, so that nothing more is taken for known.
func declare(s map[string]any) {
	required, _ := s["required"].([]any)
	if len(required) == 0 {
		return
	}
	properties, ok := s["properties"].(map[string]any)
	if !ok {
		properties = map[string]any{}
		s["properties"] = properties
	}
	for _, name := range required {
		if name, ok := name.(string); ok && properties[name] == nil {
			properties[name] = true
		}
	}
}

// about is the one type that the keywords of a schema are about; "" where they are
// about none or several.
func about(s map[string]any) string {
	kinds := map[string]bool{}
	for name := range s {
		if kind := keywordType[name]; kind != "" {
			kinds[kind] = true
		}
	}
	if len(kinds) != 1 {
		return ""
	}
	return slices.Collect(maps.Keys(kinds))[0]
}

// apart makes a schema for each of several types, with the keywords about it.
func apart(s map[string]any, types []any) {
	if s["anyOf"] != nil {
		return // none of ours; it would be in the way
	}
	branches := make([]any, len(types))
	for i, kind := range types {
		branch := map[string]any{"type": kind}
		for name, x := range s {
			if of := keywordType[name]; of != "" && (of == kind || of == "number" && kind == "integer") {
				branch[name] = x
			}
		}
		branches[i] = branch
	}
	maps.DeleteFunc(s, func(name string, _ any) bool { return keywordType[name] != "" || name == "type" })
	s["anyOf"] = branches
}
