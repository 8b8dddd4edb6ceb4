package specs

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"path"
	"regexp"
	"strconv"
	"strings"

	"snapgauge/schema"
)

// Format is the version of the format that the program writes. It reads every
// minor version of the same major one.
const Format = "snapgauge/1.0"

// Ledger is the name of the file that countersigned records are listed in. It
// is never a spec file.
const Ledger = "countersigned.ndjson"

// A layout is how a file is written down.
type layout uint8

const (
	unknownLayout layout = iota
	yamlLayout
	jsonLayout
	linesLayout // NDJSON
)

// layoutOf tells the layout by the name of a file.
func layoutOf(name string) layout {
	switch strings.ToLower(path.Ext(name)) {
	case ".yaml", ".yml":
		return yamlLayout
	case ".json":
		return jsonLayout
	case ".ndjson", ".jsonl":
		return linesLayout
	}
	return unknownLayout
}

// Reader reads spec files. The zero Reader makes the entries of sound records the
// quick way; with Plain set every record goes the plain way, through the
// validator, which gives the same entries and takes many times as long.
type Reader struct {
	Plain bool

	// Reuse makes each entry of a record good only until the next one is asked
	// for: what it is made of is used again. Its texts stay good.
	Reuse bool
}

// Read reads one spec file as the zero [Reader] does.
func Read(name string, in io.Reader) iter.Seq2[schema.Entry, error] { return Reader{}.Read(name, in) }

// Read reads one spec file. The name tells whether it is YAML (.yaml, .yml),
// JSON (.json) or NDJSON (.ndjson, .jsonl); any other is told by its content.
//
// It yields the head of the file first, as an entry with HeadOnly set, then a
// record at a time; a line of NDJSON carries its own head and there is no such
// first entry. Every error is an [*Unreadable]. After one that concerns the
// file nothing follows. One that concerns a record or a line comes with an
// entry that is Lost, and is followed by the next record; where records fail by
// one fault, such as that of an anchor, it is told with the first, and the
// entries of the others come without an error.
//
// A YAML or JSON file is read whole when the sequence begins, NDJSON a line at
// a time. The sequence can be run once, as the reader can.
func (r Reader) Read(name string, in io.Reader) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		if base(name) == Ledger {
			yield(schema.Entry{File: name}, Whole(name, "this is the ledger of countersigned records, not a spec file"))
			return
		}
		l := layoutOf(name)
		if l == unknownLayout {
			l, in = guess(in)
		}
		if l == linesLayout {
			r.readLines(name, in, yield)
			return
		}
		r.readDocument(name, in, l, yield)
	}
}

// base is the last part of a path, with slashes of either kind.
func base(name string) string { return name[strings.LastIndexAny(name, `/\`)+1:] }

// guess tells a layout by the content: YAML unless it begins with a brace, and
// NDJSON where the first line is a whole object and a record by itself. An
// object that is neither a record nor holds any is a head, and JSON, if it
// stands alone.
func guess(r io.Reader) (layout, io.Reader) {
	b := bufio.NewReaderSize(r, MaxLine)
	peek, _ := b.Peek(MaxLine)
	s := strings.TrimLeft(strings.TrimPrefix(string(peek), bom), " \t\r\n")
	if !strings.HasPrefix(s, "{") {
		return yamlLayout, b
	}
	line, rest, _ := strings.Cut(s, "\n")
	var read jsonReader
	read.reset(newText("", line), []byte(line), 0, schema.Position{Line: 1, Column: 1})
	root, bad := read.root(false)
	switch {
	case bad == nil:
		record := has(root, "id") || has(root, "kind")
		if alone := strings.TrimSpace(rest) == ""; has(root, "records") || !record && alone {
			return jsonLayout, b
		}
		return linesLayout, b
	case looksJSON.MatchString(s):
		return jsonLayout, b
	}
	return yamlLayout, b
}

// looksJSON matches an object whose first name is quoted; {id: x} is YAML.
var looksJSON = regexp.MustCompile(`^\{\s*"`)

// readDocument reads YAML or JSON.
func (r Reader) readDocument(name string, in io.Reader, l layout, yield func(schema.Entry, error) bool) {
	d, bad := open(name, in, l)
	if bad == nil {
		bad = d.checkFormat()
	}
	if bad != nil {
		yield(schema.Entry{File: name}, bad)
		return
	}
	var dec schema.Decoder
	e := schema.Entry{File: name, HeadOnly: true, Locate: d.text.locator(d.root)}
	sure := false
	if !r.Plain {
		e.Head, sure = dec.Head(d.root)
		dec.Keep()
	}
	if !sure {
		e.Head, e.Problems = schema.DecodeHead(d.root)
	}
	if !yield(e, nil) {
		return
	}
	head := e.Head
	var place *recordPlace
	var last Unreadable // an anchor that cannot be read is told once
	for i := range d.count() {
		e := schema.Entry{File: name, Pointer: "/records/" + strconv.Itoa(i), Head: head}
		if !r.Plain {
			if dec.Record(head); d.quick(&dec, i) {
				_, e.Record = dec.Done()
				place = d.place(place, i)
				e.Locate = place.locate
				if !r.Reuse {
					dec.Keep()
					place = nil
				}
				if !yield(e, nil) {
					return
				}
				continue
			}
		}
		n, bad := d.record(i)
		if bad != nil {
			e = lost(e, d.glean(i), bad)
			var told error
			if *bad != last {
				told = bad
			}
			if last = *bad; !yield(e, told) {
				return
			}
			continue
		}
		e.Record, e.Problems = schema.DecodeRecord(n, head)
		e.Locate = d.text.locator(n)
		if !yield(e, nil) {
			return
		}
	}
}

// open reads a file whole.
func open(name string, r io.Reader, l layout) (*document, *Unreadable) {
	var raw bytes.Buffer
	if f, ok := r.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if info, err := f.Stat(); err == nil {
			raw.Grow(int(min(max(info.Size(), 0), MaxFile)) + bytes.MinRead)
		}
	}
	if _, err := raw.ReadFrom(io.LimitReader(r, MaxFile+1)); err != nil {
		return nil, ioFault(name, err)
	}
	t := newText(name, raw.String())
	if len(t.src) > MaxFile {
		return nil, t.whole(fmt.Sprintf("the file is larger than %d MiB; split it, or write NDJSON, one record a line", MaxFile>>20))
	}
	if bad := t.checkText(); bad != nil {
		return nil, bad
	}
	if l == jsonLayout {
		return openJSON(t, raw.Bytes())
	}
	return openYAML(t)
}

// ioFault is the Unreadable of an error of the file system.
func ioFault(name string, err error) *Unreadable {
	var in *fs.PathError
	if errors.As(err, &in) {
		err = in.Err
	}
	return Whole(name, "could not be read: "+err.Error())
}

// readable matches the versions that are read: a minor version adds fields
// only.
var readable = regexp.MustCompile(`^snapgauge/1\.(0|[1-9][0-9]{0,5})$`)

func isReadable(format string) bool { return format == Format || readable.MatchString(format) }

// checkFormat refuses a file of another format.
func (d *document) checkFormat() *Unreadable { return d.text.checkFormat(d.root) }

func (t *text) checkFormat(root *schema.Node) *Unreadable {
	format, key := root.Member("format")
	switch {
	case format == nil:
		p := start(root)
		return &Unreadable{File: t.file, Span: schema.Span{Start: p, End: p},
			Message: "format is missing; a spec file says format: " + Format}
	case format.Kind != schema.TextNode || format.Text == "":
		return t.about(key, "format must be a text such as "+Format)
	case !isReadable(format.Text):
		return t.about(format, fmt.Sprintf("format %s: this program reads snapgauge/1.x", clip(format.Text)))
	}
	return nil
}

// clip shortens a text that is quoted in a message.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
