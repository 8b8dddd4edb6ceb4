package sense

import (
	"fmt"
	"slices"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// CountMismatch flags a number of fasteners that is not that of their places, of
// the order they are tightened in, or of the places drawn.
var CountMismatch = &rule.Check{
	ID: "count-mismatch", Layer: rule.Sense, Title: "the count does not match the places",
	Doc: doc("count-mismatch.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		countPlaces(p)
		for i := range p.Record.Tighten {
			if len(p.Record.Tighten[i].Order) > 0 {
				countOrder(p, i)
			}
		}
		countLayout(p)
	},
}

// countPlaces sets the count of a fastener against its own places. One of the two
// is wrong for certain. A place listed twice is another check's.
func countPlaces(p *rule.Pass) {
	for i := range p.Record.Fasteners.Items {
		f, path := &p.Record.Fasteners.Items[i], p.Record.Fasteners.At(i)
		if f.Count == 0 || len(f.Places) == 0 || f.Count == len(f.Places) || f.Count == len(setOf(f.Places)) {
			continue
		}
		p.Report(rule.Finding{
			Verdict: rule.Reject, At: schema.Spot{Path: path.Field("count")},
			Read: fmt.Sprint(f.Count), Want: fmt.Sprint(len(f.Places)),
			Message: fmt.Sprintf("the count is %d, but %s listed", f.Count, plural(len(f.Places), "place is", "places are")),
			Related: []rule.Related{{At: schema.Spot{Path: path.Field("places")}, Message: "the places stand here"}},
		})
	}
}

// countOrder sets the order of step i against the fasteners that it is for.
func countOrder(p *rule.Pass, i int) {
	step := &p.Record.Tighten[i]
	c, ok := crewOf(p.Record, step.Only)
	if !ok {
		return // only-unknown
	}
	order, again := setOf(step.Order), len(doubled(step.Order))
	if c.places == nil && c.counts == nil {
		c.places = drawn(p.Record)
	}
	f := rule.Finding{
		Verdict: rule.Query, At: schema.Spot{Path: schema.At("tighten", i, "order")},
		Related: []rule.Related{{At: schema.Spot{Path: schema.At("fastener")}, Message: "the fasteners stand here"}},
	}
	switch {
	case len(c.places) > 0:
		// A place that is listed twice stands for another: places-doubled speaks.
		if extra := without(order, c.places); len(extra) > c.twice {
			f.Message = fmt.Sprintf("the order names %s, where no fastener of this step goes", named(extra))
		} else if left := without(c.places, order); len(left) > again && !elsewhere(p.Record, i, left) {
			f.Message = fmt.Sprintf("the order leaves out %s", named(left))
		}
	case c.counts != nil && !slices.Contains(c.counts, len(order)):
		if len(order) < c.counts[0] && (inParts(p.Record, i, c.counts) || slices.Contains(c.counts, len(step.Order))) {
			return
		}
		f.Message = fmt.Sprintf("the order names %s, but %s to be tightened",
			plural(len(order), "place", "places"), plural(c.counts[0], "fastener is", "fasteners are"))
		if left := without(upTo(c.counts[0]), order); len(left) > 0 && len(left) <= 3 {
			f.Message += "; it leaves out " + named(left)
		}
	}
	if f.Message != "" {
		p.Report(f)
	}
}

// elsewhere reports that the places left out by one step's order stand in the
// orders of steps that share no place with it: the joint is tightened in parts.
func elsewhere(r *schema.Record, i int, left []int) bool {
	others := apart(r, i)
	for _, n := range left {
		if !others[n] {
			return false
		}
	}
	return true
}

// inParts reports the same where only the number of places is known.
func inParts(r *schema.Record, i int, counts []int) bool {
	return slices.Contains(counts, len(setOf(r.Tighten[i].Order))+len(apart(r, i)))
}

// apart collects the places of the orders that share none with that of step i.
func apart(r *schema.Record, i int) map[int]bool {
	mine, all := setOf(r.Tighten[i].Order), map[int]bool{}
	for j := range r.Tighten {
		other := setOf(r.Tighten[j].Order)
		if len(without(other, mine)) != len(other) {
			continue
		}
		for n := range other {
			all[n] = true
		}
	}
	return all
}

// countLayout sets the places drawn against the fasteners. A drawing may show more
// than the places that are listed.
func countLayout(p *rule.Pass) {
	c, _ := crewOf(p.Record, nil)
	layout := drawn(p.Record)
	if len(layout) == 0 {
		return
	}
	f := rule.Finding{Verdict: rule.Query, At: schema.Spot{Path: schema.At("layout", "places")}}
	switch {
	case len(c.places) > 0:
		if left := without(c.places, layout); len(left) > 0 {
			f.Message = fmt.Sprintf("the layout does not draw %s", named(left))
		}
	case c.counts != nil && !slices.Contains(c.counts, len(layout)):
		f.Message = fmt.Sprintf("the layout draws %s, but there are %d fasteners", plural(len(layout), "place", "places"), c.counts[0])
	}
	if f.Message != "" {
		p.Report(f)
	}
}

// drawn is the places of the layout.
func drawn(r *schema.Record) map[int]bool {
	set := map[int]bool{}
	for _, pl := range r.Layout.Places {
		set[pl.Place] = true
	}
	return set
}

// upTo is the places 1 to n, as sources number them.
func upTo(n int) map[int]bool {
	set := map[int]bool{}
	for i := 1; i <= min(n, 1000); i++ {
		set[i] = true
	}
	return set
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
