package convert

import "math"

// deviations are Plus and Minus as numbers of Unit.
func (q Quantity) deviations() (plus, minus float64) {
	plus, minus = q.Plus.Float(), q.Minus.Float()
	if q.Percent {
		plus, minus = plus*abs(q.First.Float())/100, minus*abs(q.First.Float())/100
	}
	return plus, minus
}

// ends are the bounds in the figure's own unit.
func (q Quantity) ends() (lo, hi float64) {
	switch q.Form {
	case Range:
		lo, hi = q.First.Float(), q.Second.Float()
	case AtMost:
		return math.Inf(-1), q.Second.Float()
	case AtLeast:
		return q.First.Float(), math.Inf(1)
	case Deviation:
		plus, minus := q.deviations()
		lo, hi = q.First.Float()-minus, q.First.Float()+plus
	case Tolerance:
		lo, hi = -q.Minus.Float(), q.Plus.Float()
	default:
		lo = q.First.Float()
		hi = lo
	}
	return min(lo, hi), max(lo, hi)
}

// toSI converts ends; deviations alone have no zero point to be moved.
func (q Quantity) toSI(lo, hi float64) (float64, float64) {
	s := q.Unit.scale()
	if q.Form == Tolerance && !s.inverse {
		return lo * s.factor, hi * s.factor
	}
	lo, hi = q.Unit.ToSI(lo), q.Unit.ToSI(hi)
	return min(lo, hi), max(lo, hi)
}

// Bounds are the ends of the figure in the SI unit, as printed, lo <= hi also
// where a range is printed falling. A limit is open on its other side (an
// infinity); of a tolerance they are the deviations.
func (q Quantity) Bounds() (lo, hi float64) { return q.toSI(q.ends()) }

// Widened are the bounds widened by half a unit of the last printed digit: the
// most forgiving reading of what is printed.
func (q Quantity) Widened() (lo, hi float64) {
	lo, hi = q.ends()
	switch q.Form {
	case Range:
		below, above := q.First.step()/2, q.Second.step()/2
		if q.First.Cmp(q.Second) > 0 {
			below, above = above, below
		}
		lo, hi = lo-below, hi+above
	case AtMost:
		hi += q.Second.step() / 2
	case Deviation:
		below, above := q.Minus.step(), q.Plus.step()
		if q.Percent {
			f := abs(q.First.Float()) / 100
			below, above = below*f, above*f
		}
		lo, hi = lo-(q.First.step()+below)/2, hi+(q.First.step()+above)/2
	case Tolerance:
		lo, hi = lo-q.Minus.step()/2, hi+q.Plus.step()/2
	default:
		lo -= q.First.step() / 2
		hi += q.First.step() / 2
	}
	return q.toSI(lo, hi)
}

// Nominal is the value in the SI unit that stands for the figure: the number
// itself, the middle of a range, the number of a limit, 0 for a tolerance.
func (q Quantity) Nominal() float64 {
	switch q.Form {
	case Range:
		lo, hi := q.Bounds()
		return lo + (hi-lo)/2
	case AtMost:
		return q.Unit.ToSI(q.Second.Float())
	case Tolerance:
		return 0
	}
	return q.Unit.ToSI(q.First.Float())
}
