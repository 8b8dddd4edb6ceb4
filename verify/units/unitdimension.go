package units

import (
	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// UnitDimension flags a unit of another quantity than its place is for.
var UnitDimension = &rule.Check{
	ID: "unit-dimension", Layer: rule.Units, Title: "a unit of another quantity",
	Doc: doc("unit-dimension.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for d := range doubts(p, convert.WrongDimension) {
			v := rule.Query
			if d.value.Problem.Certain() {
				v = rule.Reject
			}
			p.Report(d.finding(v))
		}
	},
}
