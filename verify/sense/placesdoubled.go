package sense

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// PlacesDoubled flags a place that is listed twice.
var PlacesDoubled = &rule.Check{
	ID: "places-doubled", Layer: rule.Sense, Title: "one place listed twice",
	Doc: doc("places-doubled.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		items := p.Record.Fasteners.Items
		for i := range items {
			path := p.Record.Fasteners.At(i).Field("places")
			for _, k := range doubled(items[i].Places) {
				p.Report(rule.Finding{
					Verdict: rule.Reject, At: schema.Spot{Path: path.Index(k)}, Read: fmt.Sprint(items[i].Places[k]),
					Message: fmt.Sprintf("place %d is listed twice", items[i].Places[k]),
				})
			}
			for j := range i {
				placesShared(p, j, i)
			}
		}
		for i := range p.Record.Tighten {
			order := p.Record.Tighten[i].Order
			again := doubled(order)
			if len(again) == 0 {
				continue
			}
			left := leftOut(p.Record, i)
			for _, k := range again {
				f := rule.Finding{
					Verdict: rule.Query, At: schema.Spot{Path: schema.At("tighten", i, "order", k)}, Read: fmt.Sprint(order[k]),
					Message: fmt.Sprintf("the order comes to place %d twice", order[k]),
				}
				if len(left) > 0 {
					f.Message += " and leaves out " + named(left)
				}
				if len(left) == 1 {
					f.Want = fmt.Sprint(left[0])
				}
				p.Report(f)
			}
		}
	},
}

// placesShared reports the first place that two fasteners of one type share. A
// stud and its nut may.
func placesShared(p *rule.Pass, i, j int) {
	a, b := &p.Record.Fasteners.Items[i], &p.Record.Fasteners.Items[j]
	if a.Type != b.Type || a.Type == "" {
		return
	}
	taken := setOf(a.Places)
	for k, n := range b.Places {
		if taken[n] {
			p.Report(rule.Finding{
				Verdict: rule.Query, At: schema.Spot{Path: p.Record.Fasteners.At(j).Field("places").Index(k)}, Read: fmt.Sprint(n),
				Message: fmt.Sprintf("place %d is given to two fasteners", n),
				Related: []rule.Related{{At: schema.Spot{Path: p.Record.Fasteners.At(i).Field("places")}, Message: "it is given here first"}},
			})
			return
		}
	}
}
