package cited

import (
	"fmt"
	"regexp"

	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// End gap of a piston ring per length of bore. Rules speak of 0.0035 as the least
// and 0.004 to 0.0065 for top rings; print goes below (US Army TM 5-2420-230-24-2:
// 0.25 mm) and far above for second and oil rings (TM 9-2815-237-34: 0.030 to
// 0.039 in on a bore of about 4 in), so the band is about four times as wide.
const (
	leastRingGap = 0.0035 / 4
	mostRingGap  = 0.0065 * 4
)

// RingGap queries the end gap of a piston ring that is far from what its bore takes.
var RingGap = &rule.Check{
	ID: "ring-gap", Layer: rule.Cited, Title: "a ring gap far from what the bore takes",
	Doc: doc("ring-gap.md"), Source: reference.Cite("rules-of-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		r := p.Record
		if r == nil || r.Of != "gap" || !pistonRing.MatchString(r.Where) {
			return
		}
		gap, size, ok := perSize(r)
		if !ok {
			return
		}
		least, most := leastRingGap*size.Nominal(), mostRingGap*size.Nominal()
		side := outside(gap, least, most)
		if side == "" {
			return
		}
		want := bandText(least, most, gap.Unit)
		p.Report(rule.Finding{
			Verdict: rule.Query, At: gap.At, Read: gap.Text, Want: want,
			Source:  practice("clearance", "top ring, street").Source,
			Message: fmt.Sprintf("%s is unusually %s for the end gap of a piston ring in a bore of %s; by the rule of practice (0.0035 to 0.0065 of the bore, four times to either side) %s", gap.Text, side, size.Text, want),
			Related: []rule.Related{{At: size.At, Message: "the bore stands here"}},
		})
	},
}

var pistonRing = regexp.MustCompile(`(?i)\b(?:piston|compression|top|second|scraper|oil(?: control)?|upper|lower) rings?\b`)
