package physics

import (
	"fmt"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// TorqueAboveYield rejects a torque that breaks the screw whatever the
// friction is.
var TorqueAboveYield = &rule.Check{
	ID: "torque-above-yield", Layer: rule.Physics, Title: "more torque than the screw bears",
	Doc: doc("torque-above-yield.md"), Source: source(), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record:  torqueAboveYield,
}

func torqueAboveYield(p *rule.Pass) {
	var told schema.Path // of the figure spoken of last: one cause, one finding
	torques(p.Record, func(t torque) {
		i, yes := t.tooMuch()
		if !yes || t.path == told {
			return
		}
		told = t.path
		v := &t.figure.Values[i]
		u := v.Quantity.Unit
		f := t.finding(p.Record, i, t.band.UsualLoNm, t.band.UsualHiNm)
		f.Verdict = rule.Reject
		f.Message = fmt.Sprintf("%s is more than a %s bears: at %s it breaks, however high the friction; usual are %s",
			v.Text, t.screw(), beside(t.band.CeilingNm, leastOf(v), u), f.Want)
		p.Report(f)
	})
}
