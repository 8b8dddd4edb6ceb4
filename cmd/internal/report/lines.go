package report

import (
	"bufio"
	"bytes"
	"io"
	"os"
	"unicode/utf8"
)

const (
	stride   = 256     // lines between two marks of the index
	longLine = 1 << 20 // bytes of a line that are kept
)

// Lines reads single lines of files, for messages. It keeps one file open and
// remembers where every 256th line begins, so that it takes little memory and
// reads no more than is asked for. The zero value opens files of the system.
type Lines struct {
	Open func(name string) (io.ReadSeekCloser, error)
	// First is the number that the first line of a file has; 0 means 1. It is
	// more where what can be opened is a later part of a file.
	First int

	name  string
	file  io.ReadSeekCloser
	in    *bufio.Reader
	next  int     // number of the line that in stands before
	pos   int64   // where that line begins
	marks []int64 // marks[i] is where line 1+i*stride begins
	text  string  // line next-1
	torn  bool    // text is of line next, which had no end yet when it was read: the file may grow
}

// Line returns line n (from 1) of a file, without its end; ok is false when it
// cannot be had.
func (l *Lines) Line(name string, n int) (line string, ok bool) {
	if l.First > 1 {
		n -= l.First - 1
	}
	if n < 1 || !l.open(name) {
		return "", false
	}
	if n == l.next-1 && !l.torn || n == l.next && l.torn {
		return l.text, true
	}
	if l.torn {
		if _, err := l.file.Seek(l.pos, io.SeekStart); err != nil {
			return "", false
		}
		l.in.Reset(l.file)
		l.torn = false
	}
	if n < l.next || n-l.next > stride {
		if !l.seek(n) {
			return "", false
		}
	}
	for l.next <= n {
		if !l.read() {
			return "", false
		}
		if l.torn && l.next < n {
			return "", false
		}
		if l.torn {
			break
		}
	}
	return l.text, true
}

// Close closes the file that is open.
func (l *Lines) Close() {
	if l.file != nil {
		l.file.Close()
		l.file = nil
	}
}

func (l *Lines) open(name string) bool {
	if l.file != nil && l.name == name {
		return true
	}
	l.Close()
	open := l.Open
	if open == nil {
		open = func(name string) (io.ReadSeekCloser, error) { return os.Open(name) }
	}
	f, err := open(name)
	if err != nil {
		return false
	}
	l.name, l.file, l.in = name, f, bufio.NewReaderSize(f, 1<<16)
	l.next, l.pos, l.marks, l.text, l.torn = 1, 0, []int64{0}, "", false
	return true
}

// seek goes to the last known line at or before n, unless the reader already
// stands between the two.
func (l *Lines) seek(n int) bool {
	i := min((n-1)/stride, len(l.marks)-1)
	if from := 1 + i*stride; n < l.next || from > l.next {
		if _, err := l.file.Seek(l.marks[i], io.SeekStart); err != nil {
			return false
		}
		l.in.Reset(l.file)
		l.next, l.pos, l.text = from, l.marks[i], ""
	}
	return true
}

// read reads one line.
func (l *Lines) read() bool {
	var line []byte
	size := 0
	var end error
	for {
		part, err := l.in.ReadSlice('\n')
		size += len(part)
		if len(line) < longLine {
			line = append(line, part...)
		}
		if err == bufio.ErrBufferFull {
			continue
		}
		if err != nil && (err != io.EOF || size == 0) {
			return false
		}
		end = err
		break
	}
	line = bytes.TrimSuffix(line, []byte("\n"))
	line = bytes.TrimSuffix(line, []byte("\r"))
	if l.next == 1 {
		line = bytes.TrimPrefix(line, []byte("\ufeff"))
	}
	if len(line) > longLine {
		line = line[:longLine]
	}
	l.text = string(bytes.ToValidUTF8(line, []byte(string(utf8.RuneError))))
	if l.torn = end == io.EOF; l.torn {
		return true
	}
	l.next++
	l.pos += int64(size)
	if (l.next-1)%stride == 0 && (l.next-1)/stride == len(l.marks) {
		l.marks = append(l.marks, l.pos)
	}
	return true
}
