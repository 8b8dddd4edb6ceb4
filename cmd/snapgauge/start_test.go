package main

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"testing"
)

// mostAdded is what SQLite may add to the start of the program, in ms. Measured
// whole, on two cores of a shared machine: see DEVELOPERS.md.
const mostAdded = 2.0

var initOf = regexp.MustCompile(`(?m)^init (modernc\.org/\S+|database/sql\S*|snapgauge/cmd/internal/seal/database) @\S+ ms, (\S+) ms clock`)

// SQLite does next to nothing before it is asked for: the runtime tells how long
// the packages take that come with it.
func TestStart(t *testing.T) {
	if raced {
		t.Skip("measured without the race detector")
	}
	var took []float64
	for range 9 {
		cmd := exec.Command("snapgauge", "--version")
		cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
		said, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, said)
		}
		sum, found := 0.0, 0
		for _, m := range initOf.FindAllStringSubmatch(string(said), -1) {
			ms, err := strconv.ParseFloat(m[2], 64)
			if err != nil {
				t.Fatal(err)
			}
			sum, found = sum+ms, found+1
		}
		if found == 0 {
			t.Fatalf("SQLite is not linked, or the runtime tells it in another way:\n%s", said)
		}
		took = append(took, sum)
	}
	slices.Sort(took)
	t.Logf("%.2f ms in the median of %d runs", took[len(took)/2], len(took))
	if took[len(took)/2] >= mostAdded {
		t.Errorf("what comes with SQLite takes %.2f ms at start, want less than %.0f", took[len(took)/2], mostAdded)
	}
}
