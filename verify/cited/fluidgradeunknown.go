package cited

import (
	"fmt"
	"regexp"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// FluidGradeUnknown notes a grade that is written like one of SAE or ISO and is
// none.
var FluidGradeUnknown = &rule.Check{
	ID: "fluid-grade-unknown", Layer: rule.Cited, Title: "a grade of oil that its standard does not have",
	Doc: doc("fluid-grade-unknown.md"), Source: reference.Cite("sae-j300"), Since: "v0.1.0",
	Verdict: rule.Note,
	Record: func(p *rule.Pass) {
		if p.Record == nil {
			return
		}
		grade := strings.TrimSpace(p.Record.Fluid.Grade)
		if _, known := reference.FluidByGrade(grade); known {
			return
		}
		f := rule.Finding{Verdict: rule.Note, At: schema.Spot{Path: schema.At("fluid", "grade")}, Read: p.Record.Fluid.Grade}
		switch {
		case saeGrade.MatchString(grade):
			f.Source = saeSource
			f.Message = fmt.Sprintf("%s is no grade of engine oils (SAE J300) or gear oils (SAE J306)", grade)
		case vgGrade.MatchString(grade):
			f.Source = reference.Cite("iso-3448")
			f.Message = fmt.Sprintf("%s is no viscosity class of ISO 3448, which has 2, 3, 5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000 and on", grade)
		default:
			return // a maker's name, another standard
		}
		p.Report(f)
	},
}

var (
	saeGrade = regexp.MustCompile(`(?i)^(?:sae ?)?\d{1,3} ?w(?: ?[-/]? ?\d{1,3})?$|^sae ?\d{1,3}$`)
	vgGrade  = regexp.MustCompile(`(?i)^(?:iso ?)?vg ?-?\d{1,5}$`)

	saeSource = reference.Citation{ID: "sae-j300", Text: "SAE J300 (2015 revision), engine oils; SAE J306 (2019), gear oils", Seen: reference.SeenOnce}
)
