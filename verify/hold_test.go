package verify_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// shelf is a check of the book that says one thing of every first torque.
func shelf() *rule.Check {
	at := schema.Spot{Path: schema.At("tighten", 0, "to", 0)}
	return &rule.Check{ID: "shelf", Layer: rule.Book, Verdict: rule.Query, Book: &rule.BookCheck{
		Emit: func(p *rule.Pass, emit func(rule.Row)) {
			if p.Record != nil {
				emit(rule.Row{Order: p.Record.ID, Place: p.Place(at)})
			}
		},
		Judge: func(rows []rule.Row, report func(rule.Finding)) {
			for _, r := range rows {
				report(rule.Finding{Verdict: rule.Query, Place: r.Place, Message: "the shelf speaks", Read: "25 N·m", Want: "about 52 N·m"})
			}
		},
	}}
}

// TestJoin: what the book says of a figure that a check of its record speaks of is
// evidence, with its slips; the order of the findings stays.
func TestJoin(t *testing.T) {
	second := schema.Spot{Path: schema.At("tighten", 0, "to", 1)}
	where := schema.Spot{Path: schema.At("where")}
	checks := []*rule.Check{speak("odd", rule.Query, where, ""), speak("loose", rule.Reject, second, ""), shelf()}
	data := head + fmt.Sprintf(plug, "b-plug") + fmt.Sprintf(plug, "a-plug")
	found := run(t, checks, "gear.yaml", data)
	want := []string{
		"9:12 query odd /records/0/where",
		"10:29 reject loose /records/0/tighten/0/to/1 + /records/0/tighten/0/to/0 the shelf speaks",
		"14:12 query odd /records/1/where",
		"15:29 reject loose /records/1/tighten/0/to/1 + /records/1/tighten/0/to/0 the shelf speaks",
	}
	if d := cmp.Diff(want, lines(found)); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
	if len(found) > 1 && (len(found[1].Slips) == 0 || found[1].Slips[0].Reads != "52 N·m") {
		t.Errorf("slips of the shelf: %v", found[1].Slips)
	}
	// A note does not stand for the figure.
	checks = []*rule.Check{speak("odd", rule.Note, second, ""), shelf()}
	want = []string{
		"10:29 note odd /records/0/tighten/0/to/1",
		"10:21 query shelf /records/0/tighten/0/to/0",
	}
	if d := cmp.Diff(want, lines(run(t, checks, "gear.yaml", head+fmt.Sprintf(plug, "b-plug")))); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}

// TestHeld: a run with very many findings does not keep them.
func TestHeld(t *testing.T) {
	at := schema.Spot{Path: schema.At("tighten", 0, "to", 0)}
	var data strings.Builder
	data.WriteString(head)
	const records = 2100 // more than may be held
	for i := range records {
		fmt.Fprintf(&data, plug, fmt.Sprintf("plug-%d", i))
	}
	found := run(t, []*rule.Check{speak("loose", rule.Query, at, ""), shelf()}, "gear.yaml", data.String())
	if len(found) != 2*records || found[0].Check != "loose" || found[records-1].Check != "loose" || found[records].Check != "shelf" {
		t.Errorf("%d findings, want %d: those of records, then those of the book", len(found), 2*records)
	}
}

// TestLineDoesNotWait: of a line of NDJSON the book speaks for itself, and so it
// does of every record where it is judged apart.
func TestLineDoesNotWait(t *testing.T) {
	at := schema.Spot{Path: schema.At("tighten", 0, "to", 0)}
	line := `{"format":"snapgauge/1.0","machine":{"id":"kedge-5","name":"Kedge 5"},"id":"plug","kind":"torque","where":"sump","tighten":[{"to":["25 N·m","18 lbf·ft"]}],"source":{"title":"Kedge 5 manual"}}`
	for _, c := range []struct {
		file, data string
		apart      bool
		want       []string
	}{
		{"gear.ndjson", line, false, []string{"loose", "shelf"}},
		{"gear.yaml", head + fmt.Sprintf(plug, "plug"), false, []string{"loose"}},
		{"gear.yaml", head + fmt.Sprintf(plug, "plug"), true, []string{"loose", "shelf"}},
	} {
		checks := []*rule.Check{speak("loose", rule.Query, at, ""), shelf()}
		var got []string
		err := verify.Run(entries(t, c.file, c.data), verify.Options{Checks: checks, Apart: c.apart}, func(f rule.Finding) bool {
			got = append(got, f.Check)
			return true
		})
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%s, apart is %v: %v, %v; want %v", c.file, c.apart, got, err, c.want)
		}
	}
}

// TestHeldStops: who wants no more findings gets none, also of those that wait.
func TestHeldStops(t *testing.T) {
	at := schema.Spot{Path: schema.At("tighten", 0, "to", 0)}
	data := head + fmt.Sprintf(plug, "b-plug") + fmt.Sprintf(plug, "a-plug")
	n := 0
	checks := []*rule.Check{speak("loose", rule.Query, at, ""), shelf()}
	if err := verify.Run(entries(t, "gear.yaml", data), verify.Options{Checks: checks}, func(rule.Finding) bool { n++; return false }); err != nil || n != 1 {
		t.Errorf("%d findings after the stop, %v", n, err)
	}
}

// TestJoinSlips: the slips of the line in turn with the others, none twice, three in all.
func TestJoinSlips(t *testing.T) {
	f := rule.Finding{Message: "off; no single slip explains it", Verdict: rule.Query}
	verify.Join(&f, rule.Finding{Verdict: rule.Query, Message: "line; no single slip explains it"})
	if len(f.Slips) > 0 || f.Related[0].Message != "line" || !strings.HasSuffix(f.Message, "explains it") {
		t.Errorf("%+v", f)
	}
	f.Slips = []rule.Slip{{Reads: "a", Because: "one"}, {Reads: "b", Because: "two"}, {Reads: "c"}}
	verify.Join(&f, rule.Finding{Slips: []rule.Slip{{Reads: "d"}, {Reads: "b", Because: "line"}}})
	got := slices.Collect(func(yield func(string) bool) {
		for _, s := range f.Slips {
			yield(s.Reads + " " + s.Because)
		}
	})
	if d := cmp.Diff([]string{"d ", "a one", "b line; two"}, got); d != "" || strings.HasSuffix(f.Message, "explains it") {
		t.Errorf("%s (-want +got)\n%s", f.Message, d)
	}
}
