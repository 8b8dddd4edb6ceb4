package verify

import (
	"slices"

	"snapgauge/schema"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// noSlip ends the message of a finding for which the search found nothing.
const noSlip = "; no single slip explains it"

// explainer looks for the slip behind each wrong figure of one record.
type explainer struct {
	r     *Records
	e     *schema.Entry
	bench *slip.Bench
	spoke map[schema.Path][]*rule.Check // the checks that speak of a place, before merging
	known map[saying]bool               // all that is said of the record, more than notes
}

// explainable reports a finding that a slip may explain: a figure is queried or
// rejected, and it is the figure itself that is in doubt.
func explainable(c *rule.Check) bool {
	switch c.Layer {
	case rule.Units, rule.Sense, rule.Physics, rule.Cited:
		return c.ID != "same-unit-twice" && c.ID != "wrench-missing" // a shop may lack the wrench
	}
	return false
}

// otherwise are checks that stand at a figure and may doubt something else: the
// place of a figure, or what the record does not say.
var otherwise = []string{"unit-dimension", "angle-without-snug", "light-alloy-engagement", "tolerance-of-wrench", "moved-since", "unpublished-with-figure"}

// saying is a finding as far as it tells whether a candidate brings a new one.
type saying struct {
	check string
	path  schema.Path
}

// hear notes which checks speak of which figure.
func (r *Records) hear(e *schema.Entry, found []rule.Finding) *explainer {
	if e.Record == nil || !slices.ContainsFunc(found, func(f rule.Finding) bool { return f.Verdict >= rule.Query }) {
		return nil
	}
	x := &explainer{r: r, e: e, spoke: map[schema.Path][]*rule.Check{}, known: map[saying]bool{}}
	for _, f := range found {
		if f.Verdict < rule.Query {
			continue
		}
		x.known[saying{f.Check, f.At.Path}] = true
		i := slices.IndexFunc(r.checks, func(c *rule.Check) bool { return c.ID == f.Check })
		if i < 0 || !explainable(r.checks[i]) {
			continue
		}
		for _, p := range figuresAt(e.Record, f.At) {
			x.spoke[p] = append(x.spoke[p], r.checks[i])
		}
	}
	return x
}

// figuresAt lists the figures that a spot is in, or that lie below it.
func figuresAt(r *schema.Record, at schema.Spot) []schema.Path {
	var out []schema.Path
	if at.Key || at.Path.Len() == 0 {
		return nil
	}
	for p := range r.Figures() {
		if p.Has(at.Path) || at.Path.Has(p) {
			out = append(out, p)
		}
	}
	return out
}

// explain fills in the slips of a finding.
func (x *explainer) explain(f *rule.Finding) {
	if x == nil || f.Verdict < rule.Query || len(f.Slips) > 0 {
		return
	}
	if x.explainText(f) {
		return
	}
	paths := figuresAt(x.e.Record, f.At)
	if len(paths) == 0 || len(x.spoke[paths[0]]) == 0 {
		return
	}
	x.lay()
	for _, re := range f.Related {
		if re.Place != (rule.Place{}) {
			continue
		}
		for _, p := range figuresAt(x.e.Record, re.At) {
			if !slices.Contains(paths, p) {
				paths = append(paths, p)
			}
		}
	}
	search := search{x, f.At.Path, paths, x.spoke[paths[0]]}
	restored := x.bench.Undo(paths, search.plausible, search.spotless)
	for _, s := range restored {
		f.Slips = append(f.Slips, rule.Slip{Slip: s.Kind.Name, Reads: s.Reads, Because: x.elsewhere(&s, paths[0]) + s.Because})
	}
	// A unit of another quantity may be right, in the wrong place.
	if len(restored) == 0 && !slices.Contains(otherwise, f.Check) {
		f.Message += noSlip
	}
}

// elsewhere says which figure is corrected where it is not the one that the
// finding is about, but one that it is held against.
func (x *explainer) elsewhere(s *slip.Restored, about schema.Path) string {
	if len(s.Edits) != 1 || s.Edits[0].Value < 0 || s.Path == about {
		return ""
	}
	return "in place of " + x.bench.Figure(s.Path).Values[s.Edits[0].Value].Text + " at " + s.Path.String() + "; "
}

// lay puts the record on the bench.
func (x *explainer) lay() {
	if x.bench != nil {
		return
	}
	decimal := ""
	if x.e.Head != nil {
		decimal = x.e.Head.Decimal
	}
	x.bench = slip.NewBench(x.e.Record, decimal)
	x.bench.Used, x.bench.Digits = x.r.units.Of, x.r.units.Digits
}

// explainText looks for the thread or class behind one that is in no table.
func (x *explainer) explainText(f *rule.Finding) bool {
	last := ""
	if n := f.At.Path.Len(); n > 1 {
		last, _ = f.At.Path.Step(n - 1)
	}
	if first, _ := f.At.Path.Step(0); first != "fastener" || last != "thread" && last != "class" {
		return false
	}
	i := slices.IndexFunc(x.r.checks, func(c *rule.Check) bool { return c.ID == f.Check })
	if i < 0 || x.r.checks[i].Record == nil {
		return false
	}
	x.lay()
	s := search{x, f.At.Path, nil, []*rule.Check{x.r.checks[i]}}
	for _, r := range x.bench.Texts(f.At.Path, s.plausibleText, s.spotless) {
		f.Slips = append(f.Slips, rule.Slip{Slip: r.Kind.Name, Reads: r.Reads, Because: r.Because})
	}
	return true
}
