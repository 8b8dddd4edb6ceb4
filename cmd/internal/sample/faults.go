package sample

import (
	"math/rand/v2"
	"strings"
)

// faults are what a record may have wrong, by name. Each reports whether the
// record lends itself to it.
var faults = []struct {
	name string
	make func(rec *record, i int) bool
}{
	{"member misspelled", func(rec *record, _ int) bool {
		rec.whereName = "wehre"
		return true
	}},
	{"member missing", func(rec *record, _ int) bool {
		rec.whereName = ""
		return true
	}},
	{"no such date", func(rec *record, _ int) bool {
		rec.date = "2026-02-30"
		return true
	}},
	{"count as text", func(rec *record, _ int) bool {
		if rec.count == "" {
			return false
		}
		_, n, _ := strings.Cut(rec.count, ":")
		rec.before = strings.Replace(rec.before, rec.count, `"count":"`+n+`"`, 1)
		return true
	}},
	{"unit swapped", func(rec *record, _ int) bool {
		at := &rec.second
		if strings.Contains(rec.first, "lbf") {
			at = &rec.first
		}
		for _, u := range [][2]string{{"lbf·in", "lbf·ft"}, {"lbf·ft", "lbf·in"}, {"US qt", "US gal"}, {" in", " ft"}} {
			if strings.HasSuffix(*at, u[0]) {
				*at = strings.TrimSuffix(*at, u[0]) + u[1]
				return true
			}
		}
		return false
	}},
	{"point lost", func(rec *record, _ int) bool {
		before, _, found := strings.Cut(rec.first, ".")
		rec.first = strings.Replace(rec.first, ".", "", 1)
		return found && before != "0"
	}},
	{"nought too many", func(rec *record, _ int) bool {
		digits, rest, _ := strings.Cut(rec.second, " ")
		rec.second = digits + "0 " + rest
		return !strings.Contains(digits, ".")
	}},
	{"id doubled", func(rec *record, i int) bool {
		if i%(abreast*perMachine) < abreast {
			return false // the first of its machine
		}
		rec.id = idOf(i - abreast)
		return true
	}},
}

// spoil gives a record a fault that it lends itself to.
func spoil(r *rand.Rand, rec *record, i int) {
	for {
		spoiled := *rec
		if f := pick(r, faults); f.make(&spoiled, i) {
			*rec = spoiled
			return
		}
	}
}
