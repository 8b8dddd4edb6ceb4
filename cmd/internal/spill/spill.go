// Package spill sorts the rows of the book checks when there are more of them
// than should be kept in memory: it sorts what fits, writes it to a temporary
// file as a run, and merges the runs when the rows are read.
package spill

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"iter"
	"os"
	"slices"
	"sync"

	"snapgauge/verify/rule"
)

const (
	// DefaultLimit is the memory, in bytes, that rows may take before they are
	// written out.
	DefaultLimit = 8 << 20

	// mostRuns is how many runs the file may have before they are made one, in a
	// file of its own. So every row is written twice at most, whatever their number.
	mostRuns = 256
)

// Sorter is a [rule.Sorter] that spills. The zero value is ready. Close must
// be called when it is done with, however that ends.
type Sorter struct {
	Limit int    // bytes in memory; 0 means DefaultLimit
	Dir   string // where the temporary file goes; "" means the system's place

	lock    sync.Mutex // of names and of what is free
	names   []string   // of files, by the number that rows have for them
	numbers map[string]int
	free    []*Batch // to be used again

	most   int    // runs in the file; 0 means mostRuns
	own    *Batch // takes what is added row by row
	size   int
	checks int
	memory []*run // batches in input order
	file   *temporary
	runs   []*run       // in the file, before those in memory
	older  []*run       // made of many, before those in the file
	files  []*temporary // that they are in
	settle sync.Once
	failed error
}

// NewBatch gives an empty batch, for [Sorter.Take]. It may be called on any
// goroutine.
func (s *Sorter) NewBatch() *Batch {
	s.lock.Lock()
	defer s.lock.Unlock()
	if n := len(s.free); n > 0 {
		b := s.free[n-1]
		s.free = s.free[:n-1]
		return b
	}
	return &Batch{of: s, named: -1}
}

// mostFree is how many batches are kept to be used again: about as many as are in
// memory before they are written.
const mostFree = 64

// release takes back a batch whose rows nobody holds any more.
func (s *Sorter) release(b *Batch) {
	b.buf = b.buf[:0]
	for i := range b.marks {
		b.marks[i] = b.marks[i][:0]
	}
	s.lock.Lock()
	defer s.lock.Unlock()
	if len(s.free) < mostFree {
		s.free = append(s.free, b)
	}
}

// number is that of a file among the names.
func (s *Sorter) number(file string) int {
	s.lock.Lock()
	defer s.lock.Unlock()
	n, known := s.numbers[file]
	if !known {
		if s.numbers == nil {
			s.numbers = map[string]int{}
		}
		n = len(s.names)
		s.names = append(s.names, file)
		s.numbers[file] = n
	}
	return n
}

// Add takes a row. Rows come before Groups.
func (s *Sorter) Add(r rule.Row) error {
	if s.own == nil {
		s.own = s.NewBatch()
	}
	if err := s.own.Add(r); err != nil {
		return err
	}
	if len(s.own.buf) <= s.limit() {
		return nil
	}
	return s.flush()
}

// flush takes over the batch of rows that were added one by one.
func (s *Sorter) flush() error {
	b := s.own
	if s.own = nil; b == nil {
		return nil
	}
	b.Sort()
	return s.Take(b)
}

func (s *Sorter) limit() int {
	if s.Limit == 0 {
		return DefaultLimit
	}
	return s.Limit
}

// Take takes over a sorted batch. Batches come in input order.
func (s *Sorter) Take(b *Batch) error {
	s.memory = append(s.memory, &run{of: s, batch: b})
	s.checks = max(s.checks, len(b.marks))
	if s.size += b.size(); s.size <= s.limit() {
		return nil
	}
	if err := s.spill(); err != nil {
		return fmt.Errorf("sort the rows of the book: %w", err)
	}
	return nil
}

// spill writes the rows in memory as one run.
func (s *Sorter) spill() (err error) {
	if s.file == nil {
		if s.file, err = newTemporary(s.Dir); err != nil {
			return err
		}
	}
	r, err := s.file.write(s.memory, s.checks)
	if err != nil {
		return err
	}
	r.of = s
	for _, m := range s.memory {
		s.release(m.batch)
	}
	clear(s.memory)
	s.memory, s.size = s.memory[:0], 0
	if s.runs = append(s.runs, r); len(s.runs) < cmp.Or(s.most, mostRuns) {
		return nil
	}
	file, err := newTemporary(s.Dir)
	if err != nil {
		return err
	}
	s.files = append(s.files, file)
	if r, err = file.write(s.runs, s.checks); err != nil {
		return err
	}
	r.of = s
	s.older, s.runs = append(s.older, r), nil
	return s.file.reset()
}

// all are the runs, once all rows are there.
func (s *Sorter) all() ([]*run, error) {
	s.settle.Do(func() { s.failed = s.flush() })
	return slices.Concat(s.older, s.runs, s.memory), s.failed
}

// Groups yields the groups of a check that have at least so many rows.
func (s *Sorter) Groups(check, least int) iter.Seq2[[]rule.Row, error] {
	return func(yield func([]rule.Row, error) bool) {
		runs, err := s.all()
		if err == nil {
			g := grouper{check: check, least: least, yield: yield}
			if err = merged(runs, check, g.take); err == nil {
				_, err = g.flush()
			}
		}
		if err != nil {
			yield(nil, fmt.Errorf("merge the rows of the book: %w", err))
		}
	}
}

// Close removes the temporary file. It may be called more than once.
func (s *Sorter) Close() error {
	files := s.files
	if s.file != nil {
		files = append(files, s.file)
	}
	var failed error
	for _, f := range files {
		failed = errors.Join(failed, f.close())
	}
	s.file, s.files = nil, nil
	return failed
}

// grouper collects the rows of a group, and makes rows of them where there are
// enough.
type grouper struct {
	check, least int
	yield        func([]rule.Row, error) bool

	group []byte
	buf   []byte // the rows, one behind the other
	ends  []int  // of the rows
	of    []*run // that they are from
	rows  []rule.Row
	seq   uint64
	bad   error
	done  bool
}

func (g *grouper) take(of *run, group, row []byte) bool {
	if len(g.ends) == 0 || !bytes.Equal(group, g.group) {
		if more, err := g.flush(); !more || err != nil {
			g.bad, g.done = err, true
			return false
		}
		g.group = append(g.group[:0], group...)
	}
	g.buf = append(g.buf, row...)
	g.ends = append(g.ends, len(g.buf))
	g.of = append(g.of, of)
	return true
}

// flush yields the group.
func (g *grouper) flush() (more bool, err error) {
	if g.done {
		return false, g.bad
	}
	defer func() { g.buf, g.ends, g.of = g.buf[:0], g.ends[:0], g.of[:0] }()
	n := uint64(len(g.ends))
	g.seq += n
	if n == 0 || len(g.ends) < g.least {
		return true, nil
	}
	text := string(g.buf)
	g.rows = g.rows[:0]
	from := 0
	for i, end := range g.ends {
		r, err := readRow(text[from:end], g.of[i].of.names)
		if err != nil {
			return false, err
		}
		r.Check, r.Seq = g.check, g.seq-n+uint64(i)
		g.rows = append(g.rows, r)
		from = end
	}
	more = g.yield(g.rows, nil)
	g.done = !more
	return more, nil
}

// temporary is a file that is gone when it is closed.
type temporary struct {
	*os.File
	path string // "" when the file has no name any more
	end  int64
}

func newTemporary(dir string) (*temporary, error) {
	f, err := os.CreateTemp(dir, "snapgauge-rows-*")
	if err != nil {
		return nil, err
	}
	t := &temporary{File: f, path: f.Name()}
	// Where the system allows it the file loses its name at once, so that it is
	// gone even if the process is killed.
	if os.Remove(t.path) == nil {
		t.path = ""
	}
	return t, nil
}

// write writes runs as one.
func (t *temporary) write(runs []*run, checks int) (*run, error) {
	r := &run{file: t.File}
	var err error
	r.rows, t.end, err = writeRows(t.File, t.end, runs, checks)
	return r, err
}

// writeRows writes the rows of each check behind the other, from an offset on.
func writeRows(w io.Writer, from int64, runs []*run, checks int) (rows []stretch, end int64, err error) {
	out := bufio.NewWriterSize(w, 1<<16)
	end = from
	var size [binary.MaxVarintLen64]byte
	for check := range checks {
		at := stretch{From: end}
		err := merged(runs, check, func(_ *run, _, row []byte) bool {
			n := binary.PutUvarint(size[:], uint64(len(row)))
			_, _ = out.Write(size[:n]) // Flush gives the error
			_, _ = out.Write(row)
			end += int64(n + len(row))
			return true
		})
		if err != nil {
			return nil, 0, err
		}
		at.To = end
		rows = append(rows, at)
	}
	return rows, end, out.Flush()
}

// reset empties the file.
func (t *temporary) reset() error {
	t.end = 0
	if err := t.Truncate(0); err != nil {
		return err
	}
	_, err := t.Seek(0, io.SeekStart)
	return err
}

func (t *temporary) close() error {
	err := t.Close()
	if t.path != "" {
		if e := os.Remove(t.path); err == nil {
			err = e
		}
	}
	return err
}

var _ rule.Sorter = (*Sorter)(nil)
