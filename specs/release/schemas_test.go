package release_test

import (
	"bytes"
	"encoding/json"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v5"

	"snapgauge/specs"
	"snapgauge/specs/release"
)

func compiled(t *testing.T, name, state string) *jsonschema.Schema {
	t.Helper()
	text, err := release.Schema(name, state)
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.Draft = jsonschema.Draft2020
	c.AssertFormat = true
	if err := c.AddResource("urn:test:"+name, bytes.NewReader(text)); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("urn:test:" + name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// fault is what a schema says of a value.
func fault(t *testing.T, s *jsonschema.Schema, x any) string {
	t.Helper()
	text, err := json.Marshal(x)
	if err != nil {
		t.Fatal(err)
	}
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.UseNumber()
	var plain any
	if err := dec.Decode(&plain); err != nil {
		t.Fatal(err)
	}
	if err := s.Validate(plain); err != nil {
		return err.Error()
	}
	return ""
}

// demo are the records of the demo books as a release has them.
func demo(t *testing.T, state string) release.Document {
	t.Helper()
	d := release.Document{Format: release.Format, State: state, Tool: "snapgauge 0.1.0", Caution: "…", Machines: []release.Machine{}}
	for e, err := range specs.ReadFolder(os.DirFS("../demo"), "demo", func(specs.Skipped) {}) {
		if err != nil {
			t.Fatal(err)
		}
		if e.HeadOnly {
			continue
		}
		r, err := release.Normal(&e)
		if err != nil {
			t.Fatal(err)
		}
		r.State, r.Number = state, len(d.Records)+1
		if state == release.StateRelease {
			r.Countersign = &release.Countersign{By: "JT", Date: "2026-06-05", Fingerprint: r.Fingerprint}
		}
		d.Records = append(d.Records, r)
	}
	return d
}

func TestSchemas(t *testing.T) {
	for _, state := range []string{release.StateRelease, release.StateDraft} {
		d := demo(t, state)
		if len(d.Records) < 150 {
			t.Fatalf("only %d records", len(d.Records))
		}
		if got := fault(t, compiled(t, "records", state), d); got != "" {
			t.Errorf("%s: %s", state, got)
		}
		record := compiled(t, "record", state)
		for _, r := range d.Records {
			if got := fault(t, record, r); got != "" {
				t.Errorf("%s: %s: %s", state, r.ID, got)
			}
		}
	}
}

// The schemas refuse what is no release.
func TestSchemasRefuse(t *testing.T) {
	s := compiled(t, "records", release.StateRelease)
	whole := demo(t, release.StateRelease)
	for name, change := range map[string]func(*release.Document){
		"another format":        func(d *release.Document) { d.Format = "snapgauge-release/2.0" },
		"another state":         func(d *release.Document) { d.State = "vetted" },
		"something in the way":  func(d *release.Document) { d.InTheWay = []string{"x"} },
		"not countersigned":     func(d *release.Document) { d.Records[3].Countersign = nil },
		"a problem of shape":    func(d *release.Document) { d.Records[3].Problems = []string{"x"} },
		"no record as authored": func(d *release.Document) { d.Records[3].Authored = nil },
		"a record of rubbish":   func(d *release.Document) { d.Records[3].Authored = json.RawMessage(`{"id":"x"}`) },
		"no author":             func(d *release.Document) { d.Records[3].Entered.By = "" },
		"a fingerprint cut off": func(d *release.Document) { d.Records[3].Fingerprint = "f1:00" },
		"no box":                func(d *release.Document) { d.Records[3].Applies = nil },
		"an unknown form":       func(d *release.Document) { d.Records[0].Figures[0].Values[0].Form = "about" },
		"digits that are none":  func(d *release.Document) { d.Records[0].Figures[0].Values[0].First = "8,0" },
		"an exact value with e": func(d *release.Document) { d.Records[0].Figures[0].Values[0].LowExact = "1e3" },
		"another kind":          func(d *release.Document) { d.Records[0].Kind = "recipe" },
	} {
		d := whole
		d.Records = slices.Clone(whole.Records[:5])
		d.Records[0].Figures = slices.Clone(d.Records[0].Figures)
		d.Records[0].Figures[0].Values = slices.Clone(d.Records[0].Figures[0].Values)
		change(&d)
		if fault(t, s, d) == "" {
			t.Errorf("%s: nothing said", name)
		}
	}
}

// The Go types and the schemas name the same members.
func TestSchemasMirror(t *testing.T) {
	read := func(name string) map[string]any {
		text, err := os.ReadFile("json/" + name + ".json")
		if err != nil {
			t.Fatal(err)
		}
		var s map[string]any
		if err := json.Unmarshal(text, &s); err != nil {
			t.Fatal(err)
		}
		return s
	}
	at := func(s map[string]any, path string) map[string]any {
		for name := range strings.SplitSeq(path, " ") {
			if name != "" {
				s = s[name].(map[string]any)
			}
		}
		return s
	}
	records, record := read("records"), read("record")
	for _, tt := range []struct {
		of     reflect.Type
		schema map[string]any
	}{
		{reflect.TypeFor[release.Document](), records},
		{reflect.TypeFor[release.Machine](), at(records, "properties machines items")},
		{reflect.TypeFor[release.Serial](), at(records, "properties machines items properties serials items")},
		{reflect.TypeFor[release.Record](), record},
		{reflect.TypeFor[release.Box](), at(record, "$defs box")},
		{reflect.TypeFor[release.Range](), at(record, "$defs range")},
		{reflect.TypeFor[release.Source](), at(record, "$defs source")},
		{reflect.TypeFor[release.Signature](), at(record, "$defs signature")},
		{reflect.TypeFor[release.Countersign](), at(record, "properties countersign")},
		{reflect.TypeFor[release.Answer](), at(record, "properties answers items")},
		{reflect.TypeFor[release.Misprint](), at(record, "properties misprint")},
		{reflect.TypeFor[release.Unpublished](), at(record, "properties unpublished")},
		{reflect.TypeFor[release.Figure](), at(record, "$defs figure")},
		{reflect.TypeFor[release.Value](), at(record, "$defs value")},
	} {
		var types, must []string
		for i := range tt.of.NumField() {
			name, options, _ := strings.Cut(tt.of.Field(i).Tag.Get("json"), ",")
			types = append(types, name)
			if !strings.Contains(options, "omitempty") {
				must = append(must, name)
			}
		}
		var names, required []string
		for name := range at(tt.schema, "properties") {
			names = append(names, name)
		}
		all, _ := tt.schema["required"].([]any) // a box needs nothing
		for _, name := range all {
			required = append(required, name.(string))
		}
		for _, list := range [][]string{types, must, names, required} {
			slices.Sort(list)
		}
		if diff := cmp.Diff(types, names); diff != "" {
			t.Errorf("%s: members of the type and of the schema (-type +schema):\n%s", tt.of, diff)
		}
		if diff := cmp.Diff(must, required); diff != "" {
			t.Errorf("%s: members that are always there (-type +schema):\n%s", tt.of, diff)
		}
	}
}

func TestSchemaUnknown(t *testing.T) {
	if _, err := release.Schema("recipe", release.StateRelease); err == nil {
		t.Error("a schema of something else")
	}
}
