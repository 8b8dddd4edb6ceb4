package spill

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/verify/rule"
)

// rows makes n rows that share groups, in a random order of groups.
func rows(n int) []rule.Row {
	r := rand.New(rand.NewPCG(1, 2))
	out := make([]rule.Row, n)
	for i := range out {
		out[i] = rule.Row{
			Check: r.IntN(3), Seq: uint64(i),
			Group: fmt.Sprint("group ", r.IntN(n/4+1)), Order: fmt.Sprint(r.IntN(3)),
			Payload: strings.Repeat("µ", r.IntN(40)),
		}
		out[i].Place.File = "book.ndjson"
		out[i].Place.Span.Start.Line = i + 1
	}
	return out
}

func sorted(t *testing.T, s rule.Sorter, in []rule.Row) []rule.Row {
	t.Helper()
	for _, r := range in {
		if err := s.Add(r); err != nil {
			t.Fatal(err)
		}
	}
	var out []rule.Row
	for r, err := range s.Sorted() {
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, r)
	}
	return out
}

// However little memory there is, the rows come as from memory.
func TestSameAsInMemory(t *testing.T) {
	for _, n := range []int{0, 1, 2, 300, 3000} {
		in := rows(n)
		want := sorted(t, &rule.InMemory{}, in)
		for _, limit := range []int{1, 1000, 50_000, DefaultLimit} {
			s := &Sorter{Limit: limit, Dir: t.TempDir()}
			got := sorted(t, s, in)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%d rows, limit %d (-want +got):\n%s", n, limit, diff)
			}
			if spilled := len(s.runs) > 0; spilled != (n > 0 && limit < DefaultLimit && n*200 > limit) {
				t.Errorf("%d rows, limit %d: spilled is %v", n, limit, spilled)
			}
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		}
	}
}

// Reading may stop early, and be done again.
func TestSortedTwice(t *testing.T) {
	s := &Sorter{Limit: 1000, Dir: t.TempDir()}
	defer s.Close()
	in := rows(100)
	want := sorted(t, s, in)
	for range s.Sorted() {
		break
	}
	var got []rule.Row
	for r := range s.Sorted() {
		got = append(got, r)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("second reading (-want +got):\n%s", diff)
	}
}

// No file is left behind, not even when the rows were never read.
func TestCloseRemovesFile(t *testing.T) {
	dir := t.TempDir()
	s := &Sorter{Limit: 1, Dir: dir}
	for _, r := range rows(5) {
		if err := s.Add(r); err != nil {
			t.Fatal(err)
		}
	}
	// As where the system does not let go of the name of an open file.
	if s.path == "" {
		s.path = filepath.Join(dir, "kept")
		if err := os.WriteFile(s.path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for range 2 {
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestNoPlaceToSpill(t *testing.T) {
	s := &Sorter{Limit: 1, Dir: filepath.Join(t.TempDir(), "missing")}
	err := s.Add(rows(1)[0])
	if err == nil || !strings.Contains(err.Error(), "sort the rows of the book") {
		t.Errorf("got %v, want an error that says what could not be done", err)
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

// A file that fails while it is read is an error, not a short answer.
func TestFileLost(t *testing.T) {
	for _, readBefore := range []int{0, 1} {
		s := &Sorter{Limit: 1 << 16, Dir: t.TempDir()}
		for _, r := range rows(2000) {
			if err := s.Add(r); err != nil {
				t.Fatal(err)
			}
		}
		if readBefore == 0 {
			s.file.Close()
		} else if err := s.file.Truncate(s.end - 1); err != nil {
			t.Fatal(err)
		}
		var failed error
		for _, err := range s.Sorted() {
			failed = err
		}
		if failed == nil || !strings.Contains(failed.Error(), "merge the rows of the book") {
			t.Errorf("got %v, want an error", failed)
		}
		s.file.Close()
	}
}

// fill sets every number and text below v to a value of its own.
func fill(v reflect.Value, n *int) {
	*n++
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), n)
		}
	case reflect.String:
		v.SetString(fmt.Sprintf("text %d\x00°", *n))
	case reflect.Int:
		v.SetInt(int64(*n))
	case reflect.Uint64:
		v.SetUint(uint64(*n))
	default:
		panic("a row has a field of kind " + v.Kind().String())
	}
}

// Every field of a row comes back; a new one cannot be forgotten.
func TestRowRoundTrip(t *testing.T) {
	var want rule.Row
	n := 0
	fill(reflect.ValueOf(&want).Elem(), &n)
	b := appendRow(nil, want)
	got, err := readRow(bufio.NewReader(bytes.NewReader(b)))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	for cut := 1; cut < len(b); cut++ {
		if _, err := readRow(bufio.NewReader(bytes.NewReader(b[:cut]))); err != io.ErrUnexpectedEOF {
			t.Fatalf("cut after byte %d: got %v, want %v", cut, err, io.ErrUnexpectedEOF)
		}
	}
}

func FuzzReadRow(f *testing.F) {
	for _, r := range rows(3) {
		f.Add(appendRow(nil, r))
	}
	f.Add([]byte{1, 2, 3, 4, 5, 6, 0xff, 0xff, 0xff, 0xff, 0xff, 0x0f})
	f.Fuzz(func(t *testing.T, b []byte) {
		r, err := readRow(bufio.NewReader(bytes.NewReader(b)))
		if err != nil {
			return
		}
		again, err := readRow(bufio.NewReader(bytes.NewReader(appendRow(nil, r))))
		if err != nil || again != r {
			t.Errorf("read %+v, then %+v, %v", r, again, err)
		}
	})
}

func BenchmarkSorter(b *testing.B) {
	in := rows(10_000)
	b.ReportAllocs()
	for b.Loop() {
		s := &Sorter{Limit: 1 << 20, Dir: b.TempDir()}
		for _, r := range in {
			if err := s.Add(r); err != nil {
				b.Fatal(err)
			}
		}
		for _, err := range s.Sorted() {
			if err != nil {
				b.Fatal(err)
			}
		}
		s.Close()
	}
}
