package main

import (
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"testing"
)

var initOf = regexp.MustCompile(`(?m)^init (modernc\.org/\S+|database/sql\S*|snapgauge/cmd/internal/seal/database) @\S+ ms, (\S+) ms clock`)

// BenchmarkStart is the start of the program, and of it what the packages take
// that come with SQLite, as the runtime tells it: less than 2 ms are wanted, see
// DEVELOPERS.md.
func BenchmarkStart(b *testing.B) {
	sum := 0.0
	for b.Loop() {
		cmd := exec.Command("snapgauge", "--version")
		cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
		said, err := cmd.CombinedOutput()
		if err != nil {
			b.Fatalf("%v\n%s", err, said)
		}
		inits := initOf.FindAllStringSubmatch(string(said), -1)
		if len(inits) == 0 {
			b.Fatalf("SQLite is not linked, or the runtime tells it in another way:\n%s", said)
		}
		for _, m := range inits {
			ms, err := strconv.ParseFloat(m[2], 64)
			if err != nil {
				b.Fatal(err)
			}
			sum += ms
		}
	}
	b.ReportMetric(sum/float64(b.N), "ms-of-sqlite/op")
}
