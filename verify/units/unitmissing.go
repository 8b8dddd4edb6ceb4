package units

import (
	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// UnitMissing flags a number without the unit that it needs.
var UnitMissing = &rule.Check{
	ID: "unit-missing", Layer: rule.Units, Title: "a number without its unit",
	Doc: doc("unit-missing.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		for d := range doubts(p, convert.NoUnit) {
			p.Report(d.finding(rule.Query))
		}
	},
}
