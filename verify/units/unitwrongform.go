package units

import (
	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// UnitWrongForm flags a unit that was cut short or is wrong by its form: lb,
// in/lb or kg/m for a torque. It stays a query even where a second value tells
// what was meant, for in its place the unit is wrong.
var UnitWrongForm = &rule.Check{
	ID: "unit-wrong-form", Layer: rule.Units, Title: "a unit cut short or wrong by its form",
	Doc: doc("unit-wrong-form.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		for d := range doubts(p, convert.CutShort, convert.WrongForm) {
			p.Report(d.finding(rule.Query))
		}
	},
}
