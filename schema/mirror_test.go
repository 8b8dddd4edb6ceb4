package schema

import (
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// eachSchema visits every schema within a schema.
func eachSchema(s map[string]any, at string, visit func(at string, s map[string]any)) {
	visit(at, s)
	for _, key := range slices.Sorted(maps.Keys(s)) {
		switch x := s[key].(type) {
		case map[string]any:
			switch key {
			case "properties", "patternProperties", "$defs":
				for _, name := range slices.Sorted(maps.Keys(x)) {
					if sub, ok := x[name].(map[string]any); ok {
						eachSchema(sub, at+"/"+key+"/"+name, visit)
					}
				}
			case "items", "if", "then", "else", "additionalProperties", "propertyNames", "not":
				eachSchema(x, at+"/"+key, visit)
			}
		case []any:
			if key == "anyOf" || key == "allOf" {
				for i, sub := range x {
					if m, ok := sub.(map[string]any); ok {
						eachSchema(m, fmt.Sprintf("%s/%s/%d", at, key, i), visit)
					}
				}
			}
		}
	}
}

func containsWord(text, word string) bool {
	return regexp.MustCompile(`(^|[ ,:])` + regexp.QuoteMeta(word) + `($|[ ,.:])`).MatchString(text)
}

// structTypes lists every struct type that records and heads are made of.
func structTypes() []reflect.Type {
	seen := map[reflect.Type]bool{}
	var list []reflect.Type
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
			list = append(list, t)
			for i := range t.NumField() {
				add(t.Field(i).Type)
			}
		}
	}
	add(recordType)
	add(headType)
	return list
}

// resolve follows a $ref to a schema.
func resolve(t *testing.T, file, ref string) (string, map[string]any) {
	base, pointer, _ := strings.Cut(ref, "#")
	if base != "" {
		file = strings.TrimPrefix(base, schemaBase)
	}
	var x any = raw()[file]
	for _, step := range strings.Split(strings.Trim(pointer, "/"), "/") {
		if step != "" {
			m, _ := x.(map[string]any)
			x = m[step]
		}
	}
	m, ok := x.(map[string]any)
	if !ok {
		t.Fatalf("%s leads nowhere from %s", ref, file)
	}
	return file, m
}

// fieldsIn collects the fields of an object's schema: its own, and those of
// what it refers to and branches into.
func fieldsIn(t *testing.T, file string, s map[string]any, into map[string][2]any) {
	if ref, ok := s["$ref"].(string); ok {
		f, r := resolve(t, file, ref)
		fieldsIn(t, f, r, into)
	}
	for _, key := range []string{"then", "else", "items"} {
		if sub, ok := s[key].(map[string]any); ok {
			fieldsIn(t, file, sub, into)
		}
	}
	if list, ok := s["allOf"].([]any); ok {
		for _, sub := range list {
			fieldsIn(t, file, sub.(map[string]any), into)
		}
	}
	properties, _ := s["properties"].(map[string]any)
	for name, p := range properties {
		if _, again := into[name]; !again || p.(map[string]any)["$ref"] != nil {
			into[name] = [2]any{file, p}
		}
	}
}

// TestTypesMirrorSchemas goes through the Go types and the schemas together
// and finds the same fields everywhere.
func TestTypesMirrorSchemas(t *testing.T) {
	var compare func(at string, typ reflect.Type, file string, s map[string]any)
	compare = func(at string, typ reflect.Type, file string, s map[string]any) {
		switch typ {
		case reflect.TypeFor[Fasteners]():
			typ = reflect.TypeFor[Fastener]()
		case reflect.TypeFor[[]NamedSource]():
			typ = reflect.TypeFor[Document]()
			s, _ = s["additionalProperties"].(map[string]any)
		case reflect.TypeFor[[]Box](), reflect.TypeFor[[]Serial](), reflect.TypeFor[[]PlaceAt](), reflect.TypeFor[Figure]():
			return // their own shapes
		}
		for typ.Kind() == reflect.Slice || typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct {
			return
		}
		fields := map[string][2]any{}
		fieldsIn(t, file, s, fields)
		tab := tableOf(typ)
		want := slices.Sorted(maps.Keys(fields))
		if typ == headType {
			want = slices.DeleteFunc(want, func(name string) bool { return name == "$schema" || name == "records" })
		}
		got := slices.Sorted(slices.Values(tab.names))
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s (-schema +go):\n%s", at, d)
			return
		}
		for _, name := range tab.names {
			f := fields[name]
			compare(at+"/"+name, typ.FieldByIndex(tab.byName[name]).Type, f[0].(string), f[1].(map[string]any))
		}
	}
	compare("record", recordType, "record", raw()["record"])
	compare("line", lineType, "line", raw()["line"])
	compare("head", headType, "specfile", raw()["specfile"])
	for kind, typ := range kindTypes {
		compare(kind, typ, kind, raw()[kind])
	}
}

func TestSchemasAreInGoodOrder(t *testing.T) {
	if _, err := compiled(); err != nil {
		t.Fatal(err)
	}
	for file, doc := range raw() {
		if doc["$id"] != schemaBase+file || doc["$schema"] != "https://json-schema.org/draft/2020-12/schema" {
			t.Errorf("%s: $id %v, $schema %v", file, doc["$id"], doc["$schema"])
		}
		eachSchema(doc, file, func(at string, s map[string]any) {
			if p, ok := s["pattern"].(string); ok {
				if _, err := regexp.Compile(p); err != nil {
					t.Errorf("%s: %v", at, err)
				}
				for _, c := range []string{`(?`, `\s`, `\w`, `\d`, `\p`, `\b`} { // where RE2 and ECMA 262 differ
					if strings.Contains(p, c) {
						t.Errorf("%s: %s is not the same in RE2 and ECMA 262", at, c)
					}
				}
				if !strings.HasPrefix(p, "^") {
					t.Errorf("%s: the pattern is not anchored", at)
				}
			}
			if properties, ok := s["properties"].(map[string]any); ok {
				inIf := strings.HasSuffix(at, "/if")
				for name, p := range properties {
					m, _ := p.(map[string]any)
					if !inIf && (m["description"] == nil || m["examples"] == nil) {
						t.Errorf("%s/properties/%s: no description or no example", at, name)
					}
				}
				_, closed := s["additionalProperties"]
				open := inIf || slices.Contains([]string{"torque", "fill", "tolerance", "common/$defs/record", "line/$defs/head"}, at)
				if closed == open {
					t.Errorf("%s: closed %v, want %v", at, closed, !open)
				}
				if users, _ := s["patternProperties"].(map[string]any); closed && users["^x-"] != true {
					t.Errorf("%s: keeps out the fields of the user", at)
				}
			}
		})
	}
	for _, file := range []string{"record", "line"} {
		if raw()[file]["unevaluatedProperties"] != false {
			t.Errorf("%s is open", file)
		}
	}
}

// TestExamplesAreValid takes the schemas at their word: each example of a field
// goes where the field stands.
func TestExamplesAreValid(t *testing.T) {
	all, err := compiled()
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	see := func(at string, typ map[string]any, wrap func(any) any, schema string) {
		examples, _ := typ["examples"].([]any)
		for _, e := range examples {
			n++
			if err := all[schema].Validate(wrap(e)); err != nil {
				t.Errorf("%s: the example %v is refused: %#v", at, e, err)
			}
		}
	}
	record := func(kind string) map[string]any {
		return map[string]any{
			"id": "x", "kind": kind, "where": "y", "source": map[string]any{"ref": "m", "at": "p"},
			"unpublished": map[string]any{"why": "a", "do": "b"},
		}
	}
	for _, kind := range Vocabulary("kind") {
		properties := raw()[kind]["properties"].(map[string]any)
		for name, p := range properties {
			see(kind+"/"+name, p.(map[string]any), func(e any) any {
				r := record(kind)
				if name == "fit" {
					r["size"] = "40 mm" // which it needs
				}
				r[name] = e
				return r
			}, recordSchema)
		}
	}
	common := raw()["common"]["$defs"].(map[string]any)["record"].(map[string]any)["properties"].(map[string]any)
	for name, p := range common {
		see("record/"+name, p.(map[string]any), func(e any) any {
			r := record("torque")
			r[name] = e
			return r
		}, recordSchema)
	}
	for name, p := range raw()["specfile"]["properties"].(map[string]any) {
		see("specfile/"+name, p.(map[string]any), func(e any) any {
			f := map[string]any{"format": "snapgauge/1.0", "machine": map[string]any{"id": "m"}, "records": []any{}}
			f[name] = e
			return f
		}, specfileSchema)
	}
	for name, p := range raw()["line"]["$defs"].(map[string]any)["head"].(map[string]any)["properties"].(map[string]any) {
		see("line/"+name, p.(map[string]any), func(e any) any {
			l := record("torque")
			l["format"], l["machine"] = "snapgauge/1.0", map[string]any{"id": "m"}
			l["source"] = map[string]any{"title": "t", "at": "p"}
			l[name] = e
			return l
		}, lineSchema)
	}
	if n < 40 {
		t.Errorf("only %d examples were tried", n)
	}
}

// TestFormatsAreAsserted: in draft 2020-12 a format says nothing unless asked
// to.
func TestFormatsAreAsserted(t *testing.T) {
	for date, want := range map[string]int{"2026-03-02": 0, "2026-02-30": 1, "2 March 2026": 1} {
		causes, err := validate(specfileSchema, map[string]any{
			"format": "snapgauge/1.0", "machine": map[string]any{"id": "m"}, "records": []any{},
			"entered": map[string]any{"by": "RM", "date": date},
		})
		if err != nil || len(causes) != want {
			t.Errorf("%s: got %d causes and %v, want %d", date, len(causes), err, want)
		}
	}
}

// TestValidatorIsHeld: the library panics on these numbers; here it is an
// error.
func TestValidatorIsHeld(t *testing.T) {
	causes, err := validate(recordSchema, map[string]any{
		"kind": "torque", "fastener": map[string]any{"count": json.Number("1e1000001")},
	})
	if err == nil {
		t.Errorf("got %v and no error; the library has learnt to bear it, so that fitNumber may go", causes)
	}
	if _, err := validate(recordSchema, struct{}{}); err == nil {
		t.Error("a value that is not JSON is no error")
	}
}

func TestFiles(t *testing.T) {
	f, err := Files().Open("record.json")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var doc struct {
		ID string `json:"$id"`
	}
	if err := json.NewDecoder(f).Decode(&doc); err != nil || doc.ID != "urn:snapgauge:schema:1.0:record" {
		t.Errorf("got %q, %v", doc.ID, err)
	}
}
