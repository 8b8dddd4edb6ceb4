package physics

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// TorqueStripsThread rejects a torque at which the stated engagement strips
// whatever the friction is, and queries one at which it strips by a middling
// reading.
var TorqueStripsThread = &rule.Check{
	ID: "torque-strips-thread", Layer: rule.Physics, Title: "more torque than the tapped thread holds",
	Doc: doc("torque-strips-thread.md"), Source: reference.Cite("fed-std-h28"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record:  torqueStripsThread,
}

func torqueStripsThread(p *rule.Pass) {
	if p.Record == nil || p.Record.Joint.Engagement.IsZero() || p.Record.Joint.Into == "" {
		return
	}
	var told schema.Path
	torques(p.Record, func(t torque) {
		if !t.known.Strips || t.path == told {
			return
		}
		strip := t.known.Stripping
		if _, broken := t.tooMuch(); broken {
			return // torque-above-yield speaks
		}
		if running, given := joint.RunningTorque(p.Record); given {
			strip = strip.WithPrevailing(running)
		}
		i, verdict, limit := t.strips(strip.TorqueNm)
		if limit == 0 {
			return
		}
		told = t.path
		v := &t.figure.Values[i]
		f := t.finding(p.Record, i, 0, 0)
		f.Verdict = verdict
		f.Source.Text = reference.Cite("fed-std-h28").Text + "; shear strength by " + strip.Source.String()
		f.Source.ID = "fed-std-h28"
		most := beside(limit, middleOf(v), v.Quantity.Unit).String()
		f.Want = "at most " + most
		holds := fmt.Sprintf("%s of thread in %s", p.Record.Joint.Engagement.Text(), p.Record.Joint.Into)
		switch {
		case verdict == rule.Reject:
			f.Message = fmt.Sprintf("%s strips the thread: %s hold no more than %s on a %s, however strong the material and high the friction",
				v.Text, holds, most, t.screw())
		case strip.OwnThread:
			f.Message = fmt.Sprintf("%s is likely to strip the thread of the %s: %s hold some %s; look at the engagement and the figure",
				v.Text, t.screw(), holds, most)
		default:
			f.Message = fmt.Sprintf("%s is likely to strip the thread: %s hold some %s on a %s; look at the engagement and the figure, or fit an insert",
				v.Text, holds, most, t.screw())
		}
		f.Related = append(f.Related,
			rule.Related{At: schema.Spot{Path: schema.At("joint", "engagement")}, Message: "this engagement"},
			rule.Related{At: schema.Spot{Path: schema.At("joint", "into")}, Message: "this material"})
		p.Report(f)
	})
}

// strips finds the first value of a figure that strips the thread: whole above
// the most forgiving reading, or with its middle above the middling one.
func (t *torque) strips(nm joint.Readings) (value int, verdict rule.Verdict, limit float64) {
	for i := range t.figure.Values {
		lo, hi, ok := joint.Ends(&t.figure.Values[i])
		if !ok {
			continue
		}
		middle := lo
		switch t.figure.Values[i].Quantity.Form {
		case convert.Range, convert.Deviation:
			middle = (lo + hi) / 2
		}
		switch {
		case lo > nm.Most:
			return i, rule.Reject, nm.Most
		case middle > nm.Middling:
			return i, rule.Query, nm.Middling
		}
	}
	return 0, rule.Note, 0
}
