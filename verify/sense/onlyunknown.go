package sense

import (
	"fmt"
	"strconv"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// OnlyUnknown flags a step that is only for a fastener or a place that is not
// there.
var OnlyUnknown = &rule.Check{
	ID: "only-unknown", Layer: rule.Sense, Title: "a step for a fastener that is not there",
	Doc: doc("only-unknown.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		r := p.Record
		for i := range r.Tighten {
			for j, name := range r.Tighten[i].Only {
				if keyed(r, name) != nil {
					continue
				}
				f := rule.Finding{At: schema.Spot{Path: r.Tighten[i].OnlyAt(schema.At("tighten", i), j)}, Read: name}
				if n, err := strconv.Atoi(name); err == nil {
					if !placeUnknown(r, n) {
						continue
					}
					f.Verdict = rule.Query
					f.Message = fmt.Sprintf("only names place %d, and no fastener goes there", n)
				} else {
					f.Verdict = rule.Reject
					f.Message = fmt.Sprintf("only names %q, which is neither the key of a fastener nor a place", name)
					keys := keysOf(r)
					if f.Want = schema.Nearest(name, keys); f.Want != "" {
						f.Message += fmt.Sprintf("; did you mean %q?", f.Want)
					} else if len(keys) > 0 {
						f.Message += "; the keys are " + strings.Join(keys, ", ")
					}
				}
				p.Report(f)
			}
		}
	},
}

func keysOf(r *schema.Record) (keys []string) {
	for _, f := range r.Fasteners.Items {
		if f.Key != "" {
			keys = append(keys, f.Key)
		}
	}
	return keys
}

// placeUnknown reports that the places are known and this is none of them. Where
// nothing lists them, they are taken to be numbered from 1.
func placeUnknown(r *schema.Record, n int) bool {
	c, _ := crewOf(r, nil)
	layout := drawn(r)
	if len(c.places) > 0 || len(layout) > 0 {
		return !c.places[n] && !layout[n]
	}
	return c.counts != nil && (n < 1 || n > c.counts[0])
}
