package verify

import (
	"fmt"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Asked is an answer of a record.
type Asked struct {
	schema.Answer
	Place  rule.Place // of the answer
	File   string
	Record string // pointer of its record
}

// answer is what became of one.
type answer struct {
	Asked
	known   bool // the check exists
	book    bool // and is a check of the book
	used    bool
	refused bool   // it met a reject
	now     string // what the figure reads now, when the check speaks of it still
}

// kept is an answer that does not hold on to the text of its record.
func (a *answer) kept() Asked {
	k := a.Asked
	k.Answer = schema.Answer{Check: strings.Clone(a.Check), Figure: strings.Clone(a.Figure), Read: strings.Clone(a.Read)}
	k.Record, k.Place.Record = strings.Clone(a.Record), strings.Clone(a.Place.Record)
	return k
}

// answersOf collects the answers of a record.
func (r *Records) answersOf(e *schema.Entry) []*answer {
	if e.Record == nil || r.answerCheck == nil {
		return nil
	}
	var as []*answer
	for i, a := range e.Record.Answers {
		x := &answer{Asked: Asked{
			Answer: a, File: e.File, Record: e.Pointer,
			Place: rule.Resolve(e, schema.Spot{Path: schema.At("answers", i)}),
		}}
		waits := false
		for _, c := range r.checks {
			if c.ID == a.Check {
				x.known, x.book, waits = true, c.Book != nil, c.Before && e.Before == nil
			}
		}
		if !waits {
			as = append(as, x)
		}
	}
	return as
}

// answered reports whether a query has been answered, and marks the answer.
// A reject is never answered away.
func answered(answers []*answer, pointer string, f rule.Finding) bool {
	for _, a := range answers {
		figure := a.Record + a.Figure
		if a.Check != f.Check || pointer != figure && !strings.HasPrefix(pointer, figure+"/") {
			continue
		}
		if f.Place.File != "" && f.Place.File != a.File {
			continue
		}
		switch {
		case f.Verdict == rule.Reject:
			a.refused = true
		case a.Read != f.Read:
			a.now = f.Read
		default:
			a.used = true
			return true
		}
	}
	return false
}

// unused is what the check of answers says of one that answers nothing.
func unused(a *answer, c *rule.Check, all []*rule.Check) (f rule.Finding, ok bool) {
	if a.used || c == nil {
		return f, false
	}
	f = rule.Finding{
		Check: c.ID, Source: c.Source, Verdict: rule.Query,
		Place: a.Place, Read: a.Read,
	}
	switch {
	case !a.known:
		f.Message = fmt.Sprintf("answer to a check %q that does not exist", a.Check)
		if n := schema.Nearest(a.Check, ids(all)); n != "" {
			f.Message += fmt.Sprintf("; did you mean %q?", n)
			f.Want = n
		}
	case a.refused:
		f.Message = fmt.Sprintf("answer to %s at %s: this is a reject, and a reject is never answered away; mend the figure", a.Check, a.Figure)
	case a.now != "":
		f.Message = fmt.Sprintf("answer to %s at %s was given for %q, and %q stands there now; look again and answer anew", a.Check, a.Figure, a.Read, a.now)
		f.Want = a.now
	default:
		f.Message = fmt.Sprintf("answer to %s at %s answers nothing: the check has no query there; delete the answer", a.Check, a.Figure)
	}
	return f, true
}

func ids(checks []*rule.Check) []string {
	out := make([]string, len(checks))
	for i, c := range checks {
		out[i] = c.ID
	}
	return out
}

// AnswerToNothing speaks of answers that answer nothing. The front door runs
// it, see [Run].
var AnswerToNothing = &rule.Check{
	ID: "answer-to-nothing", Layer: rule.Book, Title: "answer to nothing",
	Doc: answerDoc, Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query, Answers: true,
}
