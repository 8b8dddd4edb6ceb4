package sense

import (
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// MisprintNoSecondSource flags a misprint that is put right from the very source
// that has it.
var MisprintNoSecondSource = &rule.Check{
	ID: "misprint-no-second-source", Layer: rule.Sense, Title: "a misprint without a second source",
	Doc: doc("misprint-no-second-source.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		m := &p.Record.Misprint
		if m.Printed == "" || !sameSource(p.Head, m.Source, p.Record.Source) {
			return
		}
		p.Report(rule.Finding{
			Verdict: rule.Query, At: schema.Spot{Path: schema.At("misprint", "source")}, Read: orElse(m.Source.Ref, m.Source.Title),
			Message: "the misprint is put right from the source that has it; name another that prints the right figure",
			Related: []rule.Related{{At: schema.Spot{Path: schema.At("source")}, Message: "the record's source is here"}},
		})
	},
}

// sameSource reports that two sources are one: by name, or by title and edition.
// An erratum of the same work is another edition.
func sameSource(h *schema.Head, a, b schema.Source) bool {
	if a.Ref != "" && a.Ref == b.Ref {
		return true
	}
	x, okX := h.SourceOf(a)
	y, okY := h.SourceOf(b)
	return okX && okY && strings.EqualFold(x.Title, y.Title) && x.Edition == y.Edition
}
