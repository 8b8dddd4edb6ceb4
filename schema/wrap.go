package schema

import (
	"bytes"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"path"
	"strconv"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// The JSON Schemas, the authority on shape. Only this file knows the library
// that validates: it panics on some numbers and tells its errors by chance in
// one order or another, so that what it says is looked at here and worded
// elsewhere.
//
//go:embed json/*.json
var schemaFiles embed.FS

const schemaBase = "urn:snapgauge:schema:1.0:"

// The schemas that whole values are validated by.
const (
	specfileSchema = "specfile"
	recordSchema   = "record"
	lineSchema     = "line"
)

// Files returns the JSON Schemas as files: common.json, record.json, …
func Files() fs.FS {
	sub, err := fs.Sub(schemaFiles, "json")
	if err != nil { // the name is valid
		return schemaFiles
	}
	return sub
}

// compiled holds the schemas, compiled on first use: a run over sound files
// may never need them.
var compiled = sync.OnceValues(func() (map[string]*jsonschema.Schema, error) {
	c := jsonschema.NewCompiler()
	c.Draft = jsonschema.Draft2020
	c.AssertFormat = true // format is an annotation only, unless one says so
	c.LoadURL = func(s string) (io.ReadCloser, error) { return nil, fmt.Errorf("no schema %s here", s) }
	for name := range raw() {
		text, err := schemaFiles.ReadFile("json/" + name + ".json")
		if err != nil {
			return nil, err
		}
		if err := c.AddResource(schemaBase+name, bytes.NewReader(text)); err != nil {
			return nil, err
		}
	}
	all := map[string]*jsonschema.Schema{}
	for _, name := range []string{specfileSchema, recordSchema, lineSchema} {
		s, err := c.Compile(schemaBase + name)
		if err != nil {
			return nil, err
		}
		all[name] = s
	}
	return all, nil
})

// cause is one thing that the validator says.
type cause struct {
	at      []string       // steps to the value, names and numbers as text
	keyword string         // of the schema: required, enum, …
	schema  map[string]any // that holds the keyword
	ofName  bool           // the name of a member is wrong, not its value
	title   string         // of the value, from the outermost schema that has one
	example any            // likewise
	message string         // of the library
}

// validate returns what is wrong with a value, in no order. An error means
// that the validator failed, not the value.
func validate(name string, value any) (causes []cause, err error) {
	all, err := compiled()
	if err != nil {
		return nil, err
	}
	defer func() {
		if r := recover(); r != nil {
			causes, err = nil, fmt.Errorf("the validator failed: %v", r)
		}
	}()
	fault := all[name].Validate(value)
	if fault == nil {
		return nil, nil
	}
	var v *jsonschema.ValidationError
	if !errors.As(fault, &v) {
		return nil, fault
	}
	return leaves(nil, v, nil), nil
}

// leaves collects the causes that have no cause of their own. The branches of
// anyOf are not gone into: which of them was meant is not the validator's to
// know.
func leaves(causes []cause, v *jsonschema.ValidationError, above []*jsonschema.ValidationError) []cause {
	keyword := path.Base(v.AbsoluteKeywordLocation)
	if len(v.Causes) > 0 && keyword != "anyOf" {
		above = append(above[:len(above):len(above)], v)
		for _, c := range v.Causes {
			causes = leaves(causes, c, above)
		}
		return causes
	}
	c := cause{
		keyword: keyword,
		message: v.Message,
		schema:  holder(v),
		ofName:  strings.Contains(v.AbsoluteKeywordLocation, "/propertyNames/"),
	}
	if v.InstanceLocation != "" {
		c.at = steps(v.InstanceLocation[1:])
	}
	for _, a := range append(above, v) {
		if a.InstanceLocation != v.InstanceLocation {
			continue
		}
		s := holder(a)
		if title, ok := s["title"].(string); ok && c.title == "" {
			c.title = title
		}
		if list, ok := s["examples"].([]any); ok && len(list) > 0 && c.example == nil {
			c.example = list[0]
		}
	}
	if c.ofName {
		c.title, _ = c.schema["title"].(string)
	}
	return append(causes, c)
}

// raw holds the schemas as JSON, for what the library does not tell.
var raw = sync.OnceValue(func() map[string]map[string]any {
	all := map[string]map[string]any{}
	names, _ := fs.Glob(schemaFiles, "json/*.json")
	for _, name := range names {
		text, err := schemaFiles.ReadFile(name)
		if err != nil {
			continue
		}
		d := json.NewDecoder(bytes.NewReader(text))
		d.UseNumber()
		var doc map[string]any
		if d.Decode(&doc) == nil {
			all[strings.TrimSuffix(path.Base(name), ".json")] = doc
		}
	}
	return all
})

// requiredSomewhere holds the names of fields that some mapping must have: of
// these nobody should be told to leave them out.
var requiredSomewhere = sync.OnceValue(func() map[string]bool {
	names := map[string]bool{}
	var look func(x any)
	look = func(x any) {
		switch x := x.(type) {
		case map[string]any:
			list, _ := x["required"].([]any)
			for _, item := range list {
				if name, ok := item.(string); ok {
					names[name] = true
				}
			}
			for _, sub := range x {
				look(sub)
			}
		case []any:
			for _, sub := range x {
				look(sub)
			}
		}
	}
	for _, doc := range raw() {
		look(doc)
	}
	return names
})

// holder returns the schema that holds the keyword that an error is about.
func holder(v *jsonschema.ValidationError) map[string]any {
	base, pointer, _ := strings.Cut(v.AbsoluteKeywordLocation, "#")
	var way []string
	if len(pointer) > 1 {
		way = steps(pointer[1:])
		if v.Message != "" { // an error without words stands for a schema, not for a keyword
			way = way[:len(way)-1]
		}
	}
	last := raw()[strings.TrimPrefix(base, schemaBase)]
	var at any = last
	for i, step := range way {
		switch x := at.(type) {
		case map[string]any:
			at = x[step]
		case []any:
			n, err := strconv.Atoi(step)
			if err != nil || n >= len(x) {
				return last
			}
			at = x[n]
		}
		named := i > 0 && (way[i-1] == "properties" || way[i-1] == "$defs")
		if m, ok := at.(map[string]any); ok && (named || step != "properties" && step != "$defs") {
			last = m
		}
	}
	return last
}

// steps takes a JSON Pointer apart that the library has escaped for a URL.
func steps(pointer string) []string {
	list := strings.Split(pointer, "/")
	for i, s := range list {
		if u, err := url.PathUnescape(s); err == nil {
			s = u
		}
		list[i] = strings.NewReplacer("~1", "/", "~0", "~").Replace(s)
	}
	return list
}
