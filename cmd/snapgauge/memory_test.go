//go:build linux

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"syscall"
	"testing"
	"time"
)

// mostMemory is the peak resident memory, in MiB, that a run of any length
// may take.
const mostMemory = 64

// TestMemory runs the program over 25,000 records in one pass, or 100,000 with
// SNAPGAUGE_WHOLE=1, and looks at the peak resident memory that the system
// counted (ru_maxrss, in KiB).
//
// Measured on two cores of a shared virtual machine (Linux, Go 1.26): peak 51 to
// 56 MiB, for 20,000 records as for 400,000, for 1, 2 and 8 workers.
func TestMemory(t *testing.T) {
	if raced || testing.Short() {
		t.Skip("measured without the race detector, not in short runs")
	}
	records := 25_000
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		records = 100_000
	}
	book := writeBook(t, records, 0.005)
	var stderr bytes.Buffer
	cmd := exec.Command("snapgauge", "check", "--format", "json", book)
	cmd.Stderr = &stderr
	start := time.Now()
	if err := cmd.Run(); cmd.ProcessState == nil || cmd.ProcessState.ExitCode() != exitRejected {
		t.Fatalf("%v\n%s", err, stderr.String())
	}
	took := time.Since(start)
	peak := cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss / 1024
	t.Logf("%d records: peak %d MiB, %.0f records/s\n%s", records, peak, float64(records)/took.Seconds(), stderr.String())
	if peak > mostMemory {
		t.Errorf("peak memory %d MiB, want at most %d", peak, mostMemory)
	}
	if !bytes.Contains(stderr.Bytes(), fmt.Appendf(nil, "%d records", records)) {
		t.Errorf("not every record was read:\n%s", stderr.String())
	}
}
