package sense

import (
	"fmt"
	"math"

	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// LevelPointsOrder flags the temperatures of a level table that neither rise nor
// fall throughout.
var LevelPointsOrder = &rule.Check{
	ID: "level-points-order", Layer: rule.Sense, Title: "the temperatures of a level table are out of order",
	Doc: doc("level-points-order.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		rows := levelRows(p.Record)
		rising := 0 // more steps up than down
		for k := 1; k < len(rows); k++ {
			rising += sign(rows[k].t - rows[k-1].t)
		}
		for k := 1; k < len(rows); k++ {
			a, b := rows[k-1], rows[k]
			f := rule.Finding{
				Verdict: rule.Query, At: b.at.number(), Read: b.at.text(),
				Related: []rule.Related{{At: a.at.number(), Message: "the point before is here"}},
			}
			switch up := sign(b.t - a.t); {
			case up == 0:
				f.Message = fmt.Sprintf("two points of the level are at %s", b.at.text())
			case up > 0 && rising < 0, up < 0 && rising >= 0:
				f.Message = fmt.Sprintf("%s stands behind %s; the temperatures of the points are out of order", b.at.text(), a.at.text())
				if len(rows) == 2 {
					continue // two points have no order to be out of
				}
			default:
				continue
			}
			p.Report(f)
		}
	},
}

// sign is -1, 0 or 1; temperatures of one point are equal but for noise.
func sign(x float64) int {
	switch {
	case math.Abs(x) < 1e-6:
		return 0
	case x > 0:
		return 1
	}
	return -1
}
