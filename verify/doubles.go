package verify

import (
	"hash/maphash"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// doubles remembers what was said of the places of a file. One place is
// reached more than once where aliases stand for it; what goes for it is said
// once.
type doubles struct {
	seed maphash.Seed
	said map[uint64]bool // by a hash: a file may have very many findings
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
