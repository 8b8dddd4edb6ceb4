package joint

import (
	"sync"
	"sync/atomic"
)

// known remembers what words were read as: a book says the same few things of
// its screws over and over. It is bounded, and safe for several goroutines.
var known struct {
	m sync.Map // Words to *Judged
	n atomic.Int32
}

// Judged is what words give: the facts behind them, the band of torques and,
// where engagement and material are stated, at what the thread strips.
type Judged struct {
	Facts     Facts
	Band      Band
	Stripping Stripping
	Strips    bool // Stripping is known

	ok bool
}

const (
	knownMost    = 4000
	longestWords = 200 // bytes of all words together
)

// Known is [Read], [BandOf] and [StrippingOf] in one, remembered. What it returns
// is shared and must not be changed.
func Known(w Words) (j *Judged, ok bool) {
	if x, found := known.m.Load(w); found {
		j = x.(*Judged)
		return j, j.ok
	}
	j = &Judged{}
	if j.Facts, j.ok = Read(w); j.ok {
		j.Band = BandOf(j.Facts)
		j.ok = j.Band != Band{}
		j.Stripping, j.Strips = StrippingOf(j.Facts)
	}
	length := len(w.Type) + len(w.Thread) + len(w.Class) + len(w.Head) + len(w.Threads) + len(w.Into) + len(w.Seal) + len(w.Insert)
	if length <= longestWords && w == w && known.n.Load() < knownMost { // NaN is never found again
		known.n.Add(1)
		known.m.Store(w, j)
	}
	return j, j.ok
}
