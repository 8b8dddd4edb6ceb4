package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// The coefficients of friction that are met with. The outermost nut factors
// measured, 0.086 and 0.52 ([reference.OutermostNutFactor]), are coefficients of
// 0.06 and 0.42 by K = 0.015 + 1.2 µ; class A of VDI 2230 begins at 0.04. A fifth
// is allowed beyond 0.04 and 0.42.
const (
	leastFriction    = 0.03
	greatestFriction = 0.5
)

// FrictionImplausible flags a coefficient of friction beyond all that is measured.
var FrictionImplausible = &rule.Check{
	ID: "friction-implausible", Layer: rule.Sense, Title: "a coefficient of friction that is not met with",
	Doc: doc("friction-implausible.md"), Source: reference.Cite("bolt-handbook"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		mu, ok := at(&p.Record.Joint.Friction, schema.At("joint", "friction"))
		if !ok {
			return
		}
		least, okLow := low(mu.quantity())
		greatest, okHigh := high(mu.quantity())
		// An end is forgiven what rounding may have moved it.
		// None at all is no rounding: without friction no screw holds.
		slippery := okLow && (least.si <= 0 || least.si+least.half < leastFriction)
		rough := okHigh && greatest.si-greatest.half > greatestFriction
		if !slippery && !rough {
			return
		}
		p.Report(rule.Finding{
			Verdict: rule.Query, At: mu.number(), Read: mu.text(), Want: "0.03 to 0.5",
			Message: fmt.Sprintf("a coefficient of friction of %s is not met with; all that is measured lies between 0.03 and 0.5", mu.text()),
		})
	},
}
