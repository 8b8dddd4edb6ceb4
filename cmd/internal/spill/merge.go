package spill

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"os"
)

// mostRow bounds a row that is read back, in bytes. No file that is read whole
// is larger.
const mostRow = 64 << 20

// stretch is where the sorted rows of a check lie in a file.
type stretch struct {
	From, To int64
}

// run is a number of sorted rows: in a file or, before they are written, in a
// batch.
type run struct {
	of    *Sorter // whose names the rows use
	batch *Batch
	file  *os.File
	rows  []stretch // by check
}

// source yields the rows of one check of a run, in order.
type source struct {
	run   *run
	place int    // of the run among all: of equal rows the earlier comes first
	row   []byte // the next; good until the one after
	group []byte // of the row
	rest  []byte // what follows the group

	batch *Batch
	marks []mark
	in    *bufio.Reader
	long  []byte // for a row that is longer than the reader's buffer
}

// readAhead is the buffer of a source in a file.
const readAhead = 8 << 10

func (r *run) source(place, check int) *source {
	s := &source{run: r, place: place}
	switch {
	case r.batch != nil && check < len(r.batch.marks):
		s.batch, s.marks = r.batch, r.batch.marks[check]
	case r.batch == nil && check < len(r.rows):
		at := r.rows[check]
		s.in = bufio.NewReaderSize(io.NewSectionReader(r.file, at.From, at.To-at.From), readAhead)
	}
	return s
}

// next moves to the next row; io.EOF at the end.
func (s *source) next() (err error) {
	switch {
	case s.batch != nil && len(s.marks) > 0:
		m := s.marks[0]
		s.row, s.marks = s.batch.buf[m.from:m.to], s.marks[1:]
	case s.in != nil:
		if s.row, err = s.read(); err != nil {
			return err
		}
	default:
		return io.EOF
	}
	var ok bool
	if s.group, s.rest, ok = cutText(s.row); !ok {
		return errRow
	}
	return nil
}

// read reads a row of a file.
func (s *source) read() ([]byte, error) {
	size, err := binary.ReadUvarint(s.in)
	switch {
	case err != nil:
		return nil, err
	case size > mostRow:
		return nil, fmt.Errorf("a row of %d bytes in the temporary file", size)
	case size <= readAhead:
		row, err := s.in.Peek(int(size))
		if err != nil {
			return nil, torn(err)
		}
		_, _ = s.in.Discard(int(size)) // the bytes stay until the next is read
		return row, nil
	}
	s.long = append(s.long[:0], make([]byte, size)...)
	if _, err := io.ReadFull(s.in, s.long); err != nil {
		return nil, torn(err)
	}
	return s.long, nil
}

// torn makes an end within a row unexpected.
func torn(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

func (s *source) before(t *source) bool {
	c := bytes.Compare(s.group, t.group)
	if c == 0 {
		x, _, _ := cutText(s.rest)
		y, _, _ := cutText(t.rest)
		c = bytes.Compare(x, y)
	}
	return c < 0 || c == 0 && s.place < t.place
}

// merged calls take with the rows of one check of several runs, in order, until
// it returns false. A row is good until take returns.
func merged(runs []*run, check int, take func(of *run, group, row []byte) bool) error {
	var heap []*source
	for i, r := range runs {
		s := r.source(i, check)
		switch err := s.next(); err {
		case nil:
			heap = append(heap, s)
		case io.EOF:
		default:
			return err
		}
	}
	for i := len(heap)/2 - 1; i >= 0; i-- {
		sink(heap, i)
	}
	for len(heap) > 0 {
		s := heap[0]
		if !take(s.run, s.group, s.row) {
			return nil
		}
		switch err := s.next(); err {
		case nil:
		case io.EOF:
			last := len(heap) - 1
			heap[0], heap[last] = heap[last], nil
			heap = heap[:last]
		default:
			return err
		}
		sink(heap, 0)
	}
	return nil
}

// sink moves source i down to its place in the heap.
func sink(heap []*source, i int) {
	for {
		k := 2*i + 1
		if k >= len(heap) {
			return
		}
		if k+1 < len(heap) && heap[k+1].before(heap[k]) {
			k++
		}
		if !heap[k].before(heap[i]) {
			return
		}
		heap[i], heap[k] = heap[k], heap[i]
		i = k
	}
}
