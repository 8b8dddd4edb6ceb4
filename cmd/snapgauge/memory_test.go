//go:build linux

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// mostMemory is the peak resident memory, in MiB, that a run of any length
// may take.
const mostMemory = 64

// TestMemory runs the program over 25,000 records in one pass, or 100,000 with
// SNAPGAUGE_WHOLE=1, and looks at the peak resident memory that the system
// counted. (What it tells of a process that has ended counts that of the test
// itself too, which started it.)
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
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	peak := 0
	ended := make(chan error)
	go func() { ended <- cmd.Wait() }()
	for running := true; running; {
		select {
		case err := <-ended:
			if running = false; cmd.ProcessState.ExitCode() != exitRejected {
				t.Fatalf("%v\n%s", err, stderr.String())
			}
		case <-time.After(5 * time.Millisecond):
			peak = max(peak, peakOf(cmd.Process.Pid))
		}
	}
	took := time.Since(start)
	t.Logf("%d records: peak %d MiB, %.0f records/s\n%s", records, peak, float64(records)/took.Seconds(), stderr.String())
	if peak == 0 || peak > mostMemory {
		t.Errorf("peak memory %d MiB, want at most %d", peak, mostMemory)
	}
	if !bytes.Contains(stderr.Bytes(), fmt.Appendf(nil, "%d records", records)) {
		t.Errorf("not every record was read:\n%s", stderr.String())
	}
}

// peakOf is the peak resident memory of a process that runs, in MiB.
func peakOf(pid int) int {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0
	}
	_, after, _ := strings.Cut(string(status), "VmHWM:")
	kib := 0
	_, _ = fmt.Sscanf(after, "%d kB", &kib)
	return kib / 1024
}
