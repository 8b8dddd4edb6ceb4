package main

import (
	"errors"
	"testing"

	"snapgauge/verify/rule"
)

func TestTally(t *testing.T) {
	tests := []struct {
		name           string
		found          []rule.Finding
		onReject       error
		onQuery        error
		records, files int
		summary        string
	}{
		{"nothing", nil, nil, nil, 2, 1, "2 records in 1 file: 0 rejects, 0 queries, 0 notes\n"},
		{"a note", []rule.Finding{{Verdict: rule.Note}}, nil, nil, 1, 1, "1 record in 1 file: 0 rejects, 0 queries, 1 note\n"},
		{"a query", []rule.Finding{{Verdict: rule.Query}}, nil, errRejected, 1, 2, "1 record in 2 files: 0 rejects, 1 query, 0 notes\n"},
		{"a reject", []rule.Finding{{Verdict: rule.Reject}, {Verdict: rule.Query}}, errRejected, errRejected, 1, 1,
			"1 record in 1 file: 1 reject, 1 query, 0 notes\n"},
		{"unreadable wins", []rule.Finding{{Verdict: rule.Reject}, {Verdict: rule.Reject, Check: "unreadable"}}, errUnreadable, errUnreadable, 0, 1,
			"0 records in 1 file: 2 rejects, 0 queries, 0 notes\n1 file, record or line could not be read (among the rejects)\n"},
	}
	for _, c := range tests {
		sum := tally{records: c.records, files: c.files}
		for _, f := range c.found {
			sum.add(f)
		}
		if got := sum.outcome("reject"); !errors.Is(got, c.onReject) {
			t.Errorf("%s: --fail-on reject: %v, want %v", c.name, got, c.onReject)
		}
		if got := sum.outcome("query"); !errors.Is(got, c.onQuery) {
			t.Errorf("%s: --fail-on query: %v, want %v", c.name, got, c.onQuery)
		}
		if got := sum.String(); got != c.summary {
			t.Errorf("%s: got %q, want %q", c.name, got, c.summary)
		}
	}
}
