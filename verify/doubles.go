package verify

import (
	"hash/maphash"
	"slices"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// doubles remembers what was said of the places of a file. One place is
// reached more than once where aliases stand for it; what goes for it is said
// once.
type doubles struct {
	file string
	seed maphash.Seed
	said map[uint64]bool // by a hash: a file may have very many findings
}

// of takes out of the findings on an entry what was said of the same place of
// its file before. A line of NDJSON has no aliases, and is not remembered.
func (d *doubles) of(e *schema.Entry, found []rule.Finding) []rule.Finding {
	if len(found) == 0 || e.Pointer == "" && !e.HeadOnly {
		return found
	}
	if d.file != e.File {
		*d = doubles{file: e.File}
	}
	return slices.DeleteFunc(found, d.again)
}

// again reports whether a finding was met before, and remembers it.
func (d *doubles) again(f rule.Finding) bool {
	if f.Place.Span.IsZero() {
		return false
	}
	if d.said == nil {
		d.seed, d.said = maphash.MakeSeed(), map[uint64]bool{}
	}
	type what struct {
		file           string
		span           schema.Span
		check, message string
	}
	h := maphash.Comparable(d.seed, what{f.Place.File, f.Place.Span, f.Check, f.Message})
	if d.said[h] {
		return true
	}
	d.said[h] = true
	return false
}
