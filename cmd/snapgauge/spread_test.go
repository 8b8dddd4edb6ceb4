package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"snapgauge/cmd/internal/sample"
)

// spreadBook is a book of NDJSON of several chunks with what may stand in one:
// faults of every kind, ids used twice far apart, answers to checks of the
// record and of the book, torn and empty lines, ends of either kind, a line that
// is too long, and no end to the last.
func spreadBook(t *testing.T, records int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := sample.Write(&b, sample.Options{Records: records, Faulty: 0.05, Seed: 3}); err != nil {
		t.Fatal(err)
	}
	lines := bytes.SplitAfter(b.Bytes(), []byte("\n"))
	lines = lines[:len(lines)-1]
	r := rand.New(rand.NewPCG(4, 0))
	for i := range lines {
		line := bytes.TrimSuffix(lines[i], []byte("\n"))
		switch r.IntN(100) {
		case 0:
			lines[i] = append(line, "\r\n\n \t\n"...)
		case 1:
			lines[i] = append(line[:len(line)/2:len(line)/2], '\n')
		case 2:
			figure := []string{"/where", "/id"}[r.IntN(2)]
			check := []string{"doubled-id", "torque-off-line", "values-disagree", "no-such-check"}[r.IntN(4)]
			answer := fmt.Sprintf(`,"answers":[{"check":"%s","figure":"%s","read":"x","because":"so it is printed","by":"KE","date":"2026-04-09"}]}`, check, figure)
			lines[i] = append(line[:len(line)-1:len(line)-1], answer+"\n"...)
		}
	}
	long := fmt.Sprintf(`{"format":"snapgauge/1.0","x-long":"%s"}`+"\n", strings.Repeat("long ", 1<<18))
	lines = slices.Insert(lines, len(lines)/3, []byte(long))
	return bytes.TrimSuffix(bytes.Join(lines, nil), []byte("\n"))
}

// said is what a run prints.
func said(t *testing.T, stdin []byte, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(args, bytes.NewReader(stdin), &out, &errs)
	if code == exitUnreadable && !strings.Contains(errs.String(), " could not be read") {
		t.Fatalf("%v: exit code %d\n%s", args, code, errs.String())
	}
	return out.String(), errs.String()
}

// However many workers, one prints what the other prints, byte for byte: of
// lines in a file and on standard input, and of folders.
func TestWorkers(t *testing.T) {
	folder, records, formats := "../../specs/faulty", 600, []string{"json"}
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		folder, records, formats = "../../specs", 1500, []string{"text", "json"}
	}
	here, err := filepath.Abs(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	book := spreadBook(t, records)
	if err := os.WriteFile("book.ndjson", book, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, format := range formats {
		for _, c := range []struct {
			stdin []byte
			args  []string
		}{
			{nil, []string{"book.ndjson"}},
			{book, []string{"--as", "ndjson", "-"}},
			{book, []string{here, "-", "nothing.yaml", "."}},
		} {
			args := append([]string{"check", "--format", format, "--workers", "1"}, c.args...)
			want, wantErr := said(t, c.stdin, args...)
			for _, workers := range []string{"2", "8"} {
				args[4] = workers
				got, gotErr := said(t, c.stdin, args...)
				if got != want || gotErr != wantErr {
					t.Errorf("%v: %s", args, firstDifference(want+wantErr, got+gotErr))
				}
			}
			if strings.Count(want, "\n") < 40 {
				t.Errorf("%v: only %d lines were printed", args, strings.Count(want, "\n"))
			}
		}
	}
}

// firstDifference shows where two outputs part.
func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return fmt.Sprintf("line %d\nwant %s\ngot  %s", i+1, w[i], g[i])
		}
	}
	return fmt.Sprintf("%d lines, want %d", len(g), len(w))
}

// What check prints for eight shards, cut anywhere between lines, and then merge,
// is what it prints for the whole, however the row files are named.
func TestShards(t *testing.T) {
	t.Chdir(t.TempDir())
	book := spreadBook(t, 1500)
	if err := os.WriteFile("book.ndjson", book, 0o600); err != nil {
		t.Fatal(err)
	}
	lines := bytes.SplitAfter(book, []byte("\n"))
	r := rand.New(rand.NewPCG(5, 0))
	cuts := []int{0, 1, len(lines)}
	for len(cuts) < 9 {
		cuts = append(cuts, r.IntN(len(lines)))
	}
	slices.Sort(cuts)
	for _, format := range []string{"text", "json"} {
		want, _ := said(t, nil, "check", "--format", format, "book.ndjson")
		got := ""
		var rows []string
		for i := range 8 {
			shard := bytes.Join(lines[cuts[i]:cuts[i+1]], nil)
			rows = append(rows, fmt.Sprintf("%d.rows", i))
			args := []string{"check", "--format", format, "--rows", rows[i], "--of", "book.ndjson", "--from", fmt.Sprint(cuts[i] + 1), "-"}
			if i%2 == 0 {
				args[len(args)-1] = fmt.Sprintf("shard-%d", i)
				if err := os.WriteFile(args[len(args)-1], shard, 0o600); err != nil {
					t.Fatal(err)
				}
				shard = nil
			}
			out, _ := said(t, shard, args...)
			got += out
		}
		r.Shuffle(len(rows), func(i, k int) { rows[i], rows[k] = rows[k], rows[i] })
		book, _ := said(t, nil, append([]string{"merge", "--format", format}, rows...)...)
		if strings.Count(book, "doubled-id") < 3 || !strings.Contains(book, "answer-to-nothing") {
			t.Errorf("the book is not what it should be:\n%s", book)
		}
		if got += book; got != want {
			t.Errorf("%s: %s", format, firstDifference(want, got))
		}
	}
}
