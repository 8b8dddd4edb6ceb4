package verify

import (
	"cmp"
	"iter"
	"slices"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Options for [Run]. The zero value runs every check in memory.
type Options struct {
	Checks []*rule.Check // nil means All()
	Sorter rule.Sorter   // nil means in memory
	// Units are those that the records are known to be written in; nil means
	// that they are counted as the run goes.
	Units *UnitUse
}

// Run runs checks over entries and reports findings: those of records in input
// order, then those of the book. Findings come resolved, merged (one figure,
// one finding) and without what has been answered. Report returns false to
// stop. The error is the sorter's.
func Run(entries iter.Seq[schema.Entry], opt Options, report func(rule.Finding) bool) error {
	if opt.Checks == nil {
		opt.Checks = All()
	}
	if opt.Sorter == nil {
		opt.Sorter = &rule.InMemory{}
	}
	r := runner{checks: opt.Checks, sorter: opt.Sorter, report: report, units: opt.Units}
	if r.units == nil {
		r.units, r.counts = &UnitUse{}, true
	}
	for i, c := range opt.Checks {
		if c.Answers {
			r.answerCheck = opt.Checks[i]
		}
	}
	for e := range entries {
		if !r.entry(&e) {
			return r.err
		}
		if r.err != nil {
			break
		}
	}
	if r.err == nil && r.book() && r.unused(r.asked) || r.err != nil {
		r.flush()
	}
	return r.err
}

type runner struct {
	checks      []*rule.Check
	sorter      rule.Sorter
	report      func(rule.Finding) bool
	answerCheck *rule.Check // nil when it is not run
	asked       []*answer   // answers to checks of the book, not judged yet
	doubles     doubles
	units       *UnitUse
	counts      bool // what is met is added to units
	queue       queue
	seq         uint64
	err         error

	// One pass serves all checks of all entries.
	pass  *rule.Pass
	check int            // that is at work
	found []rule.Finding // what was said of the entry at hand
	rows  []rule.Place   // of it that the book judges
	emit  func(rule.Row)
}

// entry runs the checks of one record or head; false means stop.
func (r *runner) entry(e *schema.Entry) bool {
	p := r.pass
	if p == nil {
		p = rule.NewPass(nil, e, func(f rule.Finding) { r.found = append(r.found, f) })
		r.pass, r.emit = p, r.add
	}
	p.Take(e)
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
			c.Book.Emit(p, r.emit)
		}
	}
	found := r.found
	answers := r.answersOf(e)
	found = slices.DeleteFunc(found, func(f rule.Finding) bool {
		return answered(answers, rule.Resolve(e, f.At).Pointer, f)
	})
	found = r.causes(e, found)
	slips := r.hear(e, found)
	if r.counts {
		r.units.Add(e.Record)
	}
	found = merge(e, found)
	for i := range found {
		slips.explain(&found[i])
		resolve(e, &found[i])
	}
	slices.SortStableFunc(found, byPlace)
	found = r.doubles.of(e, found)
	for _, f := range found {
		if !r.say(f, rowsIn(e, &f, r.rows)) {
			return false
		}
	}
	// Answers to a check of the book wait until the book is judged.
	var here []*answer
	for _, a := range answers {
		if a.book {
			r.asked = append(r.asked, a)
		} else {
			here = append(here, a)
		}
	}
	return r.unused(here)
}

// add takes a row of the check that is at work.
func (r *runner) add(row rule.Row) {
	r.rows = append(r.rows, row.Place)
	row.Check, row.Seq = r.check, r.seq
	// Texts of a record are cut from its line, which need not live on.
	row.Order, row.Payload = strings.Clone(row.Order), strings.Clone(row.Payload)
	row.Place.Record = strings.Clone(row.Place.Record)
	r.seq++
	if err := r.sorter.Add(row); err != nil && r.err == nil {
		r.err = err
	}
}

// book judges the rows, one group at a time; false means stop.
func (r *runner) book() bool {
	var group []rule.Row
	judge := func() bool {
		if len(group) == 0 {
			return true
		}
		c := r.checks[group[0].Check]
		var found []rule.Finding
		c.Book.Judge(group, func(f rule.Finding) {
			if f.Check == "" {
				f.Check = c.ID
			}
			if f.Source.IsZero() {
				f.Source = c.Source
			}
			found = append(found, f)
		})
		group = group[:0]
		var said doubles
		for _, f := range found {
			if answered(r.asked, f.Place.Pointer, f) || said.again(f) {
				continue
			}
			ExplainSibling(&f)
			if !r.sayOfBook(f) {
				return false
			}
		}
		return true
	}
	for row, err := range r.sorter.Sorted() {
		if err != nil {
			r.err = err
			return false
		}
		if len(group) > 0 && (group[0].Check != row.Check || group[0].Group != row.Group) {
			if !judge() {
				return false
			}
		}
		group = append(group, row)
	}
	return judge()
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
