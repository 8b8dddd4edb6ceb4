package physics

import (
	"fmt"
	"slices"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// ClassNotInSize queries a class that its standard does not have for the size,
// or that belongs to the other family of threads.
var ClassNotInSize = &rule.Check{
	ID: "class-not-in-size", Layer: rule.Physics, Title: "class that is not made in this size",
	Doc: doc("class-not-in-size.md"), Source: reference.Cite("iso-898-1"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  classNotInSize,
}

func classNotInSize(p *rule.Pass) {
	eachClass(p.Record, func(at schema.Spot, kind string, c reference.ClassReading) {
		if !c.Exists || !c.Known {
			return // class-unknown speaks
		}
		f := rule.Finding{Verdict: rule.Query, At: at, Read: c.Text, Want: strings.Join(c.Near, ", "), Message: c.Message}
		switch {
		case c.Foreign:
			if f.Message == "" {
				f.Message = fmt.Sprintf("class %q belongs to the other family of threads, inch against metric", c.Text)
			}
		case !c.SizeFits:
			if f.Message == "" {
				f.Message = fmt.Sprintf("class %q is not made in this size", c.Text)
			}
		case kind == "screw" && onlyNuts(c.Rows):
			f.Message = fmt.Sprintf("class %q is one of nuts", c.Text)
			if f.Want != "" {
				f.Message += "; on a screw " + f.Want + " is stamped"
			}
		case len(c.Rows) > 0 && c.Rows[0].ByName:
			f.Verdict = rule.Note
			f.Message = fmt.Sprintf("%s has class %s up to M39 only; a larger screw is checked by the strength that its name says", c.Rows[0].Standard, c.Text)
		default:
			return
		}
		if len(c.Rows) > 0 && !c.Rows[0].Source.IsZero() {
			f.Source = c.Rows[0].Source
		}
		p.Report(f)
	})
}

// onlyNuts reports strengths that are all of nuts.
func onlyNuts(rows []reference.Strength) bool {
	return len(rows) > 0 && !slices.ContainsFunc(rows, func(s reference.Strength) bool { return s.Part != "nut" })
}
