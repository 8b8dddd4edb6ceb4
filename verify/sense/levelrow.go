package sense

import (
	"cmp"
	"math"
	"slices"

	"snapgauge/schema"
)

// levelRow is a point of a level table that has a temperature.
type levelRow struct {
	i  int     // number of the point in the file
	at spotted // its temperature
	t  float64 // in K
}

// levelRows lists the points in the order of the file.
func levelRows(r *schema.Record) []levelRow {
	var rows []levelRow
	for i := range r.Level.Points {
		s, ok := at(&r.Level.Points[i].At, schema.At("level", "points", i, "at"))
		if !ok {
			continue
		}
		if t := s.quantity().Nominal(); !math.IsInf(t, 0) && !math.IsNaN(t) {
			rows = append(rows, levelRow{i, s, t})
		}
	}
	return rows
}

// byTemperature is the rows with the coldest first.
func byTemperature(rows []levelRow) []levelRow {
	rows = slices.Clone(rows)
	slices.SortStableFunc(rows, func(a, b levelRow) int { return cmp.Compare(a.t, b.t) })
	return rows
}

// side is the low or the high figure of a point, and its path.
type side string

const (
	lowSide  side = "low"
	highSide side = "high"
)

func (s side) of(r *schema.Record, i int) (*schema.Figure, schema.Path) {
	pt := &r.Level.Points[i]
	f := &pt.Low
	if s == highSide {
		f = &pt.High
	}
	return f, schema.At("level", "points", i, string(s))
}

// pairOf picks the values of one side of two points that are best compared.
func (s side) pairOf(r *schema.Record, i, j int) (a, b spotted, ok bool) {
	f, fp := s.of(r, i)
	g, gp := s.of(r, j)
	return pair(f, fp, g, gp)
}
