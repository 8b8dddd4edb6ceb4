package cited

import (
	"fmt"
	"math"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// What a setting torque wrench (type II, class A) may be off, in parts of the
// figure. Source: ISO 6789:2003, as reproduced in a torque wrench manual.
const (
	wrenchOff      = 0.04
	wrenchOffSmall = 0.06
	smallTorqueNm  = 10.0
)

// ToleranceOfWrench notes a tolerance of a torque that a setting wrench cannot
// keep, and asks about one of half that which has decimals where its torque has
// none.
var ToleranceOfWrench = &rule.Check{
	ID: "tolerance-of-wrench", Layer: rule.Cited, Title: "a tolerance finer than a torque wrench",
	Doc: doc("tolerance-of-wrench.md"), Source: reference.Cite("iso-6789"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		if p.Record == nil {
			return
		}
		listed := p.Head != nil && len(p.Head.Wrenches) > 0 // see WrenchMissing
		for i := range p.Record.Tighten {
			step, path := &p.Record.Tighten[i], schema.At("tighten", i)
			to, ok := measure.Read(&step.To, path.Field("to"), convert.Torque)
			if !ok || to.Nominal() <= 0 {
				continue
			}
			part, at, text := toleranceOf(step, path, to)
			off := wrenchOff
			if to.Nominal() <= smallTorqueNm {
				off = wrenchOffSmall
			}
			if finerThanValue(to.Quantity) && part > 0 && part < off/2 {
				p.Report(rule.Finding{
					Verdict: rule.Query, At: at, Read: text, Want: fmt.Sprintf("±%.0f %% or more", off*100),
					Message: fmt.Sprintf("%s is ±%.1f %%, and has decimals that %s has not; a point may have slipped, so look at the source", text, part*100, to.First),
				})
				continue
			}
			// A tenth is left for rounding.
			if part <= 0 || part > off*0.9 || listed {
				continue
			}
			p.Report(rule.Finding{
				Verdict: rule.Note, At: at, Read: text, Want: fmt.Sprintf("±%.0f %% or more", off*100),
				Message: fmt.Sprintf("%s is ±%.1f %%, finer than a setting torque wrench of ISO 6789, which may be off by %.0f %% at %s", text, part*100, off*100, to.Text),
				Related: []rule.Related{{At: to.At, Message: "the torque stands here"}},
			})
		}
	},
}

// finerThanValue reports a deviation with decimals where the value has none: of 23
// counted in print no torque has.
func finerThanValue(q convert.Quantity) bool {
	return q.Form == convert.Deviation && !q.Percent && q.First.Exp >= 0 && (q.Plus.Exp < 0 && q.Plus.Mant != 0 || q.Minus.Exp < 0 && q.Minus.Mant != 0)
}

// toleranceOf is the tolerance of a step as a part of its torque, to the wider
// side, and where it stands; 0 where none is printed.
func toleranceOf(step *schema.Step, path schema.Path, to measure.Reading) (part float64, at schema.Spot, text string) {
	if to.Form == convert.Deviation {
		lo, hi := to.Bounds()
		return max(hi-to.Nominal(), to.Nominal()-lo) / to.Nominal(), to.At, to.Text
	}
	v, i, ok := step.Tolerance.First()
	if !ok || v.Quantity.Form != convert.Tolerance || to.Form != convert.Single {
		return 0, at, ""
	}
	lo, hi := v.Quantity.Bounds()
	part = max(math.Abs(lo), math.Abs(hi))
	if v.Quantity.Unit.Dimension() == convert.Torque {
		part /= to.Nominal()
	}
	return part, rule.NumberAt(&step.Tolerance, path.Field("tolerance"), i), v.Text
}
