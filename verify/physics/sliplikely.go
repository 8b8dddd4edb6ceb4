package physics

import (
	"fmt"
	"math"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// SlipLikely queries a torque that is usual but near the edge of its band, where
// one slip of copying leads from one far more usual to it.
var SlipLikely = &rule.Check{
	ID: "slip-likely", Layer: rule.Physics, Title: "a torque that one slip makes far more usual",
	Doc: doc("slip-likely.md"), Source: slipSource(), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  slipLikely,
}

func slipSource() reference.Citation {
	c := reference.Cite("vdi-2230")
	c.Text += "; slips counted in call-outs of US government manuals"
	return c
}

const (
	// middle nine tenths of the band: a torque within them is not looked at.
	edge = 0.05
	// moreUsual is how many times more plausible the torque must become.
	moreUsual = 4
	// far is the least factor by which the slip must have changed it: charts for
	// spared heads lie at the edge, and foot-pounds beside N·m are no distance.
	far = 1.7
	// widest is the greatest ratio of the ends of what is offered.
	widest = 4
)

// telling are the slips that are looked for: they change a torque so much that
// few figures have another of them beside it. A digit lost or mistyped leads to
// almost any figure.
var telling = map[string]bool{"unit-swapped": true, "point-moved": true, "digits-transposed": true}

func slipLikely(p *rule.Pass) {
	var told schema.Path
	var bench *slip.Bench
	torques(p.Record, func(t torque) {
		if t.role != joint.Final || t.path == told || len(t.figure.Values) != 1 || t.figure.Misprint {
			return
		}
		v := &t.figure.Values[0]
		if _, _, ok := joint.Ends(v); !ok || v.Problem != nil {
			return
		}
		switch v.Quantity.Form {
		case convert.Single, convert.Range, convert.Deviation:
		default:
			return
		}
		h := Held{t.screw(), t.band.UsualLoNm, t.band.UsualHiNm, t.band.CeilingNm, true, true}
		x := h.Place(v.Quantity)
		if math.IsNaN(x) || x < 0 || x > 1 || edge <= x && x <= 1-edge {
			return
		}
		if bench == nil {
			decimal := ""
			if p.Head != nil {
				decimal = p.Head.Decimal
			}
			bench = slip.NewBench(p.Record, decimal)
		}
		now := h.Plausible(v.Quantity)
		found := bench.Undo([]schema.Path{t.path}, func(c *slip.Candidate) (float64, string) {
			if !telling[c.Kind.ID] {
				return 0, ""
			}
			q, ok := bench.Figure(t.path).Quantity()
			if !ok {
				return 0, ""
			}
			if r := q.Nominal() / v.Quantity.Nominal(); 1/far < r && r < far {
				return 0, ""
			}
			if lo, hi := q.Bounds(); hi > widest*lo {
				return 0, ""
			}
			if share := h.Plausible(q); share >= moreUsual*now {
				return share, h.Because()
			}
			return 0, ""
		}, nil)
		if len(found) == 0 {
			return
		}
		told = t.path
		side := "low"
		if x > 0.5 {
			side = "high"
		}
		best := found[0]
		f := t.finding(p.Record, 0, 0, 0)
		f.Verdict, f.Source, f.Want = rule.Query, slipSource(), best.Reads
		f.Message = fmt.Sprintf("%s is about as %s as a %s usually takes; %s would be in the middle of the usual (%s)",
			v.Text, side, t.screw(), best.Reads, best.Kind.Name)
		for _, r := range found {
			f.Slips = append(f.Slips, rule.Slip{Slip: r.Kind.Name, Reads: r.Reads, Because: r.Because})
		}
		p.Report(f)
	})
}
