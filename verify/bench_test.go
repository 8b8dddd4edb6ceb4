package verify_test

import (
	"iter"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// nowhere is a sorter that keeps no rows: it leaves the records' own checks.
type nowhere struct{}

func (nowhere) Add(rule.Row) error { return nil }
func (nowhere) Groups(int, int) iter.Seq2[[]rule.Row, error] {
	return func(func([]rule.Row, error) bool) {}
}

// soundEntries are the demo records of one kind, all kinds when it is empty,
// of which no check says anything.
func soundEntries(tb testing.TB, kind string) []schema.Entry {
	files, err := filepath.Glob("../specs/demo/*")
	if err != nil || len(files) == 0 {
		tb.Fatal("no demo books", err)
	}
	var all []schema.Entry
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			tb.Fatal(err)
		}
		for e, err := range specs.Read(file, f) {
			if err == nil && !e.HeadOnly && (kind == "" || e.Record.Kind == kind) {
				all = append(all, e)
			}
		}
		f.Close()
	}
	spoken := map[string]bool{}
	err = verify.Run(slices.Values(all), verify.Options{Sorter: nowhere{}}, func(f rule.Finding) bool {
		spoken[f.Place.File+f.Place.Pointer] = true
		return true
	})
	if err != nil {
		tb.Fatal(err)
	}
	all = slices.DeleteFunc(all, func(e schema.Entry) bool {
		return len(e.Record.Answers) > 0 || slices.ContainsFunc(keys(spoken), func(at string) bool {
			return len(at) >= len(e.File+e.Pointer) && at[:len(e.File+e.Pointer)] == e.File+e.Pointer
		})
	})
	if len(all) < 10 {
		tb.Fatalf("%d records of kind %q", len(all), kind)
	}
	return all
}

func keys(m map[string]bool) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	return out
}

// BenchmarkRun is the cost of all checks of a record and of the rows of the
// book, without reading and without sorting; ns/record is what counts.
func BenchmarkRun(b *testing.B) {
	for _, kind := range []string{"torque", "fill", "tolerance"} {
		b.Run(kind, func(b *testing.B) {
			all := soundEntries(b, kind)
			b.ReportAllocs()
			for b.Loop() {
				err := verify.Run(slices.Values(all), verify.Options{Sorter: nowhere{}}, func(f rule.Finding) bool {
					b.Fatal(f.Message)
					return false
				})
				if err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(all)), "ns/record")
		})
	}
}
