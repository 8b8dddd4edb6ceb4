package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// FillServiceAboveDry flags a service fill that is greater than the fill of the
// dry machine.
var FillServiceAboveDry = &rule.Check{
	ID: "fill-service-above-dry", Layer: rule.Sense, Title: "a service fill is greater than the dry fill",
	Doc: doc("fill-service-above-dry.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		amounts := p.Record.Amounts
		for i := range amounts {
			for j := range amounts {
				verdict, ok := mayNotExceed(amounts[i].When, amounts[j].When)
				if !ok {
					continue
				}
				a, b, ok := pair(&amounts[i].Volume, schema.At("amounts", i, "volume"), &amounts[j].Volume, schema.At("amounts", j, "volume"))
				if !ok {
					continue
				}
				least, okLow := low(a.quantity())
				whole, okHigh := high(b.quantity())
				if !okLow || !okHigh || !whole.surelyBelow(least) {
					continue
				}
				p.Report(rule.Finding{
					Verdict: verdict, At: a.number(), Read: a.text(),
					Message: fmt.Sprintf("%s of %s is more than %s of %s", amounts[i].When, a.text(), amounts[j].When, b.text()),
					Related: []rule.Related{{At: b.number(), Message: amounts[j].When + " stands here"}},
				})
				break // one finding an amount
			}
		}
	},
}

// mayNotExceed reports that the amount of one occasion cannot be more than that of
// another, and how surely.
func mayNotExceed(one, other string) (rule.Verdict, bool) {
	switch one {
	case "drain and refill", "filter change":
		switch other {
		case "dry fill":
			return rule.Reject, true
		case "after overhaul":
			return rule.Query, true
		}
	case "top up":
		switch other {
		case "dry fill", "after overhaul", "drain and refill", "filter change":
			return rule.Query, true
		}
	}
	return 0, false
}
