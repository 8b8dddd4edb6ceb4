package main

import (
	"fmt"
	"iter"
	"slices"
	"strings"
	"testing"

	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
	"snapgauge/verify/trial"
)

// digitSlips are the kinds that befall digits.
var digitSlips = []string{"digits-transposed", "digit-wrong", "digit-lost", "digit-doubled"}

// trialBars makes the second table of the README: what is asked of a checker, and
// how much of it which layers catch. Two is what the first trials counted in two
// units, which are all slips of all books.
func trialBars(t *testing.T, every int, two trial.Count) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("\n| asked | slips | caught | rejected | by the two values alone | without siblings |\n|---|---|---|---|---|---|\n")
	fmt.Fprintf(&b, "| two units, slips after which the values disagree by every habit of rounding | %d | %s | %s | - | - |\n",
		two.Disagree, within(two.DisagreeCaught, two.Disagree), share(two.DisagreeRejected, two.Disagree))

	layers := [][]*rule.Check{nil, layer(rule.Units), withoutBook()}
	run := func(entries iter.Seq[schema.Entry], opt trial.Options) []trial.Report {
		var out []trial.Report
		for _, checks := range layers {
			opt.Seed, opt.NoHoles, opt.Checks = 1, true, checks
			out = append(out, trial.Run(entries, opt))
		}
		return out
	}
	for _, g := range []struct{ name, kind string }{{"torque", schema.KindTorque}, {"dimensions", schema.KindTolerance}} {
		books := only(folder(t, "specs/corpus/callouts"), func(r *schema.Record) bool { return r.Kind == g.kind })
		r := run(books, trial.Options{Kinds: digitSlips, Every: max(1, every/2)})
		n := sumOf(r[0], 2)
		fmt.Fprintf(&b, "| two units, digit slips in call-outs, %s, each kind alike | %d | %s | %s | %s | %s |\n", g.name, n.Planted,
			evenly(r[0], func(c trial.Count) int { return c.Caught }), evenly(r[0], func(c trial.Count) int { return c.Rejected }),
			evenly(r[1], func(c trial.Count) int { return c.Caught }), evenly(r[2], func(c trial.Count) int { return c.Caught }))
	}

	books := []string{"specs/demo", "specs/corpus/charts", "specs/corpus/joints", "specs/corpus/standards", "specs/corpus/callouts"}
	for _, torques := range []bool{true, false} {
		swaps := [3]trial.Count{}
		records, rejected, queried := 0, 0, 0
		if !torques {
			books = books[:1] // tables have no lengths
		}
		for _, path := range books {
			r := run(only(folder(t, path), classed), trial.Options{
				Kinds: []string{"unit-swapped", "point-moved", "point-lost"}, Least: 8, Every: max(1, every/4),
				Figures: func(p schema.Path) bool {
					field, _ := p.Step(0)
					return (field == "tighten") == torques
				},
			})
			for i := range r {
				one := sumOf(r[i], 1)
				add(&swaps[i], one)
			}
			records, rejected, queried = records+r[0].Records, rejected+r[0].Rejected, queried+r[0].Queried
		}
		what := fmt.Sprintf("torques; of the %d good records %d are rejected and %d queried (%s)", records, rejected, queried, share(rejected+queried, records))
		if !torques {
			what = "lengths and other figures of such records in `specs/demo`"
		}
		caught := func(c trial.Count) string { return share(c.Caught, c.Planted) }
		fmt.Fprintf(&b, "| one unit, swaps of 8 and more and decimal slips, screw, stud or nut with thread and class: %s | %d | %s | %s | %s | %s |\n",
			what, swaps[0].Planted, within(swaps[0].Caught, swaps[0].Planted), share(swaps[0].Rejected, swaps[0].Planted), caught(swaps[1]), caught(swaps[2]))
	}
	charts := run(folder(t, "specs/corpus/charts"), trial.Options{Every: every})
	one := [3]trial.Count{}
	for i := range one {
		one[i] = sumOf(charts[i], 1)
	}
	fmt.Fprintf(&b, "| one unit, all slips, general charts and tables | %d | %s | %s | %s | %s |\n", one[0].Planted, within(one[0].Caught, one[0].Planted),
		share(one[0].Rejected, one[0].Planted), share(one[1].Caught, one[1].Planted), share(one[2].Caught, one[2].Planted))
	b.WriteByte('\n')
	return b.String()
}

// layer lists the checks of one layer.
func layer(l rule.Layer) []*rule.Check {
	return slices.DeleteFunc(verify.All(), func(c *rule.Check) bool { return c.Layer != l })
}

func withoutBook() []*rule.Check {
	return slices.DeleteFunc(verify.All(), func(c *rule.Check) bool { return c.Book != nil })
}

// classed reports the torque of a screw, stud or nut that gives its thread and class.
func classed(r *schema.Record) bool {
	return r.Kind == schema.KindTorque && len(r.Fasteners.Items) > 0 && !slices.ContainsFunc(r.Fasteners.Items, func(f schema.Fastener) bool {
		return f.Thread == "" || f.Class == "" || !slices.Contains([]string{"screw", "stud", "nut"}, f.Type)
	})
}

// only yields the records that are asked for.
func only(entries iter.Seq[schema.Entry], keep func(*schema.Record) bool) iter.Seq[schema.Entry] {
	return func(yield func(schema.Entry) bool) {
		for e := range entries {
			if (e.Record == nil || keep(e.Record)) && !yield(e) {
				return
			}
		}
	}
}

// sumOf adds the counts of figures in so many units.
func sumOf(r trial.Report, units int) (sum trial.Count) {
	for _, c := range r.Counts {
		if c.Units == units {
			add(&sum, c)
		}
	}
	return sum
}

// evenly is the mean of the shares of the kinds, in two units.
func evenly(r trial.Report, of func(trial.Count) int) string {
	sum, n := 0.0, 0
	for _, c := range r.Counts {
		if c.Units > 1 && c.Planted > 0 {
			sum += float64(of(c)) / float64(c.Planted)
			n++
		}
	}
	if n == 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f %%", 100*sum/float64(n))
}
