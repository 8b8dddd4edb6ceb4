package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

const (
	// leastLimit keeps a run over lines below 64 MiB, with what is not the heap's.
	leastLimit = 44 << 20
	// What is in use may be so much under that limit, in bytes. Where it is more,
	// as with a YAML file of many megabytes, the heap may take so many times that.
	fits    = 28 << 20
	roomFor = 2
)

// settleMemory lets the heap grow far before it is collected, up to a limit,
// unless the user has decided for himself. A run over many records makes much
// short-lived garbage and keeps little.
func settleMemory() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(leastLimit)
		followHeap(leastLimit)
	}
}

// followHeap raises and lowers the limit with what is in use after each
// collection, so that the collector does not run all the time for a heap that
// does not fit.
func followHeap(limit int64) {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	var collected func(*[16]byte)
	arm := func() { runtime.SetFinalizer(new([16]byte), collected) }
	collected = func(*[16]byte) {
		metrics.Read(live)
		if want := limitFor(live[0].Value.Uint64()); want > limit || want < limit/2 {
			limit = want
			debug.SetMemoryLimit(limit)
		}
		arm()
	}
	arm()
}

func limitFor(live uint64) int64 {
	if live <= fits {
		return leastLimit
	}
	return roomFor * int64(live)
}
