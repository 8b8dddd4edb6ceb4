package wrench

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/joint"
)

// Setting is what to set a wrench to.
type Setting struct {
	Wrench *schema.Wrench
	Place  int          // of the wrench in the list of the head
	Unit   convert.Unit // of the scale to be set
	// Low and High are the setting in Unit, on a step of the scale. They are equal
	// unless a running torque is added that the source gives as a range or a limit:
	// then it is measured on the job, and the setting lies between.
	Low, High float64
	Text      string // the setting with its unit: "64 N·m", "48 to 54 N·m"
	Printed   bool   // the very figure that the source prints, in the unit that it prints
	Converted bool   // the source does not print the torque in this unit
	How       string // what it comes from where it is not printed: "45 N·m and a running torque of 3 to 9 N·m"
	Off       Off    // what the wrench may be off
}

// Miss is a wrench that will not do.
type Miss struct {
	Wrench *schema.Wrench
	Place  int
	Why    string  // "ends at 110 N·m"
	far    float64 // how far it is from doing, as a factor
}

// Choice is what the shop's wrenches can do for one step.
type Choice struct {
	At       schema.Path // of the torque in the record
	Settings []Setting   // the best first
	Misses   []Miss      // the nearest first
}

// Choose tells on which of the wrenches of a head a step of a record can be set. ok
// is false where nothing is asked: the head lists no wrench that can be read, or the
// step has no torque to be set (an angle, a wait, a limit such as max 10 N·m).
//
// Best is a wrench in whose unit the source prints the torque, then one that can be
// set to it exactly, then the one with the least range that holds it, then the one
// that stands first.
func Choose(h *schema.Head, r *schema.Record, step int) (c Choice, ok bool) {
	if h == nil || r == nil || len(h.Wrenches) == 0 {
		return c, false
	}
	t, at, ok := targetOf(r, step)
	if !ok {
		return c, false
	}
	c.At = at
	type ranked struct {
		Setting
		exact    bool
		greatest float64
	}
	var fit []ranked
	read := false
	for i := range h.Wrenches {
		w, ok := toolOf(&h.Wrenches[i], i)
		if !ok {
			continue
		}
		read = true
		var best *ranked
		var miss Miss
		for k := range w.scales {
			s, exact, m := t.on(&w, &w.scales[k])
			switch {
			case s == nil && (miss.Why == "" || m.far < miss.far):
				miss = m
			case s != nil && (best == nil || !s.Converted && best.Converted):
				best = &ranked{*s, exact, s.Unit.ToSI(w.scales[k].high)}
			}
		}
		if best == nil {
			miss.Wrench, miss.Place = w.Wrench, i
			c.Misses = append(c.Misses, miss)
			continue
		}
		fit = append(fit, *best)
	}
	if !read {
		return c, false
	}
	slices.SortStableFunc(fit, func(a, b ranked) int {
		return cmp.Or(first(!a.Converted, !b.Converted), first(a.exact, b.exact), cmp.Compare(a.greatest, b.greatest))
	})
	for _, f := range fit {
		c.Settings = append(c.Settings, f.Setting)
	}
	slices.SortStableFunc(c.Misses, func(a, b Miss) int { return cmp.Compare(a.far, b.far) })
	return c, true
}

// first orders what is true before what is not.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	default:
		return 1
	}
}

// on tries one scale of a wrench. The setting is nil when it will not do; exact
// tells that the scale has the very torque.
func (t *target) on(w *tool, s *scale) (set *Setting, exact bool, miss Miss) {
	a, printed := t.in(s.unit)
	lever := 1.0 // torque at the fastener over setting
	if t.adapter != 0 {
		if w.lengthMM == 0 {
			return nil, false, Miss{Why: "has no length in the list, which a setting with an adapter needs"}
		}
		var err error
		if lever, err = joint.AdapterTorque(1, w.lengthMM, t.adapter); err != nil {
			return nil, false, Miss{Why: fmt.Sprintf("is %s long, too short for an adapter of %s", w.Length.Text(), t.adapted)}
		}
	}
	set = &Setting{Wrench: w.Wrench, Place: w.place, Unit: s.unit, Off: w.off}
	exact = true
	for i, drag := range []float64{t.dragLow, t.dragHigh} {
		g, on, m := t.setting(w, s, a, drag, lever)
		if m.Why != "" {
			return nil, false, m
		}
		exact = exact && on
		if i == 0 {
			set.Low = g
		}
		set.High = g
	}
	set.Converted = !printed
	set.Printed = printed && exact && a.q.Form != convert.Range && t.drag == "" && t.adapter == 0
	set.Text = text(set, s, a)
	if !set.Printed {
		set.How = t.how(a, exact, w)
	}
	return set, exact, Miss{}
}

// setting is the number to set for one running torque; on tells that it is the
// very torque.
func (t *target) setting(w *tool, s *scale, a aim, drag, lever float64) (set float64, on bool, miss Miss) {
	at := func(nominal float64) float64 { return s.unit.FromSI(nominal+drag) / lever }
	want := at(a.nominal)
	shown := func(x float64) string { return number(x, 3) + " " + s.unit.Symbol() }
	switch {
	case want < s.low*(1-hair):
		m := Miss{Why: "begins at " + shown(s.low), far: s.low / want}
		if !s.whole && w.Usable.IsZero() {
			m.Why = fmt.Sprintf("is to be used from %s, a fifth of its %s", shown(s.low), shown(s.high))
		} else if !s.whole {
			m.Why = "is to be used from " + shown(s.low)
		}
		return 0, false, m
	case want > s.high*(1+hair):
		return 0, false, Miss{Why: "ends at " + shown(s.high), far: want / s.high}
	}
	lo, hi := a.lo, a.hi
	off := 0.0
	if t.own {
		off = w.off.Part * (1 - forgiven)
	} else {
		lo, hi = min(lo, a.nominal*(1-w.off.Part)), max(hi, a.nominal*(1+w.off.Part))
	}
	// The nominal torque first; where that stands at an end of what is allowed (9 +1/-0
	// N·m), the middle.
	aims := []float64{a.nominal, (a.lo + a.hi) / 2}
	for _, aimed := range aims {
		g := s.nearest(at(aimed))
		got := s.unit.ToSI(g) * lever
		if g >= s.low*(1-hair) && g <= s.high*(1+hair) &&
			got*(1-off) >= (lo+drag)*(1-hair) && got*(1+off) <= (hi+drag)*(1+hair) {
			return g, math.Abs(g-want) <= hair*want, Miss{}
		}
		if !t.own {
			break
		}
	}
	return 0, false, t.tooFar(w, s, aims, lo, hi, drag, lever)
}

// tooFar tells what keeps a wrench from meeting one of the torques that are aimed at:
// its steps, what it may be off, or only both together.
func (t *target) tooFar(w *tool, s *scale, aims []float64, lo, hi, drag, lever float64) Miss {
	at := func(torque float64) float64 { return s.unit.FromSI(torque+drag) / lever }
	shown := func(x float64) string { return number(x, 3) + " " + s.unit.Symbol() }
	off, unlisted := number(w.off.Part*100, 2)+" %", ""
	if strings.TrimSpace(w.Class) == "" {
		unlisted = " (its class is not listed; II A is taken)"
	}
	onScale := func(x float64) bool { return x >= s.low*(1-hair) && x <= s.high*(1+hair) }
	stepped, alone, set, most := false, false, 0.0, 0.0
	for _, aimed := range aims {
		g := s.nearest(at(aimed))
		got := s.unit.ToSI(g)*lever - drag
		if !stepped && got >= lo*(1-hair) && got <= hi*(1+hair) && onScale(g) {
			stepped, set = true, g
		}
		if !onScale(at(aimed)) {
			continue
		}
		most = at(aimed)
		spread := (aimed + drag) * w.off.Part * (1 - forgiven)
		alone = alone || aimed-spread >= lo*(1-hair) && aimed+spread <= hi*(1+hair)
	}
	switch {
	case !stepped:
		return Miss{Why: fmt.Sprintf("is set in steps of %s, of which none meets %s", shown(s.step), shown(at(aims[0]))), far: 1}
	case !alone:
		return Miss{Why: fmt.Sprintf("may be off by %s%s, which is %s at %s and more than the source allows",
			off, unlisted, shown(w.off.Part*most), shown(most)), far: 1}
	default:
		fine := func(from, to float64) string {
			return number(from, 5) + " to " + number(to, 5) + " " + s.unit.Symbol()
		}
		return Miss{Why: fmt.Sprintf("is set to %s at the nearest, by steps of %s, and may be off by %s%s there: %s, where %s are allowed",
			shown(set), shown(s.step), off, unlisted, fine(set*(1-w.off.Part), set*(1+w.off.Part)), fine(at(lo), at(hi))), far: 1}
	}
}

// hair is room for the last steps of floating-point numbers.
const hair = 1e-9

// forgiven is the part of what a wrench may be off that is left for the rounding of
// a printed tolerance.
const forgiven = 0.1

// nearest is the step of the scale that is nearest to a torque.
func (s *scale) nearest(x float64) float64 {
	if s.step <= 0 {
		return x
	}
	return math.Ceil(x/s.step-0.5-hair) * s.step // of two steps as near the lower
}

// text writes a setting.
func text(set *Setting, s *scale, a aim) string {
	if set.Printed && a.q.Form == convert.Single {
		return a.q.String()
	}
	write := func(x float64) string {
		if s.step > 0 {
			return strconv.FormatFloat(x, 'f', s.stepAt, 64)
		}
		return number(x, max(2, a.q.First.Digits()))
	}
	from, to := write(set.Low), write(set.High)
	if from == to {
		return from + " " + s.unit.Symbol()
	}
	return from + " to " + to + " " + s.unit.Symbol()
}

// number writes a number with so many significant digits, and no zeros behind its
// point.
func number(x float64, digits int) string {
	if x == 0 {
		return "0"
	}
	decimals := max(0, digits-1-int(math.Floor(math.Log10(math.Abs(x)))))
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// how tells what a setting comes from.
func (t *target) how(a aim, exact bool, w *tool) string {
	how := a.q.String()
	if a.q.Form == convert.Range || a.q.Form == convert.Deviation && !exact {
		how = "within " + how
	}
	if t.drag != "" {
		how += " and a running torque of " + t.drag
	}
	if t.adapter != 0 {
		how += fmt.Sprintf(", by an adapter of %s on a wrench of %s", t.adapted, w.Length.Text())
	}
	return how
}
