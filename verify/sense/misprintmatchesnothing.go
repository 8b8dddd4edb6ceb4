package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// MisprintMatchesNothing flags a misprint that no text of the record is.
var MisprintMatchesNothing = &rule.Check{
	ID: "misprint-matches-nothing", Layer: rule.Sense, Title: "a misprint that stands nowhere",
	Doc: doc("misprint-matches-nothing.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		m := &p.Record.Misprint
		if m.Printed == "" {
			return
		}
		use := schema.At("misprint", "use")
		var texts []string
		for _, placed := range p.Figures() {
			path, f := placed.Path, placed.Figure
			for i := range f.Values {
				if path != use {
					texts = append(texts, f.Values[i].Text)
					if m.Is(f.Values[i].Text) {
						return
					}
				}
			}
		}
		f := rule.Finding{
			Verdict: rule.Query, At: schema.Spot{Path: schema.At("misprint", "printed")}, Read: m.Printed,
			Message: fmt.Sprintf("no figure of the record is printed as %s, so that nothing is put right", m.Printed),
		}
		if f.Want = schema.Nearest(m.Printed, texts); f.Want != "" {
			f.Message += "; did you mean " + f.Want + "?"
		}
		p.Report(f)
	},
}
