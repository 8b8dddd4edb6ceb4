package units

import (
	"slices"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// UnitUnknown flags a unit that is spelt as none is in print.
var UnitUnknown = &rule.Check{
	ID: "unit-unknown", Layer: rule.Units, Title: "a unit that is in no table",
	Doc: doc("unit-unknown.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		for d := range doubts(p, convert.UnknownUnit) {
			f := d.finding(rule.Query)
			if d.value.Problem.Settled {
				f.Verdict, f.Want = rule.Note, d.value.Quantity.String()
			} else if f.Want == "" {
				if near := nearest(d); near != "" {
					f.Want = near
					f.Message += "; did you mean " + near + "?"
				}
			}
			p.Report(f)
		}
	},
}

// nearest finds the unit of a wanted dimension whose symbol is most like the
// one that was not known.
func nearest(d doubt) string {
	at, text := d.value.Problem.At, d.value.Text
	if at.Start < 0 || at.End > len(text) || at.Start >= at.End {
		return ""
	}
	var known []string
	for u := range convert.Units() {
		if d.want.Has(u.Dimension()) {
			known = append(known, u.Symbol())
		}
	}
	slices.Sort(known)
	return schema.Nearest(text[at.Start:at.End], known)
}
