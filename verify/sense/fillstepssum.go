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
		lo, hi, last, ok := sumOfSteps(p.Record)
		if !ok {
			return
		}
		greatest := 0.0
		var related []rule.Related
		for i := range p.Record.Amounts {
			a, ok := at(&p.Record.Amounts[i].Volume, schema.At("amounts", i, "volume"))
			if !ok {
				continue
			}
			least, most := a.quantity().Widened()
			if lo <= most && least <= hi {
				return
			}
			greatest = max(greatest, a.quantity().Nominal())
			related = append(related, rule.Related{At: a.number(), Message: fmt.Sprintf("the amount for %s is here", orElse(p.Record.Amounts[i].When, "a fill"))})
		}
		if related == nil || hi < greatest && toTheMark(p.Record) {
			return
		}
		q := last.quantity()
		total := convert.FromFloat((lo+hi)/2, q.Unit, max(2, q.First.Digits())).String()
		p.Report(rule.Finding{
			Verdict: rule.Query, At: last.number(), Read: last.text(),
			Message: fmt.Sprintf("the steps add up to %s, which is none of the amounts", total),
			Related: related,
		})
	},
}

// sumOfSteps adds up the goes; ok is false where one has no readable volume.
func sumOfSteps(r *schema.Record) (lo, hi float64, last spotted, ok bool) {
	for i := range r.Steps {
		if r.Steps[i].Add.IsZero() {
			continue
		}
		s, readable := at(&r.Steps[i].Add, schema.At("steps", i, "add"))
		if !readable {
			return 0, 0, s, false
		}
		least, most := s.quantity().Widened()
		lo, hi, last, ok = lo+least, hi+most, s, true
	}
	return lo, hi, last, ok
}

// toTheMark reports that the rest is filled by the level, so that the goes may add
// up to less than any amount.
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
