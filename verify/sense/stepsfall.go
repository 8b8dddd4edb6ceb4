package sense

import (
	"fmt"
	"slices"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// StepsFall flags a step of tightening that is to a lesser torque than the one
// before, with nothing between that would let it turn.
var StepsFall = &rule.Check{
	ID: "steps-fall", Layer: rule.Sense, Title: "a step to a lesser torque than the one before",
	Doc: doc("steps-fall.md"), Source: reference.Cite("us-army-torque"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		steps := p.Record.Tighten
		var last []int // of each set of fasteners, the step that tightened it last
		for i := range steps {
			s := &steps[i]
			switch {
			case !s.Loosen.IsZero(), !s.Turn.IsZero(), s.Run != "":
				last = last[:0]
			case !s.To.IsZero():
				k := slices.IndexFunc(last, func(j int) bool { return slices.Equal(steps[j].Only, s.Only) })
				if k < 0 {
					last = append(last, i)
					continue
				}
				stepFalls(p, last[k], i)
				last[k] = i
			}
		}
	},
}

func stepFalls(p *rule.Pass, i, j int) {
	steps := p.Record.Tighten
	a, b, ok := pair(&steps[i].To, schema.At("tighten", i, "to"), &steps[j].To, schema.At("tighten", j, "to"))
	if !ok {
		return
	}
	before, okBefore := low(a.quantity())
	after, okAfter := high(b.quantity())
	if !okBefore || !okAfter || !after.surelyBelow(before) {
		return
	}
	p.Report(rule.Finding{
		Verdict: rule.Query, At: b.number(), Read: b.text(),
		Message: fmt.Sprintf("%s is less than the %s of the step before, and nothing is loosened between them", b.text(), a.text()),
		Related: []rule.Related{{At: a.number(), Message: "the step before stands here"}},
	})
}
