//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The others of the comparison do what is said of them: of valid records all go,
// of faulty ones those do not whose shape is wrong.
func TestOthersJudge(t *testing.T) {
	const n, schemas = 400, "../../../schema/json"
	for _, c := range []struct {
		faulty      float64
		least, most string
	}{{0, "400\n", "400\n"}, {0.5, "250\n", "350\n"}} {
		dir := t.TempDir()
		b, err := book(dir, "book.ndjson", n, c.faulty)
		if err != nil {
			t.Fatal(err)
		}
		out, err := os.Create(filepath.Join(dir, "out"))
		if err != nil {
			t.Fatal(err)
		}
		defer out.Close()
		stdout := os.Stdout
		os.Stdout = out
		err = bare(b, schemas)
		os.Stdout = stdout
		if err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(out.Name())
		if err != nil {
			t.Fatal(err)
		}
		if s := string(got); s < c.least || s > c.most {
			t.Errorf("jsonschema/v5: of %d records, a share of %v faulty, %s go; want %s to %s", n, c.faulty, s, c.least, c.most)
		}
		node, err := exec.LookPath("node")
		if err != nil {
			continue
		}
		said, err := exec.Command(node, "shape.js", "parse", b).CombinedOutput()
		if err != nil || string(said) != "400\n" {
			t.Errorf("node JSON.parse: %v, %s; want 400", err, said)
		}
	}
}

func TestTable(t *testing.T) {
	ms := time.Millisecond
	runs := []*run{
		{of: "a", what: "first", base: true, size: 10, took: []time.Duration{9 * ms, 1 * ms, 2 * ms}, peak: 2048},
		{of: "a", what: "second", size: 10, took: []time.Duration{4 * ms}, peak: 4096},
		{of: "b", what: "third", size: 1000, took: []time.Duration{ms}},
	}
	var b strings.Builder
	table(&b, runs)
	for _, want := range []string{
		"\n| a | s |", "| first | 0.002 | 200.00 | 5000 | 1.00 | 2 |\n", "| second | 0.004 | 400.00 | 2500 | 2.00 | 4 |\n",
		"\n| b | s |", "| third | 0.001 | 1.00 | 1000000 | 1.00 | 0 |\n",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing in\n%s", want, b.String())
		}
	}
}
