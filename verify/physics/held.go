package physics

import (
	"fmt"
	"math"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/joint"
)

// Held is what a torque of a record is held against: the usual band of its
// screw, stud or nut, or what is printed for its fitting.
type Held struct {
	What       string // "screw M6x1 of class 8.8"
	LoNm, HiNm float64
	MostNm     float64 // above it the screw breaks or the thread strips; HiNm for a fitting
	Final      bool    // the torque that the joint is left with: it may also be too low
	Screw      bool    // a band worked out, no table
}

// HeldAgainst lists what the figure at a path (tighten/0/to) is held against, by
// fastener; nothing where the record leaves that open.
func HeldAgainst(r *schema.Record, path schema.Path) []Held {
	var out []Held
	if first, _ := path.Step(0); path.Len() < 3 || first != "tighten" {
		return nil
	}
	torques(r, func(t torque) {
		if t.path != path {
			return
		}
		h := Held{t.screw(), t.band.UsualLoNm, t.band.UsualHiNm, t.band.CeilingNm, t.role == joint.Final, true}
		if t.known.Strips && t.known.Stripping.TorqueNm.Most < h.MostNm {
			h.MostNm = t.known.Stripping.TorqueNm.Most
			h.HiNm = min(h.HiNm, max(t.known.Stripping.TorqueNm.Middling, h.LoNm*1.5))
		}
		out = append(out, h)
	})
	_, k := path.Step(1)
	if field, _ := path.Step(2); field != "to" || k >= len(r.Tighten) || r.Joint.Into == "plastic" {
		return out
	}
	for i := range r.Fasteners.Items {
		f := &r.Fasteners.Items[i]
		if !hasTable(f.Type) {
			continue
		}
		what := joint.RoleOf(r, i, k)
		if table, ok := printedFor(f); ok && what != joint.Unjudged {
			low, high := table.lo/table.kind.below, table.hi*table.kind.above
			out = append(out, Held{strings.TrimSpace(f.Type + " " + f.Thread), low, high, high, what == joint.Final, false})
		}
	}
	return out
}

// Place is where a torque lies within the band, on a scale of logarithms: 0 at
// the least usual, 1 at the most. It is NaN where there is no torque to place.
func (h Held) Place(q convert.Quantity) float64 {
	if q.Unit.Dimension() != convert.Torque || h.LoNm <= 0 || h.HiNm <= h.LoNm {
		return math.NaN()
	}
	nm := q.Nominal()
	if nm <= 0 {
		return math.Inf(-1)
	}
	return math.Log(nm/h.LoNm) / math.Log(h.HiNm/h.LoNm)
}

// Torques that are printed lie about the middle of their band: of the published
// tables half lie within a fifth of it on either side.
const spread = 0.25

// Plausible is how plausible a torque is, 1 in the middle of the band, falling
// as a normal distribution on the scale of [Held.Place], next to nothing where
// the screw breaks. A step on the way may be as low as it likes.
func (h Held) Plausible(q convert.Quantity) float64 {
	x := h.Place(q)
	switch {
	case math.IsNaN(x):
		return 0
	case q.Nominal() > h.MostNm:
		return 1e-9
	case !h.Final && x < 0.5:
		x = 0.5
	}
	return math.Exp(-0.5 * (x - 0.5) * (x - 0.5) / (spread * spread))
}

// Because says of a torque what speaks for it.
func (h Held) Because() string {
	kind, rest, _ := strings.Cut(h.What, " ")
	rest = strings.TrimSuffix(rest, ofNoTable) // nonsense says nothing for a torque
	if h.Screw && kind == "screw" {
		if strings.HasPrefix(rest, "M") {
			return fmt.Sprintf("is what an %s takes", rest)
		}
		return fmt.Sprintf("is what a %s takes", rest)
	}
	return fmt.Sprintf("is what a %s takes", strings.TrimSuffix(h.What, ofNoTable))
}
