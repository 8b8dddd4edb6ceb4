package cited

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

// MovedSince flags a figure that is another than in an earlier edition of the shop's own
// book, while its source is the same.
var MovedSince = &rule.Check{
	ID: "moved-since", Layer: rule.Cited, Title: "a figure that moved while its source did not",
	Doc: doc("moved-since.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query, Before: true,
	Record: func(p *rule.Pass) {
		if p.Record == nil || p.Entry.Before == nil {
			return
		}
		before, was := p.Entry.Before, p.Entry.Before.Entry
		if !sameSource(was.Head, was.Record.Source, p.Head, p.Record.Source) {
			return
		}
		for _, d := range schema.Differences(was.Head, was.Record, p.Head, p.Record) {
			if !d.Figure || d.How != schema.Moved || d.WasFigure == nil || d.NowFigure == nil || d.NowFigure.Misprint {
				continue
			}
			if first, _ := d.Path.Step(0); first == "misprint" {
				continue
			}
			i := movedValue(d.WasFigure, d.NowFigure)
			means := edition.Means(d.WasFigure, d.NowFigure)
			if means != "" {
				means = " (" + means + ")"
			}
			p.Report(rule.Finding{
				Verdict: rule.Query, At: rule.NumberAt(d.NowFigure, d.Path, i),
				Read: d.NowFigure.Values[i].Text, Want: d.Was,
				Message: fmt.Sprintf("%s was %s in %s%s, and the source is the same: %s; look there which is right, and answer",
					d.Now, d.Was, before.Edition, means, inFull(p.Head, p.Record.Source)),
				Related: []rule.Related{{
					Place: rule.Resolve(was, schema.Spot{Path: d.WasPath}), Message: fmt.Sprintf("%s stood here in %s", d.Was, before.Edition),
				}},
			})
		}
	},
}

// sameSource reports one document, one edition of it, and one place in it.
func sameSource(oldHead *schema.Head, was schema.Source, newHead *schema.Head, now schema.Source) bool {
	a, knownA := oldHead.SourceOf(was)
	b, knownB := newHead.SourceOf(now)
	return knownA && knownB && a.Title == b.Title && a.Edition == b.Edition && was.At == now.At
}

// movedValue is the first value of a figure that is not among those that it had.
func movedValue(was, now *schema.Figure) int {
	for i := range now.Values {
		one := schema.Figure{Values: now.Values[i : i+1], Word: now.Word}
		if schema.SameFigure(was, &one) == schema.Moved {
			return i
		}
	}
	return 0
}

// inFull is a source as people say it.
func inFull(h *schema.Head, s schema.Source) string {
	d, _ := h.SourceOf(s)
	text := d.Title
	for _, more := range []string{d.Edition, s.At} {
		if more != "" {
			text += ", " + more
		}
	}
	return text
}
