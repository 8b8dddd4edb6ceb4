package units

import (
	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// UnitAmbiguous flags a unit that has two readings in its dimension, such as a
// bare qt. Where another value of the figure decides, it is a note.
var UnitAmbiguous = &rule.Check{
	ID: "unit-ambiguous", Layer: rule.Units, Title: "a unit with two readings",
	Doc: doc("unit-ambiguous.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  func(p *rule.Pass) { settled(p, convert.Ambiguous) },
}

// settled reports the doubts of a kind: as a note those that another value of
// the figure decides, as a query the others.
func settled(p *rule.Pass, kind convert.Kind) {
	for d := range doubts(p, kind) {
		f := d.finding(rule.Query)
		if d.value.Problem.Settled {
			f.Verdict, f.Want = rule.Note, d.value.Quantity.String()
		}
		p.Report(f)
	}
}
