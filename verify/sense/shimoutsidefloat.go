package sense

import (
	"fmt"
	"math"
	"strconv"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// ShimOutsideFloat flags a row of a selection table whose part does not bring the
// float to what is wanted.
var ShimOutsideFloat = &rule.Check{
	ID: "shim-outside-float", Layer: rule.Sense, Title: "the part of a row does not give the wanted float",
	Doc: doc("shim-outside-float.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		want, ok := at(&p.Record.Select.Want, schema.At("select", "want"))
		rows := floatRows(p.Record, want, ok)
		if len(rows) == 0 {
			return
		}
		falling := rows[len(rows)-1].part < rows[0].part && rows[0].least < rows[len(rows)-1].least ||
			rows[len(rows)-1].part > rows[0].part && rows[0].least > rows[len(rows)-1].least
		if falling {
			// The more is measured, the thinner the part: of the sum only what
			// all rows have in common is known.
			if c, n := common(rows, sum); n >= enough(len(rows)) {
				reportRows(p, want, rows, sum, c)
			}
			return
		}
		fit := fitCount(rows, difference, 0)
		if fit*2 > len(rows) || len(rows) == 2 && fit == 1 || len(rows) == 1 {
			reportRows(p, want, rows, difference, 0)
			return
		}
		f := rule.Finding{
			Verdict: rule.Query, At: want.number(), Read: want.text(),
			Message: fmt.Sprintf("most rows do not leave %s: %s", want.text(), rows[0].leaves()),
			Related: []rule.Related{{At: rows[0].part0.number(), Message: "the first part is here"}},
		}
		if fit == 0 {
			f.Message = fmt.Sprintf("no row leaves %s: %s", want.text(), rows[0].leaves())
		}
		if c, n := common(rows, difference); n >= enough(len(rows)) {
			f.Message = fmt.Sprintf("all rows but %d leave a float that is off by %s from %s; is a measuring part of that size included?",
				len(rows)-n, rows[0].plain(math.Abs(c)), want.text())
			if n == len(rows) {
				f.Message = fmt.Sprintf("all rows leave a float that is off by %s from %s; is a measuring part of that size included?",
					rows[0].plain(math.Abs(c)), want.text())
			}
		}
		p.Report(f)
	},
}

// floatRow is a row whose part is a length, in SI.
type floatRow struct {
	shimRow
	part0    spotted
	part     float64
	lo, hi   float64 // wanted, widened by all that rounding may have moved
	decimals int
}

func floatRows(r *schema.Record, want spotted, ok bool) []floatRow {
	if !ok {
		return nil
	}
	var rows []floatRow
	wantLo, wantHi := want.quantity().Widened()
	for _, row := range shimRows(r) {
		part, ok := at(&r.Select.Rows[row.i].Part, schema.At("select", "rows", row.i, "part"))
		if !ok || !row.hasFrom || !row.hasTo || part.dimension() != convert.Length {
			continue
		}
		q := part.quantity()
		half := halfOf(q) + halfOf(row.lesser.quantity())
		rows = append(rows, floatRow{
			shimRow: row, part0: part, part: q.Nominal(),
			lo: wantLo - half - 1e-9, hi: wantHi + half + 1e-9, // 1e-9 m is far below any digit
			decimals: max(0, -int(q.First.Exp), -int(row.lesser.quantity().First.Exp)),
		})
	}
	return rows
}

func halfOf(q convert.Quantity) float64 {
	e, _ := high(q)
	return e.half
}

// A relation says between which constants a row leaves what is wanted.
type relation func(floatRow) (least, most float64)

// difference: float = measured − part + constant.
func difference(r floatRow) (least, most float64) {
	return r.lo - (r.least - r.part), r.hi - (r.most - r.part)
}

// sum: float = constant − measured − part.
func sum(r floatRow) (least, most float64) {
	return r.lo + r.most + r.part, r.hi + r.least + r.part
}

// fits reports that a constant lies within what a row allows. A row wider than
// the float wanted fits where its middle does.
func fits(r floatRow, rel relation, c float64) bool {
	least, most := rel(r)
	if least > most {
		least, most = (least+most)/2-1e-9, (least+most)/2+1e-9
	}
	return least <= c && c <= most
}

func fitCount(rows []floatRow, rel relation, c float64) (n int) {
	for _, r := range rows {
		if fits(r, rel, c) {
			n++
		}
	}
	return n
}

// common finds the constant that fits most rows.
func common(rows []floatRow, rel relation) (c float64, n int) {
	for _, r := range rows {
		least, most := rel(r)
		for _, x := range []float64{least, (least + most) / 2, most} {
			if k := fitCount(rows, rel, x); k > n {
				c, n = x, k
			}
		}
	}
	return c, n
}

// enough is how many of n rows must have a constant in common: two thirds, and
// three at least.
func enough(n int) int { return max(3, (2*n+2)/3) }

func reportRows(p *rule.Pass, want spotted, rows []floatRow, rel relation, c float64) {
	for _, r := range rows {
		if fits(r, rel, c) {
			continue
		}
		f := rule.Finding{
			Verdict: rule.Query, At: r.part0.number(), Read: r.part0.text(),
			Message: fmt.Sprintf("%s; %s is wanted", r.leaves(), want.text()),
			Related: []rule.Related{
				{At: r.lesser.number(), Message: "the row begins here"},
				{At: r.more.number(), Message: "the row ends here"},
				{At: want.number(), Message: "what is wanted stands here"},
			},
		}
		if c != 0 {
			f.Message = fmt.Sprintf("the part of %s does not go with the other rows, which leave %s", r.part0.text(), want.text())
		}
		p.Report(f)
	}
}

// leaves says what is left of the measured values when the part is in.
func (r floatRow) leaves() string {
	return fmt.Sprintf("%s to %s less a part of %s leaves %s to %s",
		r.lesser.text(), r.more.text(), r.part0.text(), r.plain(r.least-r.part), r.plain(r.most-r.part))
}

// plain prints a length in the unit of the part, zero and below too.
func (r floatRow) plain(si float64) string {
	u := r.part0.quantity().Unit
	return strconv.FormatFloat(u.FromSI(si)+0, 'f', r.decimals, 64) + " " + u.Symbol()
}
