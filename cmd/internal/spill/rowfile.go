package spill

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// A row file holds the sorted rows of one run over a part of a book: the rows of
// each check behind the other, then a foot in JSON that tells where they lie, its
// length in eight bytes, and the mark.

const rowMark = "snapgauge rows 1\n"

// ErrNoRowFile is what a file that is none, or of which the end is missing, is.
var ErrNoRowFile = errors.New("this is no row file, or its end is missing; write it anew by check --rows")

type foot struct {
	Rows  []stretch       `json:"rows"`  // by check
	Names []string        `json:"names"` // of files, by the number that rows have for them
	Head  json.RawMessage `json:"head"`  // of who wrote it
}

// WriteFile writes all rows to a row file, and head with them. The file appears
// when it is whole.
func (s *Sorter) WriteFile(name string, head any) (err error) {
	runs, err := s.all()
	if err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".snapgauge-rows-*")
	if err != nil {
		return err
	}
	defer func() {
		if err = errors.Join(err, f.Close()); err == nil {
			err = os.Rename(f.Name(), name)
		}
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	at := foot{Names: s.names}
	if at.Head, err = json.Marshal(head); err != nil {
		return err
	}
	if at.Rows, _, err = writeRows(f, 0, runs, s.checks); err != nil {
		return err
	}
	b, err := json.Marshal(at)
	if err != nil {
		return err
	}
	b = binary.BigEndian.AppendUint64(b, uint64(len(b)))
	_, err = f.Write(append(b, rowMark...))
	return err
}

// RowFile is a row file that is open for reading.
type RowFile struct {
	run run
}

// OpenRows opens a row file and reads its head.
func OpenRows(name string, head any) (r *RowFile, err error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() {
		if err != nil {
			f.Close()
		}
	}()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	const tail = 8 + int64(len(rowMark))
	last := make([]byte, tail)
	if _, err := f.ReadAt(last, info.Size()-tail); err != nil || string(last[8:]) != rowMark {
		return nil, ErrNoRowFile
	}
	size := binary.BigEndian.Uint64(last)
	end := info.Size() - tail
	if size > mostRow || int64(size) > end {
		return nil, ErrNoRowFile
	}
	var at foot
	dec := json.NewDecoder(io.NewSectionReader(f, end-int64(size), int64(size)))
	if dec.Decode(&at) != nil || json.Unmarshal(at.Head, head) != nil {
		return nil, ErrNoRowFile
	}
	for _, s := range at.Rows {
		if s.From < 0 || s.To < s.From || s.To > end {
			return nil, ErrNoRowFile
		}
	}
	return &RowFile{run{of: &Sorter{names: at.Names}, file: f, rows: at.Rows}}, nil
}

// Close closes the file.
func (r *RowFile) Close() error { return r.run.file.Close() }

// Merged is a sorter that has the rows of row files, those of the first file
// first. Nothing is to be added to it.
func Merged(files []*RowFile) *Sorter {
	s := &Sorter{}
	for _, f := range files {
		s.runs = append(s.runs, &f.run)
	}
	return s
}

// Explain words an error about a row file.
func Explain(name string, err error) error {
	var path *os.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	return fmt.Errorf("%s: %w", name, err)
}
