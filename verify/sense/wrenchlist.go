package sense

import (
	"snapgauge/reference"
	"snapgauge/verify/rule"
	"snapgauge/verify/wrench"
)

// WrenchList flags a wrench of the head that is not told well enough to be chosen.
var WrenchList = &rule.Check{
	ID: "wrench-list", Layer: rule.Sense, Title: "a wrench of the list that cannot be used as told",
	Doc: doc("wrench-list.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Head: func(p *rule.Pass) {
		for _, pr := range wrench.Problems(p.Head) {
			p.Report(rule.Finding{Verdict: rule.Query, At: pr.At, Read: pr.Read, Want: pr.Want, Message: pr.Message})
		}
	},
}
