package physics_test

import (
	"slices"
	"testing"

	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
	"snapgauge/verify/trial"
)

// TestTablesTrial plants swapped units and moved decimal points that change a
// torque eightfold or more in the published rows of screws, studs and nuts with
// thread and class, printed in one unit: 97 % are caught. The general charts are
// left out, for some of the rows are theirs.
func TestTablesTrial(t *testing.T) {
	rows := func(yield func(schema.Entry) bool) {
		for i, row := range tableRows(t) {
			if f := row.facts(); !f {
				continue
			}
			if !yield(schema.Entry{File: "tables", Pointer: "/" + string(rune('0'+i%10)), Head: &schema.Head{}, Record: row.record}) {
				return
			}
		}
	}
	checks := slices.DeleteFunc(verify.All(), func(c *rule.Check) bool { return c == physics.OtherGradeTable || c.Book != nil })
	r := trial.Run(rows, trial.Options{Seed: 1, Kinds: []string{"unit-swapped", "point-moved"}, Checks: checks, Least: 8, NoHoles: true})
	planted, caught, first, named := 0, 0, 0, 0
	for _, c := range r.Counts {
		t.Logf("%s: %d planted, %.1f %% caught, %.1f %% rejected; %.1f %% first, %.1f %% among three", c.Name, c.Planted,
			share(c.Caught, c.Planted), share(c.Rejected, c.Planted), share(c.First, c.Caught), share(c.Named, c.Caught))
		planted, caught, first, named = planted+c.Planted, caught+c.Caught, first+c.First, named+c.Named
	}
	t.Logf("%d rows, untouched %d rejected, %d queried; %d planted, %.1f %% caught, %.1f %% named first, %.1f %% among three",
		r.Records, r.Rejected, r.Queried, planted, share(caught, planted), share(first, caught), share(named, caught))
	if r.Rejected > 0 || r.Queried*50 > r.Records {
		t.Errorf("untouched: %d rejected and %d queried of %d", r.Rejected, r.Queried, r.Records)
	}
	if planted < 1000 || caught*100 < planted*97 {
		t.Errorf("%d of %d caught, want 97 %%", caught, planted)
	}
}

func share(k, n int) float64 { return 100 * float64(k) / float64(max(n, 1)) }

// facts reports a screw, stud or nut whose class is in the tables.
func (row *tableRow) facts() bool {
	switch row.words.Type {
	case "screw", "stud", "nut":
	default:
		return false
	}
	held := physics.HeldAgainst(row.record, schema.At("tighten", 0, "to"))
	return len(held) == 1 && row.words.Class != ""
}
