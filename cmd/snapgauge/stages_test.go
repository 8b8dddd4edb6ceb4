package main

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"testing"

	"snapgauge/cmd/internal/sample"
	"snapgauge/cmd/internal/spill"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// nothing takes rows and keeps none.
type nothing struct{}

func (nothing) Add(rule.Row) error { return nil }

// BenchmarkStages is what a valid book of NDJSON goes through, stage by stage,
// each with those before it but the last: cut into chunks, read, judged, the
// rows of the book sorted in batches; and the book alone, from rows that lie
// sorted. Peak memory is held by TestMemory.
func BenchmarkStages(b *testing.B) {
	const records = 5000
	var book bytes.Buffer
	if err := sample.Write(&book, sample.Options{Records: records, Seed: 1}); err != nil {
		b.Fatal(err)
	}
	src := book.Bytes()
	quick := specs.Reader{Reuse: true}
	each := func(b *testing.B, reader specs.Reader, do func(specs.Part)) {
		b.SetBytes(int64(len(src)))
		b.ReportAllocs()
		for b.Loop() {
			for part := range reader.Parts("book.ndjson", bytes.NewReader(src), 1) {
				do(part)
			}
		}
		b.ReportMetric(records*float64(b.N)/b.Elapsed().Seconds(), "records/s")
	}
	entries := func(part specs.Part, do func(*schema.Entry)) {
		for e, err := range part {
			if err != nil {
				b.Fatal(err)
			}
			do(&e)
		}
	}
	b.Run("cut", func(b *testing.B) { each(b, quick, func(specs.Part) {}) })
	b.Run("read", func(b *testing.B) {
		each(b, quick, func(part specs.Part) { entries(part, func(*schema.Entry) {}) })
	})
	b.Run("read-plain", func(b *testing.B) {
		each(b, specs.Reader{Plain: true}, func(part specs.Part) { entries(part, func(*schema.Entry) {}) })
	})
	judged := func(b *testing.B, rows func() rule.Rows, done func(rule.Rows)) {
		of := verify.NewRecords(verify.Options{})
		each(b, quick, func(part specs.Part) {
			said := verify.Said{Rows: rows()}
			entries(part, func(e *schema.Entry) { of.Judge(e, &said) })
			done(said.Rows)
		})
	}
	b.Run("judge", func(b *testing.B) {
		judged(b, func() rule.Rows { return nothing{} }, func(rule.Rows) {})
	})
	b.Run("sort", func(b *testing.B) {
		var s spill.Sorter
		defer s.Close()
		judged(b, func() rule.Rows { return s.NewBatch() }, func(r rule.Rows) {
			r.(*spill.Batch).Sort()
			if err := s.Take(r.(*spill.Batch)); err != nil {
				b.Fatal(err)
			}
		})
	})
	b.Run("book", func(b *testing.B) {
		var s spill.Sorter
		defer s.Close()
		of := verify.NewRecords(verify.Options{})
		for part := range quick.Parts("book.ndjson", bytes.NewReader(src), 1) {
			batch := s.NewBatch()
			said := verify.Said{Rows: batch}
			entries(part, func(e *schema.Entry) { of.Judge(e, &said) })
			batch.Sort()
			if err := s.Take(batch); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportAllocs()
		for b.Loop() {
			if err := verify.NewBook(verify.Options{Sorter: &s}).Judge(func(rule.Finding) bool { return true }); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(records*float64(b.N)/b.Elapsed().Seconds(), "records/s")
	})
	for _, workers := range []int{1, 2, 8} {
		b.Run(fmt.Sprintf("whole-%d", workers), func(b *testing.B) {
			args := []string{"check", "--format", "json", "--as", "ndjson", "--workers", fmt.Sprint(workers), "-"}
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(workers))
			b.SetBytes(int64(len(src)))
			b.ReportAllocs()
			for b.Loop() {
				if code := run(args, bytes.NewReader(src), io.Discard, io.Discard); code != exitGoes {
					b.Fatal(code)
				}
			}
			b.ReportMetric(records*float64(b.N)/b.Elapsed().Seconds(), "records/s")
		})
	}
}
