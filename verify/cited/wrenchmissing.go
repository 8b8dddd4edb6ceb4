package cited

import (
	"fmt"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
	"snapgauge/verify/wrench"
)

// WrenchMissing flags a torque that none of the shop's wrenches can be set to.
var WrenchMissing = &rule.Check{
	ID: "wrench-missing", Layer: rule.Cited, Title: "a torque that no wrench of the shop can be set to",
	Doc: doc("wrench-missing.md"), Source: reference.Cite("iso-6789"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		if p.Record == nil {
			return
		}
		for i := range p.Record.Tighten {
			c, ok := wrench.Choose(p.Head, p.Record, i)
			if !ok || len(c.Settings) > 0 || len(c.Misses) == 0 {
				continue
			}
			step := &p.Record.Tighten[i]
			f := &step.To
			if f.IsZero() {
				f = &step.Check
			}
			v, k, ok := f.First()
			if !ok {
				continue
			}
			p.Report(rule.Finding{
				Verdict: rule.Query, At: rule.NumberAt(f, c.At, k), Read: v.Text,
				Message: fmt.Sprintf("no wrench of the shop can be set to %s%s: %s; list one that can", v.Text, added(p.Record, step), misses(c.Misses)),
			})
		}
	},
}

// added tells what changes the setting.
func added(r *schema.Record, s *schema.Step) string {
	text := ""
	if in := r.Prevailing.Included; in != nil && !*in && !s.To.IsZero() && !r.Prevailing.Torque.IsZero() {
		text += " and a running torque of " + r.Prevailing.Torque.Text()
	}
	if !s.Adapter.IsZero() {
		text += " with an adapter of " + s.Adapter.Text()
	}
	return text
}

// misses tells why the two nearest wrenches will not do.
func misses(list []wrench.Miss) string {
	var parts []string
	for _, m := range list[:min(2, len(list))] {
		parts = append(parts, m.Wrench.ID+" "+m.Why)
	}
	return strings.Join(parts, ", ")
}
