package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// widestRanges are how many times the lower end of a range the upper end may be, by
// measure. In the print of the corpus no clearance goes beyond 5.4, and no diameter
// beyond 1.05; a decimal point that is moved makes it ten times as much.
var widestRanges = map[string]float64{
	"clearance": 12, "end float": 12, "side float": 12, "backlash": 12, "play": 12, "gap": 12,
	"diameter": 2, "bore": 2,
}

// widestTorque is the same of the torque of a fastener. In the tables of the tests none goes
// beyond 2.2.
const widestTorque = 6

// RangeTooWide queries a range of which one end is far from the other.
var RangeTooWide = &rule.Check{
	ID: "range-too-wide", Layer: rule.Sense, Title: "a range that is too wide",
	Doc: doc("range-too-wide.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		told := map[schema.Path]bool{}
		for s, q := range values(p) {
			most := widest(p.Record, s.path)
			lo, hi := q.Bounds()
			if told[s.path] || most == 0 || q.Form != convert.Range || !q.Ordered() || lo <= 0 || hi < most*lo {
				continue
			}
			told[s.path] = true // the other values were made from this one
			want := q
			want.Second.Exp--
			f := rule.Finding{Verdict: rule.Query, At: s.number(), Read: s.text()}
			f.Message = fmt.Sprintf("the upper end of %s is %.0f times the lower; look for a point or digit", s.text(), hi/lo)
			if want.Ordered() {
				f.Want = want.String()
				f.Message += fmt.Sprintf(", %s would be usual", want)
			}
			p.Report(f)
		}
	},
}

// widest is how many times the lower end the upper end of a figure may be; 0 where
// anything goes.
func widest(r *schema.Record, path schema.Path) float64 {
	first, _ := path.Step(0)
	last, _ := path.Step(path.Len() - 1)
	switch first {
	case "new":
		return widestRanges[r.Of]
	case "tighten":
		if last == "to" && len(r.Fasteners.Items) > 0 {
			return widestTorque
		}
	}
	return 0
}
