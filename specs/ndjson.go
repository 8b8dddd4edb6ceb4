package specs

import (
	"bufio"
	"bytes"
	"fmt"
	"io"

	"snapgauge/schema"
)

// readLines reads NDJSON: a record a line, empty lines passed over, but not all
// of them empty. It holds one line at a time.
func readLines(name string, r io.Reader, yield func(schema.Entry, error) bool) {
	in := lineReader{in: bufio.NewReaderSize(r, 64<<10)}
	var read jsonReader
	for empty := true; ; {
		line, err := in.next()
		e := schema.Entry{File: name}
		if err == io.EOF {
			if empty {
				yield(e, Whole(name, "the file is empty; a line is one record, a JSON object with format, machine and source"))
			}
			return
		}
		if err != nil {
			yield(e, ioFault(name, err))
			return
		}
		if len(bytes.Trim(line, " \t\r\ufeff")) == 0 && !in.long {
			continue
		}
		empty = false
		t := &text{file: name, src: string(line), base: in.base, line: in.line}
		if bad := t.checkEncoding(); bad != nil {
			yield(e, bad)
			return
		}
		bad := in.check(t)
		var n *schema.Node
		if bad == nil {
			n, bad = read.line(t, line)
		}
		if bad == nil {
			bad = t.checkFormat(n)
		}
		if bad == nil {
			bad = t.checkLine(n)
		}
		if bad != nil {
			of := glean(line[t.mark():], schema.Position{Line: t.line, Column: 1})
			e.Head = &schema.Head{OfOneLine: true, Machine: schema.Machine{ID: of.machine}}
			if !yield(lost(e, of, bad), bad) {
				return
			}
			continue
		}
		e.Head, e.Record, e.Problems = schema.DecodeLine(n)
		e.Locate = t.locator(n)
		if !yield(e, nil) {
			return
		}
	}
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

// check refuses a line that is too long or no text.
func (l *lineReader) check(t *text) *Unreadable {
	if l.long {
		return t.at(0, 0, fmt.Sprintf("the line is longer than %d MiB; NDJSON holds one record a line", MaxLine>>20))
	}
	return t.checkText()
}
