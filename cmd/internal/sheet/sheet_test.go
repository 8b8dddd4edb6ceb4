package sheet

import (
	"bytes"
	"errors"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/rule"
)

const head = `format: snapgauge/1.0
machine: {id: m-1, name: Machine 1}
variants: [A, B]
entered: {by: RM, date: 2026-03-02}
sources:
  manual: {title: Machine 1 manual, edition: third 2019, kind: maker}
  bulletin: {title: Bulletin 7, edition: "2021", kind: maker}
records:
`

// records reads records, written below the head above.
func records(t *testing.T, text string) []schema.Entry {
	t.Helper()
	return recordsOf(t, head+text)
}

func recordsOf(t *testing.T, text string) []schema.Entry {
	t.Helper()
	var out []schema.Entry
	for e, err := range specs.Read("m.yaml", strings.NewReader(text)) {
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range e.Problems {
			t.Fatal(p.Message)
		}
		if !e.HeadOnly {
			out = append(out, e)
		}
	}
	return out
}

// made makes a sheet and fails the test where that fails.
func made(t *testing.T, in Input) *Sheet {
	t.Helper()
	s, err := Make(in)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// cardOf is the card of a record on a sheet.
func cardOf(t *testing.T, s *Sheet, id string) *Card {
	t.Helper()
	for _, section := range s.Sections {
		for _, b := range section.Blocks {
			if b.Card != nil && b.Card.ID == id {
				return b.Card
			}
			for _, c := range b.Rows {
				if c.ID == id {
					return c
				}
			}
		}
	}
	t.Fatalf("%s is not on the sheet", id)
	return nil
}

func html(t *testing.T, s *Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func parts(f Figure) []string {
	var out []string
	for _, p := range f.Parts {
		out = append(out, string(p.Role)+" "+p.Text)
	}
	return out
}

const cover = `
  - id: cover
    kind: torque
    where: cover to case
    fastener: {type: screw, thread: M6x1, class: "8.8", count: 8}
    tighten: [{to: [71 lbf·in, 8 N·m], tolerance: ±1 N·m}, {turn: 90°}]
    renew: [cover gasket]
    caution: [eye-protection, hot-oil, our own words]
    source: {ref: manual, at: page 4-12}
`

// A figure that is asked about bears the question, and nothing is worked out from
// it.
func TestQuestions(t *testing.T) {
	e := records(t, strings.Replace(cover, "[71 lbf·in, 8 N·m]", "8 N·m", 1))
	at := func(pointer string) rule.Finding {
		return rule.Finding{Check: "c", Message: "is it " + pointer, Place: rule.Place{File: "m.yaml", Record: "cover", Pointer: "/records/0" + pointer}}
	}
	other := at("/where")
	other.Place.Record = "another"
	book := rule.Finding{Check: "source-unused", Message: "nothing rests on bulletin", Place: rule.Place{File: "m.yaml", Pointer: "/sources/bulletin"}}
	s := made(t, Input{Records: e, Queries: []rule.Finding{at("/renew/0"), at("/tighten/0/to"), other, book}})
	c := cardOf(t, s, "cover")
	if diff := cmp.Diff([]Question{{1, "is it /renew/0", "c"}, {2, "is it /tighten/0/to", "c"}}, c.Questions); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	f := c.Torque.Steps[0].Figure
	if diff := cmp.Diff(Figure{Parts: []Part{{Printed, "8 N·m"}}, Asked: []int{2}}, f); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if diff := cmp.Diff([]Question{{0, "nothing rests on bulletin", "source-unused"}}, s.Questions); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	page := html(t, s)
	for _, want := range []string{"? question 2", "Open question 2:", "nothing rests on bulletin", "3 open questions"} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
}

// A query about the second value of a figure is one about the figure.
func TestQuestionOfValue(t *testing.T) {
	e := records(t, cover)
	q := rule.Finding{Message: "why", Place: rule.Place{File: "m.yaml", Record: "cover", Pointer: "/records/0/tighten/0/to/1"}}
	c := cardOf(t, made(t, Input{Records: e, Queries: []rule.Finding{q}}), "cover")
	if got := c.Torque.Steps[0].Figure.Asked; len(got) != 1 || got[0] != 1 {
		t.Errorf("asked %v, want question 1", got)
	}
}

// The gravest come first, with the words of the table; what the table does not have
// gets no signal word.
func TestCautions(t *testing.T) {
	e := records(t, cover+"  - {id: b, kind: torque, where: y, tighten: [{to: 8 N·m}], caution: [pressure-injection, hot-oil, hot-oil], source: {ref: manual, at: page 1}}\n")
	s := made(t, Input{Records: e})
	var got []string
	for _, c := range s.Cautions {
		got = append(got, c.Signal+" "+c.Hazard)
	}
	want := []string{"DANGER injection", "WARNING burn", "CAUTION eyes", " "} // reference/data/cautions.csv
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if s.Cautions[3].Text != "our own words" {
		t.Errorf("own words are %q", s.Cautions[3].Text)
	}
	for id, want := range map[string][]int{"cover": {2, 3, 4}, "b": {1, 2}} {
		var numbers []int
		for _, c := range cardOf(t, s, id).Cautions {
			numbers = append(numbers, c.N)
		}
		if diff := cmp.Diff(want, numbers); diff != "" {
			t.Errorf("%s (-want +got):\n%s", id, diff)
		}
	}
	page := html(t, s)
	first := strings.Index(page, `<article`)
	for _, want := range []string{"current service information, local codes", "A fine jet of fluid", "our own words"} {
		if at := strings.Index(page, want); at < 0 || at > first {
			t.Errorf("%q does not stand before the figures", want)
		}
	}
	if m, f := strings.Index(page, "WARNING</b> burn"), strings.Index(page, "71 lbf·in"); m < 0 || m > f {
		t.Error("the cautions of a record do not stand before its figures")
	}
}

// Each kind has a section; what only says that nothing is published comes last;
// records of one place stand together.
func TestSections(t *testing.T) {
	e := records(t, `
  - {id: none, kind: torque, where: bracket, fastener: {type: screw, thread: M8x1.25, count: 2}, unpublished: {why: none printed, do: ask the maker}, source: {ref: manual, at: page 1}}
  - {id: length, kind: tolerance, where: spring, of: free length, new: 48 mm, source: {ref: manual, at: page 1}}
  - {id: float, kind: tolerance, where: shaft, of: end float, new: 0.1 to 0.2 mm, source: {ref: manual, at: page 1}}
  - {id: load, kind: tolerance, where: spring, of: spring load, new: 210 N, source: {ref: manual, at: page 1}}
  - id: shims
    kind: tolerance
    where: bearing
    of: end float
    select: {measure: depth, rows: [{from: 1.0 mm, to: 1.1 mm, part: shim A}]}
    source: {ref: manual, at: page 1}
  - {id: oil, kind: fill, where: sump, amounts: [{when: dry fill, volume: 1 L}], source: {ref: manual, at: page 1}}
  - {id: half, kind: torque, where: lid, tighten: [{to: 8 N·m}], unpublished: {why: order not printed, do: ask}, source: {ref: manual, at: page 1}}
`)
	s := made(t, Input{Records: e})
	var got []string
	for _, section := range s.Sections {
		line := section.ID + ":"
		for _, b := range section.Blocks {
			if b.Card != nil {
				line += " " + b.Card.ID
				continue
			}
			line += " ["
			for _, c := range b.Rows {
				line += c.ID + " "
			}
			line += "]"
		}
		got = append(got, line)
	}
	want := []string{"torques: half", "fills: oil", "tolerances: [length load float ] shims", "unpublished: none"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	page := html(t, s)
	for _, want := range []string{
		"<b>Not published:</b> <bdi>none printed</bdi>", "ask the maker", "order not printed",
		"End of the sheet: 7 records", "2 not published", "shim A",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
	if n := strings.Count(page, `<span class="write"></span>`); n != 3+2 {
		t.Errorf("room for %d readings, want one for each figure and two for the measured value and the part", n)
	}
}

func TestStanding(t *testing.T) {
	signed := func(by, print string, e *schema.Entry) {
		c, err := schema.NewCountersign(e.Head, e.Record, by, "2026-03-09")
		if err != nil {
			t.Fatal(err)
		}
		if print != "" {
			c.Fingerprint = print
		}
		e.Countersigned = append(e.Countersigned, c)
	}
	for _, x := range []struct {
		by, print, want string
		signed          bool
	}{
		{"", "", "not countersigned", false},
		{"JT", "", "countersigned by JT, 2026-03-09", true},
		{"RM", "", "not countersigned: read only by RM, 2026-03-09, who entered it", false},
		{"JT", "f1:0", "not countersigned: changed since JT, 2026-03-09", false},
	} {
		e := records(t, cover)
		if x.by != "" {
			signed(x.by, x.print, &e[0])
		}
		f := cardOf(t, made(t, Input{Records: e}), "cover").Foot
		if f.Countersign != x.want || f.Signed != x.signed {
			t.Errorf("got %q, %v; want %q, %v", f.Countersign, f.Signed, x.want, x.signed)
		}
		print, err := schema.Fingerprint(e[0].Head, e[0].Record)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Fingerprint) != len("f1:")+16 || !strings.HasPrefix(print, f.Fingerprint) {
			t.Errorf("fingerprint %s of %s", f.Fingerprint, print)
		}
		if f.Source != "Machine 1 manual, third 2019, page 4-12" || f.Entered != "RM" {
			t.Errorf("from %q by %q", f.Source, f.Entered)
		}
	}
}

// A draft says so at the head, on every printed page and at every record.
func TestDraft(t *testing.T) {
	e := records(t, cover)
	draft := html(t, made(t, Input{Records: e, Draft: "Made from spec files."}))
	if n := strings.Count(draft, "DRAFT"); n != 3 {
		t.Errorf("DRAFT stands %d times, want at the head, in the margin and at the record", n)
	}
	for _, want := range []string{"Made from spec files.", "(draft)</title>"} {
		if !strings.Contains(draft, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
	sealed := html(t, made(t, Input{Records: e, Edition: "release 7", Version: "1.2.3"}))
	if strings.Contains(strings.ToLower(sealed), "draft\"") || strings.Contains(sealed, "DRAFT") {
		t.Error("what is no draft says that it is one")
	}
	for _, want := range []string{"release 7", "snapgauge 1.2.3"} {
		if !strings.Contains(sealed, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
}

// The facts are shown; where a machine has variants and none is named, that is said.
func TestFacts(t *testing.T) {
	e := records(t, cover)
	for _, x := range []struct {
		facts, want []string
	}{
		{[]string{"variant=B", "gear = 1250"}, []string{"variant B", "gear 1250"}},
		{[]string{"gear=1250"}, []string{"any variant", "gear 1250"}},
		{nil, []string{"any variant"}},
	} {
		if diff := cmp.Diff(x.want, made(t, Input{Records: e, Facts: x.facts}).Facts); diff != "" {
			t.Errorf("-want +got:\n%s", diff)
		}
	}
	e[0].Head.Variants = nil
	if got := made(t, Input{Records: e}).Facts; len(got) > 0 {
		t.Errorf("facts of a machine without variants: %q", got)
	}
}

// The page needs nothing else: no script, no address, nothing of the user's that
// would be taken for markup.
func TestSelfContained(t *testing.T) {
	evil := `"</style><script>alert(1)</script> <img src=x onerror=alert(1)> \" } url(http://example.org) & \u202Eabc\u202C"`
	text := strings.NewReplacer("cover to case", evil, "our own words", evil, "cover gasket", evil, "page 4-12", evil).Replace(cover)
	s := made(t, Input{Records: records(t, text), Facts: []string{"variant=" + evil}, Edition: evil, Draft: evil})
	s.Machine = evil
	page := html(t, s)
	for _, bad := range []string{"<script", "<img", "<link", "<iframe", "@import", " src=\"", " href=\"", "\u202e"} {
		if strings.Contains(page, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
	if n := strings.Count(page, "</style>"); n != 1 {
		t.Errorf("%d styles end, want 1", n)
	}
	style := page[strings.Index(page, "<style>"):strings.Index(page, "</style>")]
	if strings.Contains(style, "http:") || strings.Contains(style, "url(") {
		t.Error("the style reaches outside")
	}
	if !strings.Contains(page, "&lt;script&gt;alert(1)&lt;/script&gt;") {
		t.Error("what was written does not stand there as it was written")
	}
	if regexp.MustCompile(`ZgotmplZ`).MatchString(page) {
		t.Error("the template refused something")
	}
}

func TestSameBytes(t *testing.T) {
	one, two := html(t, made(t, Input{Records: records(t, cover)})), html(t, made(t, Input{Records: records(t, cover)}))
	if one != two {
		t.Error("the same records give two pages")
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteFails(t *testing.T) {
	if err := made(t, Input{Records: records(t, cover)}).Write(full{}); err == nil || err.Error() != "disk full" {
		t.Errorf("got %v", err)
	}
}

func TestRunning(t *testing.T) {
	s := &Sheet{Machine: strings.Repeat("ä", 200), Facts: []string{"variant B"}}
	if got := running(s); len([]rune(got)) != 90 || !strings.HasSuffix(got, "…") {
		t.Errorf("%d letters: %s", len([]rune(got)), got)
	}
}
