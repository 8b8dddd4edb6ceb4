package physics

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// overOwn: charts for one class differ by friction and author; a figure that is
// within so much of the greatest of them may be one more of them.
const overOwn = 1.15

// OtherGradeTable queries a torque that is more than every general chart prints
// for the stated class, and is to its digits what one prints for a stronger
// class.
var OtherGradeTable = &rule.Check{
	ID: "other-grade-table", Layer: rule.Physics, Title: "chart torque of a stronger class than stated",
	Doc: doc("other-grade-table.md"), Source: reference.Cite("us-army-torque"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  otherGradeTable,
}

func otherGradeTable(p *rule.Pass) {
	if p.Record == nil || joint.IntoYield(p.Record) {
		return
	}
	if _, included := joint.RunningTorque(p.Record); included {
		return
	}
	var told schema.Path
	torques(p.Record, func(t torque) {
		if t.path == told || t.facts.MuLo > 0 {
			return // a chart has a friction of its own
		}
		stated, ok := strengthsOf(t.facts.Strengths)
		if !ok {
			return
		}
		rows := chartRows(t.facts.Thread)
		own := 0.0
		for i := range rows {
			if rows[i].speaksOf(t.facts.Strengths) {
				own = max(own, rows[i].nm)
			}
		}
		if own == 0 {
			return // no chart has the class: nothing to compare with
		}
		i, row := t.strongerRow(rows, stated, own*overOwn)
		if row == nil {
			return
		}
		told = t.path
		v := &t.figure.Values[i]
		most := beside(own, leastOf(v), v.Quantity.Unit).String()
		f := t.finding(p.Record, i, 0, 0)
		f.Verdict, f.Source, f.Want = rule.Query, row.source, "at most "+most
		f.Message = fmt.Sprintf("%s is what a general chart prints for class %s; for %s the charts end at %s; look at the class and the line of the table",
			v.Text, row.class, t.facts.Class.Text, most)
		p.Report(f)
	})
}

// strongerRow finds a value above a torque (N·m) that equals a row for a class
// stronger than stated.
func (t *torque) strongerRow(rows []chartRow, stated strengthSpan, above float64) (value int, found *chartRow) {
	for i := range t.figure.Values {
		v := &t.figure.Values[i]
		lo, _, ok := joint.Ends(v)
		if !ok || v.Quantity.Form != convert.Single || lo <= above {
			continue
		}
		for k := range rows {
			if rows[k].strength.lo <= stated.hi {
				continue
			}
			for _, q := range rows[k].values {
				if q.Unit == v.Quantity.Unit && q.First.Cmp(v.Quantity.First) == 0 {
					return i, &rows[k]
				}
			}
		}
	}
	return 0, nil
}
