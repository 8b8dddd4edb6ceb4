package physics

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// torque is one figure of a record with what its fastener bears.
type torque struct {
	fastener int
	facts    *joint.Facts // of known; shared, not to be changed
	known    *joint.Judged
	band     joint.Band
	role     joint.Role
	figure   *schema.Figure
	path     schema.Path
}

// torques calls yield for every torque of a record that can be judged, fastener
// by fastener.
func torques(r *schema.Record, yield func(torque)) {
	if r == nil || len(r.Tighten) == 0 {
		return
	}
	for i := range r.Fasteners.Items {
		known, ok := joint.Known(joint.WordsOf(r, i))
		if !ok {
			continue
		}
		band := known.BandIn(r)
		for k := range r.Tighten {
			what := joint.RoleOf(r, i, k)
			switch {
			case what == joint.Unjudged:
				continue
			case what == joint.Final && known.Facts.Part == joint.AnyPart:
				what = joint.Stage // it may be an adjusting nut, which takes next to nothing
			}
			figure, field := &r.Tighten[k].To, "to"
			if figure.IsZero() {
				figure, field = &r.Tighten[k].Check, "check"
			}
			yield(torque{i, &known.Facts, known, band, what, figure, schema.At("tighten", k, field)})
		}
	}
}

// tooMuch finds the first value of a figure that lies whole above the ceiling.
func (t *torque) tooMuch() (value int, yes bool) {
	for i := range t.figure.Values {
		if lo, _, ok := joint.Ends(&t.figure.Values[i]); ok && lo > t.band.CeilingNm {
			return i, true
		}
	}
	return 0, false
}

// finding starts a finding on value i of the figure, with what would go and
// where that comes from.
func (t *torque) finding(r *schema.Record, i int, lo, hi float64) rule.Finding {
	v := &t.figure.Values[i]
	f := rule.Finding{
		At: rule.NumberAt(t.figure, t.path, i), Read: v.Text, Want: span(lo, hi, v.Quantity.Unit),
		Source: t.facts.Source(),
	}
	at := r.Fasteners.At(t.fastener)
	f.Related = append(f.Related, rule.Related{
		At: schema.Spot{Path: at.Field("thread")}, Message: t.facts.ThreadText(),
	})
	if t.facts.Class.Text != "" {
		f.Related = append(f.Related, rule.Related{
			At: schema.Spot{Path: at.Field("class")}, Message: t.facts.ClassText(),
		})
	}
	return f
}

// screw names the fastener of a torque: "screw M8x1.25 of class 8.8".
func (t *torque) screw() string {
	s := "screw "
	switch t.facts.Part {
	case joint.NutPart:
		s = "nut "
	case joint.StudPart:
		s = "stud "
	}
	if t.facts.Thread.PitchGiven {
		s += t.facts.Thread.Designation
	} else {
		s += t.facts.Thread.Text
	}
	switch {
	case len(t.facts.Strengths) > 0:
		s += " of class " + t.facts.Class.Text
	case t.facts.Class.Text != "":
		s += " of a class that is not in the tables"
	default:
		s += " of whatever class"
	}
	return s
}

// span prints two torques (N·m) in a unit, two digits each; one where they print
// alike.
func span(lo, hi float64, u convert.Unit) string {
	a, b := convert.FromFloat(lo, u, 2).String(), convert.FromFloat(hi, u, 2).String()
	if n := len(a) - len(" ") - len(u.Symbol()); n > 0 && a[n:] == " "+u.Symbol() {
		a = a[:n]
	}
	if a+" "+u.Symbol() == b {
		return b
	}
	return fmt.Sprintf("%s to %s", a, b)
}

func amount(x float64, u convert.Unit) string { return convert.FromFloat(x, u, 2).String() }

// source of both checks: the relation that the band is worked out by.
func source() reference.Citation { return reference.Cite("vdi-2230") }
