package verify

import (
	"cmp"
	"slices"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Said is what came of judging some records.
type Said struct {
	Findings []rule.Finding // in input order
	// Held are the rows of the book that lie in the figure of a finding, by its place
	// among them: the book may know more of it.
	Held  map[int][]rule.Place
	Rows  rule.Rows // takes what the book is to know; must be set
	Asked []Asked   // answers to checks of the book
	Err   error     // the first of Rows
}

// Records judges records, each by itself, but for two things that go by the
// file: units are counted as the records of a file are met, and what was said of
// a place of the file is not said again. A line of NDJSON is a file of its own in
// that: so the findings do not hang on how lines are parted among workers. The
// records of another file are to be judged in one piece and in order.
//
// A Records is for one goroutine.
type Records struct {
	checks      []*rule.Check
	answerCheck *rule.Check // nil when it is not run
	file        string      // that units and doubles are of
	doubles     doubles
	units       *UnitUse
	counts      bool // what is met is added to units

	// One pass serves all checks of all entries.
	pass  *rule.Pass
	check int            // that is at work
	found []rule.Finding // what was said of the entry at hand
	rows  []rule.Place   // of it that the book judges
	said  *Said          // what it is added to
}

// NewRecords makes a Records of the checks, and of the units if any are given.
func NewRecords(opt Options) *Records {
	opt = opt.filled()
	return &Records{
		checks: opt.Checks, answerCheck: answerCheck(opt.Checks),
		units: opt.Units, counts: opt.Units == nil,
	}
}

// noUnits is met on a line that stands alone.
var noUnits = &UnitUse{}

// turn turns to the file of an entry.
func (r *Records) turn(e *schema.Entry) {
	alone := e.Head != nil && e.Head.OfOneLine
	if r.counts && alone {
		r.units = noUnits
	}
	if alone || r.file == e.File && r.units != nil && r.units != noUnits {
		return
	}
	r.file, r.doubles = e.File, doubles{}
	if r.counts {
		r.units = &UnitUse{}
	}
}

// Judge runs the checks over one record or head, and adds to said what they say.
func (r *Records) Judge(e *schema.Entry, said *Said) {
	r.turn(e)
	r.said = said
	p := r.pass
	if p == nil {
		p = rule.NewPass(nil, e, func(f rule.Finding) { r.found = append(r.found, f) })
		r.pass = p
	}
	p.Take(e)
	clear(r.found)
	r.found, r.rows = r.found[:0], r.rows[:0]
	for i, c := range r.checks {
		p.Check, r.check = c, i
		switch {
		case e.HeadOnly:
			if c.Head != nil {
				c.Head(p)
			}
		case e.Lost: // for the book only
		case c.Record != nil:
			c.Record(p)
		}
		if c.Book != nil {
			c.Book.Emit(p, r.add)
		}
	}
	alone := e.Head != nil && e.Head.OfOneLine
	found := r.found
	answers := r.answersOf(e)
	found = slices.DeleteFunc(found, func(f rule.Finding) bool {
		return answered(answers, rule.Resolve(e, f.At).Pointer, f)
	})
	found = r.causes(e, found)
	slips := r.hear(e, found)
	if r.counts && !alone {
		r.units.Add(e.Record)
	}
	found = merge(e, found)
	for i := range found {
		slips.explain(&found[i])
		resolve(e, &found[i])
	}
	slices.SortStableFunc(found, byPlace)
	if !alone { // a line has no aliases
		found = slices.DeleteFunc(found, r.doubles.again)
	}
	for _, f := range found {
		if rows := rowsIn(e, &f, r.rows); len(rows) > 0 && !alone {
			if said.Held == nil {
				said.Held = map[int][]rule.Place{}
			}
			said.Held[len(said.Findings)] = rows
		}
		said.Findings = append(said.Findings, f)
	}
	// Answers to a check of the book wait until the book is judged.
	for _, a := range answers {
		if a.book {
			said.Asked = append(said.Asked, a.kept())
		} else if f, ok := unused(a, r.answerCheck, r.checks); ok {
			said.Findings = append(said.Findings, f)
		}
	}
}

// add takes a row of the check that is at work.
func (r *Records) add(row rule.Row) {
	r.rows = append(r.rows, row.Place)
	row.Check = r.check
	if err := r.said.Rows.Add(row); err != nil && r.said.Err == nil {
		r.said.Err = err
	}
}

// resolve fills in the places of a finding and of its evidence.
func resolve(e *schema.Entry, f *rule.Finding) {
	if f.Place == (rule.Place{}) {
		f.Place = rule.Resolve(e, f.At)
	}
	for i := range f.Related {
		if re := &f.Related[i]; re.Place == (rule.Place{}) {
			re.Place = rule.Resolve(e, re.At)
		}
	}
}

func byPlace(a, b rule.Finding) int {
	return cmp.Or(
		cmp.Compare(a.Place.Span.Start.Line, b.Place.Span.Start.Line),
		cmp.Compare(a.Place.Span.Start.Column, b.Place.Span.Start.Column),
		cmp.Compare(b.Verdict, a.Verdict),
		cmp.Compare(a.Check, b.Check),
		cmp.Compare(a.Message, b.Message),
	)
}
