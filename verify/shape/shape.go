// Package shape holds the checks of the layer shape. The JSON Schemas are the
// authority on shape and the Decode functions of package schema find the faults; the checks here
// give each kind of fault its name, its text and its verdict.
package shape

import (
	"embed"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

//go:embed *.md
var texts embed.FS

// The five faults of shape. They differ in the fault alone, so one table holds
// them.
var (
	// UnknownField flags a field that the format does not know.
	UnknownField = faulty("unknown-field", schema.UnknownField, "a field that the format does not know")

	// MissingField flags a field that must be there and is not.
	MissingField = faulty("missing-field", schema.MissingField, "a field that must be there is missing")

	// WrongValue flags a value that its field cannot hold.
	WrongValue = faulty("wrong-value", schema.WrongValue, "a value that its field cannot hold")

	// EmptiedField flags a field left empty, or emptied by a #.
	EmptiedField = faulty("emptied-field", schema.EmptiedField, "a field emptied by # or left empty")

	// SplitNumber flags a number that a comma split into two items.
	SplitNumber = faulty("split-number", schema.SplitNumber, "a number split by a comma")
)

// faulty makes the check that reports the faults of one kind, of records and of
// heads alike.
func faulty(id string, fault schema.Fault, title string) *rule.Check {
	report := func(p *rule.Pass) {
		for _, pr := range p.Entry.Problems {
			if pr.Fault == fault {
				p.Report(rule.Finding{
					Verdict: rule.Reject, At: pr.At,
					Message: pr.Message, Read: pr.Read, Want: pr.Want,
				})
			}
		}
	}
	return &rule.Check{
		ID: id, Layer: rule.Shape, Title: title,
		Doc: rule.Doc(texts, id+".md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
		Verdict: rule.Reject,
		Record:  report, Head: report,
	}
}
