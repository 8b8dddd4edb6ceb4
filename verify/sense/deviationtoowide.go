package sense

import (
	"fmt"
	"slices"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// DeviationTooWide flags a deviation that reaches below zero where the value
// cannot, 9 ±19 N·m, or is wider than a joint is printed with, 9 +10/-0 N·m.
var DeviationTooWide = &rule.Check{
	ID: "deviation-too-wide", Layer: rule.Sense, Title: "a deviation greater than its value",
	Doc: doc("deviation-too-wide.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for s, q := range values(p) {
			if q.Form != convert.Deviation || q.First.Mant <= 0 || !positive(p, s) {
				continue
			}
			least := q.First
			if q.Percent {
				least = convert.Decimal{Mant: 100}
			}
			f := rule.Finding{Verdict: rule.Reject, At: s.number(), Read: s.text()}
			where, _ := s.path.Step(0)
			switch q.Minus.Cmp(least) {
			case 1:
				f.Message = fmt.Sprintf("%s reaches below zero; the deviation is greater than the value", s.text())
			case 0:
				if where != "tighten" {
					continue // a running torque or a clearance may be nothing
				}
				f.Verdict = rule.Query
				f.Message = fmt.Sprintf("%s reaches down to zero; the deviation is as great as the value", s.text())
			default:
				if where != "tighten" || s.dimension() != convert.Torque || share(q) <= wideTolerance {
					continue
				}
				f.Verdict = rule.Query
				f.Message = fmt.Sprintf("%s may be off by %.0f %%, more than any joint is printed with; ±10 %% is usual, so look at the deviation in the source", s.text(), 100*share(q))
			}
			p.Report(f)
		}
	},
}

// share is the wider deviation of a value as a part of it.
func share(q convert.Quantity) float64 {
	wide := max(q.Plus.Float(), q.Minus.Float())
	if q.Percent {
		return wide / 100
	}
	return wide / q.First.Float()
}

// positive reports that a value is greater than zero by its nature. A clearance,
// a gap, an end float or a temperature may be less.
func positive(p *rule.Pass, s spotted) bool {
	switch s.dimension() {
	case convert.Torque, convert.Volume, convert.Resistance, convert.Mass:
		return true
	case convert.Length:
		switch where, _ := s.path.Step(0); where {
		case "fastener", "joint", "size":
			return true
		case "new", "wear-limit", "rows":
			return slices.Contains(bodies, p.Record.Of)
		}
	}
	return false
}

// bodies are the measures of a body, which cannot be nothing.
var bodies = []string{"diameter", "bore", "thickness", "width", "height", "depth", "length", "free length", "stroke"}
