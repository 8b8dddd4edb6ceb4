package sense

import (
	"fmt"
	"math"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Angles in rad, the SI unit.
const (
	degree   = math.Pi / 180
	fullTurn = 360 * degree

	leastAngle    = 15 * degree
	greatestAngle = 270 * degree
)

// AngleSize flags an angle stage that is no such: beside 30° to 180° that are
// usual.
var AngleSize = &rule.Check{
	ID: "angle-size", Layer: rule.Sense, Title: "an angle that is not met with",
	Doc: doc("angle-size.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		for i := range p.Record.Fasteners.Items {
			if roleOf(&p.Record.Fasteners.Items[i]) != bolted {
				return // turned otherwise
			}
		}
		for i := range p.Record.Tighten {
			turn, ok := at(&p.Record.Tighten[i].Turn, schema.At("tighten", i, "turn"))
			if !ok {
				continue
			}
			lo, hi := turn.quantity().Bounds()
			if hi < leastAngle-1e-9 || (lo > greatestAngle+1e-9 && !math.IsInf(lo, 0)) {
				p.Report(rule.Finding{
					Verdict: rule.Query, At: turn.number(), Read: turn.text(), Want: "30° to 180°",
					Message: fmt.Sprintf("an angle stage of %s is not met with; 30° to 180° is usual", turn.text()),
				})
			}
		}
	},
}
