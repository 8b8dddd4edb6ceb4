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
		At: rule.NumberAt(t.figure, t.path, i), Read: v.Text, Want: span(lo, hi, middleOf(v), v.Quantity.Unit),
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

const ofNoTable = " of a class that is not in the tables"

// middleOf is the middle of a value (SI) as printed, or the end that it has.
func middleOf(v *convert.Value) float64 {
	lo, hi := v.Quantity.Bounds()
	switch v.Quantity.Form {
	case convert.AtMost:
		return hi
	case convert.AtLeast:
		return lo
	}
	return (lo + hi) / 2
}

// leastOf is the lower end of a value (SI) as printed, or the end that it has.
func leastOf(v *convert.Value) float64 {
	lo, hi := v.Quantity.Bounds()
	if v.Quantity.Form == convert.AtMost {
		return hi
	}
	return lo
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
		s += ofNoTable
	default:
		s += " of whatever class"
	}
	return s
}

// span prints two torques (N·m) in a unit, two digits each, or more where the
// figure (N·m) that lies outside them would not lie outside what is printed; one
// where they print alike.
func span(lo, hi, nm float64, u convert.Unit) string {
	low, high := convert.FromFloat(lo, u, 2), convert.FromFloat(hi, u, 2)
	switch {
	case nm < lo:
		low = beside(lo, nm, u)
	case nm > hi:
		high = beside(hi, nm, u)
	}
	a, b := low.String(), high.String()
	if n := len(a) - len(" ") - len(u.Symbol()); n > 0 && a[n:] == " "+u.Symbol() {
		a = a[:n]
	}
	if a+" "+u.Symbol() == b {
		return b
	}
	return fmt.Sprintf("%s to %s", a, b)
}

// beside prints a bound (SI) at two digits, or as many more as it takes to stand
// on its side of a figure (SI): 120 N·m is below 122, not below 120.
func beside(bound, figure float64, u convert.Unit) convert.Quantity {
	const exact = 7
	for digits := 2; ; digits++ {
		q := convert.FromFloat(bound, u, digits)
		if x := q.Nominal(); digits == exact || bound == figure || x != figure && (x > figure) == (bound > figure) {
			return q
		}
	}
}

// source of both checks: the relation that the band is worked out by.
func source() reference.Citation { return reference.Cite("vdi-2230") }
