package book_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/book"
	"snapgauge/verify/rule"

	"snapgauge/schema"
)

// A random book: a few records of one item in a world that is small enough to
// try every machine.
type world struct {
	variants []string // of the head
	records  []worldRecord
}

type worldRecord struct {
	id, supersedes string
	plain          bool // its item is its id
	boxes          []worldBox
	torque         int
}

// worldBox is a box; an end of 0 is open.
type worldBox struct {
	variants           []string
	gearFrom, gearTo   int
	builtFrom, builtTo int // days of March 2020
}

type machine struct {
	variant     string
	gear, built int
}

const (
	gears = 6
	days  = 4
)

// spellings of each torque, all of which print the same figure.
var spellings = map[int][]any{
	8:  {"8 N·m", "8 Nm", "8.0 N·m", "71 lbf·in", "71 in-lb", []string{"71 lbf·in", "8 N·m"}},
	9:  {"9 N·m", "9,0 N·m", []string{"9 N·m", "80 lbf·in"}, "80 lbf·in"},
	12: {"12 N·m", "12 Nm", []string{"106 lbf·in", "12 N·m"}},
}

func randomWorld(r *rand.Rand) world {
	w := world{variants: []string{"A", "B", "C"}[:r.IntN(4)]}
	n := 2 + r.IntN(4)
	torques := slices.Sorted(maps.Keys(spellings))
	for i := range n {
		x := worldRecord{id: "r" + strconv.Itoa(i), torque: torques[r.IntN(len(torques))]}
		if i == 0 {
			x.id, x.plain = "item", r.IntN(2) == 0
		}
		if r.IntN(4) == 0 {
			x.supersedes = "r" + strconv.Itoa(r.IntN(n))
			if x.supersedes == "r0" {
				x.supersedes = "item"
			}
			if x.supersedes == x.id {
				x.supersedes = ""
			}
		}
		for range r.IntN(4) {
			var b worldBox
			for _, v := range w.variants {
				if r.IntN(3) == 0 {
					b.variants = append(b.variants, v)
				}
			}
			ends := func(most int) (from, to int) {
				switch r.IntN(4) {
				case 0:
					return 0, 0
				case 1:
					return 1 + r.IntN(most), 0
				case 2:
					return 0, 1 + r.IntN(most)
				}
				from = 1 + r.IntN(most)
				return from, from + r.IntN(most-from+1)
			}
			b.gearFrom, b.gearTo = ends(gears)
			b.builtFrom, b.builtTo = ends(days)
			x.boxes = append(x.boxes, b)
		}
		w.records = append(w.records, x)
	}
	return w
}

// text writes the world down as JSON.
func (w world) text(r *rand.Rand) string {
	type obj = map[string]any
	var records []obj
	for _, x := range w.records {
		as := spellings[x.torque]
		to := as[r.IntN(len(as))]
		if s, ok := to.(string); ok {
			to = strings.ReplaceAll(s, ",", ".")
		}
		o := obj{
			"id": x.id, "kind": "torque", "where": "cover", "source": obj{"title": "Manual", "at": "page 3"},
			"tighten": []obj{{"to": to}},
		}
		if !x.plain {
			o["item"] = "item"
		}
		if x.supersedes != "" {
			o["supersedes"] = x.supersedes
		}
		var applies []obj
		for _, b := range x.boxes {
			box := obj{}
			if len(b.variants) > 0 {
				box["variant"] = b.variants
			}
			stretch := func(name string, from, to int, show func(int) string) {
				switch {
				case from > 0 && from == to:
					box[name] = show(from)
				case from > 0 && to > 0:
					box[name] = show(from) + " to " + show(to)
				case from > 0:
					box[name] = "from " + show(from)
				case to > 0:
					box[name] = "to " + show(to)
				}
			}
			stretch("gear", b.gearFrom, b.gearTo, strconv.Itoa)
			stretch("built", b.builtFrom, b.builtTo, func(d int) string { return fmt.Sprintf("2020-03-%02d", d) })
			applies = append(applies, box)
		}
		if len(applies) > 0 {
			o["applies"] = applies
		}
		records = append(records, o)
	}
	head := obj{
		"format": "snapgauge/1.0", "machine": obj{"id": "m"}, "records": records,
		"serials": obj{"gear": "number", "built": "date"},
	}
	if len(w.variants) > 0 {
		head["variants"] = w.variants
	}
	b, err := json.Marshal(head)
	if err != nil {
		panic(err)
	}
	return string(b)
}

// machines are all there are, some beyond every range.
func (w world) machines() (all []machine) {
	variants := w.variants
	if len(variants) == 0 {
		variants = []string{""}
	}
	for _, v := range variants {
		for g := 1; g <= gears+1; g++ {
			for d := range days + 2 {
				all = append(all, machine{v, g, d})
			}
		}
	}
	return all
}

func (x worldRecord) appliesTo(m machine) bool {
	in := func(n, from, to int) bool { return (from == 0 || n >= from) && (to == 0 || n <= to) }
	return len(x.boxes) == 0 || slices.ContainsFunc(x.boxes, func(b worldBox) bool {
		return (len(b.variants) == 0 || slices.Contains(b.variants, m.variant)) &&
			in(m.gear, b.gearFrom, b.gearTo) && in(m.built, b.builtFrom, b.builtTo)
	})
}

// replaces reports that record i replaces record k, directly or in a chain.
func (w world) replaces(i, k int) bool {
	byID := map[string]int{}
	for n, x := range w.records {
		byID[x.id] = n
	}
	seen := map[int]bool{}
	for at := i; !seen[at]; {
		seen[at] = true
		next, ok := byID[w.records[at].supersedes]
		if !ok {
			return false
		}
		if next == k {
			return true
		}
		at = next
	}
	return false
}

// contradictions tries every pair on every machine.
func (w world) contradictions() map[[2]string]bool {
	out := map[[2]string]bool{}
	over := map[[2]int]bool{}
	for i := range w.records {
		for k := range w.records {
			over[[2]int{i, k}] = i != k && w.replaces(i, k)
		}
	}
	for _, m := range w.machines() {
		var force []int
		for k, x := range w.records {
			replaced := false
			if !x.appliesTo(m) {
				continue
			}
			for i, y := range w.records {
				replaced = replaced || over[[2]int{i, k}] && y.appliesTo(m)
			}
			if !replaced {
				force = append(force, k)
			}
		}
		for _, i := range force {
			for _, k := range force {
				if i < k && w.records[i].torque != w.records[k].torque {
					out[[2]string{w.records[i].id, w.records[k].id}] = true
				}
			}
		}
	}
	return out
}

// missing are the variants to no machine of which any record applies, and
// whether another machine is left over.
func (w world) missing() (variants []string, gap bool) {
	has := map[string]bool{}
	holes := map[string]bool{}
	for _, m := range w.machines() {
		if slices.ContainsFunc(w.records, func(x worldRecord) bool { return x.appliesTo(m) }) {
			has[m.variant] = true
		} else {
			holes[m.variant] = true
		}
	}
	for _, v := range w.variants {
		if !has[v] {
			variants = append(variants, v)
			delete(holes, v)
		}
	}
	return variants, len(holes) > 0
}

func judge(t *testing.T, text string, checks ...*rule.Check) (found []rule.Finding) {
	t.Helper()
	err := verify.Run(func(yield func(schema.Entry) bool) {
		for e, err := range specs.Read("book.json", strings.NewReader(text)) {
			if err != nil {
				t.Fatal(err)
			}
			if len(e.Problems) > 0 {
				t.Fatal(e.Problems)
			}
			if !yield(e) {
				return
			}
		}
	}, verify.Options{Checks: checks}, func(f rule.Finding) bool {
		found = append(found, f)
		return true
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// TestOracle holds the checks against 2,000 random books, or 10,000 with
// SNAPGAUGE_WHOLE=1, in which every machine is tried: every contradiction is found and none else, and so are the variants
// and machines that no record applies to.
func TestOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	start := time.Now()
	books, contradictory, pairs, lacking := 2_000, 0, 0, 0
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		books = 10_000
	}
	for n := range books {
		w := randomWorld(r)
		text := w.text(r)
		got := map[[2]string]bool{}
		var missing []string
		gap := false
		index := map[string]int{}
		for i, x := range w.records {
			index[x.id] = i
		}
		for _, f := range judge(t, text, book.ItemContradicts, book.VariantMissing) {
			switch {
			case f.Check == "variant-missing" && f.Verdict == rule.Query:
				missing = strings.FieldsFunc(strings.NewReplacer(" and ", ",", ", ", ",").Replace(f.Want[len("a record for "):]), func(r rune) bool { return r == ',' })
			case f.Check == "variant-missing":
				gap = true
			case f.Verdict == rule.Query:
				t.Fatalf("book %d: %s\n%s", n, f.Message, text)
			case f.Verdict == rule.Reject:
				if f.Place.Span.IsZero() || len(f.Related) == 0 || f.Related[0].Place.Span.IsZero() {
					t.Fatalf("book %d: both places must be shown: %+v", n, f)
				}
				ids := []string{f.Place.Record}
				for _, re := range f.Related {
					ids = append(ids, re.Place.Record)
				}
				slices.SortFunc(ids, func(a, b string) int { return index[a] - index[b] })
				later := ids[len(ids)-1]
				for _, other := range ids[:len(ids)-1] {
					got[[2]string{other, later}] = true
				}
			}
		}
		want := w.contradictions()
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("book %d: contradictions (-want +got):\n%s\n%s", n, diff, text)
		}
		wantMissing, wantGap := w.missing()
		if diff := cmp.Diff(wantMissing, missing); diff != "" || gap != wantGap {
			t.Fatalf("book %d: variants (-want +got):\n%s\ngap %v, want %v\n%s", n, diff, gap, wantGap, text)
		}
		pairs += len(want)
		if len(want) > 0 {
			contradictory++
		}
		if len(wantMissing) > 0 || wantGap {
			lacking++
		}
	}
	t.Logf("%d books, %d with %d contradictions, %d with machines left over, %s", books, contradictory, pairs, lacking, time.Since(start).Round(time.Millisecond))
	if contradictory < books/4 || contradictory > books*9/10 || lacking < books/10 {
		t.Errorf("the books are no trial: %d contradictory, %d lacking", contradictory, lacking)
	}
}
