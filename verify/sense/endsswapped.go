package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// EndsSwapped flags a range that runs from the greater end to the lesser.
var EndsSwapped = &rule.Check{
	ID: "ends-swapped", Layer: rule.Sense, Title: "a range that runs backwards",
	Doc: doc("ends-swapped.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for s, q := range values(p) {
			// Below zero a range is often printed by magnitude, and deviations
			// with the upper one first.
			if q.Form == convert.Range && !q.Ordered() && q.Second.Mant >= 0 {
				p.Report(swapped(s, q))
			}
		}
		rowsSwapped(p)
	},
}

func swapped(s spotted, q convert.Quantity) rule.Finding {
	verdict := rule.Query // a resistance may be printed in the order of its temperatures
	if convert.Of(convert.Torque, convert.Volume, convert.Length, convert.Angle, convert.Force, convert.Mass).Has(q.Unit.Dimension()) {
		verdict = rule.Reject
	}
	want := q
	want.First, want.Second = q.Second, q.First
	f := rule.Finding{
		Verdict: verdict, At: s.number(), Read: s.text(), Want: want.String(),
		Message: fmt.Sprintf("%s runs backwards; write %s, or mend the end that is wrong", s.text(), want),
	}
	if q.Second.Mant > 0 && 3*q.Second.Float() < q.First.Float() {
		dev := convert.Quantity{Form: convert.Deviation, First: q.First, Plus: q.Second, Minus: q.Second, Unit: q.Unit}
		f.Verdict, f.Want = rule.Query, dev.String()
		f.Message = fmt.Sprintf("%s runs backwards; a ± may have been lost: %s", s.text(), dev)
	}
	return f
}

// rowsSwapped looks at the rows of a selection table. A table that falls
// throughout is printed from the greatest value down.
func rowsSwapped(p *rule.Pass) {
	rows := p.Record.Select.Rows
	var falling []rule.Finding
	rising := 0
	for i := range rows {
		path := schema.At("select", "rows", i)
		from, to, ok := pair(&rows[i].From, path.Field("from"), &rows[i].To, path.Field("to"))
		if !ok {
			continue
		}
		a, okA := low(from.quantity())
		b, okB := high(to.quantity())
		switch {
		case !okA || !okB:
		case b.below(a):
			falling = append(falling, rule.Finding{
				Verdict: rule.Reject, At: to.number(), Read: to.text(),
				Message: fmt.Sprintf("the row runs backwards, from %s to %s", from.text(), to.text()),
				Related: []rule.Related{{At: from.number(), Message: "the row begins here"}},
			})
		case a.below(b):
			rising++
		}
	}
	if rising <= len(falling) {
		return
	}
	for _, f := range falling {
		p.Report(f)
	}
}
