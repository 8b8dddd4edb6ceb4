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
	expected, ok := strings.CutPrefix(f.Want, "about ")
	if !ok || f.Read == "" {
		return
	}
	want, problem := convert.Parse(expected, convert.Of(convert.Torque), convert.Point)
	if problem != nil || want.Nominal() <= 0 {
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
// say nothing.
func onLine(f *rule.Finding, text string, want convert.Quantity, others []string) []slip.Restored {
	// Rows of a table lie within a tenth of their line, mostly; two columns that
	// were worked out together are nearer.
	spread, because := 0.1, "lies on the line of its siblings"
	if f.Check == book.ColumnsAtOdds.ID {
		spread, because = 0.04, "goes with the other columns"
	}
	if len(others) > 0 {
		because += "; " + strings.Join(others, ", ") + " was made from the wrong figure"
	}
	r := &schema.Record{Kind: schema.KindTorque}
	r.Tighten = []schema.Step{{To: schema.Figure{Values: []convert.Value{{Text: text}}}}}
	r.ReadFigures("")
	at := schema.At("tighten", 0, "to")
	bench := slip.NewBench(r, "")
	return bench.Undo([]schema.Path{at}, func(*slip.Candidate) (float64, string) {
		q, ok := bench.Figure(at).Quantity()
		if !ok || q.Nominal() <= 0 {
			return 0, ""
		}
		const most = 3
		x := math.Log(q.Nominal()/want.Nominal()) / spread
		if want.Form == convert.Range && q.Form == convert.Range {
			lo, hi := q.Bounds()
			wlo, whi := want.Bounds()
			x = max(math.Abs(math.Log(lo/wlo)), math.Abs(math.Log(hi/whi))) / spread
		}
		if math.IsNaN(x) || math.Abs(x) > most {
			return 0, ""
		}
		return math.Exp(-x * x / 2), because
	}, nil)
}
