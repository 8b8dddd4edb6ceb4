package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// CautionUnknown flags a caution that is not in the table of hazards, so that
// nothing can be printed for it.
var CautionUnknown = &rule.Check{
	ID: "caution-unknown", Layer: rule.Sense, Title: "a caution that is not in the table",
	Doc: doc("caution-unknown.md"), Source: reference.Cite("hazards"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		for i, id := range p.Record.Caution {
			if _, ok := reference.CautionByID(id); ok {
				continue
			}
			f := rule.Finding{
				Verdict: rule.Query, At: schema.Spot{Path: schema.At("caution", i)}, Read: id,
				Message: fmt.Sprintf("the caution %q is not in the table of hazards, so that no text can be printed for it", id),
			}
			var known []string
			for _, c := range reference.Cautions() {
				known = append(known, c.ID)
			}
			if f.Want = schema.Nearest(id, known); f.Want != "" {
				f.Message += fmt.Sprintf("; did you mean %q?", f.Want)
			}
			p.Report(f)
		}
	},
}
