package specs

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"

	"snapgauge/schema"
)

// readLines reads NDJSON: a record a line, empty lines passed over, but not all
// of them empty. It holds one chunk at a time.
func (r Reader) readLines(name string, in io.Reader, yield func(schema.Entry, error) bool) {
	for part := range r.chunks(name, in, 1) {
		for e, err := range part {
			if !yield(e, err) {
				return
			}
		}
	}
}

// isEmptyLine reports a line that holds no record, nor tries to.
func isEmptyLine(line string) bool { return strings.Trim(line, blankLines) == "" }

// Lines reads lines of NDJSON one by one. Sound lines are read without
// allocation: an entry is good until the next line is read, unless
// [Lines.Keep] is called. It is for one goroutine; the zero Lines is ready.
type Lines struct {
	Plain bool // see [Reader]

	decoder schema.Decoder
	quick   quickJSON
	slow    jsonReader
	place   *linePlace
}

// Read reads one line of a file, which begins at byte base of it: its text, cut
// from the file without its line feed. An error is an [*Unreadable]; the entry
// beside it is Lost, or the file ends with it.
func (l *Lines) Read(file, line string, base, number int) (schema.Entry, error) {
	return l.read(text{file: file, src: line, base: base, line: number}, false)
}

// Keep leaves the entry that was read to the caller for good.
func (l *Lines) Keep() {
	l.place = nil
	l.decoder.Keep()
}

func (l *Lines) read(line text, long bool) (schema.Entry, error) {
	if l.place == nil {
		l.place = newLinePlace()
	}
	l.place.text, l.place.find = line, nil
	t := &l.place.text
	e := schema.Entry{File: t.file}
	if !l.Plain && !long {
		if l.decoder.Line(); l.quick.read(&l.decoder, t.src[t.mark():]) {
			if head, record := l.decoder.Done(); isReadable(head.Format) {
				e.Head, e.Record = head, record
				e.Locate = l.place.locate
				return e, nil
			}
		}
	}
	if bad := t.checkEncoding(); bad != nil {
		return e, bad
	}
	raw := []byte(t.src)
	n, bad := l.tree(t, raw, long)
	if bad != nil {
		of := glean(raw[t.mark():], schema.Position{Line: t.line, Column: 1})
		e.Head = &schema.Head{OfOneLine: true, Machine: schema.Machine{ID: of.machine}}
		return lost(e, of, bad), bad
	}
	e.Head, e.Record, e.Problems = schema.DecodeLine(n)
	e.Locate = t.locator(n)
	return e, nil
}

// tree reads a line the plain way.
func (l *Lines) tree(t *text, raw []byte, long bool) (*schema.Node, *Unreadable) {
	if bad := t.checkWhole(long); bad != nil {
		return nil, bad
	}
	n, bad := l.slow.line(t, raw)
	if bad == nil {
		bad = t.checkFormat(n)
	}
	if bad == nil {
		bad = t.checkLine(n)
	}
	return n, bad
}

// linePlace finds places in a line that was read the quick way: the line is read
// again, the plain way, when it is asked for the first one that takes more than
// a look.
type linePlace struct {
	text   text
	find   func(schema.Spot) schema.Span
	locate func(schema.Spot) schema.Span // the method of that name, bound once
}

func newLinePlace() *linePlace {
	p := &linePlace{}
	p.locate = func(s schema.Spot) schema.Span {
		if p.find == nil {
			if at, ok := quickPlace(&p.text, s); ok {
				return at
			}
			var read jsonReader
			n, bad := read.line(&p.text, []byte(p.text.src))
			if bad != nil { // the quick way never takes what the plain way refuses
				return bad.Span
			}
			p.find = p.text.locator(n)
		}
		return p.find(s)
	}
	return p
}

// line reads the value on a line.
func (r *jsonReader) line(t *text, raw []byte) (*schema.Node, *Unreadable) {
	from := t.mark()
	r.reset(t, raw[from:], from, schema.Position{Line: t.line, Column: 1})
	return r.root(false)
}

// checkLine refuses what is no record but belongs to a spec file of another
// layout.
func (t *text) checkLine(n *schema.Node) *Unreadable {
	switch {
	case has(n, "id") || has(n, "kind"):
		return nil
	case has(n, "records"):
		_, key := n.Member("records")
		return t.about(key, "a line is one record, and this one holds a list of them; a file of that shape is named .json")
	}
	return t.about(n, "this is the head of a spec file without a record; in NDJSON each line is one record and carries its own format, machine and source")
}

func has(n *schema.Node, name string) bool {
	v, _ := n.Member(name)
	return v != nil
}

// lineReader reads lines of bounded length.
type lineReader struct {
	in   *bufio.Reader
	buf  []byte
	line int  // number of the line
	base int  // where in the file it begins
	end  int  // where in the file the next one begins
	long bool // the line is longer than MaxLine, and not held
}

// next reads a line, without its line feed. The bytes are good until the next
// call. At the end of the file it gives io.EOF.
func (l *lineReader) next() ([]byte, error) {
	l.buf, l.long = l.buf[:0], false
	l.line++
	l.base = l.end
	for {
		part, err := l.in.ReadSlice('\n')
		l.end += len(part)
		if l.long = l.long || len(l.buf)+len(part) > MaxLine; l.long {
			l.buf = l.buf[:0]
		} else if err == nil && len(l.buf) == 0 {
			return trimEnd(part), nil
		} else {
			l.buf = append(l.buf, part...)
		}
		switch {
		case err == bufio.ErrBufferFull:
		case err == io.EOF && l.end > l.base:
			return trimEnd(l.buf), nil
		default:
			return trimEnd(l.buf), err
		}
	}
}

func trimEnd(line []byte) []byte { return bytes.TrimRight(line, "\r\n") }

// checkWhole refuses a line that is too long or no text.
func (t *text) checkWhole(long bool) *Unreadable {
	if long {
		return t.at(0, 0, fmt.Sprintf("the line is longer than %d MiB; NDJSON holds one record a line", MaxLine>>20))
	}
	return t.checkText()
}
