package verify_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// lost makes an entry of a record that could not be read.
func lost(e schema.Entry, id string) schema.Entry {
	return schema.Entry{File: e.File, Pointer: e.Pointer, Head: e.Head, Lost: true,
		Record: &schema.Record{ID: id}, Locate: func(schema.Spot) schema.Span { return e.Locate(schema.Spot{}) }}
}

// TestLost: of a record that could not be read no check of records speaks, and
// the book does not take it for absent.
func TestLost(t *testing.T) {
	book := head + strings.Replace(plug, "%s", "old-plug", 1) +
		strings.Replace(plug, "%s", "new-plug", 1) + "    supersedes: old-plug\n"
	const loud0, loud1 = "7:9 query loud /records/0", "12:9 query loud /records/1"
	for _, tt := range []struct {
		name string
		lose func(e *schema.Entry)
		want []string
	}{
		{"all read", func(*schema.Entry) {}, []string{loud0, loud1}},
		{"the first is lost", func(e *schema.Entry) {
			if e.Pointer == "/records/0" {
				*e = lost(*e, "old-plug")
			}
		}, []string{loud1}},
		{"the second is lost", func(e *schema.Entry) {
			if e.Pointer == "/records/1" {
				*e = lost(*e, "new-plug")
			}
		}, []string{loud0}},
		{"both are lost, one bears the id of the other", func(e *schema.Entry) {
			if !e.HeadOnly {
				*e = lost(*e, "plug")
			}
		}, []string{"12:9 reject doubled-id /records/1/id + /records/0/id first used here"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			in := func(yield func(schema.Entry) bool) {
				for e := range entries(t, "gear.yaml", book) {
					if tt.lose(&e); !yield(e) {
						return
					}
				}
			}
			checks := append(verify.All(), speak("loud", rule.Query, schema.Spot{}, ""))
			err := verify.Run(in, verify.Options{Checks: checks}, func(f rule.Finding) bool {
				got = append(got, line(f))
				return true
			})
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(tt.want, got); d != "" {
				t.Errorf("-want +got\n%s", d)
			}
		})
	}
}

// TestBrokenSource: a record whose source could not be made out may use any.
func TestBrokenSource(t *testing.T) {
	book := head + strings.NewReplacer("%s", "sump-plug", "{ref: manual, at: page 3}", "manual").Replace(plug)
	for _, f := range run(t, verify.All(), "gear.yaml", book) {
		if f.Check == "source-unused" {
			t.Errorf("%s: %s", f.Place.Span.Start, f.Message)
		}
	}
}

// TestDoubles: what is said of one place of a file is said once, also where it
// is reached by two aliases.
func TestDoubles(t *testing.T) {
	book := strings.Replace(head, "records:", "x-torque: &torque [{to: [25 N·m, 28 lbf·ft]}]\nrecords:", 1)
	for _, id := range []string{"sump-plug", "fill-plug", "level-plug"} {
		book += strings.NewReplacer("%s", id, "[{to: [25 N·m, 18 lbf·ft]}]", "*torque").Replace(plug)
	}
	got := lines(run(t, verify.All(), "gear.yaml", book))
	at := "6:"
	n := len(slices.DeleteFunc(slices.Clone(got), func(s string) bool { return !strings.HasPrefix(s, at) }))
	if n != 1 {
		t.Errorf("%d findings on line 6, want 1:\n%s", n, strings.Join(got, "\n"))
	}

	// So is what the book says: a record that is used again has one id.
	twice := head + "  - &plug\n" + strings.Replace(strings.Replace(plug, "  - id", "    id", 1), "%s", "sump-plug", 1) + "  - *plug\n  - *plug\n"
	var ids []string
	for _, s := range lines(run(t, verify.All(), "gear.yaml", twice)) {
		if strings.Contains(s, "doubled-id") {
			ids = append(ids, s)
		}
	}
	if d := cmp.Diff([]string{"8:9 reject doubled-id /records/1/id + /records/0/id first used here"}, ids); d != "" {
		t.Errorf("-want +got\n%s", d)
	}

	// In another file the same place is another one.
	in := func(yield func(schema.Entry) bool) {
		for _, name := range []string{"a.yaml", "b.yaml"} {
			for e := range specs.Read(name, strings.NewReader(book)) {
				e.Head.Machine.ID = name
				if !yield(e) {
					return
				}
			}
		}
	}
	var files []string
	err := verify.Run(in, verify.Options{}, func(f rule.Finding) bool {
		if strings.HasPrefix(line(f), at) {
			files = append(files, f.Place.File)
		}
		return true
	})
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]string{"a.yaml", "b.yaml"}, files); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}
