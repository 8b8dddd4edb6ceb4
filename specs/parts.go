package specs

import (
	"bytes"
	"io"
	"iter"
	"strings"

	"snapgauge/schema"
)

// Part is a stretch of what is read that can be read by itself, on any
// goroutine: some lines of NDJSON, or another file as a whole. It yields what
// [Read] yields.
type Part = iter.Seq2[schema.Entry, error]

// Parts takes a spec file apart. The parts one behind the other are what [Read]
// yields. From the reader is read while the parts are asked for, not while they
// are read. Lines are counted from first on, which is 1 for a file and more for
// the rest of one.
func (r Reader) Parts(name string, in io.Reader, first int) iter.Seq[Part] {
	return func(yield func(Part) bool) {
		if base(name) == Ledger {
			yield(only(schema.Entry{File: name}, Whole(name, "this is the ledger of countersigned records, not a spec file")))
			return
		}
		l := layoutOf(name)
		if l == unknownLayout {
			l, in = guess(in)
		}
		if l == linesLayout {
			r.chunks(name, in, first)(yield)
			return
		}
		raw, err := io.ReadAll(io.LimitReader(in, MaxFile+1))
		yield(func(yield func(schema.Entry, error) bool) {
			r.readDocument(name, &readBefore{raw, err}, l, yield)
		})
	}
}

// IsLines reports whether a file is NDJSON by its name.
func IsLines(name string) bool { return layoutOf(name) == linesLayout }

// only is a part that holds one entry or fault.
func only(e schema.Entry, err error) Part {
	return func(yield func(schema.Entry, error) bool) { yield(e, err) }
}

// readBefore is a reader of what was read, and of the error that ended it.
type readBefore struct {
	raw []byte
	err error
}

func (r *readBefore) Read(b []byte) (int, error) {
	n := copy(b, r.raw)
	if r.raw = r.raw[n:]; n > 0 || len(b) == 0 {
		return n, nil
	}
	if r.err == nil {
		return 0, io.EOF
	}
	return 0, r.err
}

// chunk is a number of whole lines of NDJSON.
type chunk struct {
	Reader
	file string
	text string
	line int  // number of the first
	base int  // where in the file it begins
	long bool // it is one line, longer than MaxLine, and not held
}

// mostRead is how much is read at once, in bytes. Chunks of a quarter of a
// megabyte were as quick as larger ones, and what waits takes less memory.
const mostRead = 256 << 10

// chunks cuts NDJSON at line feeds: a chunk is what one call of Read gave, up to
// its last line feed.
func (r Reader) chunks(name string, in io.Reader, first int) iter.Seq[Part] {
	return func(yield func(Part) bool) { cutter{r, name, in}.cut(first, yield) }
}

// cutter cuts NDJSON into chunks.
type cutter struct {
	Reader
	name string
	in   io.Reader
}

func (c cutter) cut(first int, yield func(Part) bool) {
	name := c.name
	buf := make([]byte, MaxLine+1)
	held := 0 // bytes of buf that belong to no chunk yet
	at := chunk{Reader: c.Reader, file: name, line: first}
	if first > 1 {
		at.base = 1 // whatever stands here, it is not the beginning of a file
	}
	empty := first == 1 // nothing but empty lines so far
	give := func(n int, long bool) bool {
		c := at
		c.text, c.long = string(buf[:n]), long
		at.base += n
		at.line += strings.Count(c.text, "\n")
		held = copy(buf, buf[n:held])
		if long {
			c.text = ""
		}
		empty = empty && !long && strings.Trim(c.text, blankLines) == ""
		return yield(c.read)
	}
	for {
		n, err := c.in.Read(buf[held:min(held+mostRead, len(buf))])
		fresh := held
		held += n
		if at.base == 0 {
			if held < len(utf32Big) && err == nil {
				continue
			}
			t := text{file: name, src: string(buf[:min(held, len(utf32Big))])}
			if bad := t.checkEncoding(); bad != nil {
				yield(only(schema.Entry{File: name}, bad))
				return
			}
		}
		if i := bytes.LastIndexByte(buf[fresh:held], '\n'); i >= 0 && !give(fresh+i+1, false) {
			return
		}
		if held > MaxLine {
			if !give(held, true) {
				return
			}
			// The rest of the long line goes nowhere.
			for err == nil && held == 0 {
				n, err = c.in.Read(buf)
				if i := bytes.IndexByte(buf[:n], '\n'); i >= 0 {
					at.line++
					at.base += i + 1
					held = copy(buf, buf[i+1:n])
					break
				}
				at.base += n
			}
			if i := bytes.LastIndexByte(buf[:held], '\n'); i >= 0 && !give(i+1, false) {
				return
			}
		}
		if err == nil {
			continue
		}
		if held > 0 && err == io.EOF && !give(held, false) {
			return
		}
		switch {
		case err != io.EOF:
			yield(only(schema.Entry{File: name}, ioFault(name, err)))
		case empty:
			yield(only(schema.Entry{File: name}, Whole(name, "the file is empty; a line is one record, a JSON object with format, machine and source")))
		}
		return
	}
}

// blankLines are the characters that no line is made of.
const blankLines = " \t\r\n" + bom

// read reads the lines of a chunk.
func (c chunk) read(yield func(schema.Entry, error) bool) {
	lines := Lines{Plain: c.Plain}
	read := func(line string, long bool) bool {
		e, err := lines.read(text{file: c.file, src: line, base: c.base, line: c.line}, long)
		if !c.Reuse {
			lines.Keep()
		}
		return yield(e, err)
	}
	if c.long {
		read("", true)
		return
	}
	for line := range strings.Lines(c.text) {
		if long := len(line) > MaxLine; long {
			if !read("", true) {
				return
			}
		} else if src := strings.TrimRight(line, "\r\n"); !isEmptyLine(src) && !read(src, false) {
			return
		}
		c.base += len(line)
		c.line++
	}
}
