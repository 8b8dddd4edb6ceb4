package verify

import (
	"math"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
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
	r := &schema.Record{Kind: schema.KindTorque}
	r.Tighten = []schema.Step{{To: schema.Figure{Values: []convert.Value{{Text: f.Read}}}}}
	r.ReadFigures("")
	at := schema.At("tighten", 0, "to")
	bench := slip.NewBench(r, "")
	for _, s := range bench.Undo([]schema.Path{at}, func(*slip.Candidate) (float64, string) {
		q, ok := bench.Figure(at).Quantity()
		if !ok || q.Nominal() <= 0 {
			return 0, ""
		}
		// Rows of a table lie within a tenth of their line, mostly.
		const spread, most = 0.1, 3
		x := math.Log(q.Nominal()/want.Nominal()) / spread
		if math.Abs(x) > most {
			return 0, ""
		}
		return math.Exp(-x * x / 2), "lies on the line of its siblings"
	}, nil) {
		f.Slips = append(f.Slips, rule.Slip{Slip: s.Kind.Name, Reads: s.Reads, Because: s.Because})
	}
	if len(f.Slips) == 0 {
		f.Message += noSlip
	}
}
