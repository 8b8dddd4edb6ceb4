package verify

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/book"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// ExplainSibling looks for the slip behind a torque that stands out from its
// siblings, by what their line expects: "about 130 N·m". The record is gone by
// then, so that the line alone speaks. [Run] does it for every finding of the book.
func ExplainSibling(f *rule.Finding) {
	want, ok := expectedOf(f)
	if !ok {
		return
	}
	var found []slip.Restored
	texts := append([]string{f.Read}, f.Also...)
	for i, text := range texts {
		others := slices.Concat(texts[:i], texts[i+1:])
		found = append(found, onLine(f, text, want, others)...)
	}
	slices.SortStableFunc(found, func(a, b slip.Restored) int { return cmp.Compare(b.Score, a.Score) })
	for _, s := range found[:min(len(found), mostSlips)] {
		f.Slips = append(f.Slips, rule.Slip{Slip: s.Kind.Name, Reads: s.Reads, Because: s.Because})
	}
	if len(f.Slips) == 0 {
		f.Message += noSlip
	}
}

// onLine takes slips back in one value of a figure, until it is what the line, or
// the other columns of a table, expect. The other values, which were made from it,
// say nothing but in which units the figure is given.
func onLine(f *rule.Finding, text string, want convert.Quantity, others []string) []slip.Restored {
	l := lineFor(f)
	made := ""
	if len(others) > 0 {
		made = "; " + strings.Join(others, ", ") + " was made from the wrong figure"
	}
	r := &schema.Record{Kind: schema.KindTorque}
	r.Tighten = []schema.Step{{To: schema.Figure{Values: []convert.Value{{Text: text}}}}}
	r.ReadFigures("")
	at := schema.At("tighten", 0, "to")
	bench := slip.NewBench(r, "")
	printed, _ := bench.Figure(at).Quantity()
	return bench.Undo([]schema.Path{at}, func(*slip.Candidate) (float64, string) {
		q, ok := bench.Figure(at).Quantity()
		switch {
		case !ok || q.Nominal() <= 0,
			slices.ContainsFunc(others, func(o string) bool { return unitOf(o) == q.Unit }), // twice in one figure
			slices.Contains(l.units, printed.Unit) && !slices.Contains(l.units, q.Unit):     // the only row in its unit
			return 0, ""
		}
		far, asked := l.off(q, want)
		if asked {
			return 0, ""
		}
		x := far / l.spread
		share := math.Exp(-x * x / 2)
		if x > 1 {
			return share, l.near + made
		}
		return share, l.on + made
	}, nil)
}

// expected is what a check of the book knows of a figure: how far rows mostly lie
// from what the rest lead to, and how far they may, as logarithms.
type expected struct {
	spread, most float64
	on, near     string
	against      string         // of what lies further off
	units        []convert.Unit // of the neighbours
}

// lineFor tells how near a figure must come for a check of the book to be silent.
// Rows of a table lie within a tenth of their line, mostly; two columns that were
// worked out together are nearer.
func lineFor(f *rule.Finding) expected {
	e := expected{spread: 0.1, most: math.Log(1.25), on: "lies on the line of its siblings", near: "lies near the line of its siblings", against: "but off the line of its siblings"}
	if f.Check == book.ColumnsAtOdds.ID {
		e = expected{spread: 0.04, most: 0.12, on: "goes with the other columns", near: "nearly goes with the other columns", against: "but does not go with the other columns"}
	}
	for _, r := range f.Related {
		if i := strings.LastIndex(r.Message, " for "); i > 0 {
			if u := unitOf(r.Message[:i]); u != 0 {
				e.units = append(e.units, u)
			}
		}
	}
	return e
}

func unitOf(text string) convert.Unit {
	q, _ := convert.Parse(text, convert.Of(convert.Torque), convert.Point)
	return q.Unit
}

// off is how far a torque is from what is expected, as a logarithm, and whether
// the check would ask about it again. Half a unit of the digits of what is
// expected is nobody's fault.
func (e *expected) off(q, want convert.Quantity) (far float64, asked bool) {
	apart := func(x, y, step float64) {
		d := math.Abs(math.Log(x / y))
		if math.IsNaN(d) {
			d = math.Inf(1)
		}
		far, asked = max(far, d), asked || d > e.most+math.Log1p(step/y)
	}
	wlo, whi := want.Widened()
	lo, hi := want.Bounds()
	if want.Form == convert.Range && q.Form == convert.Range {
		a, b := q.Bounds()
		apart(a, lo, lo-wlo)
		apart(b, hi, whi-hi)
		return far, asked
	}
	apart(q.Nominal(), want.Nominal(), whi-hi)
	return far, asked
}

// offLine leaves out of the slips of a finding those that lead to a torque about
// which the check of the book would ask again, where others are left; where none
// are, it says so of them.
func offLine(slips []rule.Slip, f *rule.Finding) []rule.Slip {
	want, ok := expectedOf(f)
	if !ok {
		return slips
	}
	l := lineFor(f)
	asked := func(s rule.Slip) bool {
		q, problem := convert.Parse(s.Reads, convert.Of(convert.Torque), convert.Point)
		if problem != nil || q.Nominal() <= 0 || want.Form == convert.Range || q.Form == convert.Range {
			return false // a thread, a class; of a range one end may be right
		}
		_, asked := l.off(q, want)
		return asked
	}
	if good := slices.DeleteFunc(slices.Clone(slips), asked); len(good) > 0 || len(f.Slips) > 0 {
		return good
	}
	slips = slices.Clone(slips)
	for i := range slips {
		if asked(slips[i]) {
			slips[i].Because += "; " + l.against
		}
	}
	return slips
}

// expectedOf is the torque that a check of the book expects.
func expectedOf(f *rule.Finding) (convert.Quantity, bool) {
	text, ok := strings.CutPrefix(f.Want, "about ")
	if !ok || f.Read == "" {
		return convert.Quantity{}, false
	}
	want, problem := convert.Parse(text, convert.Of(convert.Torque), convert.Point)
	return want, problem == nil && want.Nominal() > 0
}
