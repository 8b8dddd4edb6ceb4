package spill

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"slices"

	"snapgauge/verify/rule"
)

// Batch takes the rows of some records, which one goroutine judges, for a
// [Sorter] to take over.
type Batch struct {
	of    *Sorter
	buf   []byte
	marks [][]mark // by check
	file  string   // that the last row was of
	named int      // and its number among the names
}

// mark is where a row lies in the buffer of its batch.
type mark struct {
	key      uint64 // of the group, a few bytes that tell most groups apart
	from, to int
}

// markSize is about what a mark takes in memory.
const markSize = 24

// Add takes a row.
func (b *Batch) Add(r rule.Row) error {
	for len(b.marks) <= r.Check {
		b.marks = append(b.marks, nil)
	}
	if b.named < 0 || b.file != r.Place.File {
		b.file, b.named = r.Place.File, b.of.number(r.Place.File)
	}
	from := len(b.buf)
	b.buf = appendRow(b.buf, &r, b.named)
	b.marks[r.Check] = append(b.marks[r.Check], mark{from: from, to: len(b.buf)})
	return nil
}

// size is about what the rows take in memory.
func (b *Batch) size() int {
	n := len(b.buf)
	for _, m := range b.marks {
		n += markSize * len(m)
	}
	return n
}

// Sort sorts the rows of each check.
func (b *Batch) Sort() {
	for _, marks := range b.marks {
		if len(marks) < 2 {
			continue
		}
		first, _, _ := cutText(b.buf[marks[0].from:marks[0].to])
		same := len(first)
		for _, m := range marks[1:] {
			g, _, _ := cutText(b.buf[m.from:m.to])
			same = shared(first[:same], g)
		}
		for i := range marks {
			g, _, _ := cutText(b.buf[marks[i].from:marks[i].to])
			marks[i].key = keyOf(g[same:])
		}
		slices.SortFunc(marks, func(x, y mark) int {
			if x.key != y.key {
				return cmp.Compare(x.key, y.key)
			}
			return cmp.Or(compare(b.buf[x.from:x.to], b.buf[y.from:y.to]), cmp.Compare(x.from, y.from))
		})
	}
}

// shared is how many bytes two texts begin alike with.
func shared(a, b []byte) int {
	n := min(len(a), len(b))
	for i := range n {
		if a[i] != b[i] {
			return i
		}
	}
	return n
}

// keyOf is the first bytes of a text, in an order that goes with that of texts.
func keyOf(s []byte) uint64 {
	if len(s) >= 8 {
		return binary.BigEndian.Uint64(s)
	}
	var b [8]byte
	copy(b[:], s)
	return binary.BigEndian.Uint64(b[:])
}

// compare orders two rows by group and order.
func compare(x, y []byte) int {
	gx, x, _ := cutText(x)
	gy, y, _ := cutText(y)
	if c := bytes.Compare(gx, gy); c != 0 {
		return c
	}
	ox, _, _ := cutText(x)
	oy, _, _ := cutText(y)
	return bytes.Compare(ox, oy)
}
