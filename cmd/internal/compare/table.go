//go:build unix

package main

import (
	"fmt"
	"io"
	"slices"
	"time"
)

// table writes the medians, one table for each heading.
func table(w io.Writer, runs []*run) {
	base, of := time.Duration(0), ""
	for _, r := range runs {
		if r.of != of {
			of, base = r.of, 0
			fmt.Fprintf(w, "\n| %s | s | µs a record | records/s | times the first | peak MiB |\n|---|---|---|---|---|---|\n", of)
		}
		m := median(r.took)
		if r.base || base == 0 {
			base = m
		}
		each := m.Seconds() / float64(r.size)
		fmt.Fprintf(w, "| %s | %.3f | %.2f | %.0f | %.2f | %d |\n",
			r.what, m.Seconds(), 1e6*each, 1/each, m.Seconds()/base.Seconds(), r.peak/1024)
	}
}

func median(took []time.Duration) time.Duration {
	sorted := slices.Sorted(slices.Values(took))
	return sorted[len(sorted)/2]
}
