package rule

import (
	"cmp"
	"iter"
	"slices"
	"strings"
)

// Sorter takes the rows of the book checks in any number and hands them back
// in the order of [CompareRows]. Rows are added first, then read once.
type Sorter interface {
	Add(Row) error
	Sorted() iter.Seq2[Row, error]
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
type InMemory struct{ rows []Row }

// Add keeps a row.
func (m *InMemory) Add(r Row) error {
	m.rows = append(m.rows, r)
	return nil
}

// Sorted yields the rows in order.
func (m *InMemory) Sorted() iter.Seq2[Row, error] {
	slices.SortFunc(m.rows, CompareRows)
	return func(yield func(Row, error) bool) {
		for _, r := range m.rows {
			if !yield(r, nil) {
				return
			}
		}
	}
}
