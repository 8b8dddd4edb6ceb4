package spill

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"

	"snapgauge/verify/rule"
)

// A row is written as its numbers (varint) and its texts (length, bytes), in
// the order of texts and numbers below.

// mostText bounds a text that is read back, in bytes. No file that is read
// whole is larger.
const mostText = 64 << 20

func numbers(r *rule.Row) [4]*int {
	sp := &r.Place.Span
	return [4]*int{&sp.Start.Line, &sp.Start.Column, &sp.End.Line, &sp.End.Column}
}

func texts(r *rule.Row) [6]*string {
	return [6]*string{&r.Group, &r.Order, &r.Place.File, &r.Place.Pointer, &r.Place.Record, &r.Payload}
}

func appendRow(b []byte, r rule.Row) []byte {
	b = binary.AppendUvarint(b, uint64(r.Check))
	b = binary.AppendUvarint(b, r.Seq)
	for _, n := range numbers(&r) {
		b = binary.AppendVarint(b, int64(*n))
	}
	for _, t := range texts(&r) {
		b = binary.AppendUvarint(b, uint64(len(*t)))
		b = append(b, *t...)
	}
	return b
}

// readRow reads one row. It answers with io.EOF at the end of a run, and with
// another error when the run ends within a row.
func readRow(in *bufio.Reader) (r rule.Row, err error) {
	check, err := binary.ReadUvarint(in)
	if err != nil {
		return r, err
	}
	r.Check = int(check)
	if r.Seq, err = binary.ReadUvarint(in); err != nil {
		return r, torn(err)
	}
	for _, n := range numbers(&r) {
		v, err := binary.ReadVarint(in)
		if err != nil {
			return r, torn(err)
		}
		*n = int(v)
	}
	var buf bytes.Buffer
	for _, t := range texts(&r) {
		size, err := binary.ReadUvarint(in)
		if err != nil {
			return r, torn(err)
		}
		if size > mostText {
			return r, fmt.Errorf("a text of %d bytes in the temporary file", size)
		}
		buf.Reset()
		if _, err := io.CopyN(&buf, in, int64(size)); err != nil {
			return r, torn(err)
		}
		*t = buf.String()
	}
	return r, nil
}

// torn makes an end within a row unexpected.
func torn(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

var _ rule.Sorter = (*Sorter)(nil)
