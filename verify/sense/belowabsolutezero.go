package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// BelowAbsoluteZero flags a temperature that does not exist.
var BelowAbsoluteZero = &rule.Check{
	ID: "below-absolute-zero", Layer: rule.Sense, Title: "a temperature below absolute zero",
	Doc: doc("below-absolute-zero.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for s, q := range values(p) {
			if s.dimension() != convert.Temperature || q.Form == convert.Tolerance {
				continue
			}
			least, ok := low(q)
			if q.Form == convert.AtMost {
				least, ok = high(q)
			}
			// half a degree for -273 and -460 °F, which are absolute zero rounded
			if ok && least.si < -0.5 {
				p.Report(rule.Finding{
					Verdict: rule.Reject, At: s.number(), Read: s.text(),
					Message: fmt.Sprintf("%s is below absolute zero, -273.15 °C or -459.67 °F", s.text()),
				})
			}
		}
	},
}
