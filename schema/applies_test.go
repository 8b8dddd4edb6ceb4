package schema

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestParseSerialRange(t *testing.T) {
	tests := []struct {
		text, form string
		from, to   int64
		has        string // which ends: "ft", "f", "t", ""
		bad        bool
	}{
		// The forms of the format's own list.
		{"1200 to 9999", "number", 1200, 9999, "ft", false},
		{"1200-9999", "number", 1200, 9999, "ft", false},
		{"1200–9999", "number", 1200, 9999, "ft", false},
		{"1200 - 9999", "number", 1200, 9999, "ft", false},
		{"1250", "number", 1250, 1250, "ft", false},
		{"from 1200", "number", 1200, 0, "f", false},
		{"min 1200", "number", 1200, 0, "f", false},
		{"1200 and up", "number", 1200, 0, "f", false},
		{"to 1199", "number", 0, 1199, "t", false},
		{"up to 1199", "number", 0, 1199, "t", false},
		{"max 1199", "number", 0, 1199, "t", false},
		{"from 1200 to 9999", "number", 1200, 9999, "ft", false},
		{" 007 ", "number", 7, 7, "ft", false},
		// Days since 1970-01-01, from date -d … +%s.
		{"2019-03-01", "date", 17956, 17956, "ft", false},
		{"2019-03-01 to 2020-06-30", "date", 17956, 18443, "ft", false},
		{"2019-03-01-2020-06-30", "date", 17956, 18443, "ft", false},
		{"2019-03-01–2020-06-30", "date", 17956, 18443, "ft", false},
		{"from 2019-03-01", "date", 17956, 0, "f", false},
		{"1969-12-31", "date", -1, -1, "ft", false},
		// Without a head the text tells the form.
		{"2019-03-01 to 2020-06-30", "", 17956, 18443, "ft", false},
		{"12 to 13", "", 12, 13, "ft", false},
		// Ends swapped: read as it stands.
		{"9999 to 1200", "number", 9999, 1200, "ft", false},

		{"", "number", 0, 0, "", true},
		{"to", "number", 0, 0, "", true},
		{"from", "number", 0, 0, "", true},
		{"1200 to", "number", 0, 0, "", true},
		{"W1200 to W1300", "number", 0, 0, "", true},
		{"1,200 to 1,300", "number", 0, 0, "", true},
		{"-5", "number", 0, 0, "", true},
		{"1200 to 2019-03-01", "number", 0, 0, "", true},
		{"2019-02-30", "date", 0, 0, "", true},
		{"1200", "date", 0, 0, "", true},
		{"1234567890123456789", "number", 0, 0, "", true},
	}
	for _, tt := range tests {
		r := ParseSerialRange("gear", tt.text, tt.form)
		has := ""
		if r.HasFrom {
			has += "f"
		}
		if r.HasTo {
			has += "t"
		}
		if r.From != tt.from || r.To != tt.to || has != tt.has || (r.Bad != "") != tt.bad {
			t.Errorf("%q as %q: got %d to %d (%s) bad %q, want %d to %d (%s) bad %v", tt.text, tt.form, r.From, r.To, has, r.Bad, tt.from, tt.to, tt.has, tt.bad)
		}
		if r.Name != "gear" || r.Text != tt.text {
			t.Errorf("%q: name and text are lost: %+v", tt.text, r)
		}
	}
}

func FuzzParseSerialRange(f *testing.F) {
	for _, s := range []string{"1200 to 9999", "1200-9999", "from 1200", "to 2019-03-01", "2019-03-01-2020-06-30", "W12", "–", "9999 to 1"} {
		f.Add(s, "number")
		f.Add(s, "date")
		f.Add(s, "")
	}
	f.Fuzz(func(t *testing.T, text, form string) {
		r := ParseSerialRange("n", text, form)
		if r.Bad != "" {
			if r.HasFrom || r.HasTo {
				t.Errorf("%q: bad (%s) and yet %d to %d", text, r.Bad, r.From, r.To)
			}
			return
		}
		if !r.HasFrom && !r.HasTo {
			t.Errorf("%q: not bad and without ends", text)
		}
		// What it prints, it reads again.
		again := ParseSerialRange("n", r.String(), r.Form)
		again.Text, r.Text = "", ""
		if d := cmp.Diff(r, again); d != "" {
			t.Errorf("%q printed as %q (-first +again):\n%s", text, r.String(), d)
		}
	})
}

func TestSerialRangeString(t *testing.T) {
	for _, tt := range []struct{ text, form, want string }{
		{"1200-9999", "number", "1200 to 9999"},
		{"1250", "number", "1250"},
		{"min 1250", "number", "from 1250"},
		{"max 1250", "number", "to 1250"},
		{"from 2019-03-01", "date", "from 2019-03-01"},
		{"W12", "number", "W12"},
	} {
		if got := ParseSerialRange("n", tt.text, tt.form).String(); got != tt.want {
			t.Errorf("%q: got %q, want %q", tt.text, got, tt.want)
		}
	}
	if got := (SerialRange{Name: "n"}).String(); got != "all" {
		t.Errorf("no ends: got %q, want all", got)
	}
}

// A small world: three variants and two numberings of numbers 1 to 6. What is
// true of boxes can be counted out there, point by point.
type point struct {
	variant string
	a, b    int64
}

var worldVariants = []string{"A", "B", "C"}

const worldEnd = 6

func world() []point {
	var ps []point
	for _, v := range worldVariants {
		for a := int64(1); a <= worldEnd; a++ {
			for b := int64(1); b <= worldEnd; b++ {
				ps = append(ps, point{v, a, b})
			}
		}
	}
	return ps
}

// holds tells whether a box applies to a point, as the format says it.
func holds(box Box, p point) bool {
	if len(box.Variants) > 0 && !slices.Contains(box.Variants, p.variant) {
		return false
	}
	for _, r := range box.Serials {
		n := p.a
		if r.Name == "b" {
			n = p.b
		}
		if r.HasFrom && n < r.From || r.HasTo && n > r.To {
			return false
		}
	}
	return true
}

func anyHolds(boxes []Box, p point) bool {
	return slices.ContainsFunc(boxes, func(b Box) bool { return holds(b, p) })
}

// randomBox has ends inside 1 to 6 or none, so that the small world shows
// everything that the boxes can do.
func randomBox(r *rand.Rand) Box {
	var b Box
	for _, v := range worldVariants {
		if r.IntN(3) == 0 {
			b.Variants = append(b.Variants, v)
		}
	}
	for _, name := range []string{"a", "b"} {
		switch lo, hi := 1+r.Int64N(worldEnd), 1+r.Int64N(worldEnd); r.IntN(5) {
		case 0:
			b.Serials = append(b.Serials, SerialRange{Name: name, Form: "number", From: lo, HasFrom: true})
		case 1:
			b.Serials = append(b.Serials, SerialRange{Name: name, Form: "number", To: hi, HasTo: true})
		case 2, 3:
			if lo > hi && r.IntN(4) > 0 { // swapped ends now and then
				lo, hi = hi, lo
			}
			b.Serials = append(b.Serials, SerialRange{Name: name, Form: "number", From: lo, To: hi, HasFrom: true, HasTo: true})
		}
	}
	return b
}

func randomBoxes(r *rand.Rand) []Box {
	boxes := make([]Box, 1+r.IntN(4))
	for i := range boxes {
		boxes[i] = randomBox(r)
	}
	return boxes
}

var worldHead = &Head{Variants: worldVariants, Serials: []Serial{{"a", "number"}, {"b", "number"}}}

// inWorld closes a box to the small world: its variants spelt out and its
// numbers within 1 to 6.
func inWorld(b Box) Box {
	b = worldHead.Within(b)
	b.Serials = slices.Clone(b.Serials)
	for _, name := range []string{"a", "b"} {
		b.Serials = append(b.Serials, SerialRange{Name: name, Form: "number", From: 1, To: worldEnd, HasFrom: true, HasTo: true})
	}
	return b
}

func TestAlgebraAgainstCounting(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	ps := world()
	for range 4000 {
		a, b := randomBoxes(r), randomBoxes(r)
		x, y := a[0], b[0]

		both, ok := Intersect(x, y)
		overlap := false
		for _, p := range ps {
			want := holds(x, p) && holds(y, p)
			overlap = overlap || want
			if got := ok && holds(both, p); got != want {
				t.Fatalf("%v and %v at %v: got %v, want %v", x, y, p, got, want)
			}
		}
		if ok != overlap {
			t.Fatalf("Intersect(%v, %v): got %v, want %v", x, y, ok, overlap)
		}
		anyOverlap := slices.ContainsFunc(ps, func(p point) bool { return anyHolds(a, p) && anyHolds(b, p) })
		if _, ok := Overlap(a, b); ok != anyOverlap {
			t.Fatalf("Overlap(%v, %v): got %v, want %v", a, b, ok, anyOverlap)
		}
		empty := !slices.ContainsFunc(ps, func(p point) bool { return holds(x, p) })
		if x.IsEmpty() != empty {
			t.Fatalf("%v: IsEmpty is %v, want %v", x, x.IsEmpty(), empty)
		}

		covers := !slices.ContainsFunc(ps, func(p point) bool { return holds(x, p) && !anyHolds(b, p) })
		if got := Covers(b, inWorld(x)); got != covers {
			t.Fatalf("Covers(%v, %v): got %v, want %v", b, x, got, covers)
		}
		var ca, cb []Box
		for _, x := range a {
			ca = append(ca, inWorld(x))
		}
		for _, x := range b {
			cb = append(cb, inWorld(x))
		}
		equal := !slices.ContainsFunc(ps, func(p point) bool { return anyHolds(a, p) != anyHolds(b, p) })
		if got := Equal(ca, cb); got != equal {
			t.Fatalf("Equal(%v, %v): got %v, want %v", a, b, got, equal)
		}

		gaps := Uncovered(worldHead, a)
		for _, p := range ps {
			if got, want := anyHolds(gaps, p), !anyHolds(a, p); got != want {
				t.Fatalf("Uncovered(%v) at %v: got %v, want %v", a, p, got, want)
			}
		}
	}
}

func TestPickAgainstCounting(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	// A stretch may be open, so that machines above 6 count.
	points := append(world(), beyond()...)
	for range 300 {
		applies := make([][]Box, 1+r.IntN(3))
		for i := range applies {
			applies[i] = append(applies[i], randomBoxes(r)...)
		}
		facts := Facts{Serials: map[string]int64{}}
		if r.IntN(2) == 0 {
			facts.Variant = worldVariants[r.IntN(3)]
		}
		for _, name := range []string{"a", "b"} {
			if r.IntN(2) == 0 {
				facts.Serials[name] = 1 + r.Int64N(worldEnd)
			}
		}
		known := func(p point) bool {
			a, hasA := facts.Serials["a"]
			b, hasB := facts.Serials["b"]
			return (facts.Variant == "" || p.variant == facts.Variant) && (!hasA || p.a == a) && (!hasB || p.b == b)
		}
		var want Choice
		for i, boxes := range applies {
			all, some := true, false
			for _, p := range points {
				if known(p) {
					all = all && anyHolds(boxes, p)
					some = some || anyHolds(boxes, p)
				}
			}
			switch {
			case all:
				want.Sure = append(want.Sure, i)
			case some:
				want.May = append(want.May, i)
			}
		}
		// The first fact such that two machines that differ in it alone differ
		// in whether a record applies.
		decides := func(same func(p, q point) bool) bool {
			for _, i := range want.May {
				for _, p := range points {
					for _, q := range points {
						if known(p) && known(q) && same(p, q) && anyHolds(applies[i], p) != anyHolds(applies[i], q) {
							return true
						}
					}
				}
			}
			return false
		}
		_, hasA := facts.Serials["a"]
		_, hasB := facts.Serials["b"]
		switch {
		case facts.Variant == "" && decides(func(p, q point) bool { return p.a == q.a && p.b == q.b }):
			want.Ask = "variant"
		case !hasA && decides(func(p, q point) bool { return p.variant == q.variant && p.b == q.b }):
			want.Ask = "a"
		case !hasB && decides(func(p, q point) bool { return p.variant == q.variant && p.a == q.a }):
			want.Ask = "b"
		}
		if d := cmp.Diff(want, Pick(worldHead, applies, facts)); d != "" {
			t.Fatalf("Pick(%v, %v) (-want +got):\n%s", applies, facts, d)
		}
	}
}

// beyond holds machines just above the small world; below number 1 there is none.
func beyond() []point {
	var ps []point
	for _, v := range worldVariants {
		for a := int64(1); a <= worldEnd+1; a++ {
			for b := int64(1); b <= worldEnd+1; b++ {
				if a > worldEnd || b > worldEnd {
					ps = append(ps, point{v, a, b})
				}
			}
		}
	}
	return ps
}

func TestUncovered(t *testing.T) {
	head := &Head{Variants: []string{"A", "B"}, Serials: []Serial{{"gear", "number"}}}
	box := func(variants []string, gear string) Box {
		b := Box{Variants: variants}
		if gear != "" {
			b.Serials = []SerialRange{ParseSerialRange("gear", gear, "number")}
		}
		return b
	}
	tests := []struct {
		name  string
		head  *Head
		boxes []Box
		want  []string
	}{
		{"all", head, []Box{{}}, nil},
		{"nothing", head, nil, []string{"all"}},
		{"a variant is missing", head, []Box{box([]string{"A"}, "")}, []string{"variant B"}},
		{"both ends meet", head, []Box{box(nil, "to 1199"), box(nil, "from 1200")}, nil},
		{"a gap", head, []Box{box(nil, "to 1199"), box(nil, "from 1300")}, []string{"gear 1200 to 1299"}},
		{"serial numbers begin at 1", head, []Box{box(nil, "1 to 1199"), box(nil, "from 1200")}, nil},
		{"a gap in one variant", head, []Box{box([]string{"A"}, ""), box([]string{"B"}, "from 1200")}, []string{"variant B, gear to 1199"}},
		{"no head: variants that are named", nil, []Box{box([]string{"A"}, "from 5"), box([]string{"B"}, "")}, []string{"variant A, gear to 4"}},
		{"no head, no variants", nil, []Box{box(nil, "from 5")}, []string{"gear to 4"}},
		{"an unreadable range covers nothing", head, []Box{box(nil, "W5")}, []string{"all"}},
	}
	for _, tt := range tests {
		var got []string
		for _, b := range Uncovered(tt.head, tt.boxes) {
			got = append(got, b.String())
		}
		if d := cmp.Diff(tt.want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, d)
		}
	}
}

func TestCoversWithoutHead(t *testing.T) {
	a := []Box{{Variants: []string{"A"}}, {Variants: []string{"B"}}}
	if Covers(a, Box{}) {
		t.Error("two variants cover every variant there may be")
	}
	if !Covers(a, (&Head{Variants: []string{"A", "B"}}).Within(Box{})) {
		t.Error("two variants do not cover the two of the head")
	}
	bad := Box{Serials: []SerialRange{ParseSerialRange("n", "W1", "number")}}
	if Covers([]Box{{}}, bad) || !bad.Bad() {
		t.Error("something is concluded from a range that cannot be read")
	}
	swapped := Box{Serials: []SerialRange{ParseSerialRange("n", "9 to 1", "number")}}
	if !Covers(nil, swapped) || !swapped.IsEmpty() {
		t.Error("a box that holds nothing is not covered by nothing")
	}
	if _, ok := Intersect(bad, Box{}); ok {
		t.Error("an unreadable box meets another")
	}
}

func TestBoxes(t *testing.T) {
	r := &Record{}
	if d := cmp.Diff([]Box{{}}, r.Boxes()); d != "" {
		t.Error(d)
	}
	r.Applies = []Box{{Variants: []string{"A", "B", "C"}}}
	if got, want := r.Boxes()[0].String(), "variant A, B or C"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := (*Head)(nil).Within(Box{}); len(got.Variants) != 0 {
		t.Errorf("no head, and yet variants %v", got.Variants)
	}
}

func TestPick(t *testing.T) {
	head := &Head{Variants: []string{"A", "B"}, Serials: []Serial{{"gear", "number"}, {"built", "date"}}}
	read := func(name, text string) []SerialRange {
		form, _ := head.SerialForm(name)
		return []SerialRange{ParseSerialRange(name, text, form)}
	}
	applies := [][]Box{
		{{Variants: []string{"A"}, Serials: read("gear", "1200 to 9999")}, {Variants: []string{"B"}}},
		{{Variants: []string{"A"}, Serials: read("gear", "to 1199")}},
		{{Serials: read("built", "from 2019-03-01")}},
	}
	tests := []struct {
		facts []string
		want  Choice
	}{
		{nil, Choice{May: []int{0, 1, 2}, Ask: "variant"}},
		{[]string{"variant=B"}, Choice{Sure: []int{0}, May: []int{2}, Ask: "built"}},
		{[]string{"variant=A"}, Choice{May: []int{0, 1, 2}, Ask: "gear"}},
		{[]string{"variant = A", "gear=1250"}, Choice{Sure: []int{0}, May: []int{2}, Ask: "built"}},
		{[]string{"gear=1250"}, Choice{Sure: []int{0}, May: []int{2}, Ask: "built"}},
		{[]string{"variant=A", "gear=7", "built=2019-02-28"}, Choice{Sure: []int{1}}},
		{[]string{"variant=A", "gear=7", "built=2019-03-01"}, Choice{Sure: []int{1, 2}}},
	}
	for _, tt := range tests {
		facts, err := ParseFacts(head, nil, tt.facts)
		if err != nil {
			t.Errorf("%v: %v", tt.facts, err)
			continue
		}
		if d := cmp.Diff(tt.want, Pick(head, applies, facts)); d != "" {
			t.Errorf("%v (-want +got):\n%s", tt.facts, d)
		}
	}
	// A range that cannot be read: it may apply, and no fact would tell.
	bad := [][]Box{{{Serials: []SerialRange{ParseSerialRange("gear", "W1", "number")}}}}
	if d := cmp.Diff(Choice{May: []int{0}}, Pick(nil, bad, Facts{Variant: "A"})); d != "" {
		t.Error(d)
	}
}

func TestParseFactsErrors(t *testing.T) {
	head := &Head{Variants: []string{"A", "B"}, Serials: []Serial{{"gear", "number"}, {"built", "date"}}}
	for _, tt := range []struct{ facts, want string }{
		{"variant", `"variant" is no fact, such as variant=B or gear=1250`},
		{"variant=C", `no variant "C"; known: A, B`},
		{"gears=5", `no numbering "gears"; known: variant, gear, built`},
		{"gear=from 5", `gear: "from 5" is not one number`},
		{"gear=x", `gear: "x" is no plain number, such as 1250`},
		{"=5", `"=5" is no fact, such as variant=B or gear=1250`},
		{"variant=A|gear=1100|gear=1300", `gear is told twice, 1100 and 1300; tell it once`},
		{"variant=A|gear=7| variant = B", `variant is told twice, A and B; tell it once`},
		{"variant=A|variant=A", `variant is told twice, A and A; tell it once`},
		{"variant=A|gear=0", `gear: there is no 0, for numbers begin with 1`},
		{"built=2019-03-01|built=2019-03-02", `built is told twice, 2019-03-01 and 2019-03-02; tell it once`},
	} {
		if _, err := ParseFacts(head, nil, strings.Split(tt.facts, "|")); fmt.Sprint(err) != tt.want {
			t.Errorf("%q: got %v, want %s", tt.facts, err, tt.want)
		}
	}
	// Where nothing is declared, what the records name is what there is.
	named := []Box{{}, {Variants: []string{"B", "A"}, Serials: []SerialRange{ParseSerialRange("built", "from 2019-03-01", "")}}, {Variants: []string{"B"}}}
	for _, tt := range []struct {
		head  *Head
		boxes []Box
		fact  string
		want  string
	}{
		{nil, nil, "variant=B", `no variants are known, so that variant=B says nothing; leave it out`},
		{&Head{}, []Box{{}}, "variant=B", `no variants are known, so that variant=B says nothing; leave it out`},
		{&Head{}, []Box{{}}, "gear=5", `neither variants nor numberings are known, so that gear=5 says nothing; leave it out`},
		{&Head{Variants: []string{"A"}}, []Box{{}}, "gear=5", `no numbering "gear"; known: variant`},
		{&Head{}, named, "variant=B", "<nil>"},
		{&Head{}, named, "variant=C", `no variant "C"; known: B, A`},
		{&Head{}, named, "built=2019-04-01", "<nil>"},
		{&Head{}, named, "built=5", `built: "5" is no date, such as 2019-03-01`},
		{&Head{}, named, "gear=5", `no numbering "gear"; known: variant, built`},
		// A record that names more than the head is chosen by what it names.
		{head, named, "built=2019-04-01", "<nil>"},
		{&Head{Serials: head.Serials[:1]}, named, "built=2019-04-01", "<nil>"},
		{&Head{Variants: []string{"A"}}, named, "variant=B", `no variant "B"; known: A`},
	} {
		if _, err := ParseFacts(tt.head, tt.boxes, []string{tt.fact}); fmt.Sprint(err) != tt.want {
			t.Errorf("%s: got %v, want %s", tt.fact, err, tt.want)
		}
	}
}
