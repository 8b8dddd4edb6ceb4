package main

import (
	"fmt"
	"strings"

	"snapgauge/verify/rule"
)

// tally counts what a run met.
type tally struct {
	records, files, left    int
	rejects, queries, notes int
	unreadable              int
}

func (t *tally) add(f rule.Finding) {
	if f.Check == unreadable.ID {
		t.unreadable++ // and a reject
	}
	switch f.Verdict {
	case rule.Reject:
		t.rejects++
	case rule.Query:
		t.queries++
	default:
		t.notes++
	}
}

// String is the summary.
func (t tally) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s in %s: %s\n", count(t.records, "record", "records"), count(t.files, "file", "files"), t.verdicts())
	if t.unreadable > 0 {
		fmt.Fprintf(&b, "%s could not be read (among the rejects)\n", count(t.unreadable, "file, record or line", "files, records or lines"))
	}
	if t.left > 0 {
		fmt.Fprintf(&b, "%s left alone\n", count(t.left, "other file", "other files"))
	}
	return b.String()
}

func (t tally) verdicts() string {
	return fmt.Sprintf("%s, %s, %s", count(t.rejects, "reject", "rejects"), count(t.queries, "query", "queries"), count(t.notes, "note", "notes"))
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}

// outcome is how the run ends.
func (t tally) outcome(failOn string) error {
	switch {
	case t.unreadable > 0:
		return errUnreadable
	case t.rejects > 0, failOn == "query" && t.queries > 0:
		return errRejected
	}
	return nil
}
