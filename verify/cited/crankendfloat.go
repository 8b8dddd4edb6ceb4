package cited

import (
	"fmt"
	"regexp"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// End float of a crankshaft: a maker's table of ten car engines has 0.0015 to
// 0.011 in, US Army TM 5-6115-593-34 a worn limit of 0.026 in for a diesel. The
// band goes three times below the one and twice beyond the other.
const (
	leastCrankFloat = 0.0005 * 0.0254 // m
	mostCrankFloat  = 0.052 * 0.0254
)

// CrankEndFloat queries an end float of a crankshaft that no engine prints.
var CrankEndFloat = &rule.Check{
	ID: "crank-end-float", Layer: rule.Cited, Title: "an end float unusual for a crankshaft",
	Doc: doc("crank-end-float.md"), Source: reference.Cite("rules-of-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		r := p.Record
		if r == nil || r.Of != "end float" || !crankshaft.MatchString(r.Where) {
			return
		}
		float, ok := measure.Read(&r.New, schema.At("new"), convert.Length)
		if !ok {
			return
		}
		side := outside(float, leastCrankFloat, mostCrankFloat)
		if side == "" {
			return
		}
		want := bandText(leastCrankFloat, mostCrankFloat, float.Unit)
		p.Report(rule.Finding{
			Verdict: rule.Query, At: float.At, Read: float.Text, Want: want,
			Source:  practice("clearance", "crankshaft end play, car V8s").Source,
			Message: fmt.Sprintf("%s is unusually %s for the end float of a crankshaft; by the rule of practice, widened, %s", float.Text, side, want),
		})
	},
}

var crankshaft = regexp.MustCompile(`(?i)\bcrank ?shaft\b`)
