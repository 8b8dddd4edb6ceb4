package verify

import (
	"slices"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// mostHeld is how many findings may wait for the book. A run that finds more
// goes on without: the checks of the book then speak for themselves.
const mostHeld = 2000

// queue holds findings back, in their order, from the first of which a check of
// the book may know more: one figure, one finding. A line of NDJSON stands alone:
// there may be any number, and they may be judged where the book is not, so that
// what is said of one never waits.
type queue struct {
	waiting []rule.Finding
	of      map[rule.Place]int // the finding that stands for a row of the book
	through bool               // nothing waits any more
}

// say reports a finding, or lets it wait with those before it; false means stop.
func (b *Book) say(f rule.Finding, rows []rule.Place) bool {
	if b.queue.through || len(b.queue.waiting) == 0 && len(rows) == 0 {
		return b.report(f)
	}
	for _, pl := range rows {
		if b.queue.of == nil {
			b.queue.of = map[rule.Place]int{}
		}
		if _, ok := b.queue.of[pl]; !ok {
			b.queue.of[pl] = len(b.queue.waiting)
		}
	}
	b.queue.waiting = append(b.queue.waiting, f)
	if len(b.queue.waiting) <= mostHeld {
		return true
	}
	b.queue.through = true
	return b.flush()
}

// flush reports what waits; false means stop.
func (b *Book) flush() bool {
	waiting := b.queue.waiting
	b.queue.waiting, b.queue.of = nil, nil
	for _, f := range waiting {
		if !b.report(f) {
			return false
		}
	}
	return true
}

// sayOfBook reports a finding of the book, or makes it evidence of the one on its
// figure, be that of a record or of another check of the book.
func (b *Book) sayOfBook(f rule.Finding) bool {
	if i, ok := b.queue.of[f.Place]; ok && f.Read != "" {
		if first := &b.queue.waiting[i]; first.Check != f.Check {
			Join(first, f)
			return true
		}
	}
	if f.Read == "" {
		return b.say(f, nil)
	}
	return b.say(f, []rule.Place{f.Place})
}

// rowsIn lists the places of the rows of the book that lie in the figure that a
// finding is about.
func rowsIn(e *schema.Entry, f *rule.Finding, rows []rule.Place) (out []rule.Place) {
	if e.Record == nil || len(rows) == 0 || f.Verdict < rule.Query || f.At.Key {
		return nil
	}
	for p := range e.Record.Figures() {
		if !p.Has(f.At.Path) {
			continue
		}
		figure := e.Pointer + p.String()
		for _, pl := range rows {
			if pl.Pointer == figure || strings.HasPrefix(pl.Pointer, figure+"/") {
				out = append(out, pl)
			}
		}
	}
	return out
}

// Join adds to a finding on a figure what a check of the book says of it: as
// evidence, and with the slips by which the figure would go with its siblings, in
// turn with those of the finding: what the siblings take tells more than what such
// a fastener takes, but a line may be bent.
func Join(f *rule.Finding, book rule.Finding) {
	f.Verdict = max(f.Verdict, book.Verdict)
	f.Related = append(slices.Clone(f.Related), rule.Related{Place: book.Place, Message: strings.TrimSuffix(book.Message, noSlip)})
	f.Related = append(f.Related, book.Related...)
	f.Slips = offLine(f.Slips, &book)
	if len(book.Slips) == 0 {
		return
	}
	f.Message = strings.TrimSuffix(f.Message, noSlip)
	var slips []rule.Slip
	add := func(from []rule.Slip, i int) {
		if i >= len(from) {
			return
		}
		k := slices.IndexFunc(slips, func(x rule.Slip) bool { return x.Reads == from[i].Reads })
		switch {
		case k < 0:
			slips = append(slips, from[i])
		case !strings.Contains(slips[k].Because, from[i].Because):
			slips[k].Because += "; " + from[i].Because
		}
	}
	for i := range mostSlips {
		add(book.Slips, i)
		add(f.Slips, i)
	}
	f.Slips = slips[:min(len(slips), mostSlips)]
}

// mostSlips is how many slips a finding shows.
const mostSlips = 3
