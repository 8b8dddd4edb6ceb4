package physics

import (
	"fmt"

	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// TorqueAboveSolid queries a torque on a plug, fitting, clamp or locking nut that
// a solid screw of its thread and the strongest class would not bear.
var TorqueAboveSolid = &rule.Check{
	ID: "torque-above-solid", Layer: rule.Physics, Title: "more torque than a solid screw of that thread bears",
	Doc: doc("torque-above-solid.md"), Source: source(), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  torqueAboveSolid,
}

func torqueAboveSolid(p *rule.Pass) {
	r := p.Record
	var told schema.Path
	for i := range r.Fasteners.Items {
		f := &r.Fasteners.Items[i]
		if joint.Clamps(f.Type) {
			continue // torque-above-yield knows more of these
		}
		known, ok := joint.Known(joint.Words{Type: "screw", Thread: f.Thread})
		if !ok {
			continue
		}
		t := torque{fastener: i, facts: &known.Facts, known: known, band: known.BandIn(r)}
		for k := range r.Tighten {
			s := &r.Tighten[k]
			t.figure, t.path = &s.To, schema.At("tighten", k, "to")
			n, tooMuch := t.tooMuch()
			if !tooMuch || !joint.AppliesTo(r, s, i) || t.path == told {
				continue
			}
			told = t.path
			v := &t.figure.Values[n]
			most := beside(t.band.CeilingNm, leastOf(v), v.Quantity.Unit).String()
			p.Report(rule.Finding{
				Verdict: rule.Query, At: rule.NumberAt(t.figure, t.path, n), Read: v.Text, Want: "below " + most,
				Message: fmt.Sprintf("%s is more than a solid screw %s of the strongest class bears, %s; a %s bears less", v.Text, f.Thread, most, f.Type),
				Related: []rule.Related{{At: schema.Spot{Path: r.Fasteners.At(i).Field("thread")}, Message: t.facts.ThreadText()}},
			})
		}
	}
}
