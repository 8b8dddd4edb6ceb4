package verify

import (
	"iter"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Options for [Run], [NewRecords] and [NewBook]. The zero value runs every check
// in memory.
type Options struct {
	Checks []*rule.Check // nil means All()
	Sorter rule.Sorter   // nil means in memory
	// Units are those that the records are known to be written in; nil means
	// that they are counted, see [Records].
	Units *UnitUse
	// Apart leaves the book to another run: what is said of records does not wait.
	Apart bool
	// Lanes is how many checks of the book may be judged at once; 0 means one.
	Lanes int
}

func (opt Options) filled() Options {
	if opt.Checks == nil {
		opt.Checks = All()
	}
	if opt.Sorter == nil {
		opt.Sorter = &rule.InMemory{}
	}
	return opt
}

// answerCheck is the check that speaks of answers; nil when it is not run.
func answerCheck(checks []*rule.Check) *rule.Check {
	for _, c := range checks {
		if c.Answers {
			return c
		}
	}
	return nil
}

// Run runs checks over entries and reports findings: those of records in input
// order, then those of the book. Findings come resolved, merged (one figure,
// one finding) and without what has been answered. Report returns false to
// stop. The error is the sorter's.
//
// Who has several workers has each judge a part of the entries by a [Records] of
// its own, reports what they found in input order, and has a [Book] judge the
// rest.
func Run(entries iter.Seq[schema.Entry], opt Options, report func(rule.Finding) bool) error {
	opt = opt.filled()
	records, book := NewRecords(opt), NewBook(opt)
	said := Said{Rows: opt.Sorter}
	for e := range entries {
		records.Judge(&e, &said)
		if said.Err != nil {
			break
		}
		if !book.Hear(&said, report) {
			return nil
		}
		clear(said.Findings)
		said.Findings, said.Held, said.Asked = said.Findings[:0], nil, nil
	}
	if said.Err != nil {
		book.report = report
		book.flush()
		return said.Err
	}
	return book.Judge(report)
}
