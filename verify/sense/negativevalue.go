package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// NegativeValue flags a torque, a volume, a resistance, a mass or a size of a body
// below zero.
var NegativeValue = &rule.Check{
	ID: "negative-value", Layer: rule.Sense, Title: "a value below zero that cannot be",
	Doc: doc("negative-value.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for s, q := range values(p) {
			// "-8 N·m" as a deviation stands in a field of its own.
			if q.Form == convert.Tolerance || (q.First.Mant >= 0 && q.Second.Mant >= 0) || !positive(p, s) {
				continue
			}
			want := q
			want.First.Mant, want.Second.Mant = magnitude(q.First.Mant), magnitude(q.Second.Mant)
			p.Report(rule.Finding{
				Verdict: rule.Reject, At: s.number(), Read: s.text(), Want: want.String(),
				Message: fmt.Sprintf("%s is below zero, which %s cannot be", s.text(), convert.Of(s.dimension())),
			})
		}
	},
}

func magnitude(n int64) int64 {
	if n < 0 {
		return -n
	}
	return n
}
