package verify

import (
	"sync"

	"snapgauge/verify/rule"
)

// Book judges records together, once all have told their rows to the sorter of
// the options.
type Book struct {
	checks      []*rule.Check
	sorter      rule.Sorter
	answerCheck *rule.Check
	asked       []*answer
	queue       queue
	report      func(rule.Finding) bool
	lanes       int
}

// NewBook makes a Book.
func NewBook(opt Options) *Book {
	opt = opt.filled()
	return &Book{
		checks: opt.Checks, sorter: opt.Sorter, answerCheck: answerCheck(opt.Checks),
		queue: queue{through: opt.Apart}, lanes: max(opt.Lanes, 1),
	}
}

// Hear takes what was said of records, in input order, and reports it; but of a
// figure that a check of the book may know more of, and what comes after it, waits
// for that. Report returns false to stop, and so does Hear then.
func (b *Book) Hear(said *Said, report func(rule.Finding) bool) bool {
	b.Ask(said.Asked...)
	b.report = report
	for i, f := range said.Findings {
		if !b.say(f, said.Held[i]) {
			return false
		}
	}
	return true
}

// Ask hands over answers to checks of the book, in input order.
func (b *Book) Ask(asked ...Asked) {
	for _, a := range asked {
		b.asked = append(b.asked, &answer{Asked: a, known: true, book: true})
	}
}

// Asked returns what was handed over.
func (b *Book) Asked() []Asked {
	var all []Asked
	for _, a := range b.asked {
		all = append(all, a.Asked)
	}
	return all
}

// Judge reports what the checks of the book say, and the answers to them that
// answer nothing. Report returns false to stop. The error is the sorter's.
func (b *Book) Judge(report func(rule.Finding) bool) error {
	b.report = report
	more, err := b.judgeAll()
	if more {
		b.flush()
	}
	return err
}

// judgeAll judges what there is to judge; more is false where report said stop.
func (b *Book) judgeAll() (more bool, err error) {
	stop := make(chan struct{})
	var all sync.WaitGroup
	defer all.Wait()
	defer close(stop)
	for lane := range b.start(stop, &all) {
		for f := range lane.found {
			if !b.sayOfBook(f) {
				return false, nil
			}
		}
		if lane.err != nil {
			return true, lane.err
		}
	}
	for _, a := range b.asked {
		if f, ok := unused(a, b.answerCheck, b.checks); ok && !b.say(f, nil) {
			return false, nil
		}
	}
	return true, nil
}

// lane is one check of the book at work.
type lane struct {
	check int
	found chan rule.Finding
	err   error // when found is closed
}

// laneRoom is how many findings a lane may be ahead of what is reported.
const laneRoom = 256

// start has the checks of the book judged, several at once, and yields them in
// their order.
func (b *Book) start(stop chan struct{}, all *sync.WaitGroup) chan *lane {
	lanes := make(chan *lane, b.lanes-1) // one more is at the reader's
	all.Go(func() {
		defer close(lanes)
		for i, c := range b.checks {
			if c.Book == nil {
				continue
			}
			l := &lane{check: i, found: make(chan rule.Finding, laneRoom)}
			select {
			case lanes <- l:
			case <-stop:
				return
			}
			all.Go(func() {
				defer close(l.found)
				l.err = b.judge(i, func(f rule.Finding) bool {
					select {
					case l.found <- f:
						return true
					case <-stop:
						return false
					}
				})
			})
		}
	})
	return lanes
}

// judge judges the rows of one check, one group at a time.
func (b *Book) judge(check int, report func(rule.Finding) bool) error {
	c := b.checks[check]
	var found []rule.Finding
	for group, err := range b.sorter.Groups(check, c.Book.Least) {
		if err != nil {
			return err
		}
		c.Book.Judge(group, func(f rule.Finding) {
			if f.Check == "" {
				f.Check = c.ID
			}
			if f.Source.IsZero() {
				f.Source = c.Source
			}
			found = append(found, f)
		})
		var said doubles
		for _, f := range found {
			if answered(b.asked, f.Place.Pointer, f) || said.again(f) {
				continue
			}
			ExplainSibling(&f)
			if !report(f) {
				return nil
			}
		}
		clear(found)
		found = found[:0]
	}
	return nil
}
