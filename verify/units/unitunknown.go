package units

import (
	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// UnitUnknown flags a unit that is spelt as none is in print. Where another value
// of the figure agrees with what it probably stands for, it is a note.
var UnitUnknown = &rule.Check{
	ID: "unit-unknown", Layer: rule.Units, Title: "a unit that is in no table",
	Doc: doc("unit-unknown.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  func(p *rule.Pass) { settled(p, convert.UnknownUnit) },
}
