package schema

import (
	"math"
	"slices"
	"strings"

	"snapgauge/convert"
)

// Sameness is how a figure of one edition stands to that of another.
type Sameness uint8

// How two figures may stand to each other.
const (
	// Same: the same values, however their units are spelt.
	Same Sameness = iota
	// Restated: the same quantity in other digits (8 N·m, 8.0 N·m), in another form
	// (9 ±1, 8 to 10) or in other units (71 lbf·in, 8.0 N·m) that agree within the
	// rounding of their digits.
	Restated
	// Moved: another quantity.
	Moved
	// Unclear: at least one of them could not be read, and the texts differ.
	Unclear
)

// SameFigure tells how a figure stands to what it was. Values in one unit decide by
// themselves, to the last digit; a value in a unit that the other figure does not have
// must agree with it as print rounds: to its own digits, by digits dropped, or a limit
// inwards (see [convert.Agree]). What only a habit such as steps of 5 explains has
// moved.
func SameFigure(was, now *Figure) Sameness {
	if was.Word || now.Word {
		if was.Word && now.Word && fold(was.Text()) == fold(now.Text()) {
			return Same
		}
		return Moved
	}
	if slices.Equal(was.Values, now.Values) {
		return Same
	}
	a, b := readValues(was), readValues(now)
	if len(a) == 0 || len(b) == 0 {
		if sameTexts(was, now) {
			return Same
		}
		return Unclear
	}
	how := Same
	if len(a) != len(b) || len(a) != len(was.Values) || len(b) != len(now.Values) {
		how = Restated
	}
	for i := range a {
		how = max(how, among(a[i], b))
	}
	for i := range b {
		how = max(how, among(b[i], a))
	}
	return how
}

func fold(s string) string { return strings.Join(strings.Fields(s), " ") }

func readValues(f *Figure) []*convert.Value {
	var out []*convert.Value
	for i := range f.Values {
		if f.Values[i].Read() {
			out = append(out, &f.Values[i])
		}
	}
	return out
}

func sameTexts(a, b *Figure) bool {
	if len(a.Values) != len(b.Values) {
		return false
	}
	for i := range a.Values {
		if fold(a.Values[i].Text) != fold(b.Values[i].Text) {
			return false
		}
	}
	return true
}

// among finds how a value stands to a figure: to its value in the same unit, else to
// all of them.
func among(v *convert.Value, list []*convert.Value) Sameness {
	for _, w := range list {
		if v.Quantity.Unit == w.Quantity.Unit {
			return inOneUnit(v, w)
		}
	}
	for _, w := range list {
		if v.Quantity.Unit.Dimension() != w.Quantity.Unit.Dimension() {
			return Moved
		}
		if !strictly(w.Quantity, v.Quantity) && !strictly(v.Quantity, w.Quantity) {
			return Moved
		}
	}
	return Restated
}

// strictly reports that b is a to its own digits, by no wider habit than dropping digits
// or rounding a limit inwards.
func strictly(a, b convert.Quantity) bool {
	got := convert.Agree(a, b)
	switch got.Outcome {
	case convert.Exact, convert.Truncated, convert.Inward:
		return true
	case convert.Rounded, convert.RoundedFromSecond:
		return got.Want.Form == b.Form && sameEnds(got.Want, b)
	}
	return false
}

func sameEnds(a, b convert.Quantity) bool {
	alo, ahi := a.Bounds()
	blo, bhi := b.Bounds()
	return near(alo, blo) && near(ahi, bhi) && near(a.Nominal(), b.Nominal())
}

func inOneUnit(v, w *convert.Value) Sameness {
	a, b := v.Quantity, w.Quantity
	how := Same
	if of, other := spellingOf(v), spellingOf(w); of != other {
		if of != "" && other != "" || of == "absolute" || other == "absolute" {
			return Moved
		}
		how = Restated
	}
	switch {
	case !sameEnds(a, b), (a.Form == convert.Tolerance) != (b.Form == convert.Tolerance):
		return Moved
	case a.String() != b.String():
		return Restated
	}
	return how
}

// near is equality but for the last steps of floating-point numbers.
func near(a, b float64) bool {
	if math.IsInf(a, 0) || math.IsInf(b, 0) {
		return a == b
	}
	return math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b))
}

// spellingOf is what the spelling of the unit says beside the unit.
func spellingOf(v *convert.Value) string {
	at := v.Quantity.UnitAt
	if at.Start < 0 || at.End > len(v.Text) || at.Start > at.End {
		return ""
	}
	return spelling(v.Text[at.Start:at.End], v.Quantity.Unit.Dimension())
}

// sameWornEnd reports wear limits that are the same but for their word: a limit without
// one is the end that the way of wear makes it, so that 0.30 mm is max 0.30 mm of a
// clearance.
func sameWornEnd(was *Figure, wasOf string, now *Figure, nowOf string) bool {
	a, b := wornEnd(was, wasOf), wornEnd(now, nowOf)
	return SameFigure(&a, &b) <= Restated
}

// wornEnd is a wear limit with its word.
func wornEnd(f *Figure, of string) Figure {
	_, wear, _ := MeasureOf(of)
	out := *f
	out.Values = slices.Clone(f.Values)
	for i := range out.Values {
		switch q := &out.Values[i].Quantity; {
		case !out.Values[i].Read() || q.Form != convert.Single:
		case wear == Grows:
			q.Form, q.First, q.Second = convert.AtMost, convert.Decimal{}, q.First
		case wear == Shrinks:
			q.Form = convert.AtLeast
		}
	}
	return out
}
