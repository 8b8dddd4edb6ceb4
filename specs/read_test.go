package specs

import (
	"errors"
	"fmt"
	"io"
	"iter"
	"strings"
	"testing"
	"testing/iotest"

	"snapgauge/schema"
)

// told lists what a reader yields, a line each: the head, a record with its
// pointer and the place of its id, or what cannot be read.
func told(t testing.TB, entries iter.Seq2[schema.Entry, error]) []string {
	t.Helper()
	var list []string
	for e, err := range entries {
		var bad *Unreadable
		switch {
		case errors.As(err, &bad):
			if bad.File != e.File {
				t.Errorf("%v is about %s, its entry about %s", err, bad.File, e.File)
			}
			list = append(list, err.Error())
			if e.Lost {
				list = append(list, lostTold(e))
			}
		case e.Lost:
			list = append(list, lostTold(e))
		case err != nil:
			t.Errorf("an error of another kind: %v", err)
		case e.HeadOnly:
			if e.Head == nil || e.Record != nil {
				t.Error("the entry of the head has no head, or a record")
			}
			list = append(list, fmt.Sprintf("%s: head at %v", e.File, e.Locate(schema.Spot{Path: schema.At("format")}).Start))
		default:
			if e.Head == nil || e.Record == nil {
				t.Error("the entry of a record has no head or no record")
			}
			list = append(list, fmt.Sprintf("%s%s at %v", e.File, e.Pointer, e.Locate(schema.Spot{}).Start))
		}
	}
	return list
}

// lostTold tells of a record that could not be read: its id, and where that
// stands.
func lostTold(e schema.Entry) string {
	machine := ""
	if e.Head.OfOneLine {
		machine = " of " + e.Head.Machine.ID
	}
	return fmt.Sprintf("lost%s %q at %v%s", e.Pointer, e.Record.ID, e.Locate(schema.Spot{Path: schema.At("id")}).Start, machine)
}

func toldText(t testing.TB, name, src string) []string {
	t.Helper()
	return told(t, Read(name, strings.NewReader(src)))
}

const bookYAML = `format: snapgauge/1.0
machine: {id: wrackline-40, name: Wrackline 40}
records:
  - id: lid
    kind: torque
  - {kind: fill, id: oil}
`

const bookJSON = `{"format": "snapgauge/1.0",
 "records": [
  {"id": "lid", "kind": "torque"},
  {"kind": "fill", "id": "oil"}
 ],
 "machine": {"id": "wrackline-40"}
}
`

const bookLines = `{"format": "snapgauge/1.0", "id": "lid"}

{"id": "oil", "format": "snapgauge/1.2"}
`

func TestRead(t *testing.T) {
	yamlTold := []string{"%s: head at 1:9", "%s/records/0 at 4:9", "%s/records/1 at 6:22"}
	jsonTold := []string{"%s: head at 1:12", "%s/records/0 at 3:10", "%s/records/1 at 4:26"}
	linesTold := []string{"%s at 1:35", "%s at 3:8"}
	for _, c := range []struct {
		name, src string
		want      []string
	}{
		{"a.yaml", bookYAML, yamlTold},
		{"a.yml", bookYAML, yamlTold},
		{"A.YAML", bookYAML, yamlTold},
		{"a.json", bookJSON, jsonTold},
		{"a.ndjson", bookLines, linesTold},
		{"a.jsonl", bookLines, linesTold},
		{"-", bookYAML, yamlTold},
		{"-", bookJSON, jsonTold},
		{"-", bookLines, linesTold},
		{"a.txt", "\ufeff" + bookLines, linesTold},
		{"-", `{"format": "snapgauge/1.0"}` + "\n\n", []string{"%s: head at 1:12"}}, // no record
		{"-", `{"format": "snapgauge/1.0", "kind": "fill"}`, []string{"%s at 1:1"}},
		{"-", `{"format": "snapgauge/1.0", "records": []}`, []string{"%s: head at 1:12"}},
		{"-", "{format: snapgauge/1.0, machine: {id: a}, records: [{id: b}]}", []string{"%s: head at 1:10", "%s/records/0 at 1:58"}},
		{"a.yaml", bookJSON, jsonTold}, // JSON is YAML
		{"dir/a.yaml", strings.ReplaceAll(bookYAML, "\n", "\r\n"), yamlTold},
		{"a.json", "\ufeff" + bookJSON, jsonTold},
		{"a.yaml", "format: snapgauge/1.7\nnews: x\n", []string{"%s: head at 1:9"}},
		{"a.yaml", "format: snapgauge/1.0\nrecords: none\n", []string{"%s: head at 1:9"}},
		{"a.yaml", "format: snapgauge/1.0\nrecords: []\n", []string{"%s: head at 1:9"}},
		{"a.yaml", "format: snapgauge/1.0\nrecords:\n  - ~\n  - [a]\n  - b\n", []string{
			"%s: head at 1:9", "%s/records/0 at 3:5", "%s/records/1 at 4:5", "%s/records/2 at 5:5"}},
		{"a.json", `{"format": "snapgauge/1.0", "records": [null, true, 1, "a", []]}`, []string{
			"%s: head at 1:12", "%s/records/0 at 1:41", "%s/records/1 at 1:47", "%s/records/2 at 1:53", "%s/records/3 at 1:56", "%s/records/4 at 1:61"}},
		{"a.yaml", "format: snapgauge/1.0\nx-all: &all\n  - id: a\n  - id: b\nrecords: *all\n", []string{
			"%s: head at 1:9", "%s/records/0 at 3:9", "%s/records/1 at 4:9"}},
		{"a.yaml", "format: snapgauge/1.0\nrecords:\n  - &a {id: b}\n  - *a\n", []string{
			"%s: head at 1:9", "%s/records/0 at 3:13", "%s/records/1 at 3:13"}},
	} {
		var want []string
		for _, w := range c.want {
			want = append(want, fmt.Sprintf(w, c.name))
		}
		diff(t, fmt.Sprintf("%s %.40q", c.name, c.src), want, toldText(t, c.name, c.src))
	}
}

// What can be read is read, whatever stands before or behind it.
func TestReadBesideFaults(t *testing.T) {
	diff(t, "yaml", []string{
		"a.yaml: head at 1:9",
		`a.yaml:4:5: "id" stands twice in one mapping, first on line 3; keep one of them`,
		`lost/records/0 "" at 4:9`,
		"a.yaml/records/1 at 5:9",
		`a.yaml:6:12: tags such as !!x are not read; take it out, or put the text in quotes`,
		`lost/records/2 "d" at 6:9`,
		`lost/records/3 "d" at 6:9`, // of the same fault
		"a.yaml/records/4 at 8:9",
	}, toldText(t, "a.yaml", `format: snapgauge/1.0
records:
  - id: a
    id: b
  - id: c
  - id: &t !!x d
  - id: *t
  - id: e
`))
	diff(t, "json", []string{
		"a.json: head at 1:12",
		`a.json:2:10: "id" stands twice in one mapping, first on line 2; keep one of them`,
		`lost/records/0 "" at 2:10`,
		"a.json:3:8: the exponent of 1e9999 is beyond 400",
		`lost/records/1 "" at 3:8`,
		"a.json/records/2 at 4:8",
	}, toldText(t, "a.json", `{"format": "snapgauge/1.0", "records": [
{"id":1, "id":2},
{"id": 1e9999},
{"id": "c"}]}`))
	diff(t, "ndjson", []string{
		`a.ndjson:1:10: a comma or a closing bracket is missing before '1'`,
		`lost "" at 1:10 of `,
		"a.ndjson at 2:8",
		"a.ndjson:3:1: format is missing; a spec file says format: snapgauge/1.0",
		`lost "c" at 3:8 of `,
		"a.ndjson:4:12: format snapgauge/2.0: this program reads snapgauge/1.x",
		`lost "d" at 4:35 of `,
		"a.ndjson:5:10: byte 0xB7 is not UTF-8; save the file as UTF-8",
		`lost "" at 5:10 of `,
		"a.ndjson:6:1: a line is one record, a JSON object: {…}",
		`lost "" at 6:1 of `,
		"a.ndjson:7:4: the object ends before this; a line holds one object, a record",
		`lost "" at 7:4 of `,
		`a.ndjson:8:7: the text ends in the middle of a value; a closing }, ] or " is missing`,
		`lost "" at 8:7 of `,
		"a.ndjson at 10:8",
	}, toldText(t, "a.ndjson", `{"id": 1 1}
{"id": "b", "format": "snapgauge/1.0"}
{"id": "c"}
{"format": "snapgauge/2.0", "id": "d"}
{"·": "x `+"\xb7"+`"}
[1]
{} {}
{"id":

{"id": "e", "format": "snapgauge/1.0"}`))
}

// A file of NDJSON that is no NDJSON says what it is.
func TestReadNoLines(t *testing.T) {
	const (
		empty = "a.ndjson:1:1: the file is empty; a line is one record, a JSON object with format, machine and source"
		head  = ":1:1: this is the head of a spec file without a record; in NDJSON each line is one record and carries its own format, machine and source"
		lost  = `lost "" at 1:1 of `
	)
	for _, c := range []struct {
		name, src string
		want      []string
	}{
		{"a.ndjson", "", []string{empty}},
		{"a.ndjson", " \r\n\t\n", []string{empty}},
		{"a.ndjson", "\ufeff\n", []string{empty}},
		{"a.ndjson", "null", []string{"a.ndjson:1:1: a line is one record, a JSON object: {…}", lost}},
		{"a.ndjson", "3\n", []string{"a.ndjson:1:1: a line is one record, a JSON object: {…}", lost}},
		{"a.ndjson", `{"format": "snapgauge/1.0"}`, []string{"a.ndjson" + head, lost}},
		{"-", `{"format": "snapgauge/1.0"}` + "\n" + `{"format": "snapgauge/1.0", "id": "a"}`, []string{"-" + head, lost, "- at 2:35"}},
		{"a.ndjson", `{"format": "snapgauge/1.0", "records": []}`, []string{
			"a.ndjson:1:29: a line is one record, and this one holds a list of them; a file of that shape is named .json", `lost "" at 1:29 of `}},
		{"a.ndjson", "\xff\xfe{\x00}\x00\n\x00{\x00", []string{"a.ndjson:1:1: the file is in UTF-16; save it as UTF-8"}},
		{"a.ndjson", "\xff\xfe\x00\x00{\x00\x00\x00\n\x00\x00\x00", []string{"a.ndjson:1:1: the file is in UTF-32; save it as UTF-8"}},
	} {
		diff(t, c.src, c.want, toldText(t, c.name, c.src))
	}
}

func TestReadFormat(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"a.yaml", "a: b\n", "a.yaml:1:1: format is missing; a spec file says format: snapgauge/1.0"},
		{"a.yaml", "a: b\nformat: snapgauge/2.0\n", "a.yaml:2:9: format snapgauge/2.0: this program reads snapgauge/1.x"},
		{"a.yaml", "format: snapgauge/1\n", "a.yaml:1:9: format snapgauge/1: this program reads snapgauge/1.x"},
		{"a.yaml", "format: snapgauge/1.00\n", "a.yaml:1:9: format snapgauge/1.00: this program reads snapgauge/1.x"},
		{"a.yaml", "format: other\n", "a.yaml:1:9: format other: this program reads snapgauge/1.x"},
		{"a.yaml", "format: [a]\n", "a.yaml:1:1: format must be a text such as snapgauge/1.0"},
		{"a.yaml", "format:\n", "a.yaml:1:1: format must be a text such as snapgauge/1.0"},
		{"a.json", `{"format": 1.0}`, "a.json:1:2: format must be a text such as snapgauge/1.0"},
		{"a.json", `{"format": "` + strings.Repeat("x", 50) + `"}`, "a.json:1:12: format " + strings.Repeat("x", 40) + "…: this program reads snapgauge/1.x"},
		{"countersigned.ndjson", `{"id": "a"}`, "countersigned.ndjson:1:1: this is the ledger of countersigned records, not a spec file"},
		{`dir\countersigned.ndjson`, `{"id": "a"}`, `dir\countersigned.ndjson:1:1: this is the ledger of countersigned records, not a spec file`},
		{"-", `{"format": "snapgauge/1.0", "records": [`, `-:1:41: the text ends in the middle of a value; a closing }, ] or " is missing`},
	} {
		diff(t, c.src, []string{c.want}, toldText(t, c.name, c.src))
	}
}

func TestReadTooLarge(t *testing.T) {
	endless := io.MultiReader(strings.NewReader("format: snapgauge/1.0\n"), filler{})
	diff(t, "yaml", []string{"a.yaml:1:1: the file is larger than 64 MiB; split it, or write NDJSON, one record a line"},
		told(t, Read("a.yaml", endless)))

	long := `{"format": "snapgauge/1.0", "id": "` + strings.Repeat("a", MaxLine) + `"}`
	diff(t, "ndjson", []string{
		"a.ndjson at 1:8",
		"a.ndjson:2:1: the line is longer than 1 MiB; NDJSON holds one record a line",
		`lost "" at 2:1 of `,
		"a.ndjson at 3:8",
		"a.ndjson:4:1: the line is longer than 1 MiB; NDJSON holds one record a line",
		`lost "" at 4:1 of `,
	}, toldText(t, "a.ndjson", `{"id": "a", "format": "snapgauge/1.0"}
`+long+`
{"id": "b", "format": "snapgauge/1.0"}
`+long))

	// A line of just the allowed length is read.
	fit := `{"id": "a", "format": "snapgauge/1.0"}`
	fit += strings.Repeat(" ", MaxLine-len(fit))
	diff(t, "fits", []string{"a.ndjson at 1:8"}, toldText(t, "a.ndjson", fit))
}

// filler is a reader of comments without end.
type filler struct{}

func (filler) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '#'
	}
	return len(p), nil
}

func TestReadBrokenReader(t *testing.T) {
	fails := func(s string) io.Reader {
		return io.MultiReader(strings.NewReader(s), iotest.ErrReader(errors.New("the disk is gone")))
	}
	diff(t, "yaml", []string{"a.yaml:1:1: could not be read: the disk is gone"}, told(t, Read("a.yaml", fails(bookYAML))))
	diff(t, "ndjson", []string{
		"a.ndjson at 1:35", "a.ndjson at 3:8",
		"a.ndjson:1:1: could not be read: the disk is gone",
	}, told(t, Read("a.ndjson", fails(bookLines))))
	diff(t, "unnamed", []string{"-:1:1: could not be read: the disk is gone"}, told(t, Read("-", fails(bookYAML))))
}

// A reader stops when its user does.
func TestReadStops(t *testing.T) {
	faults := "format: snapgauge/1.0\nrecords:\n  - &a {a: 1, a: 2}\n  - *a\n  - id: b\n"
	badLines := "x\ny\n"
	for name, src := range map[string]string{
		"a.yaml": bookYAML, "a.json": bookJSON, "a.ndjson": bookLines,
		"b.yaml": faults, "b.ndjson": badLines, "c.yaml": "", "d.yaml": "a: b\n",
	} {
		all := 0
		for range Read(name, strings.NewReader(src)) {
			all++
		}
		for stop := 1; stop <= all; stop++ {
			seen := 0
			for range Read(name, strings.NewReader(src)) {
				if seen++; seen == stop {
					break
				}
			}
			if seen != stop {
				t.Errorf("%s: %d entries, wanted to stop at %d", name, seen, stop)
			}
		}
	}
}

// Lines of NDJSON know their place in the file.
func TestReadLinesOffsets(t *testing.T) {
	src := "\ufeff{\"id\": \"a·\", \"format\": \"snapgauge/1.0\"}\r\n\n  {\"format\": \"snapgauge/1.0\", \"id\": \"b\"}"
	var read jsonReader
	in := lineReader{in: bufioReader(src)}
	var got []string
	for {
		line, err := in.next()
		if err == io.EOF {
			break
		}
		if len(line) == 0 {
			continue
		}
		x := &text{file: "a", src: string(line), base: in.base, line: in.line}
		root, bad := read.line(x, line)
		if bad != nil {
			t.Fatal(bad)
		}
		checkTree(t, x, root)
		id, _ := root.Member("id")
		got = append(got, fmt.Sprintf("%d:%d %s", id.Line, id.Column, src[id.Start:id.End]))
	}
	diff(t, "places", []string{`1:8 "a·"`, `3:37 "b"`}, got)
}

func TestUnreadable(t *testing.T) {
	u := Whole("a.yaml", "m")
	diff(t, "the whole file", "a.yaml:1:1: m", u.Error())
	diff(t, "the whole file", "1:1 to 1:1", fmt.Sprintf("%v to %v", u.Span.Start, u.Span.End))
	u.Span = schema.Span{Start: schema.Position{Line: 2, Column: 3}}
	diff(t, "with a place", "a.yaml:2:3: m", u.Error())
}
