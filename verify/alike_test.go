package verify_test

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// alikeSlips are the slips of the first value from which the second is then made.
var alikeSlips = []string{"digits-transposed", "digit-wrong", "digit-lost", "digit-doubled", "point-moved", "unit-swapped"}

// TestAlike: a slip in a table of torques from which the second unit was made.
// Nothing disagrees; the siblings tell what was meant. Of the figures that a
// check speaks of the one that was meant is named.
func TestAlike(t *testing.T) {
	charts, err := filepath.Glob(filepath.Join("..", "specs", "corpus", "charts", "*.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	planted, caught, first, named, twice := 0, 0, 0, 0, 0
	for _, file := range charts {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var all []schema.Entry
		for e, err := range specs.Read(file, bytes.NewReader(data)) {
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, e)
		}
		for i, e := range all {
			if e.Record == nil || len(e.Record.Tighten) != 1 || len(e.Record.Tighten[0].To.Values) != 2 {
				continue
			}
			id := alikeSlips[rng.IntN(len(alikeSlips))]
			to, ok := alike(e.Record, id, rng)
			if !ok {
				continue
			}
			planted++
			r := *e.Record
			r.Tighten = []schema.Step{{To: to}}
			book := slices.Clone(all)
			book[i].Record = &r
			var here []rule.Finding
			err := verify.Run(slices.Values(book), verify.Options{}, func(f rule.Finding) bool {
				if f.Verdict >= rule.Query && strings.HasPrefix(f.Place.Pointer, e.Pointer+"/tighten") {
					here = append(here, f)
				}
				return true
			})
			if err != nil {
				t.Fatal(err)
			}
			if len(here) == 0 {
				continue
			}
			caught++
			if len(here) > 1 {
				twice++
			}
			was := e.Record.Tighten[0].To.Values[0]
			k := slices.IndexFunc(here[0].Slips, func(s rule.Slip) bool {
				q, problem := convert.Parse(s.Reads, convert.Of(convert.Torque), convert.Point)
				return problem == nil && q.String() == was.Quantity.String()
			})
			if k == 0 {
				first++
			}
			if k >= 0 {
				named++
			} else {
				t.Logf("%s: %s for %s: %v", e.Record.ID, to.Text(), was.Text, here[0].Slips)
			}
		}
	}
	t.Logf("%d planted, %d caught, %d named first, %d among three", planted, caught, first, named)
	if first*100 < caught*60 || named*100 < caught*75 {
		t.Errorf("of %d that are caught %d are named first and %d among three, want 60 and 75 %%", caught, first, named)
	}
	if twice > 0 {
		t.Errorf("%d figures have more than one finding", twice)
	}
}

// alike plants a slip in the first value of a torque and makes the second from it.
func alike(r *schema.Record, id string, rng *rand.Rand) (schema.Figure, bool) {
	at := schema.At("tighten", 0, "to")
	b := slip.NewBench(r, "")
	kind, _ := slip.KindOf(id)
	var edits [][]slip.Edit
	for _, v := range kind.Plants(b, at, 0, nil) {
		if len(v) == 1 && v[0].Value == 0 {
			edits = append(edits, v)
		}
	}
	if len(edits) == 0 {
		return schema.Figure{}, false
	}
	unit := r.Tighten[0].To.Values[1].Quantity.Unit
	v := convert.Value{Text: edits[rng.IntN(len(edits))][0].Text}
	q, problem := convert.Parse(v.Text, convert.Of(convert.Torque), convert.Point)
	was, ok := r.Tighten[0].To.Quantity()
	if problem != nil || !ok || q.Unit == unit {
		return schema.Figure{}, false
	}
	if x := q.Nominal() / was.Nominal(); x > 0.7 && x < 1.43 {
		return schema.Figure{}, false // a line does not see less
	}
	second, err := q.To(unit, false)
	if err != nil {
		return schema.Figure{}, false
	}
	c := schema.Record{Kind: schema.KindTorque}
	c.Tighten = []schema.Step{{To: schema.Figure{List: true, Values: []convert.Value{v, {Text: second.Quantity.String()}}}}}
	c.ReadFigures("")
	return c.Tighten[0].To, true
}
