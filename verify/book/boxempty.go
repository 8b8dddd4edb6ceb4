package book

import (
	"fmt"
	"slices"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// BoxEmpty flags a box of applies that adds no machine. Ranges that cannot be
// read or are swapped, and names that are not declared, are rejected by the
// checks of these.
var BoxEmpty = &rule.Check{
	ID: "box-empty", Layer: rule.Book, Title: "box that adds no machine",
	Doc: doc("box-empty.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  boxEmpty,
}

func boxEmpty(p *rule.Pass) {
	at := schema.At("applies")
	if slices.ContainsFunc(p.Entry.Problems, func(x schema.Problem) bool { return at.Has(x.At.Path) }) {
		return
	}
	var before []schema.Box
	for i, b := range p.Record.Applies {
		box, ok := declared(p.Head, b)
		if !ok || box.Bad() || slices.ContainsFunc(b.Serials, swapped) {
			continue // another check speaks
		}
		if s, below := belowOne(b); below {
			p.Report(rule.Finding{
				Verdict: rule.Query, At: schema.Spot{Path: at.Index(i).Field(s.Name)}, Read: s.Text,
				Message: fmt.Sprintf("%s %s holds no machine: numbers begin with 1; put the range right", s.Name, s.Text),
			})
			continue
		}
		if len(before) > 0 && schema.Covers(before, box) {
			p.Report(rule.Finding{
				Verdict: rule.Query, At: schema.Spot{Path: at.Index(i)}, Read: b.String(),
				Message: fmt.Sprintf("this box, %s, adds no machine to those before it; delete it, or name what was meant", b),
			})
		}
		before = append(before, box)
	}
}

// swapped reports a range whose ends are swapped.
func swapped(s schema.SerialRange) bool { return s.HasFrom && s.HasTo && s.From > s.To }

// belowOne finds a range that ends below number 1.
func belowOne(b schema.Box) (schema.SerialRange, bool) {
	for _, s := range b.Serials {
		if s.Form == schema.FormNumber && s.HasTo && s.To < 1 {
			return s, true
		}
	}
	return schema.SerialRange{}, false
}
