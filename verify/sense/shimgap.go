package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// ShimGap flags measured values between two rows of a selection table for which
// no part is given.
var ShimGap = &rule.Check{
	ID: "shim-gap", Layer: rule.Sense, Title: "a selection table leaves measured values out",
	Doc: doc("shim-gap.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		joints, usual, step := shimJoints(p.Record)
		for _, j := range joints {
			if j.width <= max(step, usual)+step/4 {
				continue
			}
			p.Report(rule.Finding{
				Verdict: rule.Query, At: j.below.more.number(), Read: j.below.more.text(),
				Message: fmt.Sprintf("no part is given between %s and %s", j.below.more.text(), j.above.lesser.text()),
				Related: []rule.Related{{At: j.above.lesser.number(), Message: "the next row begins here"}},
			})
		}
	},
}
