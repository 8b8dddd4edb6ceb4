package book

import (
	"strconv"
	"strings"

	"snapgauge/schema"
)

// A payload is a list of texts, each behind a mark that stands in no text of a
// spec file. Every record writes one, and few are ever read.

// payload writes one.
type payload struct{ b []byte }

func (w *payload) text(s string) { w.b = append(append(w.b, s...), fieldMark...) }
func (w *payload) int(n int64) {
	w.b = append(strconv.AppendInt(w.b, n, 10), fieldMark...)
}

func (w *payload) flags(all ...bool) {
	n := int64(0)
	for i, on := range all {
		if on {
			n |= 1 << i
		}
	}
	w.int(n)
}

func (w *payload) texts(list []string) {
	w.int(int64(len(list)))
	for _, s := range list {
		w.text(s)
	}
}

func (w *payload) boxes(boxes []schema.Box) {
	w.int(int64(len(boxes)))
	for i := range boxes {
		w.texts(boxes[i].Variants)
		w.int(int64(len(boxes[i].Serials)))
		for j := range boxes[i].Serials {
			s := &boxes[i].Serials[j]
			w.texts([]string{s.Name, s.Text, s.Form, s.Bad})
			w.int(s.From)
			w.int(s.To)
			w.flags(s.HasFrom, s.HasTo)
		}
	}
}

// payloadReader reads one back; bad is set when it is no such list.
type payloadReader struct {
	rest string
	bad  bool
}

func (r *payloadReader) text() string {
	s, rest, ok := strings.Cut(r.rest, fieldMark)
	r.rest, r.bad = rest, r.bad || !ok
	return s
}

func (r *payloadReader) int() int64 {
	n, err := strconv.ParseInt(r.text(), 10, 64)
	r.bad = r.bad || err != nil
	return n
}

// count is the length of a list, which cannot be longer than what is left.
func (r *payloadReader) count() int {
	n := r.int()
	if r.bad = r.bad || n < 0 || n > int64(len(r.rest)); r.bad {
		return 0
	}
	return int(n)
}

func (r *payloadReader) flags(all ...*bool) {
	n := r.int()
	for i, on := range all {
		*on = n&(1<<i) != 0
	}
}

func (r *payloadReader) texts() []string {
	var list []string
	for range r.count() {
		list = append(list, r.text())
	}
	return list
}

func (r *payloadReader) boxes() []schema.Box {
	var boxes []schema.Box
	for range r.count() {
		b := schema.Box{Variants: r.texts()}
		for range r.count() {
			s := schema.SerialRange{}
			names := r.texts()
			if r.bad = r.bad || len(names) != 4; r.bad {
				return nil
			}
			s.Name, s.Text, s.Form, s.Bad = names[0], names[1], names[2], names[3]
			s.From, s.To = r.int(), r.int()
			r.flags(&s.HasFrom, &s.HasTo)
			b.Serials = append(b.Serials, s)
		}
		boxes = append(boxes, b)
	}
	return boxes
}
