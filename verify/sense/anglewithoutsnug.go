package sense

import (
	"fmt"
	"slices"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// AngleWithoutSnug flags an angle that does not begin at a torque.
var AngleWithoutSnug = &rule.Check{
	ID: "angle-without-snug", Layer: rule.Sense, Title: "an angle without a torque to begin at",
	Doc: doc("angle-without-snug.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		verdict, speaks := angleVerdict(p.Record)
		if !speaks {
			return
		}
		snug := false
		for i := range p.Record.Tighten {
			s := &p.Record.Tighten[i]
			switch {
			case !s.To.IsZero(), byHand(s.Run):
				snug = true
			case fully(&s.Loosen):
				snug = false
			case !s.Turn.IsZero():
				turn, ok := at(&s.Turn, schema.At("tighten", i, "turn"))
				if ok && !snug {
					p.Report(rule.Finding{
						Verdict: verdict, At: turn.number(), Read: turn.text(),
						Message: fmt.Sprintf("nothing says from where the %s are turned; put the torque that seats the joint before it", turn.text()),
					})
				}
				snug = true // one finding for a run of angles
			}
		}
	},
}

// angleVerdict says how much it matters. Fittings and plugs are turned from where
// the hand or a seat stops them, and so are most adjusting nuts.
func angleVerdict(r *schema.Record) (v rule.Verdict, speaks bool) {
	v = rule.Query
	for i := range r.Fasteners.Items {
		switch roleOf(&r.Fasteners.Items[i]) {
		case adjusting:
			v = rule.Note
		case fitting:
			return v, false
		}
	}
	return v, true
}

// byHand reports a step in words that brings the parts together.
func byHand(run string) bool {
	return slices.ContainsFunc([]string{"hand", "finger", "snug", "seat", "contact"}, func(w string) bool {
		return strings.Contains(strings.ToLower(run), w)
	})
}

// fully reports that a step loosens so far that nothing is tight any more: a full
// turn, or any word.
func fully(loosen *schema.Figure) bool {
	if loosen.IsZero() || loosen.Word {
		return loosen.Word
	}
	q, ok := loosen.Quantity()
	_, most := q.Bounds()
	return ok && most >= fullTurn-1e-9
}
