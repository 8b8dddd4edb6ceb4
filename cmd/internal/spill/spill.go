// Package spill sorts the rows of the book checks when there are more of them
// than should be kept in memory: it sorts what fits, writes it to a temporary
// file as a run, and merges the runs when the rows are read.
package spill

import (
	"bufio"
	"container/heap"
	"fmt"
	"io"
	"iter"
	"os"
	"slices"
	"unsafe"

	"snapgauge/verify/rule"
)

// DefaultLimit is the memory, in bytes, that rows may take before they are
// written out.
const DefaultLimit = 32 << 20

// Sorter is a [rule.Sorter] that spills. The zero value is ready. Close must
// be called when it is done with, however that ends.
type Sorter struct {
	Limit int    // bytes in memory; 0 means DefaultLimit
	Dir   string // where the temporary file goes; "" means the system's place

	rows []rule.Row
	size int
	file *os.File
	path string // "" when the file has no name any more
	end  int64  // bytes written
	runs []stretch
}

// stretch is one sorted run within the file.
type stretch struct{ from, to int64 }

// Add takes a row. Rows come before Sorted.
func (s *Sorter) Add(r rule.Row) error {
	s.rows = append(s.rows, r)
	s.size += weight(r)
	limit := s.Limit
	if limit == 0 {
		limit = DefaultLimit
	}
	if s.size <= limit {
		return nil
	}
	if err := s.spill(); err != nil {
		return fmt.Errorf("sort the rows of the book: %w", err)
	}
	return nil
}

// weight is about what a row takes in memory.
func weight(r rule.Row) int {
	return int(unsafe.Sizeof(r)) + len(r.Group) + len(r.Order) + len(r.Payload) +
		len(r.Place.Pointer) + len(r.Place.Record)
}

// spill writes the rows in memory as one run.
func (s *Sorter) spill() error {
	if s.file == nil {
		f, err := os.CreateTemp(s.Dir, "snapgauge-rows-*")
		if err != nil {
			return err
		}
		s.file, s.path = f, f.Name()
		// Where the system allows it the file loses its name at once, so that
		// it is gone even if the process is killed.
		if os.Remove(s.path) == nil {
			s.path = ""
		}
	}
	slices.SortFunc(s.rows, rule.CompareRows)
	w := bufio.NewWriterSize(s.file, 1<<16)
	from := s.end
	var buf []byte
	for _, r := range s.rows {
		buf = appendRow(buf[:0], r)
		if _, err := w.Write(buf); err != nil {
			return err
		}
		s.end += int64(len(buf))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	s.runs = append(s.runs, stretch{from, s.end})
	clear(s.rows)
	s.rows, s.size = s.rows[:0], 0
	return nil
}

// Sorted yields the rows in the order of [rule.CompareRows].
func (s *Sorter) Sorted() iter.Seq2[rule.Row, error] {
	return func(yield func(rule.Row, error) bool) {
		slices.SortFunc(s.rows, rule.CompareRows)
		m := merger{{rows: s.rows}}
		for _, st := range s.runs {
			section := io.NewSectionReader(s.file, st.from, st.to-st.from)
			m = append(m, &source{from: bufio.NewReaderSize(section, 1<<15)})
		}
		if err := m.start(); err != nil {
			yield(rule.Row{}, fmt.Errorf("merge the rows of the book: %w", err))
			return
		}
		for len(m) > 0 {
			if !yield(m[0].head, nil) {
				return
			}
			if err := m.advance(); err != nil {
				yield(rule.Row{}, fmt.Errorf("merge the rows of the book: %w", err))
				return
			}
		}
	}
}

// Close removes the temporary file. It may be called more than once.
func (s *Sorter) Close() error {
	if s.file == nil {
		return nil
	}
	err := s.file.Close()
	s.file = nil
	if s.path != "" {
		if e := os.Remove(s.path); err == nil {
			err = e
		}
	}
	return err
}

// source gives the rows of one run: from memory, or from the file.
type source struct {
	head rule.Row
	rows []rule.Row
	from *bufio.Reader
}

// next moves to the next row; io.EOF at the end.
func (s *source) next() (err error) {
	if s.from != nil {
		s.head, err = readRow(s.from)
		return err
	}
	if len(s.rows) == 0 {
		return io.EOF
	}
	s.head, s.rows = s.rows[0], s.rows[1:]
	return nil
}

// merger is a heap of sources by their next row.
type merger []*source

func (m merger) Len() int           { return len(m) }
func (m merger) Less(i, j int) bool { return rule.CompareRows(m[i].head, m[j].head) < 0 }
func (m merger) Swap(i, j int)      { m[i], m[j] = m[j], m[i] }
func (m *merger) Push(x any)        { *m = append(*m, x.(*source)) }
func (m *merger) Pop() any {
	last := len(*m) - 1
	x := (*m)[last]
	*m = (*m)[:last]
	return x
}

// start reads the first row of each source and drops the empty ones.
func (m *merger) start() error {
	kept := (*m)[:0]
	for _, s := range *m {
		switch err := s.next(); err {
		case nil:
			kept = append(kept, s)
		case io.EOF:
		default:
			return err
		}
	}
	*m = kept
	heap.Init(m)
	return nil
}

// advance replaces the smallest row by the next of its source.
func (m *merger) advance() error {
	switch err := (*m)[0].next(); err {
	case nil:
		heap.Fix(m, 0)
	case io.EOF:
		heap.Pop(m)
	default:
		return err
	}
	return nil
}
