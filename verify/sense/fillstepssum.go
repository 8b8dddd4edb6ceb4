package sense

import (
	"fmt"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// FillStepsSum flags the goes of a fill that add up to none of its amounts.
var FillStepsSum = &rule.Check{
	ID: "fill-steps-sum", Layer: rule.Sense, Title: "the goes of a fill add up to none of the amounts",
	Doc: doc("fill-steps-sum.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		sums, ok := sumsOfSteps(p.Record)
		if !ok {
			return
		}
		whole, rest := sums[len(sums)-1], toTheMark(p.Record)
		if !rest {
			sums = sums[len(sums)-1:] // every go counts
		}
		greatest := 0.0
		var related []rule.Related
		for i := range p.Record.Amounts {
			a, ok := at(&p.Record.Amounts[i].Volume, schema.At("amounts", i, "volume"))
			if !ok {
				continue
			}
			least, most := a.quantity().Widened()
			for _, s := range sums {
				if s.lo <= most && least <= s.hi {
					return
				}
			}
			greatest = max(greatest, a.quantity().Nominal())
			related = append(related, rule.Related{At: a.number(), Message: fmt.Sprintf("the amount for %s is here", orElse(p.Record.Amounts[i].When, "a fill"))})
		}
		if related == nil || rest && whole.hi < greatest {
			return
		}
		q := whole.last.quantity()
		total := convert.FromFloat((whole.lo+whole.hi)/2, q.Unit, max(2, q.First.Digits())).String()
		p.Report(rule.Finding{
			Verdict: rule.Query, At: whole.last.number(), Read: whole.last.text(),
			Message: fmt.Sprintf("the steps add up to %s, which is none of the amounts", total),
			Related: related,
		})
	},
}

// runningSum is what the goes up to one of them add up to, in m³.
type runningSum struct {
	lo, hi float64
	last   spotted
}

// sumsOfSteps adds up the goes; ok is false where there is none, or one has no
// readable volume.
func sumsOfSteps(r *schema.Record) (sums []runningSum, ok bool) {
	lo, hi := 0.0, 0.0
	for i := range r.Steps {
		if r.Steps[i].Add.IsZero() {
			continue
		}
		s, readable := at(&r.Steps[i].Add, schema.At("steps", i, "add"))
		if !readable {
			return nil, false
		}
		least, most := s.quantity().Widened()
		lo, hi = lo+least, hi+most
		sums = append(sums, runningSum{lo, hi, s})
	}
	return sums, len(sums) > 0
}

// toTheMark reports that a part is filled by the level, so that the goes may add up
// to less than any amount, or reach one before the last of them.
func toTheMark(r *schema.Record) bool {
	for _, s := range r.Steps {
		for _, w := range []string{"level", "mark", "full", "until", "top up", "overflow", "check", "dipstick", "glass"} {
			if strings.Contains(strings.ToLower(s.Then), w) {
				return true
			}
		}
	}
	return false
}

func orElse(s, other string) string {
	if s == "" {
		return other
	}
	return s
}
