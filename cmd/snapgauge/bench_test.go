package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"testing"

	"snapgauge/cmd/internal/sample"
)

// BenchmarkCheck is the whole program over a book of NDJSON: reading, every
// check, output.
func BenchmarkCheck(b *testing.B) {
	const records = 5000
	for _, c := range []struct {
		name   string
		faulty float64
	}{{"good", 0}, {"faulty", 0.05}} {
		b.Run(c.name, func(b *testing.B) {
			book := writeBook(b, records, c.faulty)
			b.ReportAllocs()
			for b.Loop() {
				var stderr bytes.Buffer
				if code := run([]string{"check", "--format", "json", book}, nil, io.Discard, &stderr); code == exitUnreadable {
					b.Fatal(stderr.String())
				}
			}
			b.ReportMetric(records*float64(b.N)/b.Elapsed().Seconds(), "records/s")
		})
	}
}

// writeBook writes a book of NDJSON and returns its name.
func writeBook(tb testing.TB, records int, faulty float64) string {
	tb.Helper()
	name := filepath.Join(tb.TempDir(), "book.ndjson")
	f, err := os.Create(name)
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	if err := sample.Write(f, sample.Options{Records: records, Faulty: faulty, Seed: 1}); err != nil {
		tb.Fatal(err)
	}
	return name
}
