package verify

import (
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// likely is the plausibility from which a band is said to speak for a torque.
const likely = 0.1

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
	if s.speak(c) {
		return 0, ""
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

// spotless runs all checks of records on the bench. A candidate that brings a new
// query, or leaves one, is weighed down and stands behind all that bring none; one
// that brings a reject was not meant, and must not be offered: it may break what
// the figure spared.
func (s search) spotless(c *slip.Candidate) float64 {
	e := *s.e
	e.Record = s.bench.Record
	weight := 1.0
	for _, check := range s.r.checks {
		if check.Record == nil {
			continue
		}
		check.Record(rule.NewPass(check, &e, func(f rule.Finding) {
			switch {
			case s.known[saying{f.Check, f.At.Path}] && !c.Touches(f.At.Path):
			case f.Verdict == rule.Reject, f.Verdict == rule.Query && c.Edits[0].Value < 0 && c.Touches(f.At.Path):
				weight = 0 // and a thread or a class that is asked about is none
			case f.Verdict == rule.Query:
				weight = min(weight, stained)
			}
		}))
		if weight == 0 {
			return 0
		}
	}
	return weight
}

// unheld is the weight of a figure that nothing is known to be held against,
// beside that of a torque in the middle of its band.
const unheld = 0.5

// near is how near a figure lies to the others of its kind in the record: two
// that are compared are seldom a power of ten apart. Where there are none, it is
// how usual the size is.
func (s search) near(at schema.Path, q convert.Quantity) float64 {
	if _, known := sizeAt(s.bench.Record, at, q); known {
		return usualSize(s.bench.Record, at, q)
	}
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

// plausibleText weighs another thread or class: the check is silent, and the
// torques are what such a fastener takes.
func (s search) plausibleText(c *slip.Candidate) (share float64, because string) {
	if s.speak(c) {
		return 0, ""
	}
	share = 1
	for k := range s.bench.Record.Tighten {
		at := schema.At("tighten", k, "to")
		f := s.bench.Figure(at)
		if f == nil {
			continue
		}
		q, ok := f.Quantity()
		for _, h := range physics.HeldAgainst(s.bench.Record, at) {
			if !ok {
				break
			}
			x := h.Plausible(q)
			if share = min(share, x); x >= likely {
				because = f.Text() + " " + h.Because()
			}
		}
	}
	return share, because
}

// speak reports that a check that spoke speaks still.
func (s search) speak(c *slip.Candidate) bool {
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
			break
		}
	}
	return speaks
}
