package verify_test

import (
	"errors"
	"fmt"
	"iter"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

const head = `format: snapgauge/1.0
machine: {id: wrackline-40, name: Wrackline 40 reduction gear}
entered: {by: RM, date: 2026-03-02}
sources:
  manual: {title: Wrackline 40 workshop manual, edition: third 2019, kind: maker}
records:
`

const plug = `  - id: %s
    kind: torque
    where: sump
    tighten: [{to: [25 N·m, 18 lbf·ft]}]
    source: {ref: manual, at: page 3}
`

// speak is a check that says one thing of every record.
func speak(id string, v rule.Verdict, at schema.Spot, read string) *rule.Check {
	return &rule.Check{ID: id, Layer: rule.Sense, Verdict: v, Source: reference.Cite("snapgauge-format"),
		Record: func(p *rule.Pass) {
			p.Report(rule.Finding{Verdict: v, At: at, Message: id + " speaks", Read: read})
		}}
}

func line(f rule.Finding) string {
	s := fmt.Sprintf("%s %s %s %s", f.Place.Span.Start, f.Verdict, f.Check, f.Place.Pointer)
	for _, r := range f.Related {
		s += fmt.Sprintf(" + %s %s", r.Place.Pointer, r.Message)
	}
	return s
}

func lines(found []rule.Finding) []string {
	var out []string
	for _, f := range found {
		out = append(out, line(f))
	}
	return out
}

// TestMerge: findings on one figure become one, the most certain; of equals the
// check that stands first; the others are its evidence. Other places stay apart.
func TestMerge(t *testing.T) {
	torque := schema.Spot{Path: schema.At("tighten", 0, "to", 0)}
	second := schema.Spot{Path: schema.At("tighten", 0, "to", 1)}
	where := schema.Spot{Path: schema.At("where")}
	checks := []*rule.Check{
		speak("one", rule.Query, torque, ""),
		speak("two", rule.Reject, second, ""),
		speak("three", rule.Reject, torque, ""),
		speak("four", rule.Query, where, ""),
	}
	got := lines(run(t, checks, "gear.yaml", head+fmt.Sprintf(plug, "sump-plug")))
	want := []string{
		"9:12 query four /records/0/where",
		"10:29 reject two /records/0/tighten/0/to/1 + /records/0/tighten/0/to/0 one speaks + /records/0/tighten/0/to/0 three speaks",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}

// TestOrder: records in input order, within one by place, the book last.
func TestOrder(t *testing.T) {
	book := &rule.Check{ID: "book", Layer: rule.Book, Verdict: rule.Query, Book: &rule.BookCheck{
		Emit: func(p *rule.Pass, emit func(rule.Row)) {
			if p.Record != nil {
				emit(rule.Row{Group: p.Record.Where, Order: p.Record.ID, Place: p.Place(schema.Spot{Path: schema.At("id")})})
			}
		},
		Judge: func(rows []rule.Row, report func(rule.Finding)) {
			for _, r := range rows {
				report(rule.Finding{Verdict: rule.Query, Place: r.Place, Message: "in the book"})
			}
		},
	}}
	checks := []*rule.Check{
		speak("later", rule.Note, schema.Spot{Path: schema.At("source", "at")}, ""),
		speak("sooner", rule.Note, schema.Spot{Path: schema.At("where")}, ""),
		book,
	}
	got := lines(run(t, checks, "gear.yaml", head+fmt.Sprintf(plug, "b-plug")+fmt.Sprintf(plug, "a-plug")))
	want := []string{
		"9:12 note sooner /records/0/where",
		"11:31 note later /records/0/source/at",
		"14:12 note sooner /records/1/where",
		"16:31 note later /records/1/source/at",
		"12:9 query book /records/1/id",
		"7:9 query book /records/0/id",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("-want +got\n%s", d)
	}
}

// TestAnswers: a query whose figure still reads what was answered is gone; every
// other answer is itself a query.
func TestAnswers(t *testing.T) {
	at := schema.Spot{Path: schema.At("tighten", 0, "to", 0)}
	query := speak("loose", rule.Query, at, "25 N·m")
	reject := speak("tight", rule.Reject, schema.Spot{Path: schema.At("where")}, "sump")
	book := &rule.Check{ID: "shelf", Layer: rule.Book, Verdict: rule.Query, Book: &rule.BookCheck{
		Emit: func(p *rule.Pass, emit func(rule.Row)) {
			if p.Record != nil {
				emit(rule.Row{Group: "all", Place: p.Place(schema.Spot{Path: schema.At("id")})})
			}
		},
		Judge: func(rows []rule.Row, report func(rule.Finding)) {
			report(rule.Finding{Verdict: rule.Query, Place: rows[0].Place, Message: "on the shelf", Read: "sump-plug"})
		},
	}}
	checks := []*rule.Check{query, reject, book, verify.AnswerToNothing}
	for _, tt := range []struct{ name, answer, want string }{
		{"none", "", "reject tight /records/0/where; query loose /records/0/tighten/0/to/0; query shelf /records/0/id"},
		{"good", "{check: loose, figure: /tighten/0/to/0, read: 25 N·m, because: a reason, by: JT, date: 2026-03-03}",
			"reject tight /records/0/where; query shelf /records/0/id"},
		{"the whole figure", "{check: loose, figure: /tighten/0/to, read: 25 N·m, because: a reason, by: JT, date: 2026-03-03}",
			"reject tight /records/0/where; query shelf /records/0/id"},
		{"of the book", "{check: shelf, figure: /id, read: sump-plug, because: a reason, by: JT, date: 2026-03-03}",
			"reject tight /records/0/where; query loose /records/0/tighten/0/to/0"},
		{"another text", "{check: loose, figure: /tighten/0/to/0, read: 20 N·m, because: a reason, by: JT, date: 2026-03-03}",
			`reject tight /records/0/where; query loose /records/0/tighten/0/to/0; query answer-to-nothing /records/0/answers/0 was given for "20 N·m", and "25 N·m" stands there now; query shelf /records/0/id`},
		{"nothing there", "{check: loose, figure: /id, read: 25 N·m, because: a reason, by: JT, date: 2026-03-03}",
			"reject tight /records/0/where; query loose /records/0/tighten/0/to/0; query answer-to-nothing /records/0/answers/0 answers nothing; query shelf /records/0/id"},
		{"a reject", "{check: tight, figure: /where, read: sump, because: a reason, by: JT, date: 2026-03-03}",
			"reject tight /records/0/where; query loose /records/0/tighten/0/to/0; query answer-to-nothing /records/0/answers/0 never answered away; query shelf /records/0/id"},
		{"no such check", "{check: lose, figure: /where, read: sump, because: a reason, by: JT, date: 2026-03-03}",
			`reject tight /records/0/where; query loose /records/0/tighten/0/to/0; query answer-to-nothing /records/0/answers/0 did you mean "loose"?; query shelf /records/0/id`},
		{"unused, of the book", "{check: shelf, figure: /where, read: sump, because: a reason, by: JT, date: 2026-03-03}",
			"reject tight /records/0/where; query loose /records/0/tighten/0/to/0; query shelf /records/0/id; query answer-to-nothing /records/0/answers/0 answers nothing"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			data := head + fmt.Sprintf(plug, "sump-plug")
			if tt.answer != "" {
				data += "    answers: [" + tt.answer + "]\n"
			}
			found := run(t, checks, "gear.yaml", data)
			want := strings.Split(tt.want, "; ")
			if len(found) != len(want) {
				t.Fatalf("got %d findings, want %d: %q", len(found), len(want), lines(found))
			}
			for i, f := range found {
				parts := strings.SplitN(want[i], " ", 4)
				if got := fmt.Sprintf("%s %s %s", f.Verdict, f.Check, f.Place.Pointer); got != strings.Join(parts[:3], " ") {
					t.Errorf("finding %d: got %s, want %s", i, got, want[i])
				}
				if len(parts) == 4 && !strings.Contains(f.Message, parts[3]) {
					t.Errorf("finding %d: message %q, want %q in it", i, f.Message, parts[3])
				}
			}
		})
	}
}

// TestStop: report says stop, and nothing more comes.
func TestStop(t *testing.T) {
	checks := []*rule.Check{speak("one", rule.Note, schema.Spot{Path: schema.At("where")}, "")}
	n := 0
	err := verify.Run(entries(t, "gear.yaml", head+fmt.Sprintf(plug, "a")+fmt.Sprintf(plug, "b")),
		verify.Options{Checks: checks}, func(rule.Finding) bool { n++; return false })
	if err != nil || n != 1 {
		t.Errorf("got %d findings and %v, want 1 and none", n, err)
	}
}

type full struct{ rule.InMemory }

var errFull = errors.New("no room")

func (full) Add(rule.Row) error { return errFull }

type torn struct{ rule.InMemory }

func (torn) Groups(int, int) iter.Seq2[[]rule.Row, error] {
	return func(yield func([]rule.Row, error) bool) { yield(nil, errFull) }
}

// TestSorterFails: what the sorter cannot do is the run's error.
func TestSorterFails(t *testing.T) {
	for _, s := range []rule.Sorter{&full{}, &torn{}} {
		err := verify.Run(entries(t, "gear.yaml", head+fmt.Sprintf(plug, "a")), verify.Options{Sorter: s},
			func(rule.Finding) bool { return true })
		if !errors.Is(err, errFull) {
			t.Errorf("%T: got %v, want %v", s, err, errFull)
		}
	}
}

// TestCauses: a value of the wrong shape is one finding; what other checks make
// of it is not said, and what they say elsewhere is.
func TestCauses(t *testing.T) {
	data := head + `  - id: sump-plug
    kind: torque
    where: sump
    fastener: {type: screw, thread: M8x1.25, class: "8.7", count: 4, places: [a, b, c, d]}
    tighten: [{to: 25 N·m, order: [a, c, b, d]}]
    source: {ref: manual, at: page 3}
`
	var got []string
	for _, f := range run(t, verify.All(), "gear.yaml", data) {
		got = append(got, f.Check+" "+f.Place.Pointer)
	}
	seen := map[string]int{}
	for _, g := range got {
		seen[strings.SplitN(g, " ", 2)[0]]++
	}
	if seen["class-unknown"] != 1 {
		t.Errorf("the impossible class is not told: %q", got)
	}
	for check := range seen {
		if check != "wrong-value" && check != "class-unknown" {
			t.Errorf("%s follows from the shape: %q", check, got)
		}
	}
}
