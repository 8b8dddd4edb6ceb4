package units

import (
	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// NumberUnreadable flags a text that is no figure.
var NumberUnreadable = &rule.Check{
	ID: "number-unreadable", Layer: rule.Units, Title: "a text that is no figure",
	Doc: doc("number-unreadable.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for d := range doubts(p, convert.NoNumber, convert.BadNumber, convert.TwoUnits, convert.TooLarge) {
			p.Report(d.finding(rule.Reject))
		}
	},
}
