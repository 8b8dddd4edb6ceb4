package cited

import (
	"fmt"
	"regexp"

	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// Oil clearance per length of journal. The rule is 0.001 with 0.0005 to 0.0015 as
// usual; small engines with splash lubrication print up to 0.0045 in on a journal
// of 1 in (common practice, no source), so the band is four times as wide.
const (
	leastBearing = 0.0005 / 4
	mostBearing  = 0.0015 * 4
)

// BearingClearance queries the oil clearance of a crank bearing that is far from
// what its journal takes.
var BearingClearance = &rule.Check{
	ID: "bearing-clearance", Layer: rule.Cited, Title: "an oil clearance far from what the journal takes",
	Doc: doc("bearing-clearance.md"), Source: reference.Cite("rules-of-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		r := p.Record
		if r == nil || r.Of != "clearance" || !crankBearing.MatchString(r.Where) || notOil.MatchString(r.Where) {
			return
		}
		clearance, size, ok := perSize(r)
		if !ok {
			return
		}
		least, most := leastBearing*size.Nominal(), mostBearing*size.Nominal()
		side := outside(clearance, least, most)
		if side == "" {
			return
		}
		want := bandText(least, most, clearance.Unit)
		p.Report(rule.Finding{
			Verdict: rule.Query, At: clearance.At, Read: clearance.Text, Want: want,
			Source:  practice("clearance", "crank main and rod bearing oil clearance").Source,
			Message: fmt.Sprintf("%s is unusually %s for the oil clearance of a %s journal; by the rule of practice (0.001 of the journal, four times to either side of the usual) %s", clearance.Text, side, size.Text, want),
			Related: []rule.Related{{At: size.At, Message: "the size stands here"}},
		})
	},
}

var (
	crankBearing = regexp.MustCompile(`(?i)\b(?:main|crankshaft|connecting[- ]rod|con[- ]?rod|rod|big[- ]end)s? bearings?\b|\bbig[- ]ends?\b`)
	notOil       = regexp.MustCompile(`(?i)\b(?:side|thrust|cap|caps|gear|rolling|roller|ball|needle|small[- ]end)\b`)
)
