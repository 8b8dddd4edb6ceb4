package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// EndsEqual flags a range whose ends are one number.
var EndsEqual = &rule.Check{
	ID: "ends-equal", Layer: rule.Sense, Title: "a range with one end twice",
	Doc: doc("ends-equal.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		for s, q := range values(p) {
			// A converted range may round to one number; the source's own stands
			// first.
			if s.i > 0 || q.Form != convert.Range || q.First.Cmp(q.Second) != 0 {
				continue
			}
			single := q
			single.Form = convert.Single
			p.Report(rule.Finding{
				Verdict: rule.Query, At: s.number(), Read: s.text(), Want: single.String(),
				Message: fmt.Sprintf("%s has the same number at both ends; if no digit is wrong, write %s", s.text(), single),
			})
		}
	},
}
