package sense

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"snapgauge/schema"
)

// crew is the fasteners that a step turns.
type crew struct {
	places map[int]bool // nil where they are not all listed
	counts []int        // how many there may be; nil where that is not stated
	twice  int          // how often a place is listed again, so that another is missing
}

// crewOf finds the fasteners that a step is for: all of them, or those that only
// names. ok is false where only names something that is not there.
func crewOf(r *schema.Record, only []string) (c crew, ok bool) {
	items := r.Fasteners.Items
	extra := map[int]bool{} // places that only names
	if len(only) > 0 {
		items = nil
		for _, name := range only {
			if f := keyed(r, name); f != nil {
				items = append(items, *f)
			} else if n, err := strconv.Atoi(name); err == nil {
				extra[n] = true
			} else {
				return crew{}, false
			}
		}
	}
	c.places = extra
	counted, all, nuts, studs := true, len(extra), 0, 0
	for _, f := range items {
		n := f.Count
		if n == 0 {
			n = len(f.Places)
		}
		counted = counted && n > 0
		all += n
		switch f.Type {
		case "stud":
			studs += n
		case "nut", "prevailing nut":
			nuts += n
		}
		c.twice += len(doubled(f.Places))
		if len(f.Places) == 0 {
			c.places = nil
		}
		if c.places != nil {
			for _, place := range f.Places {
				c.places[place] = true
			}
		}
	}
	if len(items)+len(extra) == 0 {
		return crew{}, true
	}
	if counted {
		c.counts = []int{all}
		if nuts > 0 && studs > 0 { // a stud and its nut share a place
			c.counts = append(c.counts, all-studs, all-nuts)
		}
	}
	return c, true
}

// keyed finds the fastener of a key.
func keyed(r *schema.Record, key string) *schema.Fastener {
	for i := range r.Fasteners.Items {
		if f := &r.Fasteners.Items[i]; f.Key != "" && f.Key == key {
			return f
		}
	}
	return nil
}

// setOf is the distinct places of a list.
func setOf(places []int) map[int]bool {
	set := map[int]bool{}
	for _, n := range places {
		set[n] = true
	}
	return set
}

// without lists what is in a and not in b, rising.
func without(a, b map[int]bool) []int {
	var out []int
	for _, n := range slices.Sorted(maps.Keys(a)) {
		if !b[n] {
			out = append(out, n)
		}
	}
	return out
}

// leftOut lists the places that the order of step i leaves out, where the places
// of its fasteners are known, or are numbered from 1 as their count has it.
func leftOut(r *schema.Record, i int) []int {
	c, ok := crewOf(r, r.Tighten[i].Only)
	if !ok {
		return nil
	}
	if c.places == nil && c.counts != nil {
		c.places = upTo(c.counts[0])
	}
	order := setOf(r.Tighten[i].Order)
	if len(c.places) == 0 || len(without(order, c.places)) > 0 {
		return nil
	}
	return without(c.places, order)
}

// named writes places for a message: "place 7", "places 7 and 9".
func named(places []int) string {
	var s []string
	for _, n := range places {
		s = append(s, strconv.Itoa(n))
	}
	if len(s) == 1 {
		return "place " + s[0]
	}
	return "places " + strings.Join(s[:len(s)-1], ", ") + " and " + s[len(s)-1]
}

// doubled lists the places that stand twice, in the order of the list, and where.
func doubled(places []int) (at []int) {
	if len(places) < 2 {
		return nil
	}
	seen := map[int]bool{}
	for i, n := range places {
		if seen[n] {
			at = append(at, i)
		}
		seen[n] = true
	}
	return at
}
