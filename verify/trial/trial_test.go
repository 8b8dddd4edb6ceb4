package trial_test

import (
	"math"
	"os"
	"testing"

	"snapgauge/verify/trial"
)

// TestDemo is the trial of the demo books: nothing in them is queried
// untouched, and of what is caught the slip is named first in 80 %, among three
// in 95 %. A sixth of the slips is planted, with SNAPGAUGE_WHOLE=1 all.
func TestDemo(t *testing.T) {
	r := trial.Run(demo(t), trial.Options{Seed: 1, NoHoles: true, Every: sample(6)})
	var planted, caught, first, named int
	for _, c := range r.Counts {
		planted, caught, first, named = planted+c.Planted, caught+c.Caught, first+c.First, named+c.Named
	}
	t.Logf("%d records, %d figures, %d slips: %.1f %% caught, of them %.1f %% named first, %.1f %% among three",
		r.Records, r.Figures, planted, percent(caught, planted), percent(first, caught), percent(named, caught))
	if r.Rejected > 0 || r.Queried > 0 {
		t.Errorf("untouched: %d rejected, %d queried", r.Rejected, r.Queried)
	}
	if planted < 5000/sample(6) {
		t.Errorf("only %d slips planted", planted)
	}
	if first*100 < caught*80 || named*100 < caught*95 {
		t.Errorf("%.1f %% named first and %.1f %% among three, want 80 and 95 %%", percent(first, caught), percent(named, caught))
	}
}

// BenchmarkDemo is a trial of every slip in the demo books: 120 records are to
// take less than ten seconds.
func BenchmarkDemo(b *testing.B) {
	books := demo(b)
	records := 0
	for b.Loop() {
		records = trial.Run(books, trial.Options{Seed: 1, NoHoles: true}).Records
	}
	b.ReportMetric(120*b.Elapsed().Seconds()/float64(b.N*records), "s/120-records")
}

// sample is one slip in so many, or with SNAPGAUGE_WHOLE=1 each.
func sample(every int) int {
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		return 1
	}
	return every
}

func percent(k, n int) float64 { return 100 * float64(k) / float64(max(n, 1)) }

// TestSeed: the same seed plants the same, another does not.
func TestSeed(t *testing.T) {
	run := func(seed uint64) trial.Report {
		return trial.Run(demo(t), trial.Options{Seed: seed, NoHoles: true, Every: 8, Kinds: []string{"digits-transposed"}})
	}
	a, b, c := run(3), run(3), run(4)
	same := func(x, y trial.Report) bool {
		if len(x.Counts) != len(y.Counts) {
			return false
		}
		for i := range x.Counts {
			if x.Counts[i] != y.Counts[i] {
				return false
			}
		}
		return true
	}
	if !same(a, b) {
		t.Errorf("one seed, two trials: %v and %v", a.Counts, b.Counts)
	}
	if same(a, c) {
		t.Error("two seeds plant the same")
	}
}

// Worked by hand from the formula of NIST/SEMATECH e-Handbook of Statistical
// Methods 7.2.4.1, two-sided with z = 1.96.
func TestInterval(t *testing.T) {
	for _, tt := range []struct {
		k, n   int
		lo, hi float64
	}{{4, 20, 0.0807, 0.4160}, {0, 10, 0, 0.2775}, {10, 10, 0.7225, 1}, {0, 0, 0, 1}} {
		lo, hi := trial.Interval(tt.k, tt.n)
		if math.Abs(lo-tt.lo) > 1e-4 || math.Abs(hi-tt.hi) > 1e-4 {
			t.Errorf("%d of %d: %.4f to %.4f, want %.4f to %.4f", tt.k, tt.n, lo, hi, tt.lo, tt.hi)
		}
	}
}

// TestEvery: a sample of the slips has of each kind its share, and leaves out no
// part of the records.
func TestEvery(t *testing.T) {
	kinds := []string{"ends-swapped", "digits-transposed", "unit-cut-short"}
	all := trial.Run(demo(t), trial.Options{Seed: 2, NoHoles: true, Kinds: kinds})
	some := trial.Run(demo(t), trial.Options{Seed: 2, NoHoles: true, Kinds: kinds, Every: 5})
	if len(all.Counts) != len(some.Counts) {
		t.Fatalf("%d counts of %d", len(some.Counts), len(all.Counts))
	}
	for i, c := range all.Counts {
		s := some.Counts[i]
		if s.Kind != c.Kind || s.Units != c.Units || s.Planted < c.Planted/5 || s.Planted > c.Planted/5+1 {
			t.Errorf("%s %d: %d of %d planted, want every fifth", c.Kind, c.Units, s.Planted, c.Planted)
		}
		whole, part := percent(c.Caught, c.Planted), percent(s.Caught, s.Planted)
		if lo, hi := trial.Interval(s.Caught, s.Planted); whole < 100*lo-0.1 || whole > 100*hi+0.1 {
			t.Errorf("%s %d: %.1f %% of the sample are caught, and %.1f %% of all", c.Kind, c.Units, part, whole)
		}
	}
}
