package sense

import (
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
)

// shimRow is a row of a selection table in one unit, with the lesser end first. An
// open end is absent.
type shimRow struct {
	i            int
	from, to     spotted // as in the file
	hasFrom      bool
	hasTo        bool
	least, most  float64 // SI; of a row with one end both are that end
	lesser, more spotted // where they stand
}

// shimRows lists the rows of the selection table that have at least one end.
func shimRows(r *schema.Record) []shimRow {
	var rows []shimRow
	for i := range r.Select.Rows {
		path := schema.At("select", "rows", i)
		row := shimRow{i: i}
		row.from, row.hasFrom = at(&r.Select.Rows[i].From, path.Field("from"))
		row.to, row.hasTo = at(&r.Select.Rows[i].To, path.Field("to"))
		switch {
		case row.hasFrom && row.hasTo:
			row.lesser, row.more = row.from, row.to
		case row.hasFrom:
			row.lesser, row.more = row.from, row.from
		case row.hasTo:
			row.lesser, row.more = row.to, row.to
		default:
			continue
		}
		row.least, row.most = row.lesser.quantity().Nominal(), row.more.quantity().Nominal()
		if row.least > row.most {
			row.least, row.most = row.most, row.least
			row.lesser, row.more = row.more, row.lesser
		}
		rows = append(rows, row)
	}
	return rows
}

// shimSteps returns the rows from the least measured value up and the step to
// which the table is measured, in SI. ok is false where the rows are out of order
// or in several units, so that nothing can be said of what lies between them.
func shimSteps(r *schema.Record) (rows []shimRow, step float64, ok bool) {
	rows = shimRows(r)
	if len(rows) < 2 {
		return nil, 0, false
	}
	if up, order := shimDirection(rows); !order {
		return nil, 0, false
	} else if up < 0 {
		for i, j := 0, len(rows)-1; i < j; i, j = i+1, j-1 {
			rows[i], rows[j] = rows[j], rows[i]
		}
	}
	unit, places := rows[0].lesser.quantity().Unit, int32(math.MaxInt32)
	for _, row := range rows {
		for _, s := range []spotted{row.lesser, row.more} {
			q := s.quantity()
			if q.Unit != unit || q.Form != convert.Single || q.First.Den > 1 {
				return nil, 0, false
			}
			places = min(places, exponent(q.First))
		}
	}
	return rows, unit.ToSI(math.Pow10(int(places))), true
}

// exponent is that of the last digit that is not a trailing zero: tables are
// printed to more digits than they are measured to.
func exponent(d convert.Decimal) int32 {
	if d.Mant == 0 {
		return math.MaxInt32
	}
	for d.Mant%10 == 0 {
		d.Mant /= 10
		d.Exp++
	}
	return d.Exp
}

// shimDirection is 1 where the table rises, -1 where it falls; order is false
// where it does neither throughout.
func shimDirection(rows []shimRow) (up int, order bool) {
	for i := 1; i < len(rows); i++ {
		up += sign(1e3 * (rows[i].least - rows[i-1].least))
	}
	order = true
	up = sign(float64(up))
	for i := 1; i < len(rows); i++ {
		order = order && sign(1e3*(rows[i].least-rows[i-1].least)) == up
	}
	return up, order
}

// shimJoint is where two rows meet; width is below zero where they overlap.
type shimJoint struct {
	below, above shimRow
	width        float64
}

// shimJoints lists where the rows of the selection table meet, the width that is
// usual there, and the step to which the table is measured. A table of single
// values has no joints.
func shimJoints(r *schema.Record) (joints []shimJoint, usual, step float64) {
	rows, step, ok := shimSteps(r)
	if !ok {
		return nil, 0, 0
	}
	single := true
	for k := 1; k < len(rows); k++ {
		a, b := rows[k-1], rows[k]
		single = single && a.least == a.most && b.least == b.most
		if a.hasTo && b.hasFrom {
			joints = append(joints, shimJoint{a, b, b.least - a.most})
		}
	}
	if single {
		return nil, 0, 0
	}
	most := 0
	for _, j := range joints {
		n := 0
		for _, k := range joints {
			if math.Abs(j.width-k.width) < step/4 {
				n++
			}
		}
		if n > most && len(joints) > 1 {
			most, usual = n, j.width
		} else if n == most && math.Abs(j.width) < math.Abs(usual) {
			usual = j.width
		}
	}
	return joints, usual, step
}
