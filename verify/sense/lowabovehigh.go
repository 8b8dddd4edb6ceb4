package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// LowAboveHigh flags a point of a level table whose low lies above its high.
var LowAboveHigh = &rule.Check{
	ID: "low-above-high", Layer: rule.Sense, Title: "the low level lies above the high one",
	Doc: doc("low-above-high.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for i := range p.Record.Level.Points {
			pt, path := &p.Record.Level.Points[i], schema.At("level", "points", i)
			a, b, ok := pair(&pt.Low, path.Field("low"), &pt.High, path.Field("high"))
			if !ok {
				continue
			}
			lowest, okLow := low(a.quantity())
			highest, okHigh := high(b.quantity())
			if !okLow || !okHigh || !highest.surelyBelow(lowest) {
				continue
			}
			p.Report(rule.Finding{
				Verdict: upwards(p.Record), At: b.number(), Read: b.text(),
				Message: fmt.Sprintf("high %s is below low %s", b.text(), a.text()),
				Related: []rule.Related{{At: a.number(), Message: "low is here"}},
			})
		}
	},
}

// upwards is the verdict on a level that goes the wrong way. On a dipstick it is
// certain; below a plug or on a glass it may be measured downwards.
func upwards(r *schema.Record) rule.Verdict {
	if r.Level.By == "dipstick" {
		return rule.Reject
	}
	return rule.Query
}
