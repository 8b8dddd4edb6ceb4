package specs

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
)

// A book of n records of the kind that shops write most.
func benchYAML(n int) []byte {
	var b bytes.Buffer
	b.WriteString("format: snapgauge/1.0\nmachine: {id: bench-1, name: Bench}\nsources:\n  manual: {title: Manual, kind: maker}\nrecords:\n")
	for i := range n {
		b.WriteString(strings.ReplaceAll(`  - id: cover-screws-#
    kind: torque
    where: control block cover to gearcase
    fastener: {type: screw, thread: M6x1, class: "8.8", head: hex flange, length: 25 mm, count: 16}
    joint: {into: cast aluminium, engagement: 12 mm, threads: dry, seal: gasket}
    tighten:
      - {to: [71 lbf·in, 8 N·m], tolerance: ±10 %, pattern: criss-cross}
    source: {ref: manual, at: page 4-12}
    caution: [hot-oil, stored-energy]

`, "#", fmt.Sprintf("%03d", i)))
	}
	return b.Bytes()
}

func benchLines(n int) []byte {
	var b bytes.Buffer
	for i := range n {
		b.WriteString(strings.ReplaceAll(`{"format":"snapgauge/1.0","machine":{"id":"bench-1"},"id":"cover-screws-#","kind":"torque","where":"control block cover to gearcase","fastener":{"type":"screw","thread":"M6x1","class":"8.8","head":"hex flange","length":"25 mm","count":16},"joint":{"into":"cast aluminium","engagement":"12 mm","threads":"dry","seal":"gasket"},"tighten":[{"to":["71 lbf·in","8 N·m"],"tolerance":"±10 %","pattern":"criss-cross"}],"source":{"title":"Manual","kind":"maker","at":"page 4-12"}}`+"\n", "#", fmt.Sprintf("%03d", i)))
	}
	return b.Bytes()
}

// BenchmarkYAMLTree reads the trees of 100 records, without schema.
func BenchmarkYAMLTree(b *testing.B) {
	src := string(benchYAML(100))
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		d, bad := openYAML(newText("x.yaml", src))
		if bad != nil {
			b.Fatal(bad)
		}
		for i := range d.count() {
			if _, bad := d.record(i); bad != nil {
				b.Fatal(bad)
			}
		}
	}
}

// BenchmarkNDJSONTree reads the trees of 100 lines, without schema.
func BenchmarkNDJSONTree(b *testing.B) {
	src := benchLines(100)
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	var read jsonReader
	for b.Loop() {
		for line := range bytes.Lines(src) {
			if _, bad := read.line(&text{src: string(line), line: 1}, line); bad != nil {
				b.Fatal(bad)
			}
		}
	}
}

func benchmarkRead(b *testing.B, name string, src []byte) {
	b.Run("keep", func(b *testing.B) { benchmarkReader(b, Reader{}, name, src) })
	b.Run("reuse", func(b *testing.B) { benchmarkReader(b, Reader{Reuse: true}, name, src) })
	b.Run("plain", func(b *testing.B) { benchmarkReader(b, Reader{Plain: true}, name, src) })
}

func benchmarkReader(b *testing.B, r Reader, name string, src []byte) {
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		n := 0
		for _, err := range r.Read(name, bytes.NewReader(src)) {
			if err != nil {
				b.Fatal(err)
			}
			n++
		}
		if n < 100 {
			b.Fatalf("%d entries", n)
		}
	}
}

// BenchmarkReadYAML reads a book of 100 records, schema included.
func BenchmarkReadYAML(b *testing.B) { benchmarkRead(b, "x.yaml", benchYAML(100)) }

// BenchmarkReadNDJSON reads 100 lines, schema included.
func BenchmarkReadNDJSON(b *testing.B) { benchmarkRead(b, "x.ndjson", benchLines(100)) }

// NDJSON of any length is read in the same memory.
func TestLinesAreNotKept(t *testing.T) {
	lines := benchLines(100)
	var in []io.Reader
	for range 100 {
		in = append(in, bytes.NewReader(lines))
	}
	held := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	n, early := 0, uint64(0)
	for _, err := range Read("x.ndjson", io.MultiReader(in...)) {
		if err != nil {
			t.Fatal(err)
		}
		if n++; n == 1000 {
			early = held()
		}
		if n == 10_000 {
			// Nine thousand lines are 5 MB of text and 30 MB of trees.
			if late := held(); late > early+1<<20 {
				t.Errorf("%d bytes held at line 1000, %d at line 10000", early, late)
			}
		}
	}
	if n != 10_000 {
		t.Errorf("%d lines, want 10000", n)
	}
}

// BenchmarkYAMLParser is the YAML library alone on the book of BenchmarkReadYAML.
func BenchmarkYAMLParser(b *testing.B) {
	src := string(benchYAML(100))
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		if _, bad := newText("x.yaml", src).parseYAML(); bad != nil {
			b.Fatal(bad)
		}
	}
}

// BenchmarkReadJSON reads a JSON file of 100 records, schema included.
func BenchmarkReadJSON(b *testing.B) {
	src := []byte(`{"format":"snapgauge/1.0","machine":{"id":"bench-1"},"records":[`)
	for i, line := range bytes.Split(bytes.TrimSpace(benchLines(100)), []byte("\n")) {
		if i > 0 {
			src = append(src, ',')
		}
		_, record, _ := bytes.Cut(line, []byte(`"machine":{"id":"bench-1"},`))
		src = append(append(src, '{'), record...)
	}
	benchmarkRead(b, "x.json", append(src, "]}"...))
}
