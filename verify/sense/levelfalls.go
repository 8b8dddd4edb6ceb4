package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// LevelFalls flags a level that falls while the oil warms.
var LevelFalls = &rule.Check{
	ID: "level-falls", Layer: rule.Sense, Title: "the level falls as the oil warms",
	Doc: doc("level-falls.md"), Source: reference.Cite("astm-d1250"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		rows := byTemperature(levelRows(p.Record))
		lowCause, highCause := causeOf(p.Record, lowSide), causeOf(p.Record, highSide)
		for k := 1; k < len(rows); k++ {
			warm := rows[k]
			coldLow, coldHigh := before(rows, k, lowCause), before(rows, k, highCause)
			lowFalls, lowSure := coldLow != nil && warm.i != lowCause, false
			if lowFalls {
				lowFalls, lowSure = falls(p.Record, lowSide, *coldLow, warm)
			}
			highFalls, highSure := coldHigh != nil && warm.i != highCause, false
			if highFalls {
				highFalls, highSure = falls(p.Record, highSide, *coldHigh, warm)
			}
			switch {
			case lowFalls && highFalls && coldLow == coldHigh:
				verdict := rule.Query
				if lowSure && highSure {
					verdict = upwards(p.Record)
				}
				bothFall(p, *coldLow, warm, verdict)
				continue
			case lowFalls:
				oneFalls(p, lowSide, *coldLow, warm)
			}
			if highFalls {
				oneFalls(p, highSide, *coldHigh, warm)
			}
		}
	},
}

// before is the row before row k, but the cause of another check's finding; nil
// where there is none or it is at the same temperature.
func before(rows []levelRow, k, cause int) *levelRow {
	j := k - 1
	if j >= 0 && rows[j].i == cause {
		j--
	}
	if j < 0 || rows[k].t-rows[j].t < 1e-6 {
		return nil
	}
	return &rows[j]
}

// falls reports that one side of the level is lower at the warmer point, as
// printed and beyond rounding.
func falls(r *schema.Record, s side, cold, warm levelRow) (printed, sure bool) {
	a, b, ok := s.pairOf(r, cold.i, warm.i)
	if !ok {
		return false, false
	}
	before, okBefore := low(a.quantity())
	after, okAfter := high(b.quantity())
	if !okBefore || !okAfter {
		return false, false
	}
	return after.below(before), after.si+after.half+before.half < before.si
}

// bothFall reports a point that lies lower as a whole: one cause, one finding.
func bothFall(p *rule.Pass, cold, warm levelRow, verdict rule.Verdict) {
	a, b, _ := lowSide.pairOf(p.Record, cold.i, warm.i)
	c, d, _ := highSide.pairOf(p.Record, cold.i, warm.i)
	p.Report(rule.Finding{
		Verdict: verdict, At: schema.Spot{Path: schema.At("level", "points", warm.i)},
		Read: fmt.Sprintf("%s, %s", b.text(), d.text()),
		Message: fmt.Sprintf("low and high are %s and %s at %s, but %s and %s at %s; a level rises as the oil warms",
			a.text(), c.text(), cold.at.text(), b.text(), d.text(), warm.at.text()),
		Related: []rule.Related{
			{At: schema.Spot{Path: schema.At("level", "points", cold.i)}, Message: fmt.Sprintf("the level at %s is here", cold.at.text())},
			{At: b.number(), Message: "low"}, {At: d.number(), Message: "high"}, {At: warm.at.number(), Message: "the temperature"},
		},
	})
}

func oneFalls(p *rule.Pass, s side, cold, warm levelRow) {
	a, b, _ := s.pairOf(p.Record, cold.i, warm.i)
	p.Report(rule.Finding{
		Verdict: rule.Query, At: b.number(), Read: b.text(),
		Message: fmt.Sprintf("%s is %s at %s and %s at %s; a level rises as the oil warms",
			s, a.text(), cold.at.text(), b.text(), warm.at.text()),
		Related: []rule.Related{{At: a.number(), Message: fmt.Sprintf("%s at %s is here", s, cold.at.text())}},
	})
}
