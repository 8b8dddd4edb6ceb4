package units

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// SameUnitTwice flags a list that holds two values in one unit.
var SameUnitTwice = &rule.Check{
	ID: "same-unit-twice", Layer: rule.Units, Title: "one figure twice in one unit",
	Doc: doc("same-unit-twice.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		for path, f := range figures(p) {
			for i := range f.Values {
				v := &f.Values[i]
				j := sameUnit(f.Values[:i], v)
				if j < 0 {
					continue
				}
				first := &f.Values[j]
				finding := rule.Finding{
					Verdict: rule.Query, At: rule.UnitAt(f, path, i), Read: v.Text,
					Message: fmt.Sprintf("%s and %s have one unit, and a list is one figure in different units", first.Text, v.Text),
					Related: []rule.Related{{At: rule.UnitAt(f, path, j), Message: "the same unit stands here"}},
				}
				if a, b := first.Quantity, v.Quantity; a.Form == convert.Single && b.Form == convert.Single && a.First.Cmp(b.First) < 0 {
					a.Form, a.Second = convert.Range, b.First
					finding.Want = a.String()
					finding.Message += "; write a range as " + finding.Want
				} else {
					finding.Message += "; leave one out"
				}
				p.Report(finding)
			}
		}
	},
}

// sameUnit finds a value that was read in the unit of v, -1 when none was.
func sameUnit(values []convert.Value, v *convert.Value) int {
	for j := range values {
		if v.Read() && values[j].Read() && values[j].Quantity.Unit == v.Quantity.Unit {
			return j
		}
	}
	return -1
}
