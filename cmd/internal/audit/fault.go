package audit

import (
	"bytes"
	"fmt"
	"strconv"
	"unicode/utf8"
)

// Fault is something of a release that is not as it was made.
type Fault struct {
	Part    string // a file, or a part of the .zip: the directory of the .zip, at records.json
	Offset  int64  // of the first byte that differs, in the file, or in the .zip for its parts; -1 where none can be named
	Message string
}

func (f Fault) String() string {
	if f.Offset < 0 {
		return fmt.Sprintf("%s: %s", f.Part, f.Message)
	}
	return fmt.Sprintf("%s: byte %d: %s", f.Part, f.Offset, f.Message)
}

// differ tells how two contents differ; ok is false when they do not. Base is
// added to the offset.
func differ(part string, is, was []byte, base int64) (f Fault, ok bool) {
	if bytes.Equal(is, was) {
		return Fault{}, false
	}
	at, n := 0, min(len(is), len(was))
	for at < n && is[at] == was[at] {
		at++
	}
	f = Fault{Part: part, Offset: base + int64(at)}
	count := 0
	for i := at; i < n; i++ {
		if is[i] != was[i] {
			count++
		}
	}
	switch {
	case len(is) == len(was) && count == 1:
		f.Message = fmt.Sprintf("%s stands there, and was %s", around(is, at), around(was, at))
	case len(is) == len(was):
		f.Message = fmt.Sprintf("%s stands there, and was %s; %d bytes differ", around(is, at), around(was, at), count)
	case at == len(was):
		f.Message = fmt.Sprintf("%s too many from here on: %s", bytesOf(len(is)-len(was)), around(is, at))
	case at == len(is):
		missing := "bytes are"
		if len(was)-len(is) == 1 {
			missing = "byte is"
		}
		f.Message = fmt.Sprintf("%d %s missing from here on: %s", len(was)-len(is), missing, around(was, at))
	default:
		f.Message = fmt.Sprintf("%s stands there, and was %s; %s, and were %d", around(is, at), around(was, at), bytesOf(len(is)), len(was))
	}
	return f, true
}

// bytesOf is a number of bytes.
func bytesOf(n int) string {
	if n == 1 {
		return "1 byte"
	}
	return fmt.Sprintf("%d bytes", n)
}

// around shows what stands at a byte: text with a little of what is around it, or
// the byte.
func around(b []byte, at int) string {
	from, to := max(at-10, 0), min(at+14, len(b))
	for from < at && !utf8.RuneStart(b[from]) {
		from++
	}
	for to > at+1 && to < len(b) && !utf8.RuneStart(b[to]) {
		to--
	}
	part := b[from:to]
	if at < len(b) && utf8.Valid(part) && !bytes.ContainsFunc(part, func(r rune) bool { return r < ' ' && r != '\n' && r != '\r' && r != '\t' || r == 0x7f }) {
		return strconv.Quote(string(part))
	}
	if at >= len(b) {
		return "the end"
	}
	return fmt.Sprintf("0x%02X", b[at])
}

// near reports whether two digests differ in one short stretch only, as those of
// two files do not.
func near(a, b string) bool {
	for a != "" && b != "" && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for a != "" && b != "" && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return max(len(a), len(b)) <= 8
}
