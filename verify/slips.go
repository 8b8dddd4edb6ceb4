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
	spoke map[schema.Path][]*rule.Check // the checks that speak of a place, before merging
	known map[saying]bool               // all that is said of the record, more than notes
}

// explainable reports a finding that a slip may explain: a figure is queried or
// rejected, and it is the figure itself that is in doubt.
func explainable(c *rule.Check) bool {
	switch c.Layer {
	case rule.Units, rule.Sense, rule.Physics, rule.Cited:
		return c.ID != "same-unit-twice"
	}
	return false
}

// otherwise are checks that stand at a figure and may doubt something else: the
// place of a figure, or what the record does not say.
var otherwise = []string{"unit-dimension", "angle-without-snug", "light-alloy-engagement", "tolerance-of-wrench", "unpublished-with-figure"}

// saying is a finding as far as it tells whether a candidate brings a new one.
type saying struct {
	check string
	path  schema.Path
}

// hear notes which checks speak of which figure.
func (r *runner) hear(e *schema.Entry, found []rule.Finding) *explainer {
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
	paths := figuresAt(x.e.Record, f.At)
	if len(paths) == 0 || len(x.spoke[paths[0]]) == 0 {
		return
	}
	if x.bench == nil {
		decimal := ""
		if x.e.Head != nil {
			decimal = x.e.Head.Decimal
		}
		x.bench = slip.NewBench(x.e.Record, decimal)
	}
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
		f.Slips = append(f.Slips, rule.Slip{Slip: s.Kind.Name, Reads: s.Reads, Because: s.Because})
	}
	// A unit of another quantity may be right, in the wrong place.
	if len(restored) == 0 && !slices.Contains(otherwise, f.Check) {
		f.Message += noSlip
	}
}

// search is the search for one finding: the figure that it is about, those that
// it refers to, and the checks that speak of it.
type search struct {
	*explainer
	at    schema.Path // of the finding
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
			speaks = speaks || f.Verdict >= rule.Query && (s.at.Has(f.At.Path) || f.At.Path.Has(s.at) || c.Touches(f.At.Path))
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

// stained is the weight of a candidate for which another check speaks up.
const stained = 0.03

// spotless runs all checks of records on the bench and weighs down a candidate
// that brings a new finding.
func (s search) spotless(c *slip.Candidate) float64 {
	e := *s.e
	e.Record = s.bench.Record
	for _, check := range s.r.checks {
		if check.Record == nil {
			continue
		}
		spots := false
		check.Record(rule.NewPass(check, &e, func(f rule.Finding) {
			spots = spots || f.Verdict >= rule.Query && !s.known[saying{f.Check, f.At.Path}]
		}))
		if spots {
			return stained
		}
	}
	return 1
}

// unheld is the weight of a figure that nothing is known to be held against,
// beside that of a torque in the middle of its band.
const unheld = 0.5

// near is how near a figure lies to the others of its kind in the record: two
// that are compared are seldom a power of ten apart. Where there are none, it is
// how usual the size is.
func (s search) near(at schema.Path, q convert.Quantity) float64 {
	best := math.Inf(1)
	for p, f := range s.bench.Record.Figures() {
		if p == at || !kin(p, at) {
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
		if !math.IsNaN(far) {
			best = min(best, far)
		}
	}
	if math.IsInf(best, 1) {
		return usualSize(s.bench.Record, at, q)
	}
	return math.Exp(-best * best / 2)
}

// kin reports figures of a record that are of one kind: those of new parts and
// the wear limit, levels, torques of the steps.
func kin(a, b schema.Path) bool {
	family := func(p schema.Path) string {
		first, _ := p.Step(0)
		last, _ := p.Step(p.Len() - 1)
		switch first + " " + last {
		case "new new", "wear-limit wear-limit":
			return "limits"
		case "level low", "level high":
			return "levels"
		case "amounts volume", "steps add", "level between-marks":
			return "amounts"
		}
		return first + " " + last
	}
	return family(a) == family(b)
}
