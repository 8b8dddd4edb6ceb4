package main

import (
	"context"

	"snapgauge/cmd/internal/spill"
	"snapgauge/cmd/internal/spread"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/edition"
)

// heard is what came of some records.
type heard struct {
	said    verify.Said
	rows    *spill.Batch
	records int
}

// So many records or findings are handed on at once; a chunk of NDJSON has less.
const (
	mostRecords  = 4096
	mostFindings = 1024
)

// judging is a run over parts of the input.
type judging struct {
	files   *files
	sorter  *spill.Sorter
	book    *verify.Book
	earlier *edition.Book
}

// parts has workers judge the parts of the input and takes what they say in input
// order: rows by the sorter, the rest by say, until it returns false. It returns
// how many records there were.
func (r *judging) parts(ctx context.Context, opt checkOptions, say func(*verify.Said) bool) (records int, err error) {
	start := func() func(specs.Part, func(*heard) bool) {
		of := verify.NewRecords(verify.Options{})
		return func(part specs.Part, emit func(*heard) bool) { r.part(of, part, emit) }
	}
	spread.InOrder(ctx, opt.workers, r.files.parts(opt.paths), start, func(j *heard) bool {
		records += j.records
		if err = j.said.Err; err == nil {
			err = r.sorter.Take(j.rows)
		}
		return err == nil && say(&j.said)
	})
	return records, err
}

// part judges one part.
func (r *judging) part(of *verify.Records, part specs.Part, emit func(*heard) bool) {
	var j *heard
	begin := func() {
		j = &heard{rows: r.sorter.NewBatch()}
		j.said.Rows = j.rows
	}
	begin()
	n := 0
	for e, bad := range part {
		if bad != nil {
			j.said.Findings = append(j.said.Findings, unreadableFinding(e, bad))
		}
		switch {
		case e.Lost: // there for the book, and counted as unreadable
		case bad != nil:
			continue
		case !e.HeadOnly:
			j.records++
		}
		e.Before = r.earlier.Find(&e)
		of.Judge(&e, &j.said)
		if n++; n == mostRecords || len(j.said.Findings) >= mostFindings {
			j.rows.Sort()
			if !emit(j) {
				return
			}
			begin()
			n = 0
		}
	}
	j.rows.Sort()
	emit(j)
}
