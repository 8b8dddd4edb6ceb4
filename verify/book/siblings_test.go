package book_test

import (
	"math"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/book"
	"snapgauge/verify/internal/tabletest"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
)

const tables = "../physics/testdata/tables"

// tableRecords reads the published tables, each as the book of one machine.
// Where says what the row says but for its size, or nothing of it.
func tableRecords(t testing.TB, told bool) map[string][]*schema.Record {
	t.Helper()
	out := map[string][]*schema.Record{}
	for _, row := range tabletest.Torques(t, tables) {
		r := row.Record
		r.ID = row.Thread + " " + row.Grade + " " + row.Condition
		if told {
			r.Where = "general table: " + row.Thread + ", " + row.Grade + ", " + row.Condition
		}
		out[row.File] = append(out[row.File], r)
	}
	return out
}

// siblingRows emits the rows of one record.
func siblingRows(machine string, r *schema.Record) []rule.Row {
	return rowsOf(book.TorqueOffLine, machine, r)
}

func rowsOf(c *rule.Check, machine string, r *schema.Record) []rule.Row {
	var rows []rule.Row
	head := &schema.Head{Machine: schema.Machine{ID: machine}}
	e := &schema.Entry{File: machine, Pointer: "/" + r.ID, Head: head, Record: r}
	p := rule.NewPass(c, e, func(rule.Finding) {})
	c.Book.Emit(p, func(row rule.Row) { rows = append(rows, row) })
	return rows
}

// judgeRows sorts rows and judges them group by group.
func judgeRows(rows []rule.Row) []rule.Finding { return judgeBy(book.TorqueOffLine, rows) }

func judgeBy(c *rule.Check, rows []rule.Row) (found []rule.Finding) {
	rows = slices.Clone(rows)
	slices.SortStableFunc(rows, rule.CompareRows)
	for len(rows) > 0 {
		n := 1
		for n < len(rows) && rows[n].Group == rows[0].Group {
			n++
		}
		c.Book.Judge(rows[:n], func(f rule.Finding) { found = append(found, f) })
		rows = rows[n:]
	}
	return found
}

// TestSiblingsOfTables: the rows of published tables, each table as one book. At
// most 1 % may be queried.
func TestSiblingsOfTables(t *testing.T) {
	for _, told := range []bool{true, false} {
		n, queried := 0, 0
		for name, records := range tableRecords(t, told) {
			var rows []rule.Row
			for _, r := range records {
				rows = append(rows, siblingRows(name, r)...)
				n++
			}
			for _, f := range judgeRows(rows) {
				queried++
				t.Logf("%s: %s: %s", name, f.Place.Pointer, f.Message)
			}
		}
		t.Logf("%d of %d rows queried (told: %v)", queried, n, told)
		if queried*100 > n {
			t.Errorf("%d of %d rows queried, want at most 1 %%", queried, n)
		}
	}
}

// TestSiblingsCatch plants factors, alike in both units, in one row at a time. Of
// those that no check of the record speaks of a share must be caught, and of all,
// by either, another: the more the band of a record finds, the harder are those left.
func TestSiblingsCatch(t *testing.T) {
	bands := []struct {
		name       string
		lo, hi     float64
		told, bare float64 // shares that must be caught
		together   float64 // with the checks of the record
	}{
		{"1.25 to 1.5", 1.25, 1.5, 0.50, 0.50, 0.57},
		{"1.5 to 2", 1.5, 2, 0.75, 0.74, 0.82},
		{"2 to 3", 2, 3, 0.80, 0.54, 0.88},
		{"3 to 4", 3, 4, 0.75, 0.15, 0.91},
	}
	for _, told := range []bool{true, false} {
		books := tableRecords(t, told)
		names := make([]string, 0, len(books))
		for name := range books {
			names = append(names, name)
		}
		slices.Sort(names)
		for _, band := range bands {
			rng := rand.New(rand.NewPCG(3, 4))
			planted, caught, spoken, judged, both := 0, 0, 0, 0, 0
			for _, name := range names {
				var all [][]rule.Row
				groups := map[string][]int{}
				for i, r := range books[name] {
					rows := siblingRows(name, r)
					all = append(all, rows)
					if len(rows) == 1 {
						groups[rows[0].Group] = append(groups[rows[0].Group], i)
					}
				}
				for i, r := range books[name] {
					if len(all[i]) != 1 {
						continue
					}
					factor := band.lo * math.Pow(band.hi/band.lo, rng.Float64())
					if rng.IntN(2) == 0 {
						factor = 1 / factor
					}
					planted++
					c := *r
					c.ID = "planted"
					c.Tighten = []schema.Step{{To: scaled(r.Tighten[0].To, factor)}}
					rows := siblingRows(name, &c)
					if banded(&c) {
						spoken++
						for _, k := range groups[all[i][0].Group] {
							if k != i {
								rows = append(rows, all[k]...)
							}
						}
						if slices.ContainsFunc(judgeRows(rows), func(f rule.Finding) bool { return f.Place.Pointer == "/planted/tighten/0/to" }) {
							both++
						}
						continue
					}
					judged++
					for _, k := range groups[all[i][0].Group] {
						if k != i {
							rows = append(rows, all[k]...)
						}
					}
					if slices.ContainsFunc(judgeRows(rows), func(f rule.Finding) bool {
						return f.Place.Pointer == "/planted/tighten/0/to" ||
							slices.ContainsFunc(f.Related, func(r rule.Related) bool { return r.Place.Pointer == "/planted/tighten/0/to" }) && strings.Contains(f.Message, "finer")
					}) {
						caught++
					}
				}
			}
			t.Logf("told %v, %s: %d planted, a check of the record speaks of %d (the siblings of %d of them), of %d others %.1f %% caught; together %.1f %%",
				told, band.name, planted, spoken, both, judged, 100*float64(caught)/float64(judged), 100*float64(caught+spoken)/float64(planted))
			want := band.told
			if !told {
				want = band.bare
			}
			if got := float64(caught) / float64(judged); got < want {
				t.Errorf("told %v, %s: %.3f caught, want %.3f", told, band.name, got, want)
			}
			if got := float64(caught+spoken) / float64(planted); got < band.together {
				t.Errorf("told %v, %s: %.3f caught together, want %.3f", told, band.name, got, band.together)
			}
		}
	}
}

// banded reports that a check of the record speaks of its torque.
func banded(r *schema.Record) bool {
	spoke := false
	for _, c := range []*rule.Check{physics.TorqueAboveYield, physics.TorqueOutsideBand} {
		c.Record(rule.NewPass(c, &schema.Entry{Head: &schema.Head{}, Record: r}, func(rule.Finding) { spoke = true }))
	}
	return spoke
}

// scaled multiplies a figure; its digits are kept finer than they were.
func scaled(f schema.Figure, factor float64) schema.Figure {
	v := f.Values[0]
	q := v.Quantity
	scale := func(d convert.Decimal) convert.Decimal {
		return convert.FromFloat(q.Unit.ToSI(d.Float()*factor), q.Unit, 3).First
	}
	q.First, q.Second = scale(q.First), scale(q.Second)
	v.Quantity, v.Text = q, q.String()
	f.Values = []convert.Value{v}
	return f
}

// TestSiblingsInService: named joints of public manuals, each manual one
// machine. None may be queried: they differ for reasons of their own.
func TestSiblingsInService(t *testing.T) {
	var rows []rule.Row
	for _, r := range tabletest.Rows(t, filepath.Join(tables, "joints-in-service.csv")) {
		f := map[string]string{"type": r["type"], "class": r["class_or_grade"]}
		if strings.Contains(r["condition"], "oil") {
			f["threads"] = "oiled"
		}
		record := tabletest.Record(t, r["thread"], f, tabletest.Printed(r))
		record.ID, record.Where = r["id"], r["joint"]
		rows = append(rows, siblingRows(r["document"], record)...)
	}
	if len(rows) < 20 {
		t.Fatalf("%d rows, want 20 or more", len(rows))
	}
	for _, f := range judgeRows(rows) {
		t.Errorf("%s: %s", f.Place.Pointer, f.Message)
	}
}

func BenchmarkSiblings(b *testing.B) {
	books := tableRecords(b, true)
	records := books["bolt-maker-a307-grade2.csv"]
	b.Run("emit", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			for _, r := range records {
				siblingRows("machine", r)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(records)), "ns/record")
	})
	var rows []rule.Row
	for _, r := range records {
		rows = append(rows, siblingRows("machine", r)...)
	}
	b.Run("judge", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			judgeRows(rows)
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(rows)), "ns/row")
	})
}
