package physics

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/fluid"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// BetweenMarksAboveFill queries marks that hold more between them than the whole
// fill.
var BetweenMarksAboveFill = &rule.Check{
	ID: "between-marks-above-fill", Layer: rule.Physics, Title: "more between the marks than in the machine",
	Doc: doc("between-marks-above-fill.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		if p.Record == nil {
			return
		}
		between, ok := measure.Read(&p.Record.Level.BetweenMarks, schema.At("level", "between-marks"), convert.Volume)
		fill, amount, okFill := wholeFill(p.Record)
		if !ok || !okFill || !between.Closed() {
			return
		}
		lo, hi := between.Widened()
		if lo <= 0 {
			return
		}
		// The greatest amount as printed, for a drain also takes out more than the
		// marks hold.
		_, most := amount.Widened()
		fill.Hi = 1000 * most
		span := fluid.Span{VolumeL: fluid.Interval{Lo: 1000 * lo, Hi: 1000 * hi}}
		if _, err := span.AtLowL(fill); err == nil {
			return
		}
		p.Report(rule.Finding{
			Verdict: rule.Query, At: between.At, Read: between.Text,
			Message: fmt.Sprintf("%s between the marks is more than the whole fill of %s", between.Text, amount.Text),
			Related: []rule.Related{{At: amount.At, Message: fmt.Sprintf("the fill of %s", amount.Text)}},
		})
	},
}
