package book

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// SerialRange flags a range of numbers that cannot be read or is empty.
var SerialRange = &rule.Check{
	ID: "serial-range", Layer: rule.Book, Title: "range of serial numbers that holds none",
	Doc: doc("serial-range.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for i, box := range p.Record.Applies {
			for _, s := range box.Serials {
				f := rule.Finding{
					Verdict: rule.Reject, Read: s.Text,
					At: schema.Spot{Path: schema.At("applies", i, s.Name)},
				}
				switch {
				case s.Bad != "":
					f.Message = fmt.Sprintf("%s: %s", s.Name, s.Bad)
				case swapped(s):
					f.Message = fmt.Sprintf("%s %s holds no machine: its ends are swapped", s.Name, s.Text)
				default:
					continue
				}
				p.Report(f)
			}
		}
	},
}
