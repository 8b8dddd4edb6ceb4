package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

func span(line, col, endLine, endCol int) schema.Span {
	return schema.Span{
		Start: schema.Position{Line: line, Column: col},
		End:   schema.Position{Line: endLine, Column: endCol},
	}
}

// disagree is a finding with everything.
var disagree = rule.Finding{
	Check: "values-disagree", Verdict: rule.Reject,
	Place: rule.Place{
		File: "shop/gear 2.yaml", Pointer: "/records/0/tighten/0/to/1", Record: "cover-screws",
		Span: span(2, 20, 2, 25),
	},
	Message: "71 lbf·in and 6 N·m disagree: 71 lbf·in is 8.0 N·m",
	Read:    "6 N·m", Want: "8.0 N·m",
	Source: reference.Citation{ID: "x", Text: "NIST SP 811 B.7 <2>"},
	Related: []rule.Related{
		{Place: rule.Place{File: "shop/gear 2.yaml", Pointer: "/records/0/tighten/0/to/0", Span: span(2, 9, 2, 18)}, Message: "71 lbf·in is here"},
		{Message: "a torque of this size is usual for M6"},
	},
	Slips: []rule.Slip{
		{Slip: "one digit", Reads: "8 N·m", Because: "8 N·m agrees with 71 lbf·in"},
		{Slip: "other unit", Reads: "6 lbf·ft"},
	},
}

// bare is a finding with as little as can be.
var bare = rule.Finding{Check: "unreadable", Verdict: rule.Reject, Place: rule.Place{File: "gone.yaml"}, Message: "no such file"}

var file = strings.Join([]string{
	"records:",
	"  - to: [71 lbf·in, 6 N·m]",
}, "\n")

type memory struct{ *strings.Reader }

func (memory) Close() error { return nil }

// files gives Lines files in memory.
func files(all map[string]string) *Lines {
	return &Lines{Open: func(name string) (io.ReadSeekCloser, error) {
		s, ok := all[name]
		if !ok {
			return nil, errors.New("no such file")
		}
		return memory{strings.NewReader(s)}, nil
	}}
}

func write(t *testing.T, form string, opt Options, fs ...rule.Finding) string {
	t.Helper()
	var b bytes.Buffer
	w, err := New(form, &b, opt)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range fs {
		if err := w.Finding(f); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(true); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestText(t *testing.T) {
	opt := Options{Lines: files(map[string]string{"shop/gear 2.yaml": file})}
	want := `shop/gear 2.yaml:2:20: reject: 71 lbf·in and 6 N·m disagree: 71 lbf·in is 8.0 N·m [values-disagree]
  |   - to: [71 lbf·in, 6 N·m]
  |                    ^^^^^
    shop/gear 2.yaml:2:9: 71 lbf·in is here
    a torque of this size is usual for M6
    perhaps 8 N·m (one digit): 8 N·m agrees with 71 lbf·in
    perhaps 6 lbf·ft (other unit)
    source: NIST SP 811 B.7 <2>
gone.yaml: reject: no such file [unreadable]
`
	if diff := cmp.Diff(want, write(t, "text", opt, disagree, bare)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestTextColour(t *testing.T) {
	opt := Options{Lines: files(map[string]string{"shop/gear 2.yaml": file}), Colour: true}
	coloured := write(t, "text", opt, disagree)
	if !strings.Contains(coloured, "\x1b[1;31mreject\x1b[0m") {
		t.Errorf("no colour in %q", coloured)
	}
	// Colour carries nothing: without it the text is the same.
	stripped := coloured
	for _, code := range []string{"\x1b[1m", "\x1b[1;31m", "\x1b[0m"} {
		stripped = strings.ReplaceAll(stripped, code, "")
	}
	opt.Colour = false
	if diff := cmp.Diff(write(t, "text", opt, disagree), stripped); diff != "" {
		t.Errorf("-plain +coloured:\n%s", diff)
	}
}

// A file may not steer the terminal.
func TestTextIsPlain(t *testing.T) {
	f := disagree
	f.Message = "the unit \x1b[2Jrpm is unknown\u202e"
	f.Place.File = "a\nb.yaml"
	got := write(t, "text", Options{}, f)
	if strings.ContainsAny(got, "\x1b\u202e") || !strings.HasPrefix(got, "a\ufffdb.yaml:2:20: ") {
		t.Errorf("got %q", got)
	}
}

func TestJSON(t *testing.T) {
	want := `{"file":"shop/gear 2.yaml","line":2,"column":20,"endLine":2,"endColumn":25,` +
		`"pointer":"/records/0/tighten/0/to/1","record":"cover-screws","check":"values-disagree","verdict":"reject",` +
		`"message":"71 lbf·in and 6 N·m disagree: 71 lbf·in is 8.0 N·m","read":"6 N·m","want":"8.0 N·m","source":"NIST SP 811 B.7 <2>",` +
		`"related":[{"file":"shop/gear 2.yaml","line":2,"column":9,"endLine":2,"endColumn":18,"pointer":"/records/0/tighten/0/to/0","message":"71 lbf·in is here"},` +
		`{"file":"","line":0,"column":0,"endLine":0,"endColumn":0,"pointer":"","message":"a torque of this size is usual for M6"}],` +
		`"slips":[{"slip":"one digit","reads":"8 N·m","because":"8 N·m agrees with 71 lbf·in"},{"slip":"other unit","reads":"6 lbf·ft","because":""}]}
{"file":"gone.yaml","line":0,"column":0,"endLine":0,"endColumn":0,"pointer":"","record":"","check":"unreadable","verdict":"reject",` +
		`"message":"no such file","read":"","want":"","source":"","related":[],"slips":[]}
`
	if diff := cmp.Diff(want, write(t, "json", Options{}, disagree, bare)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

var testChecks = []*rule.Check{
	{ID: "unreadable", Layer: "reading", Title: "a file that cannot be read", Since: "v0.1.0", Verdict: rule.Reject},
	{ID: "values-disagree", Layer: rule.Units, Title: "two values differ", Doc: "why *so*", Since: "v0.1.0",
		Verdict: rule.Query, Source: reference.Citation{ID: "x", Text: "NIST SP 811"}},
}

// The wanted text was checked by hand against SARIF 2.1.0, sections 3.13 to
// 3.49, which name every member used here.
func TestSARIF(t *testing.T) {
	want := `{"$schema":"https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json","version":"2.1.0",` +
		`"runs":[{"tool":{"driver":{"name":"snapgauge","version":"0.1.0","rules":[` +
		`{"id":"unreadable","shortDescription":{"text":"a file that cannot be read"},"defaultConfiguration":{"level":"error"},` +
		`"properties":{"layer":"reading","since":"v0.1.0"}},` +
		`{"id":"values-disagree","shortDescription":{"text":"two values differ"},"help":{"text":"run: snapgauge explain values-disagree","markdown":"why *so*"},` +
		`"defaultConfiguration":{"level":"warning"},"properties":{"layer":"units","since":"v0.1.0","source":"NIST SP 811"}}]}},` +
		`"columnKind":"unicodeCodePoints","results":[
{"ruleId":"values-disagree","ruleIndex":1,"level":"error","message":{"text":"71 lbf·in and 6 N·m disagree: 71 lbf·in is 8.0 N·m"},` +
		`"locations":[{"physicalLocation":{"artifactLocation":{"uri":"shop/gear%202.yaml"},"region":{"startLine":2,"startColumn":20,"endLine":2,"endColumn":25}},` +
		`"logicalLocations":[{"fullyQualifiedName":"/records/0/tighten/0/to/1","kind":"value"}]}],` +
		`"relatedLocations":[{"id":1,"physicalLocation":{"artifactLocation":{"uri":"shop/gear%202.yaml"},"region":{"startLine":2,"startColumn":9,"endLine":2,"endColumn":18}},` +
		`"logicalLocations":[{"fullyQualifiedName":"/records/0/tighten/0/to/0","kind":"value"}],"message":{"text":"71 lbf·in is here"}},` +
		`{"id":2,"message":{"text":"a torque of this size is usual for M6"}}],` +
		`"properties":{"record":"cover-screws","read":"6 N·m","want":"8.0 N·m","source":"NIST SP 811 B.7 <2>",` +
		`"slips":[{"slip":"one digit","reads":"8 N·m","because":"8 N·m agrees with 71 lbf·in"},{"slip":"other unit","reads":"6 lbf·ft","because":""}]}},
{"ruleId":"unreadable","ruleIndex":0,"level":"error","message":{"text":"no such file"},"locations":[{"physicalLocation":{"artifactLocation":{"uri":"gone.yaml"}}}],` +
		`"properties":{"record":"","read":"","want":"","source":"","slips":[]}}
],"invocations":[{"executionSuccessful":true}]}]}
`
	got := write(t, "sarif", Options{Checks: testChecks, Version: "0.1.0"}, disagree, bare)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestLevels(t *testing.T) {
	got := [][2]string{}
	for _, v := range []rule.Verdict{rule.Reject, rule.Query, rule.Note} {
		got = append(got, [2]string{level(v), motivation(v)})
	}
	want := [][2]string{{"error", "assessing"}, {"warning", "questioning"}, {"note", "commenting"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// Members as in the Web Annotation Data Model, sections 3.1, 3.2.4, 4.2.1 and
// 4.2.5; line=1,2 is the second line by RFC 5147, section 2.
func TestAnnotations(t *testing.T) {
	broad := disagree
	broad.Place.Span = span(3, 5, 6, 1)
	var page struct {
		Context    string `json:"@context"`
		ID, Type   string
		StartIndex int
		Items      []map[string]any
	}
	text := write(t, "annotations", Options{}, disagree, bare, broad)
	if err := json.Unmarshal([]byte(text), &page); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	if page.Context != "http://www.w3.org/ns/anno.jsonld" || page.Type != "AnnotationPage" || page.StartIndex != 0 || len(page.Items) != 3 {
		t.Errorf("page: %+v", page)
	}
	seen := map[any]bool{page.ID: true}
	for _, it := range page.Items {
		id, _ := it["id"].(string)
		if !strings.HasPrefix(id, "urn:uuid:") || len(id) != len("urn:uuid:")+36 || id[23] != '8' || seen[id] {
			t.Errorf("id %q is not one of its own", id)
		}
		seen[id] = true
		delete(it, "id")
	}
	body := func(comment, tag string) []any {
		return []any{
			map[string]any{"type": "TextualBody", "value": comment, "format": "text/plain", "language": "en", "purpose": "commenting"},
			map[string]any{"type": "TextualBody", "value": tag, "format": "text/plain", "purpose": "tagging"},
		}
	}
	comment := "reject: 71 lbf·in and 6 N·m disagree: 71 lbf·in is 8.0 N·m\n" +
		"shop/gear 2.yaml:2:9: 71 lbf·in is here\na torque of this size is usual for M6\n" +
		"perhaps 8 N·m (one digit): 8 N·m agrees with 71 lbf·in\nperhaps 6 lbf·ft (other unit)\nsource: NIST SP 811 B.7 <2>"
	want := []map[string]any{
		{"type": "Annotation", "motivation": "assessing", "body": body(comment, "values-disagree"),
			"target": map[string]any{"source": "shop/gear%202.yaml", "selector": map[string]any{
				"type": "FragmentSelector", "conformsTo": "http://tools.ietf.org/rfc/rfc5147", "value": "line=1,2",
				"refinedBy": map[string]any{"type": "TextPositionSelector", "start": 19.0, "end": 24.0}}}},
		{"type": "Annotation", "motivation": "assessing", "body": body("reject: no such file", "unreadable"),
			"target": map[string]any{"source": "gone.yaml"}},
		{"type": "Annotation", "motivation": "assessing", "body": body(comment, "values-disagree"),
			"target": map[string]any{"source": "shop/gear%202.yaml", "selector": map[string]any{
				"type": "FragmentSelector", "conformsTo": "http://tools.ietf.org/rfc/rfc5147", "value": "line=2,6"}}},
	}
	if diff := cmp.Diff(want, page.Items); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if again := write(t, "annotations", Options{}, disagree, bare, broad); again != text {
		t.Error("the same findings give other bytes")
	}
}

// Without findings each form is still whole.
func TestEmpty(t *testing.T) {
	for _, f := range Forms() {
		text := write(t, f.Name, Options{})
		if f.Name == "text" || f.Name == "json" {
			if text != "" {
				t.Errorf("%s: %q", f.Name, text)
			}
		} else if !json.Valid([]byte(text)) {
			t.Errorf("%s: not JSON: %s", f.Name, text)
		}
	}
	if _, err := New("xml", io.Discard, Options{}); err == nil {
		t.Error("a form that does not exist was made")
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

// An output that fails is an error in every form.
func TestWriteFails(t *testing.T) {
	for _, f := range Forms() {
		w, err := New(f.Name, full{}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := w.Finding(disagree); err == nil {
			t.Errorf("%s: no error", f.Name)
		}
	}
}

func TestURI(t *testing.T) {
	for _, c := range [][2]string{
		{"gear.yaml", "gear.yaml"},
		{"a b/µ#1.yaml", "a%20b/%C2%B5%231.yaml"},
		{"C:gear.yaml", "./C:gear.yaml"}, // RFC 3986 4.2: no colon in a first segment
		{"/srv/gear.yaml", "file:///srv/gear.yaml"},
		{"-", "-"},
	} {
		if got := uri(c[0]); got != c[1] {
			t.Errorf("uri(%q) = %q, want %q", c[0], got, c[1])
		}
	}
}

func BenchmarkText(b *testing.B) {
	w := newText(io.Discard, Options{Lines: files(map[string]string{"shop/gear 2.yaml": file})})
	b.ReportAllocs()
	for b.Loop() {
		if err := w.Finding(disagree); err != nil {
			b.Fatal(err)
		}
	}
}
