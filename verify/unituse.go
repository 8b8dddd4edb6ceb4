package verify

import (
	"snapgauge/convert"
	"snapgauge/schema"
)

// UnitUse counts the units that the records of a run are written in, so that a
// unit which stands nowhere else is suspected when a figure in it is wrong.
type UnitUse struct {
	units      map[convert.Unit]int
	dimensions map[convert.Dimension]int
	records    int
}

// mostCounted records are enough to know the habits of a book.
const mostCounted = 500

// Add counts the figures of a record.
func (u *UnitUse) Add(r *schema.Record) {
	if r == nil || u.records >= mostCounted {
		return
	}
	if u.units == nil {
		u.units, u.dimensions = map[convert.Unit]int{}, map[convert.Dimension]int{}
	}
	u.records++
	for _, f := range r.Figures() {
		for i := range f.Values {
			if v := &f.Values[i]; v.Read() {
				u.units[v.Quantity.Unit]++
				u.dimensions[v.Quantity.Unit.Dimension()]++
			}
		}
	}
}

// Of is how often a unit was met, and how often any of its dimension.
func (u *UnitUse) Of(unit convert.Unit) (n, all int) {
	return u.units[unit], u.dimensions[unit.Dimension()]
}
