package specs

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"snapgauge/schema"
)

// soundBooks are the folders whose records are all of sound shape.
var soundBooks = []string{"demo", "corpus/callouts", "corpus/charts", "corpus/joints", "corpus/standards"}

// bookFiles lists the spec files of the sound books.
func bookFiles(t testing.TB) (files []string) {
	t.Helper()
	for _, folder := range soundBooks {
		for name, err := range Walk(os.DirFS(folder), ".", nil) {
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, filepath.Join(folder, name))
		}
	}
	return files
}

// mixedLines are the records of the sound books as lines of NDJSON.
func mixedLines(t testing.TB) (lines [][]byte) {
	t.Helper()
	for _, file := range bookFiles(t) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if layoutOf(file) == linesLayout {
			for line := range bytes.Lines(data) {
				lines = append(lines, bytes.TrimSpace(line))
			}
			continue
		}
		d, bad := open(file, bytes.NewReader(data), layoutOf(file))
		if bad != nil {
			t.Fatal(bad)
		}
		for i := range d.count() {
			n, bad := d.record(i)
			if bad != nil {
				t.Fatal(bad)
			}
			lines = append(lines, lineOf(d.root, n))
		}
	}
	return lines
}

// lineOf writes a record with its head as one line.
func lineOf(head, record *schema.Node) []byte {
	var b bytes.Buffer
	sep := "{"
	put := func(name string, value *schema.Node) {
		b.WriteString(sep + quoted(name) + ":")
		sep = ","
		writeJSON(&b, name, value)
	}
	for _, name := range []string{"format", "machine", "variants", "serials", "decimal"} {
		if v, _ := head.Member(name); v != nil {
			put(name, v)
		}
	}
	sources, _ := head.Member("sources")
	for i, k := range record.Keys {
		if k.Text == "source" {
			put(k.Text, inFull(record.Items[i], sources))
			continue
		}
		put(k.Text, record.Items[i])
	}
	b.WriteByte('}')
	return b.Bytes()
}

// inFull gives a source the title and kind of the document that it refers to.
func inFull(source, sources *schema.Node) *schema.Node {
	ref, _ := source.Member("ref")
	if ref == nil {
		return source
	}
	full := &schema.Node{Kind: schema.MapNode, Keys: slices.Clone(source.Keys), Items: slices.Clone(source.Items)}
	document, _ := sources.Member(ref.Text)
	for i, k := range document.Keys {
		full.Keys, full.Items = append(full.Keys, k), append(full.Items, document.Items[i])
	}
	return full
}

// writeJSON writes a tree; name is that of the member that it belongs to.
func writeJSON(b *bytes.Buffer, name string, n *schema.Node) {
	switch n.Kind {
	case schema.MapNode:
		for i, k := range n.Keys {
			b.WriteString([]string{"{", ","}[min(i, 1)] + quoted(k.Text) + ":")
			writeJSON(b, k.Text, n.Items[i])
		}
		b.WriteByte('}')
	case schema.ListNode:
		for i, item := range n.Items {
			b.WriteString([]string{"[", ","}[min(i, 1)])
			writeJSON(b, name, item)
		}
		b.WriteByte(']')
	default:
		bare := n.Kind != schema.TextNode
		if n.Plain { // of YAML, where a number and a text look alike
			bare = slices.Contains([]string{"count", "again", "places", "order", "yield", "included"}, name)
		}
		if bare {
			b.WriteString(n.Text)
		} else {
			b.WriteString(quoted(n.Text))
		}
	}
}

func quoted(s string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if e.Encode(s) != nil {
		return `""`
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// BenchmarkReadMixed reads the records of all sound books as lines, schema
// included.
func BenchmarkReadMixed(b *testing.B) {
	lines := mixedLines(b)
	src := append(bytes.Join(lines, []byte("\n")), '\n')
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		n := 0
		for e, err := range Read("x.ndjson", bytes.NewReader(src)) {
			if err != nil || len(e.Problems) > 0 {
				b.Fatal(err, e.Problems)
			}
			n++
		}
		if n != len(lines) {
			b.Fatalf("%d records of %d", n, len(lines))
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(lines)), "ns/record")
}

// BenchmarkLines reads the same lines from one text, as a worker does that keeps
// none of them.
func BenchmarkLines(b *testing.B) {
	lines := mixedLines(b)
	src := string(bytes.Join(lines, []byte("\n"))) + "\n"
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	var read Lines
	for b.Loop() {
		n := 0
		for line := range strings.Lines(src) {
			e, err := read.Read("x.ndjson", line[:len(line)-1], 1, 1)
			if err != nil || len(e.Problems) > 0 {
				b.Fatal(err, e.Problems)
			}
			n++
		}
		if n != len(lines) {
			b.Fatalf("%d records of %d", n, len(lines))
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(lines)), "ns/record")
}
