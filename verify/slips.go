package verify

import (
	"math"
	"slices"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// noSlip ends the message of a finding for which the search found nothing.
const noSlip = "; no single slip explains it"

// explainer looks for the slip behind each wrong figure of one record.
type explainer struct {
	r     *runner
	e     *schema.Entry
	bench *slip.Bench
	spoke map[schema.Path][]*rule.Check // the checks that speak of a figure, before merging
}

// explainable reports a finding that a slip may explain: a figure is queried or
// rejected, and it is the figure itself that is in doubt.
func explainable(c *rule.Check) bool {
	switch c.Layer {
	case rule.Units, rule.Sense, rule.Physics, rule.Cited:
		return !slices.Contains(otherwise, c.ID)
	}
	return false
}

// otherwise are checks that stand at a figure and doubt something else.
var otherwise = []string{"same-unit-twice", "angle-without-snug", "light-alloy-engagement", "tolerance-of-wrench", "unpublished-with-figure"}

// hear notes which checks speak of which figure.
func (r *runner) hear(e *schema.Entry, found []rule.Finding) *explainer {
	if e.Record == nil || !slices.ContainsFunc(found, func(f rule.Finding) bool { return f.Verdict >= rule.Query }) {
		return nil
	}
	x := &explainer{r: r, e: e, spoke: map[schema.Path][]*rule.Check{}}
	for _, f := range found {
		i := slices.IndexFunc(r.checks, func(c *rule.Check) bool { return c.ID == f.Check })
		if p, ok := figureAt(e.Record, f.At); ok && i >= 0 && f.Verdict >= rule.Query && explainable(r.checks[i]) {
			x.spoke[p] = append(x.spoke[p], r.checks[i])
		}
	}
	return x
}

// figureAt finds the figure that a spot is in.
func figureAt(r *schema.Record, at schema.Spot) (schema.Path, bool) {
	if at.Key {
		return schema.Path{}, false
	}
	for p := range r.Figures() {
		if p.Has(at.Path) {
			return p, true
		}
	}
	return schema.Path{}, false
}

// figureOf finds the figure at a path of a record.
func figureOf(r *schema.Record, at schema.Path) *schema.Figure {
	for p, f := range r.Figures() {
		if p == at {
			return f
		}
	}
	return nil
}

// explain fills in the slips of a finding.
func (x *explainer) explain(f *rule.Finding) {
	if x == nil || f.Verdict < rule.Query || len(f.Slips) > 0 {
		return
	}
	path, ok := figureAt(x.e.Record, f.At)
	if !ok || len(x.spoke[path]) == 0 {
		return
	}
	if x.bench == nil {
		decimal := ""
		if x.e.Head != nil {
			decimal = x.e.Head.Decimal
		}
		x.bench = slip.NewBench(x.e.Record, decimal)
	}
	paths := []schema.Path{path}
	for _, re := range f.Related {
		if p, ok := figureAt(x.e.Record, re.At); ok && re.Place == (rule.Place{}) && !slices.Contains(paths, p) {
			paths = append(paths, p)
		}
	}
	search := search{x, paths, x.spoke[path]}
	restored := x.bench.Undo(paths, search.plausible)
	for _, s := range restored {
		f.Slips = append(f.Slips, rule.Slip{Slip: s.Kind.Name, Reads: s.Reads, Because: s.Because})
	}
	// A unit of another quantity may be right, in the wrong place.
	if len(restored) == 0 && f.Check != "unit-dimension" {
		f.Message += noSlip
	}
}

// search is the search for one finding: the figure that it is about, those that
// it refers to, and the checks that speak of it.
type search struct {
	*explainer
	paths []schema.Path
	spoke []*rule.Check
}

// plausible weighs the record on the bench: the checks that spoke of the figure
// must be silent; a torque should be what its fastener takes, and any other
// figure near those that it was compared with.
func (s search) plausible(c *slip.Candidate) (share float64, because string) {
	e := *s.e
	e.Record = s.bench.Record
	speaks := false
	for _, check := range s.spoke {
		if check.Record == nil {
			continue
		}
		check.Record(rule.NewPass(check, &e, func(f rule.Finding) {
			speaks = speaks || f.Verdict >= rule.Query && (s.paths[0].Has(f.At.Path) || c.Path.Has(f.At.Path))
		}))
		if speaks {
			return 0, ""
		}
	}
	at := c.Path
	if s.bench.Figure(at) == nil {
		at = s.paths[0] // a thread or a class: the figure is judged anew
	}
	figure := s.bench.Figure(at)
	q, ok := figure.Quantity()
	if !ok {
		return 0, ""
	}
	held := physics.HeldAgainst(s.bench.Record, at)
	if len(held) == 0 {
		return unheld * s.near(at, q), ""
	}
	share = 1
	for _, h := range held {
		share = min(share, h.Plausible(q))
	}
	const likely = 0.1
	if share >= likely {
		because = held[0].Because()
		if at != c.Path {
			because = figure.Text() + " " + because
		}
	}
	return share, because
}

// unheld is the weight of a figure that nothing is known to be held against,
// beside that of a torque in the middle of its band.
const unheld = 0.5

// near is how near a figure lies to those of its dimension that the finding
// refers to: two that are compared are seldom a power of ten apart.
func (s search) near(at schema.Path, q convert.Quantity) float64 {
	best := math.Inf(1)
	const comparable = 4 // e-folds: a bore is not compared with its clearance
	was, hasWas := s.bench.Figure(at).Quantity()
	if f := figureOf(s.e.Record, at); f != nil {
		was, hasWas = f.Quantity()
	}
	for _, p := range s.paths {
		f := s.bench.Figure(p)
		if p == at || f == nil {
			continue
		}
		o, ok := f.Quantity()
		if !ok || o.Unit.Dimension() != q.Unit.Dimension() {
			continue
		}
		a, b := q.Nominal(), o.Nominal()
		far := math.Abs(math.Log(a / b))
		if q.Unit.Dimension() == convert.Temperature {
			far = math.Abs(a-b) / 40 // K
		}
		if q.Unit.Dimension() != convert.Temperature && hasWas && math.Abs(math.Log(was.Nominal()/b)) > comparable {
			continue
		}
		if !math.IsNaN(far) {
			best = min(best, far)
		}
	}
	if math.IsInf(best, 1) {
		return 1
	}
	return math.Exp(-best * best / 2)
}
