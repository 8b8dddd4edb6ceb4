package book

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// SupersedesUnknown flags a record that replaces one that is not in the book.
var SupersedesUnknown = &rule.Check{
	ID: "supersedes-unknown", Layer: rule.Book, Title: "replaces a record that is not there",
	Doc: doc("supersedes-unknown.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Book: &rule.BookCheck{
		Emit: func(p *rule.Pass, emit func(rule.Row)) {
			if p.Record == nil || p.Record.ID == "" {
				return
			}
			emit(rule.Row{Group: machineAnd(p, p.Record.ID), Order: orderID, Payload: p.Record.ID})
			if old := p.Record.Supersedes; old != "" {
				emit(rule.Row{
					Group: machineAnd(p, old), Order: orderSupersedes, Payload: old,
					Place: p.Place(schema.Spot{Path: schema.At("supersedes")}),
				})
			}
		},
		Judge: func(rows []rule.Row, report func(rule.Finding)) {
			there := rows[0].Order == orderID
			for _, row := range rows {
				if row.Order != orderSupersedes {
					continue
				}
				old := row.Payload
				switch {
				case old == row.Place.Record:
					report(rule.Finding{
						Verdict: rule.Reject, Place: row.Place, Read: old,
						Message: fmt.Sprintf("%q cannot supersede itself; name the record that it replaces", old),
					})
				case !there:
					report(rule.Finding{
						Verdict: rule.Query, Place: row.Place, Read: old,
						Message: fmt.Sprintf("supersedes %q, and no record of this machine has that id; keep the old record, or delete supersedes", old),
					})
				}
			}
		},
	},
}

// The record itself sorts before those that replace it.
const (
	orderID         = "0"
	orderSupersedes = "1"
)
