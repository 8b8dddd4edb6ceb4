package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// ShimOrder flags a row of a selection table that stands out of order.
var ShimOrder = &rule.Check{
	ID: "shim-order", Layer: rule.Sense, Title: "a row of a selection table is out of order",
	Doc: doc("shim-order.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		rows := shimRows(p.Record)
		up, order := shimDirection(rows)
		if order || len(rows) < 3 {
			return // two rows have no order to be out of
		}
		for k := 1; k < len(rows); k++ {
			a, b := rows[k-1], rows[k]
			step := sign(1e3 * (b.least - a.least))
			if step == up {
				continue
			}
			f := rule.Finding{
				Verdict: rule.Query, At: b.lesser.number(), Read: b.lesser.text(),
				Related: []rule.Related{{At: a.lesser.number(), Message: "the row before begins here"}},
			}
			if step == 0 {
				f.Message = fmt.Sprintf("two rows begin at %s", b.lesser.text())
			} else {
				f.Message = fmt.Sprintf("the row of %s stands behind that of %s; the rows are out of order", b.lesser.text(), a.lesser.text())
			}
			p.Report(f)
		}
	},
}
