package changelist

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

func at(file string, line int) rule.Place {
	return rule.Place{File: file, Pointer: "/records/0", Span: schema.Span{Start: schema.Position{Line: line, Column: 3}, End: schema.Position{Line: line, Column: 9}}}
}

// every has a change of each kind.
func every() *List {
	of := func(k edition.Kind, c edition.Change) edition.Change {
		c.Kind, c.Machine, c.Name = k, "m", "Machine M"
		if c.At == (rule.Place{}) && k != edition.Gone {
			c.At = at("new.yaml", 4)
		}
		return c
	}
	lost := Unread{Old: true, Unread: edition.Unread{Place: at("old.yaml", 9), Machine: "m", Message: "a quote is missing"}}
	lost.Place.Record = "lost"
	return &List{
		Old: "old.yaml", New: "new.yaml", Caution: "caution: look\ntwice\n",
		Unread: []Unread{lost, {Unread: edition.Unread{Place: rule.Place{File: "new.yaml"}, Message: "no such file"}}},
		Changes: []edition.Change{
			of(edition.Machine, edition.Change{Was: "A", Now: "A, B", Field: schema.At("variants")}),
			of(edition.Figure, edition.Change{Record: "a", Where: "cover", Was: "6 N·m", Now: "9 N·m", Field: schema.At("tighten", 0, "to"), Means: "+50 %"}),
			of(edition.Figure, edition.Change{Record: "b", Where: "sump", Was: "6 L", Field: schema.At("amounts", 1, "volume"), Label: "dry fill"}),
			of(edition.New, edition.Change{Record: "c", Where: "lid", Now: "c"}),
			of(edition.Superseded, edition.Change{Record: "d", Was: "d-old", Now: "d"}),
			of(edition.Superseded, edition.Change{Record: "d", Was: "d-old", Now: "d-older", Field: schema.At("supersedes")}),
			of(edition.Renamed, edition.Change{Record: "e", Was: "e-old", Now: "e"}),
			of(edition.Applies, edition.Change{Record: "f", Was: "all", Now: "variant A", Field: schema.At("applies")}),
			of(edition.Text, edition.Change{Record: "g", Was: "M6 \x1b[31m", Now: "M8 <b>", Field: schema.At("fastener", "thread")}),
			of(edition.Source, edition.Change{Was: "book 1", Now: "book 2", Field: schema.At("source"), Records: []string{"a", "b", "c", "d", "e"}}),
			of(edition.Place, edition.Change{Record: "h", Was: "page 1", Now: "page 2", Field: schema.At("source", "at")}),
			of(edition.Restated, edition.Change{Record: "i", Was: "8 N·m", Now: "8.0 N·m", Field: schema.At("tighten", 0, "to")}),
			of(edition.Unreadable, edition.Change{Record: "j", Records: []string{"j", ""}, Means: "not found"}),
			of(edition.Unreadable, edition.Change{Record: "k", Was: "1 L", Now: "1 Lx", Field: schema.At("new"), Means: "not read"}),
			of(edition.Gone, edition.Change{WasAt: at("old.yaml", 7)}),
		},
	}
}

func written(t *testing.T, l *List, form string) string {
	t.Helper()
	var b strings.Builder
	if err := l.Write(&b, form); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestText(t *testing.T) {
	const want = `old.yaml:9:3: unread: lost: a quote is missing
new.yaml: unread: no such file
new.yaml:4:3: machine: m, variants: A → A, B
new.yaml:4:3: figure: a, tighten 1 to: 6 N·m → 9 N·m (+50 %)
new.yaml:4:3: figure: b, amounts 2 volume (dry fill): 6 L → none
new.yaml:4:3: new: c, lid
new.yaml:4:3: superseded: d takes the place of d-old
new.yaml:4:3: superseded: d, supersedes: d-old → d-older
new.yaml:4:3: renamed: e-old is e now
new.yaml:4:3: applies: f, applies: all → variant A
new.yaml:4:3: text: g, fastener thread: M6 �[31m → M8 <b>
new.yaml:4:3: source: book 1 → book 2: a, b, c, d and 1 more
new.yaml:4:3: place: h, source at: page 1 → page 2
new.yaml:4:3: unread: j, a record without id: not found
new.yaml:4:3: unread: k, new: 1 L → 1 Lx: not read
old.yaml:7:3: gone: a record without id, no place told
`
	l := every()
	if d := cmp.Diff(want, written(t, l, "text")); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	l.All = true
	if got := written(t, l, "text"); !strings.Contains(got, "\nnew.yaml:4:3: restated: i, tighten 1 to: 8 N·m → 8.0 N·m\n") {
		t.Errorf("all:\n%s", got)
	}
}

func TestJSON(t *testing.T) {
	out := written(t, every(), "json")
	lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	if len(lines) != 16 {
		t.Fatalf("%d lines", len(lines))
	}
	for _, line := range lines {
		var x map[string]any
		if err := json.Unmarshal([]byte(line), &x); err != nil || len(x) != 17 {
			t.Errorf("%v, %d members: %s", err, len(x), line)
		}
	}
	for i, want := range map[int]string{
		0:  `{"kind":"unread","machine":"m","item":"","record":"lost","where":"","field":"","was":"","now":"","means":"a quote is missing","file":"","line":0,"column":0,"endLine":0,"endColumn":0,"pointer":"","old":{"file":"old.yaml","line":9,"column":3,"endLine":9,"endColumn":9,"pointer":"/records/0"},"records":[]}`,
		3:  `{"kind":"figure","machine":"m","item":"","record":"a","where":"cover","field":"/tighten/0/to","was":"6 N·m","now":"9 N·m","means":"+50 %","file":"new.yaml","line":4,"column":3,"endLine":4,"endColumn":9,"pointer":"/records/0","old":{"file":"","line":0,"column":0,"endLine":0,"endColumn":0,"pointer":""},"records":[]}`,
		11: `"records":["a","b","c","d","e"]}`,
	} {
		if !strings.HasSuffix(lines[i], want) {
			t.Errorf("line %d: %s, want %s", i, lines[i], want)
		}
	}
}

func TestPage(t *testing.T) {
	out := written(t, every(), "html")
	last := 0
	for _, want := range []string{
		"<!DOCTYPE html>", "<title>Changes from old.yaml to new.yaml</title>", "<b>Caution:</b> look twice",
		"lost: a quote is missing", "<h2>Machine M</h2>",
		"Not read or not compared", "j, a record without id: not found",
		"Figures that moved", `<td>6 N·m</td><td class="now">9 N·m</td><td>&#43;50 %`, "amounts 2 volume (dry fill)",
		"Gone", "a record without id, no place told", "New", "c, lid", "Another record in its place", "d takes the place of d-old", "The same records under other ids.", "e-old is e now", "variant A", "M8 &lt;b&gt;", "and 1 more", "page 2", "</html>",
	} {
		i := strings.Index(out[last:], want)
		if i < 0 {
			t.Errorf("%q is not there, or not in its place", want)
			continue
		}
		last += i
	}
	for _, no := range []string{"<script", "http", "src=", "\x1b", "8.0 N·m", "ZgotmplZ"} {
		if strings.Contains(out, no) {
			t.Errorf("%q is there", no)
		}
	}
	if same := written(t, &List{Old: "a", New: "b"}, "html"); !strings.Contains(same, "No figure, record or word differs") {
		t.Errorf("nothing changed:\n%s", same)
	}
}

func TestSummary(t *testing.T) {
	l := every()
	for _, tt := range []struct {
		list List
		want string
	}{
		{*l, "2 figures moved, 1 record gone, 1 new record, 2 superseded, 1 renamed, 5 other changes; 1 restated in other digits or units (--all shows them); 5 could not be read or compared"},
		{List{}, "no change"},
		{List{Unread: l.Unread[:1]}, "no change in what could be read; 1 could not be read or compared"},
		{List{Changes: l.Changes[:1]}, "1 other change"},
		{List{Changes: l.Changes[11:12], All: true}, "no change; 1 restated in other digits or units"},
	} {
		if got := tt.list.Summary(); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
}

type full struct{ left int }

var errFull = errors.New("the disk is full")

func (f *full) Write(b []byte) (int, error) {
	if f.left -= len(b); f.left < 0 {
		return 0, errFull
	}
	return len(b), nil
}

func TestWriteFails(t *testing.T) {
	for _, form := range Forms() {
		for _, left := range []int{0, 100, 600} {
			if err := every().Write(&full{left}, form); !errors.Is(err, errFull) {
				t.Errorf("%s with room for %d: %v", form, left, err)
			}
		}
	}
	if err := every().Write(&full{}, "xml"); err == nil {
		t.Error("xml is no form")
	}
}
