package book_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"snapgauge/schema"
	"snapgauge/verify/book"
	"snapgauge/verify/rule"
)

// TestColumnsOfTables: the rows of published tables, each table as one book. At
// most 0.5 % may be queried.
func TestColumnsOfTables(t *testing.T) {
	n, queried := 0, 0
	for name, records := range tableRecords(t, true) {
		var rows []rule.Row
		for _, r := range records {
			rows = append(rows, rowsOf(book.ColumnsAtOdds, name, r)...)
			n++
		}
		for _, f := range judgeBy(book.ColumnsAtOdds, rows) {
			queried++
			t.Logf("%s: %s: %s", name, f.Place.Pointer, f.Message)
		}
	}
	t.Logf("%d of %d rows queried", queried, n)
	if queried*200 > n {
		t.Errorf("%d of %d rows queried, want at most 0.5 %%", queried, n)
	}
}

// TestColumnsCatch plants factors, alike in both units, in one row of a table at a
// time: a share is caught by the other columns, at the row or at the one beside it.
func TestColumnsCatch(t *testing.T) {
	books := tableRecords(t, true)
	names := make([]string, 0, len(books))
	for name := range books {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, band := range []struct {
		lo, hi, want float64
	}{{1.1, 1.25, 0.2}, {1.25, 1.5, 0.3}, {1.5, 2, 0.3}} {
		rng := rand.New(rand.NewPCG(3, 4))
		planted, caught, beside := 0, 0, 0
		for _, name := range names {
			all := make([][]rule.Row, len(books[name]))
			for i, r := range books[name] {
				all[i] = rowsOf(book.ColumnsAtOdds, name, r)
			}
			for i, r := range books[name] {
				if len(all[i]) != 1 || rng.IntN(3) > 0 {
					continue
				}
				factor := band.lo * math.Pow(band.hi/band.lo, rng.Float64())
				if rng.IntN(2) == 0 {
					factor = 1 / factor
				}
				c := *r
				c.ID = "planted"
				c.Tighten = []schema.Step{{To: scaled(r.Tighten[0].To, factor)}}
				rows := rowsOf(book.ColumnsAtOdds, name, &c)
				for k := range all {
					if k != i && len(all[k]) == 1 && all[k][0].Group == all[i][0].Group {
						rows = append(rows, all[k]...)
					}
				}
				planted++
				at := func(pl rule.Place) bool { return strings.HasPrefix(pl.Pointer, "/planted/") }
				found := judgeBy(book.ColumnsAtOdds, rows)
				switch {
				case slices.ContainsFunc(found, func(f rule.Finding) bool { return at(f.Place) }):
					caught++
				case slices.ContainsFunc(found, func(f rule.Finding) bool { return at(f.Related[0].Place) }):
					beside++
				}
			}
		}
		t.Logf("%g to %g: %d planted, %d caught at the row, %d at the one beside it", band.lo, band.hi, planted, caught, beside)
		if float64(caught+beside) < band.want*float64(planted) {
			t.Errorf("%g to %g: %d of %d caught, want %g", band.lo, band.hi, caught+beside, planted, band.want)
		}
	}
}
