// Snapgauge tells at a glance which figures of a spec file do not go: it reads
// files of torques, fills and tolerances and says which figure cannot be
// right, where it stands, why, and what was most likely meant.
package main

import (
	"fmt"
	"io"
	"os"
)

func main() {
	settleMemory()
	var out io.Writer = os.Stdout
	nowhere := &sink{}
	if goesNowhere(os.Stdout) {
		out = nowhere
	}
	code := run(os.Args[1:], os.Stdin, out, os.Stderr)
	if nowhere.lost > 0 {
		fmt.Fprintln(os.Stderr, "snapgauge: standard output is closed, and what was found is not printed; name a file: > findings.txt")
	}
	os.Exit(code)
}

// sink takes what goes nowhere.
type sink struct{ lost int }

func (s *sink) Write(b []byte) (int, error) {
	s.lost += len(b)
	return len(b), nil
}
