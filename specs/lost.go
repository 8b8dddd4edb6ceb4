package specs

import (
	"bytes"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
	yaml "go.yaml.in/yaml/v4"

	"snapgauge/schema"
)

// gleaned is what can be told of a record that could not be read.
type gleaned struct {
	id      string
	at      schema.Span // of the id
	machine string      // id of the machine, of a line of NDJSON
}

// lost fills in the entry of a record that could not be read. It is there all
// the same, and what looks at records together must know.
func lost(e schema.Entry, of gleaned, bad *Unreadable) schema.Entry {
	at := of.at
	if at.IsZero() {
		at = bad.Span
	}
	e.Lost = true
	e.Record = &schema.Record{ID: of.id}
	e.Locate = func(schema.Spot) schema.Span { return at }
	return e
}

// one takes a name that was met; one that is given twice is not known.
func one(name *string, seen *bool, value string) {
	if *seen && *name != value {
		value = ""
	}
	*name, *seen = value, true
}

// glean looks for the id in a record of YAML.
func (r *yamlReader) glean(y *yaml.Node) (g gleaned) {
	if y.Kind == yaml.AliasNode {
		y = y.Alias
	}
	if y.Kind != yaml.MappingNode {
		return g
	}
	seen := false
	for i := 0; i+1 < len(y.Content); i += 2 {
		v := y.Content[i+1]
		if v.Kind == yaml.AliasNode {
			v = v.Alias
		}
		if y.Content[i].Value != "id" || v.Kind != yaml.ScalarNode {
			continue
		}
		one(&g.id, &seen, v.Value)
		at := r.offset(v.Line, v.Column)
		token := r.t.src[at:min(at+len(v.Value), len(r.t.src))]
		if token != v.Value { // it stands in quotes, or behind an anchor or tag
			token = ""
		}
		g.at = stretch(r.position(at), token)
	}
	return g
}

// glean looks for the names in a record of JSON, as far as it can be read. The
// text begins at the position from.
func glean(raw []byte, from schema.Position) (g gleaned) {
	dec := jsontext.NewDecoder(bytes.NewReader(raw), jsontext.AllowDuplicateNames(true), jsontext.AllowInvalidUTF8(true))
	var id, machine bool
	eachMember(dec, func(name string) bool {
		switch {
		case name == "id" && dec.PeekKind() == jsontext.KindString:
			v, err := dec.ReadToken()
			if err != nil {
				return false
			}
			one(&g.id, &id, strings.Clone(v.String()))
			end := int(dec.InputOffset())
			start := bytes.LastIndexByte(raw[:end-1], '"')
			g.at = stretch(advance(from, string(raw[:start])), string(raw[start:end]))
			return true
		case name == "machine" && dec.PeekKind() == jsontext.KindBeginObject:
			return eachMember(dec, func(name string) bool {
				if name != "id" || dec.PeekKind() != jsontext.KindString {
					return dec.SkipValue() == nil
				}
				v, err := dec.ReadToken()
				if err == nil {
					one(&g.machine, &machine, strings.Clone(v.String()))
				}
				return err == nil
			})
		}
		return dec.SkipValue() == nil
	})
	return g
}

// eachMember reads an object and calls take before each value, which it must
// read. False means that the object could not be read to its end.
func eachMember(dec *jsontext.Decoder, take func(name string) bool) bool {
	if t, err := dec.ReadToken(); err != nil || t.Kind() != jsontext.KindBeginObject {
		return false
	}
	for dec.PeekKind() == jsontext.KindString {
		name, err := dec.ReadToken()
		if err != nil || !take(name.String()) {
			return false
		}
	}
	t, err := dec.ReadToken()
	return err == nil && t.Kind() == jsontext.KindEndObject
}
