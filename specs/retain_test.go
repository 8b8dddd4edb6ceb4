package specs_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"snapgauge/specs"
)

// TestLinesDoNotLiveOn: whoever holds one record does not hold those before it.
// (Slabs of nodes that two records shared once kept a whole file alive.)
func TestLinesDoNotLiveOn(t *testing.T) {
	const n = 5000
	var lines strings.Builder
	for i := range n {
		fmt.Fprintf(&lines, `{"format": "snapgauge/1.0", "machine": {"id": "bailer-22", "name": "Bailer 22"}, "id": "screws-%d", "kind": "torque", "where": "cover", "tighten": [{"to": ["20 N·m", "177 lbf·in"]}], "source": {"title": "Leaflet", "at": "panel 9"}}`+"\n", i)
	}
	heap := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before, after, read := heap(), uint64(0), 0
	for e, err := range specs.Read("bailer.ndjson", strings.NewReader(lines.String())) {
		if err != nil {
			t.Fatal(err)
		}
		if read++; read == n {
			after = heap()
			runtime.KeepAlive(e)
		}
	}
	if read != n {
		t.Fatalf("read %d records, want %d", read, n)
	}
	if after > before+(4<<20) {
		t.Errorf("the heap grew by %d KiB over %d records", (after-before)>>10, n)
	}
}
