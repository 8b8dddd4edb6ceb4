// Package cited holds the checks against cited tables and rules of practice: what
// is usual in the trade, with whoever says so named in the finding. None of these
// rules is a specification for any machine, so none of them rejects.
package cited

import (
	"embed"

	"snapgauge/reference"
	"snapgauge/verify/rule"
)

//go:embed *.md
var texts embed.FS

func doc(name string) string { return rule.Doc(texts, name) }

// practice is the rule of practice of an area by its words, with its source.
func practice(area, text string) reference.Rule {
	for _, r := range reference.Rules(area) {
		if r.Text == text {
			return r
		}
	}
	return reference.Rule{Source: reference.Cite("rules-of-practice")}
}
