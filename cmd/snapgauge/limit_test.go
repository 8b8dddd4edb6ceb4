package main

import (
	"runtime"
	"runtime/debug"
	"testing"
	"time"
)

// The limit follows what is in use, both ways.
func TestFollowHeap(t *testing.T) {
	before := debug.SetMemoryLimit(-1)
	t.Cleanup(func() { debug.SetMemoryLimit(before) })
	debug.SetMemoryLimit(leastLimit)
	followHeap(leastLimit)
	follows := func(what string, want func(int64) bool) {
		t.Helper()
		for range 100 {
			runtime.GC()
			if want(debug.SetMemoryLimit(-1)) {
				return
			}
			time.Sleep(10 * time.Millisecond)
		}
		t.Errorf("%s: the limit is %d MiB", what, debug.SetMemoryLimit(-1)>>20)
	}
	large := make([]byte, 100<<20)
	follows("100 MiB in use", func(limit int64) bool { return limit >= 200<<20 })
	runtime.KeepAlive(large)
	follows("little in use", func(limit int64) bool { return limit == leastLimit })
}
