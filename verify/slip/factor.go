package slip

import (
	"math"

	"snapgauge/convert"
)

// wrongFactor is a factor that the second value was made with, over the right
// one, and how likely it is among them.
type wrongFactor struct {
	name  string
	ratio float64
	share float64
}

const poundFoot = 1.3558179483314004 // N·m, SP 811 Appendix B

// wrongFactors lists the factors that a value in one unit is wrongly made into
// another with, or the same the wrong way round. 1.4 and 12 were counted in print
// once each; the others are given half as much.
func wrongFactors(from, to convert.Unit) []wrongFactor {
	a, b := from.Symbol(), to.Symbol()
	var out []wrongFactor
	both := func(name string, ratio, share float64) {
		out = append(out, wrongFactor{name, ratio, share}, wrongFactor{name, 1 / ratio, share})
	}
	switch from.Dimension() {
	case convert.Torque, convert.Force, convert.Pressure, convert.Volume:
		// 30 lbf·ft made 22 N·m: divided where one multiplies.
		if k := to.FromSI(from.ToSI(1)); from != to && from.Offset() == nil && to.Offset() == nil && math.Abs(math.Log(k)) > 0.05 {
			out = append(out, wrongFactor{"divided where one multiplies", 1 / (k * k), 0.15})
		}
	}
	switch from.Dimension() {
	case convert.Torque:
		if a == "lbf·ft" && b == "N·m" || a == "N·m" && b == "lbf·ft" {
			for _, f := range []struct {
				name  string
				value float64
				share float64
			}{{"1.4", 1.4, 0.3}, {"1.33", 1.33, 0.15}} {
				r := f.value / poundFoot
				if a == "N·m" {
					r = 1 / r
				}
				out = append(out, wrongFactor{"factor " + f.name + " for 1.356", r, f.share})
			}
		}
		if isPound(a) || isPound(b) {
			both("factor 12, pound-foot for pound-inch", 12, 0.15)
		}
	case convert.Volume:
		if isGallon(a) || isGallon(b) {
			both("US for imperial measure", 1.200949925504855, 0.25) // 4.54609/3.785411784
		}
	}
	return out
}

func isPound(s string) bool { return s == "lbf·ft" || s == "lbf·in" }

func isGallon(s string) bool {
	switch s {
	case "US qt", "US gal", "US pt", "imp qt", "imp gal", "imp pt":
		return true
	}
	return false
}

// made is q in another unit by a factor wrong by ratio, at digits like those of
// an honest conversion.
func made(q convert.Quantity, to convert.Unit, ratio float64) (convert.Quantity, bool) {
	good, err := q.To(to, false)
	if err != nil || q.Unit.Offset() != nil {
		return convert.Quantity{}, false
	}
	out := good.Quantity
	scale := func(d, like convert.Decimal) convert.Decimal {
		if d.Mant == 0 {
			return d
		}
		si := q.Unit.ToSI(d.Float()) * ratio
		return atStep(to.FromSI(si), like)
	}
	out.First, out.Second = scale(q.First, out.First), scale(q.Second, out.Second)
	if !q.Percent {
		out.Plus, out.Minus = scale(q.Plus, out.Plus), scale(q.Minus, out.Minus)
	}
	return out, true
}

// atStep rounds a number to the last digit of another, but keeps two digits.
func atStep(x float64, like convert.Decimal) convert.Decimal {
	exp := min(int(like.Exp), int(math.Floor(math.Log10(math.Abs(x))))-1)
	if exp > 0 {
		exp = 0
	}
	return convert.Decimal{Mant: int64(math.RoundToEven(x * math.Pow10(-exp))), Exp: int32(exp)}
}

// undoFactor looks whether a value was made from an earlier one with a wrong
// factor, and makes it with the right one.
func undoFactor(u *undoing) {
	q := u.v.Quantity
	if !u.v.Read() || q.Unit.Offset() != nil {
		return
	}
	for i := range u.i {
		first := &u.f.Values[i]
		switch {
		case first.Read():
			u.madeFrom(first.Quantity, q)
		case first.Problem.Kind == convert.Ambiguous: // a gallon of either country
			for _, x := range first.Problem.Readings {
				u.madeFrom(x, q)
			}
		}
	}
}

func (u *undoing) madeFrom(first, q convert.Quantity) {
	if first.Unit == q.Unit || first.Unit.Dimension() != q.Unit.Dimension() {
		return
	}
	for _, w := range wrongFactors(first.Unit, q.Unit) {
		if !madeBy(first, q, w.ratio) {
			continue
		}
		good, err := first.To(q.Unit, false)
		if err != nil {
			continue
		}
		n := len(u.out)
		u.add(good.Quantity.String(), w.share)
		if len(u.out) > n {
			u.out[n].because = w.name
		}
	}
}

// madeBy reports whether second is first converted with a factor wrong by
// ratio: its numbers are off by that to their digits, half a printed unit or a
// fiftieth of the difference to the right factor being left to rounding. A
// deviation was made with the factor of its value, and is rounded more freely.
func madeBy(first, second convert.Quantity, ratio float64) bool {
	if first.Form != second.Form || first.Percent != second.Percent {
		return false
	}
	by := func(a, b convert.Decimal, steps float64) bool {
		x, y := first.Unit.ToSI(a.Float()), second.Unit.ToSI(b.Float())/ratio
		lo, hi := convert.Quantity{First: b, Unit: second.Unit}.Widened()
		return math.Abs(x-y) <= steps*(hi-lo)/2/ratio+0.012*math.Abs(x)
	}
	// What a form has no use for is 0, which is 0 in every unit.
	switch {
	case second.First.Mant == 0 && second.Second.Mant == 0 && second.Plus.Mant == 0:
		return false
	case !by(first.First, second.First, 1), !by(first.Second, second.Second, 1):
		return false
	case first.Percent:
		return first.Plus.Cmp(second.Plus) == 0 && first.Minus.Cmp(second.Minus) == 0
	}
	return by(first.Plus, second.Plus, 2) && by(first.Minus, second.Minus, 2)
}

// undoWrongEnd makes both ends of a second value from the first anew where one
// end of it was made from the wrong end.
func undoWrongEnd(u *undoing) {
	q := u.v.Quantity
	if !u.v.Read() || q.Form != convert.Range {
		return
	}
	for i := range u.i {
		first := &u.f.Values[i]
		a := first.Quantity
		if !first.Read() || a.Form != convert.Range || a.Unit == q.Unit || a.Unit.Dimension() != q.Unit.Dimension() {
			continue
		}
		end := func(d convert.Decimal, of convert.Quantity) convert.Quantity {
			return convert.Quantity{First: d, Unit: of.Unit}
		}
		agrees := func(x, y convert.Decimal) bool {
			o := convert.Agree(end(x, a), end(y, q)).Outcome
			return o <= convert.RoundedFromSecond
		}
		lowFromHigh, highFromLow := agrees(a.Second, q.First), agrees(a.First, q.Second)
		if !lowFromHigh && !highFromLow {
			continue
		}
		// The end that is right stands as it was printed; both are made anew where
		// neither is, or both agree with the one.
		want := convert.Agree(a, q).Want
		switch low, high := agrees(a.First, q.First), agrees(a.Second, q.Second); {
		case low && !high:
			want.First = q.First
		case high && !low:
			want.Second = q.Second
		}
		u.add(want.String(), 1)
	}
}
