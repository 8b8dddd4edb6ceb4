package release

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"snapgauge/specs"
)

func compiledOf(t *testing.T, root map[string]any) *jsonschema.Schema {
	t.Helper()
	text, err := Indented(root)
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.Draft = jsonschema.Draft2020
	if err := c.AddResource("urn:test:record", bytes.NewReader(text)); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("urn:test:record")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestStrictAcceptsTheSame holds the schema as a release has it against the one as
// it is written: demo records, and the same with each member taken away or
// something else in its place.
func TestStrictAcceptsTheSame(t *testing.T) {
	plain, err := bundle("record", StateRelease)
	if err != nil {
		t.Fatal(err)
	}
	out, err := bundle("record", StateRelease)
	if err != nil {
		t.Fatal(err)
	}
	strict(out, "")
	want, got := compiledOf(t, plain), compiledOf(t, out)
	goes, refused, taken := 0, 0, map[string]int{}
	for e, err := range specs.ReadFolder(os.DirFS("../demo"), "demo", func(specs.Skipped) {}) {
		if err != nil {
			t.Fatal(err)
		}
		if e.HeadOnly || taken[e.Record.Kind] == 3 {
			continue
		}
		taken[e.Record.Kind]++
		r, err := Normal(&e)
		if err != nil {
			t.Fatal(err)
		}
		r.State, r.Number = StateRelease, 1
		r.Countersign = &Countersign{By: "JT", Date: "2026-06-05", Fingerprint: r.Fingerprint}
		text, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		var whole any
		if err := json.Unmarshal(text, &whole); err != nil {
			t.Fatal(err)
		}
		alter(whole, func(what string) {
			a, b := want.Validate(whole), got.Validate(whole)
			if (a == nil) != (b == nil) {
				t.Errorf("%s, %s: as written %v\nas released %v", e.Record.ID, what, a, b)
			}
			if a == nil {
				goes++
			} else {
				refused++
			}
		})
	}
	if goes < 500 || refused < 500 {
		t.Errorf("%d accepted and %d refused", goes, refused)
	}
}

// alter calls look with a value, and with each member of it altered in turn.
func alter(x any, look func(what string)) {
	look("as it is")
	var walk func(x any, at string)
	walk = func(x any, at string) {
		try := func(name string, set func(any), was any) {
			for _, other := range []any{nil, "", "other: x", 7.0, -1.5, true, []any{}, []any{"8 N·m", 3.0}, map[string]any{}, map[string]any{"other": "x"}} {
				set(other)
				look(at + "/" + name + " something else")
			}
			set(was)
			if at != "" || name != "figures" { // of which there are many alike
				walk(was, at+"/"+name)
			}
		}
		switch x := x.(type) {
		case map[string]any:
			for name, was := range x {
				try(name, func(y any) { x[name] = y }, was)
				delete(x, name)
				look(at + "/" + name + " taken away")
				x[name] = was
			}
			x["stranger"] = "x"
			look(at + "/stranger added")
			delete(x, "stranger")
		case []any:
			for i, was := range x[:min(len(x), 2)] {
				try("0", func(y any) { x[i] = y }, was)
			}
		}
	}
	walk(x, "")
}

// The schemas of a release are so that a strict validator takes them: see strict.
func TestStrict(t *testing.T) {
	for _, name := range []string{"records", "record"} {
		text, err := Schema(name, StateDraft)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), `"type": [`) {
			t.Errorf("%s: several types in one schema", name)
		}
	}
}
