package slip

import (
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
)

// The shares of the ways in which two values of one figure come about: of the
// call-outs counted in data/error-frequencies.csv that agree, 770 have the first
// as the original, 88 the second; 46 were made with a short factor, 33 rounded
// coarsely.
const (
	firstIsOriginal  = 0.82
	secondIsOriginal = 0.09
	otherwiseRounded = 0.02 // by steps, truncated, inward
	looselyMade      = 0.01
)

// printedSo is how likely it is that two values are printed beside each other:
// one of them is the original, mostly a round number, and the other is it
// converted and rounded.
func printedSo(a, b convert.Quantity) float64 {
	var floor float64
	switch habit(convert.Agree(a, b).Outcome) {
	case 0:
		return 0
	case 1, 0.1:
		floor = otherwiseRounded
	default:
		floor = looselyMade
	}
	w := 0.0
	if roundsTo(a, b) {
		w += firstIsOriginal * roundness(a)
	}
	if roundsTo(b, a) {
		w += secondIsOriginal * roundness(b)
	}
	return max(w, floor*max(roundness(a), roundness(b)))
}

// roundsTo reports whether b is a converted and rounded to the last digit of b.
func roundsTo(a, b convert.Quantity) bool {
	if a.Form != b.Form {
		return false
	}
	lo, hi := a.Bounds()
	wlo, whi := b.Widened()
	const slack = 1e-9
	within := func(x, from, to float64) bool {
		return math.IsInf(x, 0) || x >= from-slack*math.Abs(from) && x <= to+slack*math.Abs(to)
	}
	return within(lo, wlo, whi) && within(hi, wlo, whi) &&
		(math.IsInf(lo, 0) || math.Abs(lo-boundsLo(b)) <= boundsLo(b)-wlo+slack*math.Abs(lo)) &&
		(math.IsInf(hi, 0) || math.Abs(hi-boundsHi(b)) <= whi-boundsHi(b)+slack*math.Abs(hi))
}

func boundsLo(q convert.Quantity) float64 { lo, _ := q.Bounds(); return lo }

func boundsHi(q convert.Quantity) float64 { _, hi := q.Bounds(); return hi }

// roundness is how likely a number is the original figure of a source: fewer
// digits, and a 5 at the end, are likelier. Judgement, after the call-outs: of
// the first values seven of ten have one digit or end in 0 or 5.
func roundness(q convert.Quantity) float64 {
	switch q.Form {
	case convert.Range:
		return roundNumber(q.First) * roundNumber(q.Second)
	case convert.AtMost:
		return roundNumber(q.Second)
	case convert.Tolerance:
		return roundNumber(q.Plus) * roundNumber(q.Minus)
	case convert.Deviation:
		return roundNumber(q.First) * roundNumber(q.Plus)
	}
	return roundNumber(q.First)
}

func roundNumber(d convert.Decimal) float64 {
	m := d.Mant
	if m < 0 {
		m = -m
	}
	if d.Den > 1 || m == 0 {
		return 0.5
	}
	for m%10 == 0 {
		m /= 10
	}
	five := m%5 == 0
	switch {
	case m < 10:
		return 1
	case m < 100 && five:
		return 0.8
	case m < 100:
		return 0.4
	case m < 1000 && five:
		return 0.3
	case m < 1000:
		return 0.1
	}
	return 0.04
}

// width is how usual the width of a range is: printed ranges seldom reach to
// twice their lower end, hardly ever to four times.
func width(q convert.Quantity) float64 {
	if q.Form == convert.Range && q.First.Cmp(q.Second) == 0 {
		return 0.05 // 30 to 30
	}
	if q.Form != convert.Range || q.Unit.Dimension() == convert.Temperature || q.First.Mant <= 0 {
		return 1
	}
	switch r := q.Second.Float() / q.First.Float(); {
	case r <= 2:
		return 1
	case r <= 4:
		return 0.4
	}
	return 0.05
}

// system is the system of units that a unit belongs to.
type system uint8

const (
	anySystem system = iota
	siUnits
	technical // kilogram-force
	inchUnits
	imperial
)

// How often a unit is met beside the others of its dimension, and its system.
// Judgement, after the call-outs: 326 times N·m, 282 lbf·ft, 57 lbf·in, 14
// kgf·m; 199 mm, 20 cm.
var unitHabits = map[string]struct {
	system system
	share  float64
}{
	"N·m": {siUnits, 1}, "lbf·ft": {inchUnits, 1}, "lbf·in": {inchUnits, 1}, "kgf·m": {technical, 0.2}, "kgf·cm": {technical, 0.1},
	"N·cm": {siUnits, 0.1}, "ozf·in": {inchUnits, 0.1},
	"mm": {siUnits, 1}, "in": {inchUnits, 1}, "cm": {siUnits, 0.1}, "m": {siUnits, 0.1}, "ft": {inchUnits, 0.1},
	"L": {siUnits, 1}, "mL": {siUnits, 0.3}, "US qt": {inchUnits, 0.7}, "US gal": {inchUnits, 0.4}, "US pt": {inchUnits, 0.15},
	"US fl oz": {inchUnits, 0.2}, "imp qt": {imperial, 0.2}, "imp gal": {imperial, 0.2}, "imp pt": {imperial, 0.2},
	"bar": {siUnits, 1}, "kPa": {siUnits, 0.7}, "MPa": {siUnits, 0.3}, "psi": {inchUnits, 1}, "kgf/cm²": {technical, 0.3},
	"N": {siUnits, 1}, "kN": {siUnits, 0.2}, "lbf": {inchUnits, 0.7}, "kgf": {technical, 0.3},
	"°C": {siUnits, 1}, "°F": {inchUnits, 1},
	"Ω": {anySystem, 1}, "kΩ": {anySystem, 0.6}, "mΩ": {anySystem, 0.05}, "MΩ": {anySystem, 0.1},
	"V": {anySystem, 1}, "mV": {anySystem, 0.2}, "A": {anySystem, 1}, "mA": {anySystem, 0.2},
	"°": {anySystem, 1}, "turn": {anySystem, 0.2},
	"min": {anySystem, 1}, "s": {anySystem, 0.5}, "h": {anySystem, 0.3},
}

// step is a stretch of sizes of a unit: how usual torques of that size are in it,
// and how many of them have decimals, against those that have none.
type step struct{ below, size, decimals float64 }

// Torques by unit: 340 call-outs of US government manuals and 1234 rows of
// published torque tables, rounded. A small torque is given in pound-inches and
// not in tenths of a pound-foot.
var torqueHabits = map[string][]step{
	"lbf·ft": {{3, 0.1, 0.3}, {10, 0.4, 0.25}, {30, 1, 0.15}, {math.Inf(1), 1, 0.02}},
	"lbf·in": {{3, 0.2, 0.3}, {10, 0.4, 0.2}, {1000, 1, 0.05}, {math.Inf(1), 0.5, 0.02}},
	"N·m":    {{1, 0.7, 1}, {10, 1, 1}, {30, 1, 0.5}, {100, 1, 0.3}, {math.Inf(1), 1, 0.03}},
	"kgf·m":  {{10, 1, 1}, {30, 0.7, 0.7}, {math.Inf(1), 0.2, 0.3}},
	"kgf·cm": {{10, 0.4, 0.5}, {500, 1, 0.1}, {math.Inf(1), 0.3, 0.05}},
}

// printedLike is how usual it is to print a torque of this size, with or without
// decimals, in its unit; 1 for anything else.
func printedLike(q convert.Quantity) float64 {
	d := q.First
	if q.Form == convert.AtMost {
		d = q.Second
	}
	x := d.Float()
	for _, s := range torqueHabits[q.Unit.Symbol()] {
		if x < s.below {
			if d.Exp < 0 {
				return s.size * s.decimals
			}
			return s.size
		}
	}
	return 1
}

// oneSystem is the share of figures that are printed in two units of one system.
const oneSystem = 0.05

// customary is how usual it is to print a figure in these units together: a
// metric one beside one of inches and pounds.
func customary(vs []convert.Value) float64 {
	w := 1.0
	for i := range vs {
		h, ok := unitHabits[vs[i].Quantity.Unit.Symbol()]
		if !ok {
			continue
		}
		w *= h.share * printedLike(vs[i].Quantity)
		for j := range i {
			if o, ok := unitHabits[vs[j].Quantity.Unit.Symbol()]; ok && o.system == h.system && h.system != anySystem {
				w *= oneSystem
			}
		}
	}
	return w
}

// otherUnit is the weight of a unit that no other figure of its dimension in the
// record is given in, where there are such figures.
const otherUnit = 0.3

// consistent is lower where a figure is given in other units than the rest of
// the record.
func (b *Bench) consistent(path schema.Path, vs []convert.Value) float64 {
	w := 1.0
	for i := range vs {
		unit := vs[i].Quantity.Unit
		others, same := false, false
		for _, s := range b.figures {
			if s.path == path {
				continue
			}
			for j := range s.figure.Values {
				o := s.figure.Values[j].Quantity.Unit
				if o == 0 || o.Dimension() != unit.Dimension() {
					continue
				}
				others, same = true, same || o == unit
			}
		}
		if others && !same {
			w *= otherUnit
		}
		w *= b.foreign(unit)
	}
	return w
}

// habit is how well two values of one figure agree: 1 by rounding, less by a
// looser habit, 0 when they do not.
func habit(o convert.Outcome) float64 {
	switch o {
	case convert.Exact, convert.Rounded, convert.RoundedFromSecond:
		return 1
	case convert.Truncated, convert.Inward:
		return 0.1
	case convert.Loose, convert.Coarse:
		return 0.05
	}
	return 0
}

// Of a book that has so many figures of a dimension, one in a unit that is met
// nowhere else, or once, has a weight of foreign.
const (
	leastMet    = 12
	foreignUnit = 0.1
)

// foreign is lower for a unit that the book hardly uses. The figure itself, as it
// stands, may have been counted.
func (b *Bench) foreign(unit convert.Unit) float64 {
	if b.Used == nil {
		return 1
	}
	if n, all := b.Used(unit); all >= leastMet && n <= 1 {
		return foreignUnit
	}
	return 1
}
