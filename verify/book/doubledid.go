package book

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// DoubledID flags two records of one machine that bear one id.
var DoubledID = &rule.Check{
	ID: "doubled-id", Layer: rule.Book, Title: "two records of a machine with one id",
	Doc: doc("doubled-id.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Book: &rule.BookCheck{
		Least: 2,
		Emit: func(p *rule.Pass, emit func(rule.Row)) {
			if p.Record == nil || p.Record.ID == "" {
				return
			}
			emit(rule.Row{
				Group: machineAnd(p, p.Record.ID),
				Place: p.Place(schema.Spot{Path: schema.At("id")}),
			})
		},
		Judge: func(rows []rule.Row, report func(rule.Finding)) {
			for _, row := range rows[1:] {
				first := rows[0].Place
				report(rule.Finding{
					Verdict: rule.Reject, Place: row.Place, Read: row.Place.Record,
					Want:    "an id of its own",
					Message: fmt.Sprintf("id %q is used twice; give one of the two records another", row.Place.Record),
					Related: []rule.Related{{Place: first, Message: "first used here"}},
				})
			}
		},
	},
}

// machineAnd makes the group of a name within one machine. The unit separator
// cannot stand in either.
func machineAnd(p *rule.Pass, name string) string { return p.Head.Machine.ID + "\x1f" + name }
