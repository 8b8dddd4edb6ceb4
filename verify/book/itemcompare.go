package book

import (
	"strings"

	"snapgauge/convert"
)

// difference says how two figures of one thing stand to each other.
type difference uint8

const (
	same  difference = iota // or not to be compared
	near                    // they differ, and both may be right
	apart                   // they differ
)

// contrast is where two claims differ most.
type contrast struct {
	how   difference
	a, b  int    // the facts
	about string // what differs when it is no figure
}

// compare finds the first figure in which two claims of one kind differ; one
// that cannot both be right goes before one that may.
func compare(a, b *claim) contrast {
	worst := contrast{}
	if a.Kind != b.Kind {
		return worst
	}
	see := func(how difference, i, k int) {
		if how > worst.how {
			worst.how, worst.a, worst.b = how, i, k
		}
	}
	steps := a.Steps == b.Steps
	of := make(map[string]int, len(b.Facts))
	for k := range b.Facts {
		of[b.Facts[k].Key] = k
	}
	for i := range a.Facts {
		f := &a.Facts[i]
		k, ok := of[f.Key]
		if !ok || !steps && strings.HasPrefix(f.Key, "tighten ") {
			continue
		}
		how := figures(a.values(i), b.values(k), f.Word || b.Facts[k].Word)
		if f.Soft || b.Facts[k].Soft {
			how = min(how, near)
		}
		see(how, i, k)
	}
	if !steps && a.Steps != "" && b.Steps != "" {
		finals(a, b, see)
		if worst.how == same {
			worst.how, worst.about = near, "differ in their steps"
		}
	}
	if a.None != b.None && worst.how == same {
		worst.how, worst.about = near, "only one of them has a figure"
	}
	return worst
}

// finals compares the last torque or angle where the acts before it differ. One
// source may print the last act only.
func finals(a, b *claim, see func(how difference, i, k int)) {
	if a.Final < 0 || b.Final < 0 || strings.Contains(a.Steps+b.Steps, " only ") {
		return
	}
	x, y := &a.Facts[a.Final], &b.Facts[b.Final]
	if strings.HasSuffix(x.Key, " to") != strings.HasSuffix(y.Key, " to") {
		return
	}
	see(figures(a.values(a.Final), b.values(b.Final), false), a.Final, b.Final)
}

// figures compares two figures. Where both have a value in one unit these
// decide, otherwise whether the printed values agree at all.
func figures(a, b []convert.Value, word bool) difference {
	if word {
		if strings.EqualFold(strings.TrimSpace(a[0].Text), strings.TrimSpace(b[0].Text)) {
			return same
		}
		return near
	}
	least, met := apart, false
	unit := false // some pair is in one unit
	for i := range a {
		for k := range b {
			x, y := &a[i], &b[k]
			if !x.Read() || !y.Read() {
				continue
			}
			one := x.Quantity.Unit == y.Quantity.Unit
			switch {
			case one && !unit:
				least, unit = apart, true // forget what other units said
			case unit && !one:
				continue
			}
			met = true
			if one {
				least = min(least, inOneUnit(x.Quantity, y.Quantity))
				continue
			}
			switch {
			case convert.Agree(x.Quantity, y.Quantity).Outcome != convert.Disagree:
				least = same
			case touch(x.Quantity, y.Quantity):
				least = min(least, near)
			}
		}
	}
	if !met {
		return same // nothing to compare
	}
	return least
}

// inOneUnit compares two quantities in one unit. A tolerance or a limit is more
// said of the same figure; of two that lie within each other, as 8 and 8.2 or 9
// and 8 to 10, both may be right.
func inOneUnit(a, b convert.Quantity) difference {
	alo, ahi := a.Bounds()
	blo, bhi := b.Bounds()
	if alo == blo && ahi == bhi {
		return same
	}
	single := a.Form == convert.Single || b.Form == convert.Single
	ranged := a.Form == convert.Range || b.Form == convert.Range
	if single && !ranged && a.Form != b.Form && a.Nominal() == b.Nominal() {
		return same
	}
	if within(a, b) || within(b, a) {
		return near
	}
	return apart
}

// touch reports that two figures may be one as their printed digits allow.
func touch(a, b convert.Quantity) bool {
	alo, ahi := a.Widened()
	blo, bhi := b.Widened()
	return alo <= bhi && blo <= ahi
}

// within reports that a lies within what b may be as printed.
func within(a, b convert.Quantity) bool {
	alo, ahi := a.Bounds()
	blo, bhi := b.Widened()
	return blo <= alo && ahi <= bhi
}
