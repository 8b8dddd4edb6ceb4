package spill

import (
	"encoding/binary"
	"errors"

	"snapgauge/verify/rule"
)

// A row is written as texts (length, bytes) and numbers (varint), group and
// order first, for they are compared as they stand. The file is written as its
// number among the names of its sorter. Check and Seq are not written: rows of
// one check lie together, in their order.

var errRow = errors.New("a row of the book cannot be read")

func numbers(r *rule.Row) [4]*int {
	sp := &r.Place.Span
	return [4]*int{&sp.Start.Line, &sp.Start.Column, &sp.End.Line, &sp.End.Column}
}

func texts(r *rule.Row) [5]*string {
	return [5]*string{&r.Group, &r.Order, &r.Place.Pointer, &r.Place.Record, &r.Payload}
}

func appendRow(b []byte, r *rule.Row, file int) []byte {
	for _, t := range texts(r) {
		b = binary.AppendUvarint(b, uint64(len(*t)))
		b = append(b, *t...)
	}
	for _, n := range numbers(r) {
		b = binary.AppendVarint(b, int64(*n))
	}
	return binary.AppendUvarint(b, uint64(file))
}

// readRow reads the row that s is. Its texts are parts of s, its file is one of
// names.
func readRow(s string, names []string) (r rule.Row, err error) {
	for _, t := range texts(&r) {
		var ok bool
		if *t, s, ok = cutText(s); !ok {
			return rule.Row{}, errRow
		}
	}
	for _, n := range numbers(&r) {
		u, rest, ok := cutNumber(s)
		if !ok {
			return rule.Row{}, errRow
		}
		*n, s = int(int64(u>>1)^-int64(u&1)), rest // as binary.Varint does
	}
	file, rest, ok := cutNumber(s)
	if !ok || rest != "" || file >= uint64(len(names)) {
		return rule.Row{}, errRow
	}
	r.Place.File = names[file]
	return r, nil
}

// cutText takes a text off the beginning of a row.
func cutText[T string | []byte](s T) (text, rest T, ok bool) {
	n, rest, ok := cutNumber(s)
	if !ok || n > uint64(len(rest)) {
		return text, rest, false
	}
	return rest[:n], rest[n:], true
}

// cutNumber takes a varint off the beginning of a row.
func cutNumber[T string | []byte](s T) (n uint64, rest T, ok bool) {
	for i := 0; i < len(s) && i < binary.MaxVarintLen64; i++ {
		n |= uint64(s[i]&0x7f) << (7 * i)
		if s[i] < 0x80 {
			return n, s[i+1:], true
		}
	}
	return 0, rest, false
}
