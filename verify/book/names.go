package book

import (
	"fmt"
	"slices"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// UndeclaredName flags a variant or numbering in applies that the head does not
// declare. Where the head declares none it is silent on a line of NDJSON and where
// the head cannot be read.
var UndeclaredName = &rule.Check{
	ID: "undeclared-name", Layer: rule.Book, Title: "variant or numbering that the file does not declare",
	Doc: doc("undeclared-name.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record:  undeclaredName,
}

func undeclaredName(p *rule.Pass) {
	var numberings []string
	for _, s := range p.Head.Serials {
		numberings = append(numberings, s.Name)
	}
	skip := func(declared []string) bool { return (p.Head.OfOneLine || p.Head.Broken) && len(declared) == 0 }
	for i, box := range p.Record.Applies {
		at := schema.At("applies", i)
		for j, v := range box.Variants {
			if skip(p.Head.Variants) || slices.Contains(p.Head.Variants, v) {
				continue
			}
			spot := schema.Spot{Path: at.Field("variant").Index(j)}
			report(p, spot, "variant", v, p.Head.Variants, "variants")
		}
		for _, s := range box.Serials {
			if skip(numberings) || slices.Contains(numberings, s.Name) {
				continue
			}
			spot := schema.Spot{Path: at.Field(s.Name), Key: true}
			report(p, spot, "numbering", s.Name, numberings, "serials")
		}
	}
}

func report(p *rule.Pass, at schema.Spot, what, read string, known []string, list string) {
	f := rule.Finding{
		Verdict: rule.Reject, At: at, Read: read,
		Message: fmt.Sprintf("%s %q is not declared at the head of the file", what, read),
	}
	if n := schema.Nearest(read, known); n != "" {
		f.Message += fmt.Sprintf("; did you mean %q?", n)
		f.Want = n
	} else {
		f.Message += fmt.Sprintf("; declare it under %s, or take it out", list)
	}
	p.Report(f)
}
