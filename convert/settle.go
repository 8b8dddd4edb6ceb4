package convert

import (
	"math"
	"slices"
)

// Value is one text of a figure and what it was read as.
type Value struct {
	Text     string
	Quantity Quantity
	Problem  *Problem
}

// Read reports that there is a quantity to work with: the text was clear, or
// another value of the figure settled its doubt, or its unit is cut short or of
// the wrong form and its reading was taken for comparing. In the last case the
// problem stands.
func (v *Value) Read() bool {
	return v.Problem == nil || v.Problem.Settled || v.assumed()
}

func (v *Value) assumed() bool {
	return (v.Problem.Kind == CutShort || v.Problem.Kind == WrongForm) && v.Quantity.Unit != 0
}

// open reports a doubt that another value can decide.
func (v *Value) open() bool {
	if v.Read() || len(v.Problem.Readings) == 0 {
		return false
	}
	switch v.Problem.Kind {
	case Ambiguous, CommaDoubt, CutShort, WrongForm, UnknownUnit:
		return true
	}
	return false
}

// Settle lets the values of one figure decide each other's doubts: 6.6 qt beside
// 6.2 L is US quarts, 50 Ib-ft beside 68 N·m pound-feet. The reading taken is the one that agrees with all values
// that are read; if several do, the one that agrees by a better habit of
// rounding. It sets Quantity and Problem.Settled.
//
// A unit that is cut short (lb as a torque) or wrong by its form (in/lb) is
// never settled. Where it has one reading, or one that agrees, that reading
// becomes the Quantity, so that the value can be compared.
//
// Where two readings agree by equally good habits, the one that is far closer is
// taken: 1 gal beside 3.8 L is a US gallon, though 3.8 L is one imperial gallon
// to the nearest gallon too.
//
// A comma that may mark thousands is not settled as a decimal mark beside a
// point that may do so as well (28,000 gal beside 105.992 L), nor are both kinds
// of mark within one figure: one of the two may be the slip.
func Settle(values []Value) {
	var open []int
	for i := range values {
		if values[i].open() {
			open = append(open, i)
		}
	}
	if len(open) == 0 {
		return
	}
	s := settling{values: values, open: open, pick: make([]int, len(open))}
	if len(values) > 1 {
		s.try(0)
	}
	for k, i := range open {
		v := &values[i]
		p := v.Problem
		switch {
		case s.found && !s.tied:
			v.Quantity = p.Readings[s.best[k]]
			if p.Kind != CutShort && p.Kind != WrongForm {
				p.Settled = true
				p.Message += "; read as " + quote(v.Quantity.String()) + ", which agrees with " + quote(s.other(i))
			}
		case (p.Kind == CutShort || p.Kind == WrongForm) && len(p.Readings) == 1:
			v.Quantity = p.Readings[0]
		}
		if other := s.other(i); s.refused && !s.found && other != "" {
			p.Message += "; no reading agrees with " + quote(other)
		}
	}
}

// settling tries every combination of the readings of the values in doubt.
// There are at most three values and a handful of readings each.
type settling struct {
	values []Value
	open   []int // indices of the values in doubt
	pick   []int // the reading tried for each

	found, tied bool
	refused     bool // some combination was compared, and disagreed
	best        []int
	score       Outcome
	apart       float64 // how far the values lie apart under the best, as |ln ratio|
}

func (s *settling) try(k int) {
	if k == len(s.open) {
		s.judge()
		return
	}
	for r := range s.values[s.open[k]].Problem.Readings {
		s.pick[k] = r
		s.try(k + 1)
	}
}

// judge keeps the combination if all values agree under it, by better habits
// than the best so far.
func (s *settling) judge() {
	worst, apart, compared := Exact, 0.0, false
	for i := range s.values {
		for j := i + 1; j < len(s.values); j++ {
			a, ok := s.quantity(i)
			b, ok2 := s.quantity(j)
			if !ok || !ok2 {
				continue
			}
			compared = true
			agreement := Agree(a, b)
			worst = max(worst, rank(agreement.Outcome))
			apart = max(apart, math.Abs(math.Log(agreement.Ratio)))
		}
	}
	s.refused = s.refused || compared && worst == Disagree
	if !compared || worst == Disagree || s.marksClash() {
		return
	}
	switch {
	case !s.found, worst < s.score, worst == s.score && apart < s.apart/farCloser:
		s.found, s.tied, s.score, s.best, s.apart = true, false, worst, slices.Clone(s.pick), apart
	case worst == s.score && apart <= s.apart*farCloser:
		s.tied = s.tied || !s.same()
	}
}

// A reading is far closer when it lies this many times nearer. US and imperial
// measures are 4 % (fluid ounce) to 20 % (gallon) apart, rounding to two digits
// moves a figure by half a per cent. common practice, no source
const farCloser = 4

// rank puts the habits that are certain at the head: whichever value is the
// original, it is rounded.
func rank(o Outcome) Outcome {
	if o <= RoundedFromSecond {
		return Exact
	}
	return o
}

// same reports that the combination reads as the best one does.
func (s *settling) same() bool {
	for k, i := range s.open {
		rs := s.values[i].Problem.Readings
		if rs[s.pick[k]] != rs[s.best[k]] {
			return false
		}
	}
	return true
}

// quantity is what value i is read as under the combination.
func (s *settling) quantity(i int) (Quantity, bool) {
	if k := slices.Index(s.open, i); k >= 0 {
		return s.values[i].Problem.Readings[s.pick[k]], true
	}
	return s.values[i].Quantity, s.values[i].Read()
}

// marksClash reports that a comma in doubt between thousands and decimals is
// taken for decimals beside a point that might mark thousands too, or for both
// within the figure.
func (s *settling) marksClash() bool {
	var decimal, grouped, doubtful bool
	for k, i := range s.open {
		p := s.values[i].Problem
		bit := uint8(1) << min(s.pick[k], 7)
		decimal = decimal || p.decimal&bit != 0
		grouped = grouped || p.grouped&bit != 0
		doubtful = doubtful || p.decimal&bit != 0 && p.grouped != 0
	}
	if decimal && grouped {
		return true
	}
	if !doubtful {
		return false
	}
	for i := range s.values {
		if (!slices.Contains(s.open, i) || s.values[i].Problem.decimal == 0) && groupsThousands(s.values[i].Text) {
			return true
		}
	}
	return false
}

// groupsThousands reports a number that a mark may divide into thousands: one
// to three digits, not zero alone, a point or comma, and three digits.
func groupsThousands(text string) bool {
	for i := range len(text) {
		if text[i] != '.' && text[i] != ',' {
			continue
		}
		before, after := i, i+1
		for before > 0 && isDigit(text[before-1]) {
			before--
		}
		for after < len(text) && isDigit(text[after]) {
			after++
		}
		if n := i - before; n >= 1 && n <= 3 && text[before] != '0' && after-i-1 == 3 {
			return true
		}
	}
	return false
}

// other is the text of the first value that value i was compared with.
func (s *settling) other(i int) string {
	for j := range s.values {
		if _, ok := s.quantity(j); j != i && ok {
			return s.values[j].Text
		}
	}
	return ""
}
