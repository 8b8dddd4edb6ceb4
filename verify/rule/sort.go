package rule

import (
	"cmp"
	"iter"
	"slices"
	"strings"
)

// Rows takes the rows that records tell the book checks. The texts of a row are
// good until Add returns.
type Rows interface {
	Add(Row) error
}

// Sorter takes rows in any number and hands them back by check, in groups. Rows
// are added first, then read.
type Sorter interface {
	Rows
	// Groups yields the groups of a check that have at least so many rows, in the
	// order of [CompareRows]. A group is good until the next. It may be called for
	// several checks at once, on several goroutines.
	Groups(check, least int) iter.Seq2[[]Row, error]
}

// CompareRows orders rows by check, group, order and input.
func CompareRows(a, b Row) int {
	return cmp.Or(
		cmp.Compare(a.Check, b.Check),
		strings.Compare(a.Group, b.Group),
		strings.Compare(a.Order, b.Order),
		cmp.Compare(a.Seq, b.Seq),
	)
}

// InMemory is a Sorter that keeps every row. The zero value is ready.
type InMemory struct {
	rows map[int][]Row // by check
	seq  uint64
}

// Add keeps a row.
func (m *InMemory) Add(r Row) error {
	r.Group, r.Order, r.Payload = strings.Clone(r.Group), strings.Clone(r.Order), strings.Clone(r.Payload)
	r.Place.Record, r.Place.Pointer = strings.Clone(r.Place.Record), strings.Clone(r.Place.Pointer)
	r.Seq = m.seq
	m.seq++
	if m.rows == nil {
		m.rows = map[int][]Row{}
	}
	m.rows[r.Check] = append(m.rows[r.Check], r)
	return nil
}

// Groups yields the groups of a check.
func (m *InMemory) Groups(check, least int) iter.Seq2[[]Row, error] {
	return func(yield func([]Row, error) bool) {
		rows := m.rows[check]
		slices.SortFunc(rows, CompareRows)
		for from := 0; from < len(rows); {
			to := from + 1
			for to < len(rows) && rows[to].Group == rows[from].Group {
				to++
			}
			if to-from >= least && !yield(rows[from:to], nil) {
				return
			}
			from = to
		}
	}
}
