package sense

import (
	"fmt"
	"math"
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
			amount := runningSum{}.plus(a)
			for _, s := range sums {
				if s.meets(amount) {
					return
				}
			}
			greatest = max(greatest, a.quantity().Nominal())
			related = append(related, rule.Related{At: a.number(), Message: fmt.Sprintf("the amount for %s is here", orElse(p.Record.Amounts[i].When, "a fill"))})
		}
		if related == nil || rest && whole.hi+whole.slack() < greatest {
			return
		}
		p.Report(rule.Finding{
			Verdict: rule.Query, At: whole.last.number(), Read: whole.last.text(),
			Message: fmt.Sprintf("the steps add up to %s, which is none of the amounts", whole),
			Related: related,
		})
	},
}

// runningSum is what the goes up to one of them add up to, in m³, as printed. What
// rounding may have moved each by adds up as errors do that know nothing of each
// other, for all are not rounded the same way.
type runningSum struct {
	lo, hi  float64
	squares float64 // of half a unit of the last digit of each
	last    spotted
}

func (s runningSum) plus(v spotted) runningSum {
	lo, hi := v.quantity().Bounds()
	wide, _ := v.quantity().Widened()
	s.lo, s.hi, s.last = s.lo+lo, s.hi+hi, v
	if half := lo - wide; !math.IsNaN(half) {
		s.squares += half * half
	}
	return s
}

// String is the sum in the unit of the last go.
func (s runningSum) String() string {
	q := s.last.quantity()
	total := func(si float64) string { return convert.FromFloat(si, q.Unit, max(2, q.First.Digits())).String() }
	switch {
	case math.IsInf(s.hi, 0):
		return total(s.lo) + " or more"
	case math.IsInf(s.lo, 0):
		return total(s.hi) + " or less"
	}
	return total((s.lo + s.hi) / 2)
}

func (s runningSum) slack() float64 { return math.Sqrt(s.squares) }

// meets reports that two sums may be the same.
func (s runningSum) meets(t runningSum) bool {
	slack := math.Sqrt(s.squares+t.squares) + 1e-12 // m³, far below any digit
	return s.lo <= t.hi+slack && t.lo <= s.hi+slack
}

// sumsOfSteps adds up the goes; ok is false where there is none, or one has no
// readable volume.
func sumsOfSteps(r *schema.Record) (sums []runningSum, ok bool) {
	sum := runningSum{}
	for i := range r.Steps {
		if r.Steps[i].Add.IsZero() {
			continue
		}
		s, readable := at(&r.Steps[i].Add, schema.At("steps", i, "add"))
		if !readable {
			return nil, false
		}
		sum = sum.plus(s)
		sums = append(sums, sum)
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
