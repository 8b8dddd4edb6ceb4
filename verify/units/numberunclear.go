package units

import (
	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// NumberUnclear flags a comma that may part thousands or stand for a point.
// Where another value of the figure decides, it is a note.
var NumberUnclear = &rule.Check{
	ID: "number-unclear", Layer: rule.Units, Title: "a comma that may be a decimal mark",
	Doc: doc("number-unclear.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  func(p *rule.Pass) { settled(p, convert.CommaDoubt) },
}
