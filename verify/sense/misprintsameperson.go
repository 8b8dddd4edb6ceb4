package sense

import (
	"fmt"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// MisprintSamePerson flags a misprint that was put right by whoever entered the
// record.
var MisprintSamePerson = &rule.Check{
	ID: "misprint-same-person", Layer: rule.Sense, Title: "a misprint without a second person",
	Doc: doc("misprint-same-person.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		m := &p.Record.Misprint
		author := p.Record.Entered.By
		if author == "" && p.Head != nil {
			author = p.Head.Entered.By
		}
		if m.Printed == "" || m.By == "" || !strings.EqualFold(m.By, author) {
			return
		}
		p.Report(rule.Finding{
			Verdict: rule.Query, At: schema.Spot{Path: schema.At("misprint", "by")}, Read: m.By,
			Message: fmt.Sprintf("%s entered the record and put the misprint right; a second person must look", m.By),
		})
	},
}
