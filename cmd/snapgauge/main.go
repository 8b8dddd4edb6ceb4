// Snapgauge tells at a glance which figures of a spec file do not go: it reads
// files of torques, fills and tolerances and says which figure cannot be
// right, where it stands, why, and what was most likely meant.
package main

import (
	"os"
	"runtime/debug"
)

func main() {
	settleMemory()
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// settleMemory lets the heap grow further before it is collected, up to a
// limit, unless the user has decided for himself. A run over many records
// makes much short-lived garbage and keeps little.
func settleMemory() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(160 << 20)
	}
}
