package verify

import (
	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/slip"
)

// UnitUse counts the units that the records of a file are written in, and how many
// digits their figures have, so that what stands nowhere else is suspected when a
// figure is wrong. A line of NDJSON stands alone: no habit is known for it.
type UnitUse struct {
	units      map[convert.Unit]int
	dimensions map[convert.Dimension]int
	digits     map[digitsOf]int
	figures    map[convert.Dimension]int
	records    int
}

type digitsOf struct {
	dimension convert.Dimension
	digits    int
}

// mostCounted records are enough to know the habits of a file.
const mostCounted = 500

// Add counts the figures of a record.
func (u *UnitUse) Add(r *schema.Record) {
	if r == nil || u.records >= mostCounted {
		return
	}
	if u.units == nil {
		u.units, u.dimensions = map[convert.Unit]int{}, map[convert.Dimension]int{}
		u.digits, u.figures = map[digitsOf]int{}, map[convert.Dimension]int{}
	}
	u.records++
	for _, f := range r.Figures() {
		for i := range f.Values {
			if v := &f.Values[i]; v.Read() {
				u.units[v.Quantity.Unit]++
				d := v.Quantity.Unit.Dimension()
				u.dimensions[d]++
				if n := slip.Digits(v.Quantity); i == 0 && n > 0 {
					u.digits[digitsOf{d, n}]++
					u.figures[d]++
				}
			}
		}
	}
}

// Of is how often a unit was met, and how often any of its dimension.
func (u *UnitUse) Of(unit convert.Unit) (n, all int) {
	return u.units[unit], u.dimensions[unit.Dimension()]
}

// Digits is how often a figure of a dimension was met whose first value has so
// many significant digits, and how many figures.
func (u *UnitUse) Digits(d convert.Dimension, n int) (k, all int) {
	return u.digits[digitsOf{d, n}], u.figures[d]
}
