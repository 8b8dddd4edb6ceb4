package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// A torque wrench keeps 4 to 6 % (ISO 6789) and the army's general rule is ±10 %;
// tube nuts and hose clamps are printed with up to ±30 %.
const wideTolerance = 0.35

// ToleranceTooWide flags the tolerance of a step that leaves it without meaning.
var ToleranceTooWide = &rule.Check{
	ID: "tolerance-too-wide", Layer: rule.Sense, Title: "the tolerance of a step is too wide",
	Doc: doc("tolerance-too-wide.md"), Source: reference.Cite("us-army-torque"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for i := range p.Record.Tighten {
			s, path := &p.Record.Tighten[i], schema.At("tighten", i)
			tol, ok := at(&s.Tolerance, path.Field("tolerance"))
			if !ok {
				continue
			}
			plus, minus, ok := shares(tol, s)
			if !ok {
				continue
			}
			f := rule.Finding{At: tol.number(), Read: tol.text()}
			switch {
			case minus >= 1:
				f.Verdict = rule.Reject
				f.Message = fmt.Sprintf("a tolerance of %s reaches down to nothing", tol.text())
			case max(plus, minus) > wideTolerance:
				f.Verdict, f.Want = rule.Query, "±10 %"
				f.Message = fmt.Sprintf("a tolerance of %s is wider than any joint is printed with; ±10 %% is usual", tol.text())
			default:
				continue
			}
			p.Report(f)
		}
	},
}

// shares are the deviations of a tolerance as parts of what the step sets.
func shares(tol spotted, s *schema.Step) (plus, minus float64, ok bool) {
	q := tol.quantity()
	lo, hi := q.Bounds()
	if q.Form == convert.Single {
		lo = -hi // "10 %", and not "±10 %"
	}
	plus, minus = hi, -lo
	if q.Form != convert.Tolerance && q.Form != convert.Single {
		return 0, 0, false
	}
	if tol.dimension() == convert.Ratio {
		return plus, minus, true
	}
	for _, f := range []*schema.Figure{&s.To, &s.Check, &s.Turn} {
		if base, ok := f.Quantity(); ok && base.Unit.Dimension() == tol.dimension() && base.Nominal() > 0 {
			return plus / base.Nominal(), minus / base.Nominal(), true
		}
	}
	return 0, 0, false
}
