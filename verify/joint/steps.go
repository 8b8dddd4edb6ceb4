package joint

import (
	"math"
	"slices"
	"strconv"

	"snapgauge/convert"
	"snapgauge/schema"
)

// Role is what a step of tightening is to a fastener.
type Role uint8

// The roles of a step.
const (
	Unjudged Role = iota // not for this fastener, or into yield: nothing is said
	Stage                // on the way, or to be met: it must not be too much
	Final                // the torque that the joint is left with
)

// RoleOf finds what step k is to fastener i: the last torque is the final one
// unless an angle, a loosening or a run comes after it, or it was slackened before
// and may be left at whatever the bearing asks. It is Unjudged where the record
// has no such fastener or step.
func RoleOf(r *schema.Record, i, k int) Role {
	if r == nil || k < 0 || k >= len(r.Tighten) || i < 0 || i >= len(r.Fasteners.Items) {
		return Unjudged
	}
	s := &r.Tighten[k]
	if s.Yield || !AppliesTo(r, s, i) {
		return Unjudged
	}
	if s.To.IsZero() {
		if s.Check.IsZero() || IntoYield(r) {
			return Unjudged // a screw in yield may meet more than is usual
		}
		return Stage
	}
	for m := k + 1; m < len(r.Tighten); m++ {
		later := &r.Tighten[m]
		if !AppliesTo(r, later, i) {
			continue
		}
		if !later.To.IsZero() || !later.Turn.IsZero() || !later.Loosen.IsZero() || later.Run != "" {
			return Stage
		}
	}
	if r.Yield {
		return Unjudged // this is the step that goes into yield
	}
	for m := range k {
		if earlier := &r.Tighten[m]; AppliesTo(r, earlier, i) && !earlier.Loosen.IsZero() {
			return Stage // a bearing set, slackened, and nipped up again
		}
	}
	return Final
}

// IntoYield reports whether a record tightens its screws into yield.
func IntoYield(r *schema.Record) bool {
	return r != nil && (r.Yield || slices.ContainsFunc(r.Tighten, func(s schema.Step) bool { return s.Yield }))
}

// AppliesTo reports whether a step is for fastener i: only names it or one of
// its places. A lone fastener is meant by whatever places are named.
func AppliesTo(r *schema.Record, s *schema.Step, i int) bool {
	if r == nil || s == nil || i < 0 || i >= len(r.Fasteners.Items) {
		return false
	}
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

// RunningTorque is the most (N·m) that the running torque of a locking thread
// adds to the figures, 0 where it is not known; included is false where they do
// not contain it.
func RunningTorque(r *schema.Record) (nm float64, included bool) {
	if r == nil {
		return 0, false
	}
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

// BandIn is the band of a record: widened where its figures include, or may
// include, the running torque of a locking thread.
func (j *Judged) BandIn(r *schema.Record) Band {
	if j == nil {
		return Band{}
	}
	if running, included := RunningTorque(r); included {
		return j.Band.WithPrevailing(running)
	}
	return j.Band
}

// Ends are the ends of a torque in N·m, as widely as its digits allow; ok is
// false where it says too little. An open end is taken as the limit printed.
func Ends(v *convert.Value) (lo, hi float64, ok bool) {
	if v == nil || !v.Read() || v.Quantity.Unit.Dimension() != convert.Torque {
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

// Side tells on which side of the usual band a torque lies, "high" or "low": its
// middle, as widely as its digits allow. It is "" within the band, and where the
// value says too little. Only a final torque can be low.
func (b Band) Side(v *convert.Value, role Role) string {
	lo, hi, ok := Ends(v)
	if !ok {
		return ""
	}
	switch v.Quantity.Form {
	case convert.Range, convert.Deviation:
		lo = (lo + hi) / 2
		hi = lo
	}
	switch {
	case lo > b.UsualHiNm:
		return "high"
	case role == Final && hi < b.UsualLoNm && v.Quantity.Form != convert.AtLeast:
		return "low"
	}
	return ""
}
