package sense

import (
	"fmt"
	"math"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// RowsAtOdds flags two rows of a table that say different figures for the same
// conditions.
var RowsAtOdds = &rule.Check{
	ID: "rows-at-odds", Layer: rule.Sense, Title: "two rows for the same conditions differ",
	Doc: doc("rows-at-odds.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		rows := p.Record.Rows
		spoken := map[int]bool{} // rows whose conditions have been spoken of
		for j := range rows {
			for i := range j {
				if spoken[i] || !sameConditions(p.Record, i, j) {
					continue
				}
				a, b, ok := pair(&rows[i].Figure, rowPath(i).Field("figure"), &rows[j].Figure, rowPath(j).Field("figure"))
				if !ok || !atOdds(a.quantity(), b.quantity()) {
					continue
				}
				spoken[i], spoken[j] = true, true // one finding for rows that are alike
				p.Report(rule.Finding{
					Verdict: rule.Query, At: b.number(), Read: b.text(),
					Message: fmt.Sprintf("%s and %s %s; which of them holds?", b.text(), a.text(), standsFor(&rows[j].At)),
					Related: append([]rule.Related{{At: a.number(), Message: fmt.Sprintf("%s stands here", a.text())}}, conditionsAt(p.Record, j)...),
				})
				break
			}
		}
	},
}

func rowPath(i int) schema.Path { return schema.At("rows", i) }

// sameConditions reports that two rows hold in the same conditions, as printed.
func sameConditions(r *schema.Record, i, j int) bool {
	a, b := &r.Rows[i].At, &r.Rows[j].At
	return strings.EqualFold(strings.TrimSpace(a.Selector), strings.TrimSpace(b.Selector)) &&
		sameCondition(&a.Speed, &b.Speed) && sameCondition(&a.Temperature, &b.Temperature)
}

func sameCondition(f, g *schema.Figure) bool {
	switch {
	case f.IsZero() || g.IsZero():
		return f.IsZero() && g.IsZero()
	case f.Word || g.Word:
		return f.Word && g.Word && strings.EqualFold(strings.TrimSpace(f.Text()), strings.TrimSpace(g.Text()))
	}
	a, b, ok := pair(f, schema.Path{}, g, schema.Path{})
	return ok && sameEnds(a.quantity(), b.quantity())
}

// sameEnds reports that both ends of two figures are the same: in one unit as
// printed, in two within what rounding may have moved them.
func sameEnds(q, r convert.Quantity) bool {
	lo, hi := q.Bounds()
	lo2, hi2 := r.Bounds()
	wide, wideHi := q.Widened()
	wide2, wideHi2 := r.Widened()
	same := func(x, y, half float64) bool {
		if math.IsInf(x, 0) || math.IsInf(y, 0) {
			return x == y
		}
		if q.Unit == r.Unit {
			half = 0
		}
		return math.Abs(x-y) <= half+1e-9*max(math.Abs(x), math.Abs(y))
	}
	return same(lo, lo2, lo-wide+lo2-wide2) && same(hi, hi2, wideHi-hi+wideHi2-hi2)
}

// atOdds reports that two figures of one dimension cannot both hold. A least and a
// greatest value, and a figure within the ends of another, go together.
func atOdds(q, r convert.Quantity) bool {
	if q.Form == convert.Tolerance || r.Form == convert.Tolerance {
		return false
	}
	lo, hi := q.Bounds()
	lo2, hi2 := r.Bounds()
	closed := !math.IsInf(lo, 0) && !math.IsInf(hi, 0) && !math.IsInf(lo2, 0) && !math.IsInf(hi2, 0)
	within := lo <= lo2 && hi2 <= hi || lo2 <= lo && hi <= hi2
	switch {
	case sameEnds(q, r):
		return false
	case closed && within:
		return lo < hi && lo2 < hi2 && q.Unit == r.Unit // two ranges of which one is wrong, or a nominal value in its range
	case q.Form != r.Form && (q.Form == convert.AtMost || r.Form == convert.AtMost || q.Form == convert.AtLeast || r.Form == convert.AtLeast):
		return hi < lo2 || hi2 < lo
	}
	return q.Unit == r.Unit || convert.Agree(q, r).Outcome == convert.Disagree
}

// standsFor words the conditions of a row.
func standsFor(c *schema.Conditions) string {
	var parts []string
	for _, text := range []string{c.Speed.Text(), c.Temperature.Text(), strings.TrimSpace(c.Selector)} {
		if text != "" {
			parts = append(parts, text)
		}
	}
	if parts == nil {
		return "stand in two rows without conditions"
	}
	return "both stand for " + strings.Join(parts, ", ")
}

// conditionsAt names the conditions of a row, one of which may be wrong.
func conditionsAt(r *schema.Record, i int) (out []rule.Related) {
	path := rowPath(i).Field("at")
	if s, ok := at(&r.Rows[i].At.Speed, path.Field("speed")); ok {
		out = append(out, rule.Related{At: s.number(), Message: "its speed"})
	}
	if t, ok := at(&r.Rows[i].At.Temperature, path.Field("temperature")); ok {
		out = append(out, rule.Related{At: t.number(), Message: "its temperature"})
	}
	return out
}
