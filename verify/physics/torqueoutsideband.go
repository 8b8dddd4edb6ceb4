package physics

import (
	"fmt"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// TorqueOutsideBand queries a torque that is unusually low or high for its
// thread, class, friction and joint.
var TorqueOutsideBand = &rule.Check{
	ID: "torque-outside-band", Layer: rule.Physics, Title: "torque outside the usual band",
	Doc: doc("torque-outside-band.md"), Source: source(), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  torqueOutsideBand,
}

func torqueOutsideBand(p *rule.Pass) {
	var told schema.Path
	torques(p.Record, func(t torque) {
		if _, broken := t.tooMuch(); broken || t.path == told {
			return // torque-above-yield speaks
		}
		i, side := t.outside()
		if side == "" {
			return
		}
		told = t.path
		v := &t.figure.Values[i]
		f := t.finding(p.Record, i, t.band.UsualLoNm, t.band.UsualHiNm)
		f.Verdict = rule.Query
		f.Message = fmt.Sprintf("%s is unusually %s for a %s; usual are %s", v.Text, side, t.screw(), f.Want)
		if len(t.facts.Missing) > 0 {
			f.Message += ", without knowing " + strings.Join(t.facts.Missing, ", ")
		}
		if side == "high" && t.facts.FrictionBeyondUsual() {
			f.Message += fmt.Sprintf("; a friction of %s is more than is usual", p.Record.Joint.Friction.Text())
			f.Related = append(f.Related, rule.Related{At: schema.Spot{Path: schema.At("joint", "friction")}, Message: "this friction"})
		}
		p.Report(f)
	})
}

// outside finds the first value of a figure whose middle lies outside the
// usual band, as widely as its digits allow, and on which side.
func (t *torque) outside() (value int, side string) {
	for i := range t.figure.Values {
		if side := t.band.Side(&t.figure.Values[i], t.role); side != "" {
			return i, side
		}
	}
	return 0, ""
}
