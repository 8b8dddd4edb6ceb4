package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// LevelOffLine flags a point of a level table that lies off the straight line
// through the others.
var LevelOffLine = &rule.Check{
	ID: "level-off-line", Layer: rule.Sense, Title: "a level lies off the line through the others",
	Doc: doc("level-off-line.md"), Source: reference.Cite("astm-d1250"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		low, okLow := offLine(p.Record, lowSide)
		high, okHigh := offLine(p.Record, highSide)
		if okLow && okHigh && low.i == high.i {
			bothOffLine(p, low, high)
			return
		}
		if okLow {
			oneOffLine(p, lowSide, low)
		}
		if okHigh {
			oneOffLine(p, highSide, high)
		}
	},
}

// oddPoint is the point off the line, and what the line has there, in its unit.
type oddPoint struct {
	levelPoint
	want string
}

func offLine(r *schema.Record, s side) (oddPoint, bool) {
	points := sidePoints(r, s)
	odd, want, ok := oddOne(points)
	if !ok {
		return oddPoint{}, false
	}
	pt := points[odd]
	q := pt.value.quantity()
	return oddPoint{pt, convert.FromFloat(want, q.Unit, max(2, q.First.Digits())).String()}, true
}

func oneOffLine(p *rule.Pass, s side, pt oddPoint) {
	p.Report(rule.Finding{
		Verdict: rule.Query, At: pt.value.number(), Read: pt.value.text(), Want: pt.want,
		Message: fmt.Sprintf("%s %s at %s lies off the line through the other points, which is at %s there",
			s, pt.value.text(), pt.at.text(), pt.want),
		Related: []rule.Related{{At: pt.at.number(), Message: "its temperature stands here"}},
	})
}

// bothOffLine reports a row of which both marks are off: one cause, one finding,
// as certain as that the level falls to it or from it.
func bothOffLine(p *rule.Pass, low, high oddPoint) {
	f := rule.Finding{
		Verdict: rule.Query, At: schema.Spot{Path: schema.At("level", "points", low.i)},
		Read: fmt.Sprintf("%s, %s", low.value.text(), high.value.text()),
		Want: fmt.Sprintf("%s, %s", low.want, high.want),
		Message: fmt.Sprintf("low %s and high %s at %s lie off the line through the other points, which is at %s and %s there",
			low.value.text(), high.value.text(), low.at.text(), low.want, high.want),
		Related: []rule.Related{
			{At: low.value.number(), Message: "low"}, {At: high.value.number(), Message: "high"},
			{At: low.at.number(), Message: "the temperature"},
		},
	}
	if causeOf(p.Record, lowSide) == low.i && causeOf(p.Record, highSide) == low.i && fallsAt(p.Record, low.i) {
		f.Verdict = upwards(p.Record)
		if f.Verdict == rule.Reject {
			f.Message += "; a level rises as the oil warms"
		}
	}
	p.Report(f)
}

// fallsAt reports that both sides of the level surely fall to row i or from it.
func fallsAt(r *schema.Record, i int) bool {
	rows := byTemperature(levelRows(r))
	for k := 1; k < len(rows); k++ {
		cold, warm := rows[k-1], rows[k]
		if cold.i != i && warm.i != i {
			continue
		}
		_, lowSure := falls(r, lowSide, cold, warm)
		_, highSure := falls(r, highSide, cold, warm)
		if lowSure && highSure {
			return true
		}
	}
	return false
}
