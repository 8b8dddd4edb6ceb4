package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// ShimOverlap flags measured values for which two rows of a selection table give
// a part.
var ShimOverlap = &rule.Check{
	ID: "shim-overlap", Layer: rule.Sense, Title: "two rows of a selection table overlap",
	Doc: doc("shim-overlap.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		joints, usual, step := shimJoints(p.Record)
		for _, j := range joints {
			if j.width >= min(0, usual)-step/4 {
				continue // ends that touch do not overlap
			}
			p.Report(rule.Finding{
				Verdict: rule.Query, At: j.below.more.number(), Read: j.below.more.text(),
				Message: fmt.Sprintf("this row ends at %s, above %s where the next begins; which part is for what lies between?",
					j.below.more.text(), j.above.lesser.text()),
				Related: []rule.Related{{At: j.above.lesser.number(), Message: "the next row begins here"}},
			})
		}
	},
}
