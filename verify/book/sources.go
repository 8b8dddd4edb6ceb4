package book

import (
	"fmt"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// refs yields the sources that a record refers to by name.
func refs(r *schema.Record, yield func(ref string, at schema.Path)) {
	if r.Source.Ref != "" {
		yield(r.Source.Ref, schema.At("source", "ref"))
	}
	if r.Misprint.Source.Ref != "" {
		yield(r.Misprint.Source.Ref, schema.At("misprint", "source", "ref"))
	}
}

// SourceMissing flags a reference to a source that the head does not list.
var SourceMissing = &rule.Check{
	ID: "source-missing", Layer: rule.Book, Title: "source that the file does not list",
	Doc: doc("source-missing.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		var known []string
		for _, s := range p.Head.Sources {
			known = append(known, s.Name)
		}
		if p.Head.Broken {
			return // it may be listed where it cannot be read
		}
		refs(p.Record, func(ref string, at schema.Path) {
			if _, ok := p.Head.SourceOf(schema.Source{Ref: ref}); ok {
				return
			}
			f := rule.Finding{
				Verdict: rule.Reject, At: schema.Spot{Path: at}, Read: ref,
				Message: fmt.Sprintf("source %q is not listed at the head of the file", ref),
			}
			if n := schema.Nearest(ref, known); n != "" {
				f.Message += fmt.Sprintf("; did you mean %q?", n)
				f.Want = n
			} else {
				f.Message += "; list it under sources with its title and edition"
			}
			p.Report(f)
		})
	},
}

// SourceUnused flags a source of the head that no record of the file names.
var SourceUnused = &rule.Check{
	ID: "source-unused", Layer: rule.Book, Title: "source that no record refers to",
	Doc: doc("source-unused.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Book: &rule.BookCheck{
		Emit: func(p *rule.Pass, emit func(rule.Row)) {
			if p.Head.Broken {
				return // records may be missing for that alone
			}
			if p.Record == nil {
				for _, s := range p.Head.Sources {
					emit(rule.Row{
						Group: p.Entry.File + "\x1f" + s.Name, Order: "head", Payload: s.Name,
						Place: p.Place(schema.Spot{Path: schema.At("sources", s.Name), Key: true}),
					})
				}
				return
			}
			use := func(ref string) { emit(rule.Row{Group: p.Entry.File + "\x1f" + ref, Order: "record"}) }
			if p.Entry.Lost || len(p.Entry.Problems) > 0 && p.Record.Source.Ref == "" {
				// Which source it names is not known: it may be any.
				for _, s := range p.Head.Sources {
					use(s.Name)
				}
				return
			}
			refs(p.Record, func(ref string, _ schema.Path) { use(ref) })
		},
		Judge: func(rows []rule.Row, report func(rule.Finding)) {
			if len(rows) > 1 || rows[0].Order != "head" {
				return
			}
			report(rule.Finding{
				Verdict: rule.Query, Place: rows[0].Place, Read: rows[0].Payload,
				Message: fmt.Sprintf("no record refers to source %q; a record is missing, or names another source than it was copied from", rows[0].Payload),
			})
		},
	},
}
