package physics

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// role is what a step is to a fastener.
type role uint8

const (
	unjudged role = iota // not for this fastener, or into yield: nothing is said
	stage                // on the way, or to be met: it must not be too much
	final                // the torque that the joint is left with
)

// roleOf finds what step k is to fastener i: the last torque is the final one
// unless an angle, a loosening or a run comes after it, or it was slackened before
// and may be left at whatever the bearing asks.
func roleOf(r *schema.Record, i, k int) role {
	s := &r.Tighten[k]
	if s.Yield || !appliesTo(r, s, i) {
		return unjudged
	}
	if s.To.IsZero() {
		if s.Check.IsZero() || intoYield(r) {
			return unjudged // a screw in yield may meet more than is usual
		}
		return stage
	}
	for m := k + 1; m < len(r.Tighten); m++ {
		later := &r.Tighten[m]
		if !appliesTo(r, later, i) {
			continue
		}
		if !later.To.IsZero() || !later.Turn.IsZero() || !later.Loosen.IsZero() || later.Run != "" {
			return stage
		}
	}
	if r.Yield {
		return unjudged // this is the step that goes into yield
	}
	for m := range k {
		if earlier := &r.Tighten[m]; appliesTo(r, earlier, i) && !earlier.Loosen.IsZero() {
			return stage // a bearing set, slackened, and nipped up again
		}
	}
	return final
}

func intoYield(r *schema.Record) bool {
	return r.Yield || slices.ContainsFunc(r.Tighten, func(s schema.Step) bool { return s.Yield })
}

// appliesTo reports whether a step is for fastener i: only names it or one of
// its places. A lone fastener is meant by whatever places are named.
func appliesTo(r *schema.Record, s *schema.Step, i int) bool {
	if len(s.Only) == 0 || len(r.Fasteners.Items) == 1 {
		return true
	}
	f := &r.Fasteners.Items[i]
	for _, o := range s.Only {
		if f.Key != "" && o == f.Key {
			return true
		}
		if n, err := strconv.Atoi(o); err == nil && slices.Contains(f.Places, n) {
			return true
		}
	}
	return false
}

// torque is one figure of a record with what its fastener bears.
type torque struct {
	fastener int
	facts    *joint.Facts // of known; shared, not to be changed
	known    *joint.Judged
	band     joint.Band
	role     role
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
		band := withPrevailing(r, known.Band)
		for k := range r.Tighten {
			what := roleOf(r, i, k)
			if what == unjudged {
				continue
			}
			figure, field := &r.Tighten[k].To, "to"
			if figure.IsZero() {
				figure, field = &r.Tighten[k].Check, "check"
			}
			yield(torque{i, &known.Facts, known, band, what, figure, schema.At("tighten", k, field)})
		}
	}
}

// withPrevailing widens the band where the figure includes, or may include,
// the running torque of a locking thread.
func withPrevailing(r *schema.Record, b joint.Band) joint.Band {
	if running, included := runningTorque(r); included {
		return b.WithPrevailing(running)
	}
	return b
}

// runningTorque is the most (N·m) that the running torque of a locking thread
// adds to the figures, 0 where it is not known; included is false where they do
// not contain it.
func runningTorque(r *schema.Record) (nm float64, included bool) {
	pre := &r.Prevailing
	if pre.Included != nil && !*pre.Included || pre.Included == nil && pre.Torque.IsZero() {
		return 0, false
	}
	if q, ok := pre.Torque.Quantity(); ok && q.Unit.Dimension() == convert.Torque {
		if _, hi := q.Widened(); !math.IsInf(hi, 0) {
			return hi, true
		}
	}
	return 0, true
}

// ends are the ends of a torque in N·m, as widely as its digits allow; ok is
// false where it says too little. An open end is taken as the limit printed.
func ends(v *convert.Value) (lo, hi float64, ok bool) {
	if !v.Read() || v.Quantity.Unit.Dimension() != convert.Torque {
		return 0, 0, false
	}
	lo, hi = v.Quantity.Widened()
	switch v.Quantity.Form {
	case convert.AtMost:
		lo = hi
	case convert.AtLeast:
		hi = lo
	}
	return lo, hi, hi > 0 && !math.IsInf(lo, 0) && !math.IsInf(hi, 0)
}

// tooMuch finds the first value of a figure that lies whole above the ceiling.
func (t *torque) tooMuch() (value int, yes bool) {
	for i := range t.figure.Values {
		if lo, _, ok := ends(&t.figure.Values[i]); ok && lo > t.band.CeilingNm {
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

// span prints two torques (N·m) in a unit, two digits each.
func span(lo, hi float64, u convert.Unit) string {
	a, b := convert.FromFloat(lo, u, 2).String(), convert.FromFloat(hi, u, 2).String()
	if n := len(a) - len(" ") - len(u.Symbol()); n > 0 && a[n:] == " "+u.Symbol() {
		a = a[:n]
	}
	return fmt.Sprintf("%s to %s", a, b)
}

func amount(x float64, u convert.Unit) string { return convert.FromFloat(x, u, 2).String() }

// source of both checks: the relation that the band is worked out by.
func source() reference.Citation { return reference.Cite("vdi-2230") }
