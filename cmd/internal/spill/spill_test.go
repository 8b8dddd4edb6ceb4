package spill

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
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
			Check: r.IntN(3),
			Group: fmt.Sprint("group ", r.IntN(n/4+1)), Order: fmt.Sprint(r.IntN(3)),
			Payload: strings.Repeat("µ", r.IntN(40)),
		}
		if i%7 == 0 {
			out[i].Group = out[i].Group[:i%5] // short ones, and none
		}
		out[i].Place.File = []string{"book.ndjson", "gear.yaml"}[i/100%2]
		out[i].Place.Span.Start.Line = i + 1
	}
	return out
}

// groups are those of all checks, without the places of rows in the input.
func groups(t *testing.T, s rule.Sorter, least int) (out [][]rule.Row) {
	t.Helper()
	for check := range 4 {
		for g, err := range s.Groups(check, least) {
			if err != nil {
				t.Fatal(err)
			}
			g = slices.Clone(g)
			for i := range g {
				g[i].Seq = 0
			}
			out = append(out, g)
		}
	}
	return out
}

func add(t *testing.T, s rule.Sorter, in []rule.Row) {
	t.Helper()
	for _, r := range in {
		if err := s.Add(r); err != nil {
			t.Fatal(err)
		}
	}
}

// However little memory there is, the rows come as from memory, and so they do
// from batches.
func TestSameAsInMemory(t *testing.T) {
	for _, n := range []int{0, 1, 2, 60, 600} {
		in := rows(n)
		for _, least := range []int{0, 2, 5} {
			kept := &rule.InMemory{}
			add(t, kept, in)
			want := groups(t, kept, least)
			for _, limit := range []int{1, 1000, 20_000, DefaultLimit} {
				s := &Sorter{Limit: limit, Dir: t.TempDir(), most: 7}
				add(t, s, in)
				if diff := cmp.Diff(want, groups(t, s, least)); diff != "" {
					t.Errorf("%d rows, limit %d (-want +got):\n%s", n, limit, diff)
				}
				if diff := cmp.Diff(want, groups(t, s, least)); diff != "" {
					t.Errorf("%d rows, limit %d, read again (-want +got):\n%s", n, limit, diff)
				}
				if spilled := s.file != nil; spilled != (n > 0 && limit < DefaultLimit && n*80 > limit) {
					t.Errorf("%d rows, limit %d: spilled is %v", n, limit, spilled)
				}
				if len(s.runs) >= s.most || limit == 1 && n > 8 && len(s.older) < n/8 {
					t.Errorf("%d rows, limit %d: %d runs and %d older", n, limit, len(s.runs), len(s.older))
				}
				batched := &Sorter{Limit: limit, Dir: t.TempDir(), most: 3}
				for part := range slices.Chunk(in, 70) {
					b := batched.NewBatch()
					for _, r := range part {
						if err := b.Add(r); err != nil {
							t.Fatal(err)
						}
					}
					b.Sort()
					if err := batched.Take(b); err != nil {
						t.Fatal(err)
					}
				}
				if diff := cmp.Diff(want, groups(t, batched, least)); diff != "" {
					t.Errorf("%d rows, limit %d, batches (-want +got):\n%s", n, limit, diff)
				}
				for _, s := range []*Sorter{s, batched} {
					if err := s.Close(); err != nil {
						t.Error(err)
					}
				}
			}
		}
	}
}

// Reading may stop early, and be done again.
func TestStopEarly(t *testing.T) {
	s := &Sorter{Limit: 1000, Dir: t.TempDir()}
	defer s.Close()
	add(t, s, rows(100))
	for range s.Groups(1, 1) {
		break
	}
	n := 0
	for g := range s.Groups(1, 1) {
		n += len(g)
	}
	if n < 20 {
		t.Errorf("%d rows in the second reading", n)
	}
}

// A row that is longer than what is read at once.
func TestLongRow(t *testing.T) {
	s := &Sorter{Limit: 1, Dir: t.TempDir()}
	defer s.Close()
	want := rule.Row{Group: "g", Payload: strings.Repeat("long ", readAhead)}
	add(t, s, []rule.Row{want, {Group: "h"}})
	if diff := cmp.Diff([][]rule.Row{{want}, {{Group: "h"}}}, groups(t, s, 1)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// No file is left behind, not even when the rows were never read.
func TestCloseRemovesFile(t *testing.T) {
	dir := t.TempDir()
	s := &Sorter{Limit: 1, Dir: dir}
	add(t, s, rows(5))
	// As where the system does not let go of the name of an open file.
	if s.file.path == "" {
		s.file.path = filepath.Join(dir, "kept")
		if err := os.WriteFile(s.file.path, nil, 0o600); err != nil {
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
	for _, cut := range []bool{false, true} {
		s := &Sorter{Limit: 1 << 16, Dir: t.TempDir()}
		in := rows(2000)
		for i := range in {
			in[i].Check = 0
		}
		add(t, s, in)
		if _, err := s.all(); err != nil { // nothing more is written
			t.Fatal(err)
		}
		if !cut {
			s.file.Close()
		} else if err := s.file.Truncate(s.file.end - 1); err != nil {
			t.Fatal(err)
		}
		var failed error
		for _, err := range s.Groups(0, 1) {
			failed = err
		}
		if failed == nil || !strings.Contains(failed.Error(), "merge the rows of the book") {
			t.Errorf("cut is %v, %d runs: got %v, want an error", cut, len(s.runs), failed)
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
	want.Check, want.Seq = 0, 0 // rows of one check lie together, in their order
	want.Place.Span.End.Column = -7
	names := []string{"another file", want.Place.File}
	b := appendRow(nil, &want, 1)
	got, err := readRow(string(b), names)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	for cut := range len(b) {
		if _, err := readRow(string(b[:cut]), names); err != errRow {
			t.Fatalf("cut after byte %d: got %v, want %v", cut, err, errRow)
		}
	}
	if _, err := readRow(string(b), names[:1]); err != errRow {
		t.Errorf("a file without a name: got %v, want %v", err, errRow)
	}
	if _, err := readRow(string(b)+"x", names); err != errRow {
		t.Errorf("a byte too many: got %v, want %v", err, errRow)
	}
}

func FuzzReadRow(f *testing.F) {
	for _, r := range rows(3) {
		f.Add(string(appendRow(nil, &r, 0)))
	}
	f.Add("\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\x0f")
	f.Fuzz(func(t *testing.T, s string) {
		names := []string{"book.ndjson"}
		r, err := readRow(s, names)
		if err != nil {
			return
		}
		again, err := readRow(string(appendRow(nil, &r, 0)), names)
		if err != nil || again != r {
			t.Errorf("read %+v, then %+v, %v", r, again, err)
		}
	})
}

// BenchmarkSorter is the whole way of 100,000 rows: added in batches, sorted,
// written, merged, read in groups of two or more.
func BenchmarkSorter(b *testing.B) {
	in := rows(100_000)
	b.ReportAllocs()
	for b.Loop() {
		s := &Sorter{Limit: 1 << 20, Dir: b.TempDir()}
		for part := range slices.Chunk(in, 8000) {
			batch := s.NewBatch()
			for _, r := range part {
				_ = batch.Add(r)
			}
			batch.Sort()
			if err := s.Take(batch); err != nil {
				b.Fatal(err)
			}
		}
		for check := range 3 {
			for _, err := range s.Groups(check, 2) {
				if err != nil {
					b.Fatal(err)
				}
			}
		}
		s.Close()
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(in)), "ns/row")
}
