package slip

import (
	"math"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
)

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

// wholeNumbers is the weight of a temperature or a speed with decimals: of 101
// that are printed none has them.
const wholeNumbers = 0.05

// columnDecimals is the least weight of decimals that are all zero: the column has
// them, whatever the unit. Judgement, no source.
const columnDecimals = 0.25

// oddPart is the weight of turns and flats that are no parts of twelve or of
// eight: of 29 counted all are.
const oddPart = 0.05

func inParts(d convert.Decimal) float64 {
	x := d.Float() * 24
	if math.Abs(x-math.Round(x)) > 0.1 {
		return oddPart
	}
	return 1
}

// printedLike is how usual it is to print a torque of this size, with or without
// decimals, in its unit.
func printedLike(q convert.Quantity) float64 {
	d := q.First
	if q.Form == convert.AtMost {
		d = q.Second
	}
	switch q.Unit.Dimension() {
	case convert.Temperature, convert.RotationalSpeed:
		if d.Exp < 0 {
			return wholeNumbers
		}
		return 1
	case convert.Angle:
		if s := q.Unit.Symbol(); s == "turn" || s == "flat" {
			return inParts(q.First) * inParts(q.Second) * inParts(q.Plus)
		}
		return 1
	}
	x := d.Float()
	for _, s := range torqueHabits[q.Unit.Symbol()] {
		if x < s.below {
			switch {
			case d.Exp == -1 && d.Mant%10 == 0: // 24.0, as in a column of decimals
				return s.size * max(s.decimals, columnDecimals)
			case d.Exp < 0:
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

// The weight of a figure in a unit that no other of its dimension in the record
// is given in, where there are such figures: of one printed in one unit, and of
// one in two. Counted: of 118 records with two such figures in one unit each, one
// mixes units.
const (
	otherUnit  = 0.05
	otherUnits = 0.3
)

// consistent is lower where a figure is given in other units than the rest of
// the record, the book, or the screws that it belongs to.
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
		switch {
		case !others || same:
		case len(vs) == 1:
			w *= otherUnit
		default:
			w *= otherUnits
		}
		w *= b.foreign(unit)
	}
	if len(vs) == 1 {
		w *= b.ofThread(path, vs[0].Quantity.Unit)
	}
	switch first, _ := path.Step(0); {
	case vs[0].Quantity.Form != convert.Range:
	case first == "fastener", first == "joint" && vs[0].Quantity.Unit.Dimension() == convert.Length, first == "select" && path.Len() > 2, first == "size":
		w *= singly
	}
	return w
}

// singly is the weight of a range where single figures are the rule: the length of
// a screw, a part that is selected, the size of a fit.
const singly = 0.05

// otherThread is the weight of a torque or a length in inches and pounds, and
// nothing else, for a metric thread, and of one in newtons, kilograms and
// millimetres for an inch thread. Counted: 4 of 310 torques of charts and manuals in one unit.
const otherThread = 0.03

// ofThread tells whether a unit is of the system of the threads of a record.
func (b *Bench) ofThread(path schema.Path, unit convert.Unit) float64 {
	switch first, _ := path.Step(0); first {
	case "tighten", "prevailing", "joint":
	default:
		return 1
	}
	metric, inch := b.threads()
	switch h := unitHabits[unit.Symbol()]; {
	case metric && !inch && h.system == inchUnits, inch && !metric && (h.system == siUnits || h.system == technical):
		return otherThread
	}
	return 1
}

// threads tells of which systems the threads of the record are.
func (b *Bench) threads() (metric, inch bool) {
	if b.systems == nil {
		b.systems = map[reference.Family]bool{}
		for i := range b.Record.Fasteners.Items {
			if t, problem := reference.ParseThread(b.Record.Fasteners.Items[i].Thread); problem == nil {
				b.systems[t.Family] = true
			}
		}
	}
	return b.systems[reference.Metric], b.systems[reference.Unified]
}

// Of a book that has so many figures of a dimension, one in a unit that is seldom
// met weighs less, down to foreignUnit.
const (
	leastMet    = 12
	foreignUnit = 0.03
)

// foreign is lower for a unit that the book seldom uses: its share of all, doubled,
// for most figures stand in two units or in one of two. The figure itself, as it
// stands, may have been counted.
func (b *Bench) foreign(unit convert.Unit) float64 {
	if b.Used == nil {
		return 1
	}
	n, all := b.Used(unit)
	if all < leastMet {
		return 1
	}
	return min(1, max(foreignUnit, 2*float64(n-1)/float64(all)))
}
