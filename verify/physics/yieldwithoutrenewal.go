package physics

import (
	"regexp"
	"slices"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// YieldWithoutRenewal queries a joint that is tightened into yield without a
// word on renewing its screws.
var YieldWithoutRenewal = &rule.Check{
	ID: "yield-without-renewal", Layer: rule.Physics, Title: "tightened into yield, screws not renewed",
	Doc: doc("yield-without-renewal.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  yieldWithoutRenewal,
}

var (
	screwWord = regexp.MustCompile(`(?i)\b(?:cap)?(?:screw|bolt|stud|fastener)s?\b`)
	nutWord   = regexp.MustCompile(`(?i)\b(?:cap)?nuts?\b`)
)

func yieldWithoutRenewal(p *rule.Pass) {
	r := p.Record
	if r == nil || !joint.IntoYield(r) {
		return
	}
	nuts, screws := false, false
	for _, part := range r.Renew {
		nuts = nuts || nutWord.MatchString(part)
		screws = screws || screwWord.MatchString(part)
	}
	i := slices.IndexFunc(r.Fasteners.Items, func(f schema.Fastener) bool { return f.Type == "stud" })
	if screws || nuts && i < 0 {
		return
	}
	at := schema.At("yield")
	if !r.Yield {
		for k := range r.Tighten {
			if r.Tighten[k].Yield {
				at = schema.At("tighten", k, "yield")
				break
			}
		}
	}
	if nuts {
		p.Report(rule.Finding{
			Verdict: rule.Note, At: schema.Spot{Path: at}, Read: "true", Want: "renew: [studs, nuts], or what the source says of using them again",
			Message: "the studs are tightened into yield, and renew names the nuts only; it is the stud that has been stretched",
			Related: []rule.Related{{At: schema.Spot{Path: r.Fasteners.At(i).Field("type")}, Message: "this stud"}},
		})
		return
	}
	p.Report(rule.Finding{
		Verdict: rule.Query, At: schema.Spot{Path: at}, Read: "true", Want: "renew: [screws], or what the source says of using them again",
		Message: "the screws are tightened into yield, and renew does not name them; a screw that has been stretched is renewed, or measured as the source says",
	})
}
