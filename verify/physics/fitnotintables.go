package physics

import (
	"errors"
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// FitNotInTables notes a fit that ISO 286 has and our tables lack.
var FitNotInTables = &rule.Check{
	ID: "fit-not-in-tables", Layer: rule.Physics, Title: "a fit that is not in the tables",
	Doc: doc("fit-not-in-tables.md"), Source: reference.Cite("iso-286"), Since: "v0.1.0",
	Verdict: rule.Note,
	Record: func(p *rule.Pass) {
		size, _, err := fitOf(p.Record)
		var why *reference.FitError
		if !errors.As(err, &why) || why.Fault != reference.FitNotInTables && why.Fault != reference.FitOutsideSizes {
			return // fit-unreadable speaks of the others
		}
		p.Report(rule.Finding{
			Verdict: rule.Note, At: schema.Spot{Path: schema.At("fit")}, Read: p.Record.Fit,
			Message: fmt.Sprintf("the limits of %s at %s are not checked: %s", p.Record.Fit, size.Text, why.Message),
			Related: []rule.Related{{At: size.At, Message: "the size stands here"}},
		})
	},
}
