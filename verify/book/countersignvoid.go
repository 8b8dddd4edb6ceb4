package book

import (
	"fmt"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// CountersignVoid flags a record that has changed since it was countersigned, or
// was countersigned by its author.
var CountersignVoid = &rule.Check{
	ID: "countersign-void", Layer: rule.Book, Title: "countersigned, and changed since",
	Doc: doc("countersign-void.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  countersignVoid,
}

func countersignVoid(p *rule.Pass) {
	how, line, err := p.Entry.Standing()
	if err != nil {
		return
	}
	id := schema.Spot{Path: schema.At("id")}
	switch how {
	case schema.OwnSigned:
		message := fmt.Sprintf("countersigned by %s, who entered it; a second person must read it against its source", line.By)
		if p.Record.EnteredBy(p.Head).By == "" {
			message = fmt.Sprintf("countersigned by %s, and nobody is named who entered it; say so under entered", line.By)
		}
		p.Report(rule.Finding{Verdict: rule.Query, At: id, Read: p.Record.ID, Message: message})
	case schema.Void:
		changes := line.Changes(p.Head, p.Record)
		if len(changes) == 0 {
			p.Report(rule.Finding{
				Verdict: rule.Query, At: id, Read: p.Record.ID,
				Message: fmt.Sprintf("%s has changed since %s countersigned it on %s; have it countersigned anew", p.Record.ID, line.By, line.Date),
			})
			return
		}
		f := rule.Finding{Verdict: rule.Query}
		for i, c := range changes {
			at, read, message := changed(p.Record, c, line)
			if i == 0 {
				f.At, f.Read, f.Want, f.Message = at, read, c.Was, message+"; have it countersigned anew"
				continue
			}
			f.Related = append(f.Related, rule.Related{At: at, Message: message})
		}
		p.Report(f)
	}
}

// changed tells of one change.
func changed(r *schema.Record, c schema.Change, line *schema.Countersign) (at schema.Spot, read, message string) {
	at = schema.Spot{Path: c.Path}
	switch {
	case !c.Figure:
		return at, r.ID, fmt.Sprintf("%s has changed since %s countersigned %s on %s", c.Path.String()[1:], line.By, r.ID, line.Date)
	case c.Now == "":
		return at, r.ID, fmt.Sprintf("%s stood here when %s countersigned it on %s, and is gone", c.Was, line.By, line.Date)
	}
	for path, f := range r.Figures() {
		if path == c.Path {
			at = rule.NumberAt(f, path, differing(f, c.Was))
		}
	}
	if c.Was == "" {
		return at, c.Now, fmt.Sprintf("%s did not stand here when %s countersigned the record on %s", c.Now, line.By, line.Date)
	}
	return at, c.Now, fmt.Sprintf("%s stood here when %s countersigned it on %s, and %s now", c.Was, line.By, line.Date, c.Now)
}

// differing is the first value of a figure that was not there before.
func differing(f *schema.Figure, was string) int {
	before := strings.Split(was, ", ")
	for i := range f.Values {
		now := f.Values[i].Text
		if f.Values[i].Problem == nil && !f.Word {
			now = f.Values[i].Quantity.String()
		}
		if i >= len(before) || now != before[i] {
			return i
		}
	}
	return 0
}
