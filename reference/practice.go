package reference

import (
	"slices"
	"sync"
)

// WrenchRow is what is printed of hand torque wrenches. Figures are as printed.
type WrenchRow struct {
	Item        string // permissible deviation, test points, usual range, adapter in line, …
	Type, Class string // ISO 6789: I indicates, II is set and lets go; A to G
	Range       string
	Low, High   string
	Unit        string
	Note        string
	Source      Citation
}

var wrenchRows = sync.OnceValue(func() []WrenchRow {
	var out []WrenchRow
	for _, r := range mustTable("wrenches.csv") {
		out = append(out, WrenchRow{
			Item: r.text("item"), Type: r.text("type"), Class: r.text("class"), Range: r.text("range"),
			Low: r.text("low"), High: r.text("high"), Unit: r.text("unit"), Note: r.text("note"), Source: r.cite(),
		})
	}
	return out
})

// WrenchRows returns the rows whose item holds all words, all where there are
// none. The classes and most deviations of ISO 6789 are from memory.
func WrenchRows(words string) []WrenchRow {
	return slices.DeleteFunc(slices.Clone(wrenchRows()), func(w WrenchRow) bool { return !hasWords(w.Item, words) })
}

// PatternRow is a rule for the order and the passes of a tightening.
type PatternRow struct {
	Joint, Rule string
	Passes      string // as printed: 3 + 1
	Percent     string // of the final torque in each pass: 30 / 60 / 100
	Note        string
	Source      Citation
}

var patternRows = sync.OnceValue(func() []PatternRow {
	var out []PatternRow
	for _, r := range mustTable("patterns.csv") {
		out = append(out, PatternRow{
			Joint: r.text("joint"), Rule: r.text("rule"), Passes: r.text("passes"), Percent: r.text("percent"),
			Note: r.text("note"), Source: r.cite(),
		})
	}
	return out
})

// PatternRows returns the rows whose joint holds all words, all where there are
// none. They are rules of practice, not specifications.
func PatternRows(words string) []PatternRow {
	return slices.DeleteFunc(slices.Clone(patternRows()), func(p PatternRow) bool { return !hasWords(p.Joint, words) })
}
