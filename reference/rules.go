package reference

import (
	"slices"
	"sync"
)

// Rule is a rule of practice: what is usual, with the figures as printed.
type Rule struct {
	Area            string // torque, units, clearance, fill, level, electrical, pressure
	Text            string
	Low, High, Unit string // as printed; empty where the rule has no such end
	Note            string
	Source          Citation
}

var rules = sync.OnceValue(func() []Rule {
	var out []Rule
	for _, r := range mustTable("rules.csv") {
		rule := Rule{
			Area: r.text("area"), Text: r.text("rule"), Low: r.text("low"), High: r.text("high"), Unit: r.text("unit"),
			Note: r.text("note"), Source: r.citation("rules-of-practice"),
		}
		if rule.Source.Seen == Practice {
			rule.Source.ID = "common-practice"
		}
		out = append(out, rule)
	}
	return out
})

// Rules returns the rules of practice of an area, all where area is empty.
// None of them is a specification for any machine.
func Rules(area string) []Rule {
	return slices.DeleteFunc(slices.Clone(rules()), func(r Rule) bool { return area != "" && r.Area != area })
}
