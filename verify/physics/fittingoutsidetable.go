package physics

import (
	"fmt"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// FittingOutsideTable queries the torque of a plug, fitting, spark plug, set
// screw, clamp or lock nut that is far from everything printed for its thread.
var FittingOutsideTable = &rule.Check{
	ID: "fitting-outside-table", Layer: rule.Physics, Title: "torque far from what is printed for such a fitting",
	Doc: doc("fitting-outside-table.md"), Source: fittingSource(), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  fittingOutsideTable,
}

func fittingSource() reference.Citation {
	return reference.Citation{
		ID: "common-practice", Seen: reference.SeenOnce,
		Text: "torques printed for plugs, fittings, spark plugs, set screws, clamps and lock nuts, source beside each row (snapgauge reference)",
	}
}

func fittingOutsideTable(p *rule.Pass) {
	r := p.Record
	if r == nil || len(r.Tighten) == 0 || r.Joint.Into == "plastic" {
		return // the rows are of metal
	}
	var told schema.Path
	for i := range r.Fasteners.Items {
		f := &r.Fasteners.Items[i]
		if !hasTable(f.Type) {
			continue
		}
		table, ok := printedFor(f)
		if !ok {
			continue
		}
		low, high := table.lo/table.kind.below, table.hi*table.kind.above
		if running, included := joint.RunningTorque(r); included {
			high += running
		}
		for k := range r.Tighten {
			what := joint.RoleOf(r, i, k)
			path := schema.At("tighten", k, "to")
			if what == joint.Unjudged || r.Tighten[k].To.IsZero() || path == told {
				continue
			}
			n, side := outsideOf(&r.Tighten[k].To, low, high, what == joint.Final)
			if side == "" {
				continue
			}
			told = path
			v := &r.Tighten[k].To.Values[n]
			found := span(table.lo, table.hi, middleOf(v), v.Quantity.Unit)
			p.Report(rule.Finding{
				Verdict: rule.Query, At: rule.NumberAt(&r.Tighten[k].To, path, n), Read: v.Text, Want: span(low, high, middleOf(v), v.Quantity.Unit), Source: table.source,
				Message: fmt.Sprintf("%s is far too %s for a %s: %s is printed for such", v.Text, side, strings.TrimSpace(f.Type+" "+f.Thread), found),
				Related: []rule.Related{{At: schema.Spot{Path: r.Fasteners.At(i).Field("type")}, Message: "this type; printed: " + table.first}},
			})
		}
	}
}

// outsideOf finds the first value of a figure whose middle lies outside low to
// high (N·m), as widely as its digits allow.
func outsideOf(figure *schema.Figure, low, high float64, mayBeLow bool) (value int, side string) {
	for i := range figure.Values {
		v := &figure.Values[i]
		lo, hi, ok := joint.Ends(v)
		if !ok {
			continue
		}
		switch v.Quantity.Form {
		case convert.Range, convert.Deviation:
			lo = (lo + hi) / 2
			hi = lo
		}
		switch {
		case lo > high:
			return i, "high"
		case mayBeLow && hi < low && v.Quantity.Form != convert.AtLeast:
			return i, "low"
		}
	}
	return 0, ""
}
