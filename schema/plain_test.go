package schema_test

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
	"snapgauge/specs"
)

// A line made of what Plain gives is the record: of sound shape, with the same
// fingerprint and the same author.
func TestPlain(t *testing.T) {
	records := 0
	for _, folder := range []string{"../specs/demo", "../specs/corpus", "../specs/faulty"} {
		for e, err := range specs.ReadFolder(os.DirFS(folder), folder, func(specs.Skipped) {}) {
			if err != nil {
				t.Fatal(err)
			}
			if e.HeadOnly || len(e.Problems) > 0 {
				continue
			}
			records++
			text, err := json.Marshal(schema.Plain(e.Head, e.Record))
			if err != nil {
				t.Fatal(err)
			}
			dec := json.NewDecoder(strings.NewReader(string(text)))
			dec.UseNumber()
			var x any
			if err := dec.Decode(&x); err != nil {
				t.Fatal(err)
			}
			h, r, problems := schema.DecodeLine(schema.NodeOf(x))
			if _, known := e.Head.SourceOf(e.Record.Source); known && len(problems) > 0 {
				t.Errorf("%s %s: %v\n%s", e.File, e.Record.ID, problems, text)
				continue
			}
			want, err := schema.Fingerprint(e.Head, e.Record)
			if err != nil {
				t.Fatal(err)
			}
			if got, err := schema.Fingerprint(h, r); err != nil || got != want {
				t.Errorf("%s %s: fingerprint %s %v, want %s\n%s", e.File, e.Record.ID, got, err, want, text)
			}
			if diff := cmp.Diff(e.Record.EnteredBy(e.Head), r.EnteredBy(h)); diff != "" {
				t.Errorf("%s %s: entered (-want +got):\n%s", e.File, e.Record.ID, diff)
			}
			if diff := cmp.Diff(e.Record.Answers, r.Answers); diff != "" {
				t.Errorf("%s %s: answers (-want +got):\n%s", e.File, e.Record.ID, diff)
			}
		}
	}
	if records < 1000 {
		t.Errorf("only %d records", records)
	}
}
