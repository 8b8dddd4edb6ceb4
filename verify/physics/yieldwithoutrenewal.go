package physics

import (
	"regexp"

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

var screwWord = regexp.MustCompile(`(?i)\b(?:cap)?(?:screw|bolt|stud|nut|fastener)s?\b`)

func yieldWithoutRenewal(p *rule.Pass) {
	r := p.Record
	if r == nil || !joint.IntoYield(r) {
		return
	}
	for _, part := range r.Renew {
		if screwWord.MatchString(part) {
			return
		}
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
	p.Report(rule.Finding{
		Verdict: rule.Query, At: schema.Spot{Path: at}, Read: "true", Want: "renew: [screws], or what the source says of using them again",
		Message: "the screws are tightened into yield, and renew does not name them; a screw that has been stretched is renewed, or measured as the source says",
	})
}
