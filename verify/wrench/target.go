package wrench

import (
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
)

// target is the torque that a step asks for, at the fastener. Torques are in N·m.
type target struct {
	values   []aim
	own      bool    // the source gives a tolerance, or a range
	dragLow  float64 // the running torque to be added
	dragHigh float64
	drag     string  // as authored; "" where none is added
	adapter  float64 // mm; 0: none
	adapted  string  // as authored
}

// aim is one printed value of the torque.
type aim struct {
	unit    convert.Unit
	q       convert.Quantity
	nominal float64
	lo, hi  float64 // what the source allows; where it does not say, what its digits leave open
}

// targetOf reads a step; ok is false when it asks for no torque, or for one that
// is no setting: max 10 N·m.
func targetOf(r *schema.Record, step int) (t target, path schema.Path, ok bool) {
	if step < 0 || step >= len(r.Tighten) {
		return t, path, false
	}
	s := &r.Tighten[step]
	f, name := &s.To, "to"
	if f.IsZero() {
		f, name = &s.Check, "check"
	}
	path = schema.At("tighten", step, name)
	if f.Word {
		return t, path, false
	}
	for i := range f.Values {
		v := &f.Values[i]
		q := v.Quantity
		if !v.Read() || v.Problem != nil && !v.Problem.Settled || q.Unit.Dimension() != convert.Torque {
			continue
		}
		switch q.Form {
		case convert.Single, convert.Range, convert.Deviation:
		default:
			continue
		}
		a := aim{unit: q.Unit, q: q, nominal: q.Nominal()}
		if !(a.nominal > 0) || math.IsInf(a.nominal, 0) {
			continue
		}
		a.lo, a.hi = q.Bounds()
		if q.Form == convert.Single {
			a.lo, a.hi = q.Widened()
			if lo, hi, given := toleranceOf(&s.Tolerance, q); given {
				a.lo, a.hi, t.own = lo, hi, true
			}
		} else {
			t.own = true
		}
		t.values = append(t.values, a)
	}
	if len(t.values) == 0 {
		return t, path, false
	}
	if name == "to" { // a checked fastener does not turn
		t.addDrag(&r.Prevailing)
	}
	if q, ok := s.Adapter.Quantity(); ok && q.Form == convert.Single {
		t.adapter, t.adapted = millimetre.FromSI(q.Nominal()), s.Adapter.Text()
	}
	return t, path, true
}

// toleranceOf are the bounds of a single torque by the tolerance beside it.
func toleranceOf(f *schema.Figure, q convert.Quantity) (lo, hi float64, ok bool) {
	tol, ok := inUnit(f, q.Unit)
	if !ok || tol.Form != convert.Tolerance {
		return 0, 0, false
	}
	minus, plus := tol.Bounds()
	switch tol.Unit.Dimension() {
	case convert.Ratio:
		minus, plus = minus*q.Nominal(), plus*q.Nominal()
	case convert.Torque:
	default:
		return 0, 0, false
	}
	return q.Nominal() + minus, q.Nominal() + plus, true
}

// addDrag adds the running torque where the record says that the printed torque
// does not include it.
func (t *target) addDrag(p *schema.Prevailing) {
	q, ok := p.Torque.Quantity()
	if !ok || p.Included == nil || *p.Included {
		return
	}
	lo, hi := q.Bounds()
	switch q.Form {
	case convert.Single, convert.Range, convert.Deviation:
	case convert.AtMost:
		lo = 0
	default:
		return // nobody knows how much
	}
	if lo < 0 || math.IsInf(hi, 0) {
		return
	}
	t.dragLow, t.dragHigh, t.drag = lo, hi, p.Torque.Text()
}

// in is the printed value in a unit, else the first.
func (t *target) in(u convert.Unit) (a aim, printed bool) {
	for _, a := range t.values {
		if a.unit == u {
			return a, true
		}
	}
	return t.values[0], false
}
