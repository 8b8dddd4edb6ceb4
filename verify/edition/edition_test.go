package edition_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/edition"
)

// book reads an edition. What cannot be read is noted in it.
func book(t testing.TB, text string) *edition.Book {
	t.Helper()
	b := &edition.Book{Name: "a book"}
	for e, err := range specs.Read("a.yaml", strings.NewReader(text)) {
		if err != nil {
			u := edition.Unread{Message: err.Error()}
			var bad *specs.Unreadable
			if errors.As(err, &bad) {
				u.Place.Span = bad.Span
			}
			if e.Head != nil {
				u.Machine = e.Head.Machine.ID
			}
			if e.Lost {
				u.Place.Record = e.Record.ID
			}
			b.AddUnread(u)
		}
		if err == nil || e.Lost {
			b.Add(e)
		}
	}
	return b
}

const head = `format: snapgauge/1.0
machine: {id: m, name: Machine M}
variants: [A, B]
sources:
  s: {title: manual, edition: "2019"}
  n: {title: manual, edition: "2024"}
records:
`

// torque is a record on one line.
func torque(id, to, more string) string {
	return fmt.Sprintf("  - {id: %s, kind: torque, where: w %s, tighten: [{to: %s}], source: {ref: s, at: p 1}%s}\n", id, id, to, more)
}

func tell(changes []edition.Change) []string {
	var out []string
	for _, c := range changes {
		line := strings.TrimSpace(c.String())
		if len(c.Records) > 0 {
			line += " " + fmt.Sprint(c.Records)
		}
		out = append(out, line)
	}
	return out
}

func TestCompare(t *testing.T) {
	for _, tt := range []struct {
		name, old, now string
		want           []string
	}{
		{"nothing", torque("a", "6 N·m", "") + torque("b", "7 N·m", ""), torque("b", "7 Nm", "") + torque("a", "6 N·m", ""), nil},
		{"the example of the issue", torque("a", "71 lbf·in", "") + torque("b", "6 N·m", ""), torque("a", "8.0 N·m", "") + torque("b", "9 N·m", ""),
			[]string{"restated a/tighten/0/to: 71 lbf·in → 8.0 N·m", "figure b/tighten/0/to: 6 N·m → 9 N·m +50 %"}},
		{"new and gone", torque("a", "6 N·m", ""), torque("b", "7 N·m", ""), []string{"new b:  → b", "gone a: a →"}},
		{"renamed", torque("a", "6 N·m", ""), strings.Replace(torque("b", "6 N·m", ""), "w b", "w a", 1), []string{"renamed b: a → b"}},
		{"renamed and moved: found by its item", torque("a", "6 N·m", ", item: i"), torque("b", "9 N·m", ", item: i"),
			[]string{"renamed b: a → b", "text b/where: w a → w b", "figure b/tighten/0/to: 6 N·m → 9 N·m +50 %"}},
		{"by its item, its id kept as the item", torque("a", "6 N·m", ""), torque("a-2", "9 N·m", ", item: a"),
			[]string{"renamed a-2: a → a-2", "text a-2/where: w a → w a-2", "figure a-2/tighten/0/to: 6 N·m → 9 N·m +50 %"}},
		{"two of an item: nobody knows which", torque("a", "6 N·m", ", item: i"), torque("b", "9 N·m", ", item: i") + torque("c", "8 N·m", ", item: i"),
			[]string{"new b:  → b", "new c:  → c", "gone a: a →"}},
		{"two of an item on two variants", torque("a", "6 N·m", ", item: i, applies: [{variant: [A]}]") + torque("b", "7 N·m", ", item: i, applies: [{variant: [B]}]"),
			torque("c", "8 N·m", ", item: i, applies: [{variant: [B]}]") + torque("d", "6.5 N·m", ", item: i, applies: [{variant: [A]}]"),
			[]string{"renamed c: b → c", "text c/where: w b → w c", "figure c/tighten/0/to: 7 N·m → 8 N·m +14 %",
				"renamed d: a → d", "text d/where: w a → w d", "figure d/tighten/0/to: 6 N·m → 6.5 N·m +8.3 %"}},
		{"superseded, and kept", torque("a", "6 N·m", ""), torque("a", "6 N·m", "") + strings.Replace(torque("b", "9 N·m", ", supersedes: a"), "ref: s", "ref: n", 1),
			[]string{"superseded b: a → b", "text b/where: w a → w b", "source b/source: manual, 2019 → manual, 2024 [b]", "figure b/tighten/0/to: 6 N·m → 9 N·m +50 %"}},
		{"superseded, and gone", torque("a", "6 N·m", ""), torque("b", "6.0 N·m", ", supersedes: a"),
			[]string{"superseded b: a → b", "text b/where: w a → w b", "restated b/tighten/0/to: 6 N·m → 6.0 N·m"}},
		{"an id twice", torque("a", "6 N·m", "") + torque("a", "7 N·m", ""), torque("a", "7 N·m", "") + torque("a", "8 N·m", "") + torque("a", "9 N·m", ""),
			[]string{"figure a/tighten/0/to: 6 N·m → 8 N·m +33 %", "new a:  → a"}},
		{"another kind", torque("a", "6 N·m", ""), "  - {id: a, kind: tolerance, where: w, of: gap, new: 1 mm, source: {ref: s, at: p 1}}\n",
			[]string{"new a:  → a", "gone a: a →"}},
		{"where it applies", torque("a", "6 N·m", ""), torque("a", "6 N·m", ", applies: [{variant: [A]}]"), []string{"applies a/applies: all → variant A"}},
		{"spelt out is the same", torque("a", "6 N·m", ", applies: [{variant: [A]}, {variant: [B]}]"), torque("a", "6 N·m", ", applies: [{variant: [B, A]}]"), nil},
		{"pages of the same edition", torque("a", "6 N·m", ""), strings.Replace(torque("a", "6 N·m", ""), "p 1", "p 2", 1), []string{"place a/source/at: p 1 → p 2"}},
		{"pages of a new edition", torque("a", "6 N·m", "") + torque("b", "7 N·m", ""), strings.ReplaceAll(strings.ReplaceAll(torque("a", "6 N·m", "")+torque("b", "7 N·m", ""), "p 1", "p 2"), "ref: s", "ref: n"),
			[]string{"source a/source: manual, 2019 → manual, 2024 [a b]"}},
		{"a figure is gone", torque("a", "6 N·m, tolerance: ±10 %", ""), torque("a", "6 N·m", ""), []string{"figure a/tighten/0/tolerance: ±10 % →"}},
		// A record that cannot be read is neither gone nor new.
		{"lost in the new one", torque("a", "6 N·m", "") + torque("b", "7 N·m", ""), torque("a", "6 N·m", "") + "  - {id: b, id: b, kind: torque}\n", nil},
		{"lost in the old one", torque("a", "6 N·m", "") + "  - {id: b, id: b, kind: torque}\n", torque("a", "6 N·m", "") + torque("b", "7 N·m", ""), nil},
		{"lost, and new", torque("a", "6 N·m", ""), torque("a", "6 N·m", "") + "  - {id: b, id: b, kind: torque}\n", nil},
		{"lost without a name", torque("a", "6 N·m", "") + torque("b", "7 N·m", "") + torque("c", "8 N·m", ""), torque("a", "6 N·m", "") + "  - {id: x, id: y, kind: torque}\n",
			[]string{"unread b: b →  not found in what could be read of the new edition [b c]"}},
		{"the file breaks off", torque("a", "6 N·m", "") + torque("b", "7 N·m", ""), torque("a", "6 N·m", "") + "  - {id: b\n", nil}, // see below
		{"a kind that is none", torque("a", "6 N·m", ""), strings.Replace(torque("a", "6 N·m", ""), "kind: torque", "kind: torqe", 1), []string{"unread a/kind: torque → torqe it could not be read in the new edition"}},
		{"a value that is not one", torque("a", "6 N·m", ""), torque("a", "{x: 6}", ""), []string{"unread a/tighten/0/to: 6 N·m →  it could not be read in the new edition"}},
		{"a figure that is not read", torque("a", "6 N·m", ""), torque("a", "6 Nx", ""), []string{"unread a/tighten/0/to: 6 N·m → 6 Nx a figure that cannot be read for sure"}},
	} {
		got := tell(edition.Compare(book(t, head+tt.old), book(t, head+tt.now)))
		if tt.name == "the file breaks off" {
			for _, line := range got {
				if strings.HasPrefix(line, "gone") {
					t.Errorf("%s: %s", tt.name, line)
				}
			}
			continue
		}
		if d := cmp.Diff(tt.want, got); d != "" {
			t.Errorf("%s (-want +got)\n%s", tt.name, d)
		}
	}
}

func TestCompareHeads(t *testing.T) {
	old := book(t, head+torque("a", "6 N·m", ""))
	now := book(t, strings.Replace(head, "[A, B]", "[A, B, C]", 1)+torque("a", "6 N·m", ""))
	if d := cmp.Diff([]string{"machine /variants: A, B → A, B, C"}, tell(edition.Compare(old, now))); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	// Another machine is another book.
	other := book(t, strings.Replace(head, "id: m,", "id: other,", 1)+torque("a", "6 N·m", ""))
	if d := cmp.Diff([]string{"new a:  → a", "gone a: a →"}, tell(edition.Compare(old, other))); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	// Records of nobody may be anybody's.
	nobody := book(t, strings.Replace(head, "{id: m, name: Machine M}", "{name: Machine M}", 1)+torque("a", "6 N·m", ""))
	if d := cmp.Diff([]string{"new a:  → a", "unread a: a →  not found in what could be read of the new edition [a]"}, tell(edition.Compare(old, nobody))); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	// A file without records is broken, not empty.
	broken := book(t, strings.Replace(head, "records:", "x-records:", 1))
	if d := cmp.Diff([]string{"unread a: a →  not found in what could be read of the new edition [a]"}, tell(edition.Compare(old, broken))); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	if old.Records() != 1 || len(old.Unread()) != 0 || len(broken.Unread()) != 1 {
		t.Errorf("%d records, %v, %v", old.Records(), old.Unread(), broken.Unread())
	}
}

func TestPlaces(t *testing.T) {
	old := book(t, head+torque("a", "6 N·m", "")+torque("b", "7 N·m", ""))
	now := book(t, head+torque("c", "1 N·m", "")+torque("a", "9 N·m", ""))
	var got []string
	for _, c := range edition.Compare(old, now) {
		got = append(got, fmt.Sprintf("%s %s %s %s", c.Kind, c.Record, c.At.Span.Start, c.WasAt.Span.Start))
	}
	want := []string{"new c 8:10 -", "figure a 9:54 8:54", "gone b - 9:10"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

func TestLabels(t *testing.T) {
	const was = `  - {id: oil, kind: fill, where: w, source: {ref: s, at: p 1}, amounts: [{when: dry fill, volume: 5 L}, {when: top up, volume: 1 L}], level: {by: dipstick, points: [{at: 20 °C, low: 30 mm}]}}
  - {id: p, kind: tolerance, of: pressure, where: w, source: {ref: s, at: p 1}, rows: [{figure: 1 bar, at: {speed: idle, selector: ahead}}]}
  - {id: f, kind: torque, where: w, source: {ref: s, at: p 1}, fastener: [{key: long, count: 2}], tighten: [{to: 5 N·m}]}
`
	now := strings.NewReplacer("volume: 5 L", "volume: 6 L", ", {when: top up, volume: 1 L}", "", "30 mm", "31 mm", "1 bar", "2 bar", "count: 2", "count: 3").Replace(was)
	var got []string
	for _, c := range edition.Compare(book(t, head+was), book(t, head+now)) {
		got = append(got, c.Field.String()+" "+c.Label)
	}
	want := []string{"/amounts/0/volume dry fill", "/amounts/1/when top up", "/amounts/1/volume top up", "/level/points/0/low 20 °C", "/rows/0/figure idle, ahead", "/fastener/0/count long"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

func TestFind(t *testing.T) {
	old := book(t, head+torque("a", "6 N·m", ", item: i, applies: [{variant: [A]}]")+torque("b", "7 N·m", ", item: i, applies: [{variant: [B]}]")+
		torque("c", "7 N·m", ", item: k")+torque("d", "7 N·m", ", item: k"))
	for _, tt := range []struct{ record, want string }{
		{torque("a", "6 N·m", ""), "a"},
		{torque("x", "6 N·m", ", item: i, applies: [{variant: [B]}]"), "b"},
		{torque("x", "6 N·m", ", item: i"), ""}, // applies to other machines
		{torque("x", "6 N·m", ", item: k"), ""}, // two
		{torque("x", "6 N·m", ""), ""},
	} {
		for e := range specs.Read("b.yaml", strings.NewReader(head+tt.record)) {
			if e.HeadOnly {
				if old.Find(&e) != nil {
					t.Error("a head was found")
				}
				continue
			}
			got := ""
			if b := old.Find(&e); b != nil {
				got = b.Entry.Record.ID
				if b.Edition != "a book" {
					t.Errorf("found in %q", b.Edition)
				}
			}
			if got != tt.want {
				t.Errorf("%s: found %q, want %q", tt.record, got, tt.want)
			}
		}
	}
}

func TestMeans(t *testing.T) {
	figure := func(text string) *schema.Figure {
		f := &schema.Figure{}
		for _, v := range strings.Split(text, "|") {
			q, problem := convert.Parse(v, ^convert.Of(convert.TemperatureDifference, convert.Force), convert.Point)
			f.Values = append(f.Values, convert.Value{Text: v, Quantity: q, Problem: problem})
		}
		return f
	}
	for _, tt := range []struct{ was, now, want string }{
		{"6 N·m", "9 N·m", "+50 %"},
		{"9 N·m", "8 N·m", "−11 %"},
		{"71 lbf·in", "71 lbf·ft", "12 times"}, // 12 in to the foot
		{"71 lbf·ft", "71 lbf·in", "1/12 of it"},
		{"8 N·m", "8.2 N·m", "+2.5 %"},
		{"8.000 N·m", "8.001 N·m", "+0.05 % or less"},
		{"8.001 N·m", "8.000 N·m", "−0.05 % or less"},
		{"8 to 10 N·m", "8 to 11 N·m", "upper end +10 %"},
		{"8 to 10 N·m", "10 to 15 N·m", "lower end +25 %, upper end +50 %"},
		{"8 to 10 N·m", "16 to 20 N·m", "+100 %"},
		{"9 ±1 N·m", "9 ±2 N·m", "2 times as wide"},
		{"±10 %", "±5 %", "1/2 as wide"},
		{"max 2 N·m", "max 3 N·m", "+50 %"},
		{"min 2 N·m", "min 3 N·m", "+50 %"},
		{"max 2 N·m", "3 N·m", ""},
		{"20 °C", "25 °C", "+5 °C"},
		{"68 °F", "60 °F", "−8 °F"},
		{"20 °C", "77 °F", "+9 °F"},
		{"0 mm", "1 mm", ""},
		{"8 N·m|71 lbf·in", "8 N·m|71 lbf·ft", "12 times"},
		{"5 Nx", "6 N·m", ""},
	} {
		if got := edition.Means(figure(tt.was), figure(tt.now)); got != tt.want {
			t.Errorf("%s to %s: %q, want %q", tt.was, tt.now, got, tt.want)
		}
	}
	word := &schema.Figure{Word: true}
	if got := edition.Means(word, figure("800 rpm")); got != "" {
		t.Errorf("of a word: %q", got)
	}
}

// A book differs from itself in nothing, and what is new one way is gone the other.
func TestDemoBooks(t *testing.T) {
	files, err := os.ReadDir("../../specs/demo")
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".yaml") {
			continue
		}
		data, err := os.ReadFile("../../specs/demo/" + f.Name())
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		if got := tell(edition.Compare(book(t, text), book(t, text))); got != nil {
			t.Errorf("%s differs from itself: %v", f.Name(), got)
		}
		// Records in another order, and a third of them left out.
		top, records, ok := strings.Cut(text, "\nrecords:\n")
		if !ok {
			t.Fatalf("%s has no records", f.Name())
		}
		list := strings.Split("\n"+records, "\n  - id: ")[1:]
		rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		write := func(list []string) *edition.Book {
			return book(t, top+"\nrecords:\n  - id: "+strings.Join(list, "\n  - id: "))
		}
		if got := tell(edition.Compare(book(t, text), write(list))); got != nil {
			t.Errorf("%s differs in another order: %v", f.Name(), got)
		}
		fewer := write(list[len(list)/3:])
		forth, back := edition.Compare(book(t, text), fewer), edition.Compare(fewer, book(t, text))
		gone, new := ids(forth, edition.Gone), ids(back, edition.New, edition.Superseded)
		if d := cmp.Diff(gone, new); d != "" || len(gone) < len(list)/4 {
			t.Errorf("%s: %d gone (-gone +new)\n%s", f.Name(), len(gone), d)
		}
	}
}

func ids(changes []edition.Change, kinds ...edition.Kind) []string {
	var out []string
	for _, c := range changes {
		if slices.Contains(kinds, c.Kind) && c.Field.Len() == 0 {
			out = append(out, c.Record)
		}
	}
	slices.Sort(out)
	return out
}

func TestKinds(t *testing.T) {
	lesser := 0
	for _, k := range edition.Kinds() {
		if k.Lesser() {
			lesser++
		}
	}
	if lesser != 1 || len(edition.Kinds()) != 12 {
		t.Errorf("%d kinds, %d of them lesser", len(edition.Kinds()), lesser)
	}
}

func BenchmarkCompare(b *testing.B) {
	data, err := os.ReadFile("../../specs/demo/wrackline-40.yaml")
	if err != nil {
		b.Fatal(err)
	}
	old, now := book(b, string(data)), book(b, strings.ReplaceAll(string(data), "8 N·m", "9 N·m"))
	for b.Loop() {
		edition.Compare(old, now)
	}
}
