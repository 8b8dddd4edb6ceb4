package verify

import (
	"math"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
)

// size is how great the figures of a kind usually are in a workshop: a middle in
// the SI unit, and the factor within which two thirds of them lie. Judgement, no
// source; it only ranks what may have been meant.
type size struct{ middle, factor float64 }

var (
	clearances = size{0.00015, 6} // m
	bodies     = size{0.02, 5}
	fills      = size{0.004, 6} // m³
)

// sizes by what is measured.
var sizes = map[string]size{
	"clearance": clearances, "end float": clearances, "side float": clearances, "backlash": clearances, "play": clearances,
	"runout": clearances, "flatness": clearances, "taper": clearances, "out-of-round": clearances, "fit": clearances,
	"protrusion": clearances, "gap": {0.0005, 5},
	"diameter": bodies, "bore": bodies, "thickness": {0.003, 5}, "width": bodies, "height": bodies, "depth": bodies,
	"length": {0.05, 5}, "free length": {0.05, 3}, "travel": bodies, "stroke": bodies,
}

// sizesOf by the dimension, where what is measured says nothing.
var sizesOf = map[convert.Dimension]size{
	convert.Torque: {25, 5}, convert.Volume: fills, convert.Pressure: {5e5, 6}, convert.Force: {150, 5},
	convert.Length: {0.01, 8}, convert.RotationalSpeed: {150, 3}, convert.Resistance: {50, 20}, convert.Voltage: {12, 2},
	convert.Current: {10, 5}, convert.Flow: {3e-4, 5}, convert.Angle: {math.Pi / 2, 2}, convert.Time: {600, 6},
}

// usualSize is how usual the size of a figure is, 1 in the middle.
func usualSize(r *schema.Record, at schema.Path, q convert.Quantity) float64 {
	const middleTemperature, spanTemperature = 333, 50 // K
	if q.Unit.Dimension() == convert.Temperature {
		x := (q.Nominal() - middleTemperature) / spanTemperature
		return math.Exp(-x * x / 2)
	}
	s, ok := sizesOf[q.Unit.Dimension()]
	if x, known := sizeAt(r, at, q); known {
		s, ok = x, true
	}
	if first, _ := at.Step(0); first == "new" || first == "wear-limit" || first == "rows" {
		if x, known := sizes[r.Of]; known && q.Unit.Dimension() == convert.Length {
			s, ok = x, true
		}
	}
	nominal := q.Nominal()
	if q.Form == convert.Tolerance {
		_, nominal = q.Bounds() // ±2 N·m
	}
	if !ok || nominal <= 0 {
		return 0.5
	}
	const oddSize = 0.02 // a tank of 100 m³ is met too
	x := math.Log(nominal/s.middle) / math.Log(s.factor)
	return max(oddSize, math.Exp(-x*x/2))
}

// sizeAt is the size of a figure that goes by others of its record, or that has
// one of its own: a coefficient of friction, the length of thread engaged, a
// tolerance of a torque.
func sizeAt(r *schema.Record, at schema.Path, q convert.Quantity) (size, bool) {
	first, _ := at.Step(0)
	last, _ := at.Step(at.Len() - 1)
	switch first + " " + last {
	case "joint friction":
		return size{0.13, 1.5}, true
	case "joint engagement":
		ofDiameter := 1.5 // two and more in light alloys
		if strings.Contains(string(r.Joint.Into), "alumin") || r.Joint.Into == "magnesium" {
			ofDiameter = 2.2
		}
		for i := range r.Fasteners.Items {
			if t, problem := reference.ParseThread(r.Fasteners.Items[i].Thread); problem == nil && t.D > 0 {
				return size{ofDiameter * t.D / 1000, 1.4}, true
			}
		}
	case "tighten tolerance":
		const ofTorque = 0.1
		if _, k := at.Step(1); k < len(r.Tighten) && q.Unit.Dimension() == convert.Torque {
			if to, ok := r.Tighten[k].To.Quantity(); ok && to.Nominal() > 0 {
				return size{ofTorque * to.Nominal(), 2}, true
			}
		}
	}
	return size{}, false
}
