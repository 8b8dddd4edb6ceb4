package schema

import (
	"math"
	"slices"
	"strings"
)

// The algebra of what records apply to. A list of boxes is the union of its
// boxes; a box is the product of a set of variants and one stretch of each
// numbering. Everything here is exact, over whole numbers from 1 (common practice,
// no source) and days. A box with
// a range that could not be read is empty here: nothing is concluded from it.

// Boxes returns what the record applies to: the zero Box, which is everything,
// when the record does not say.
func (r *Record) Boxes() []Box {
	if len(r.Applies) == 0 {
		return []Box{{}}
	}
	return r.Applies
}

// Bad reports whether a range of the box could not be read.
func (b Box) Bad() bool {
	return slices.ContainsFunc(b.Serials, func(r SerialRange) bool { return r.Bad != "" })
}

// IsEmpty reports whether the box applies to nothing.
func (b Box) IsEmpty() bool {
	axes := axesOf(nil, []Box{b})
	_, ok := cellOf(b, axes)
	return !ok
}

// String is the box in a few words: "variant A or B, gear 1200 to 9999";
// "all" for the zero Box.
func (b Box) String() string {
	var parts []string
	if len(b.Variants) > 0 {
		parts = append(parts, "variant "+orList(b.Variants))
	}
	for _, r := range b.Serials {
		parts = append(parts, r.Name+" "+r.String())
	}
	if len(parts) == 0 {
		return "all"
	}
	return strings.Join(parts, ", ")
}

// Within returns the box with its variants spelt out: those of the head where
// it names none.
func (h *Head) Within(b Box) Box {
	if h != nil && len(b.Variants) == 0 {
		b.Variants = h.Variants
	}
	return b
}

// Intersect returns what both boxes apply to; ok is false when that is
// nothing.
func Intersect(a, b Box) (both Box, ok bool) {
	switch {
	case len(a.Variants) == 0:
		both.Variants = slices.Clone(b.Variants)
	case len(b.Variants) == 0:
		both.Variants = slices.Clone(a.Variants)
	default:
		for _, v := range a.Variants {
			if slices.Contains(b.Variants, v) {
				both.Variants = append(both.Variants, v)
			}
		}
		if len(both.Variants) == 0 {
			return Box{}, false
		}
	}
	axes := axesOf(nil, []Box{a, b})
	ca, oka := cellOf(a, axes)
	cb, okb := cellOf(b, axes)
	if !oka || !okb {
		return Box{}, false
	}
	c, ok := ca.and(cb)
	if !ok {
		return Box{}, false
	}
	both.Serials = c.ranges(axes)
	return both, true
}

// Overlap returns the first thing that both lists apply to.
func Overlap(a, b []Box) (both Box, ok bool) {
	for _, x := range a {
		for _, y := range b {
			if both, ok := Intersect(x, y); ok {
				return both, true
			}
		}
	}
	return Box{}, false
}

// Covers reports whether the boxes of a together apply to all that b applies
// to. Where b names no variant it means every variant there may be; spell
// those of a head out with [Head.Within] first.
func Covers(a []Box, b Box) bool {
	axes := axesOf(nil, append(slices.Clone(a), b))
	cell, ok := cellOf(b, axes)
	if !ok {
		return !b.Bad()
	}
	for _, v := range variantsOf(b.Variants, a) {
		if len(subtract(cell, cellsOf(a, v, axes))) > 0 {
			return false
		}
	}
	return true
}

// CoversAll reports whether a covers every box of b.
func CoversAll(a, b []Box) bool {
	return !slices.ContainsFunc(b, func(x Box) bool { return !Covers(a, x) })
}

// Equal reports whether both lists apply to the same things.
func Equal(a, b []Box) bool { return CoversAll(a, b) && CoversAll(b, a) }

// Uncovered returns what no box applies to: of the variants of the head, or,
// where it declares none, of those that the boxes name.
func Uncovered(h *Head, boxes []Box) []Box {
	var declared []string
	if h != nil {
		declared = h.Variants
	}
	all := declared
	if len(all) == 0 {
		all = variantsOf(nil, boxes)
		if len(all) > 1 { // the names themselves, without any other
			all = all[:len(all)-1]
		}
	}
	axes := axesOf(h, boxes)
	var gaps []Box
	var of [][]string // the variants of each gap
	for _, v := range all {
		for _, c := range subtract(newCell(axes), cellsOf(boxes, v, axes)) {
			gap := Box{Serials: c.ranges(axes)}
			i := slices.IndexFunc(gaps, func(g Box) bool { return slices.Equal(g.Serials, gap.Serials) })
			if i < 0 {
				gaps, of = append(gaps, gap), append(of, nil)
				i = len(gaps) - 1
			}
			of[i] = append(of[i], v)
		}
	}
	for i := range gaps {
		if len(of[i]) < len(all) {
			gaps[i].Variants = of[i]
		}
	}
	return gaps
}

// axis is one numbering.
type axis struct{ name, form string }

// whole is all of a numbering: days have no first one, numbers begin with 1.
func (a axis) whole() interval {
	if a.form == FormDate {
		return interval{math.MinInt64, math.MaxInt64}
	}
	return interval{1, math.MaxInt64}
}

// axesOf lists the numberings of a head and of boxes, in that order.
func axesOf(h *Head, boxes []Box) []axis {
	var axes []axis
	add := func(name, form string) {
		i := slices.IndexFunc(axes, func(a axis) bool { return a.name == name })
		switch {
		case i < 0:
			axes = append(axes, axis{name, form})
		case axes[i].form == "":
			axes[i].form = form
		}
	}
	if h != nil {
		for _, s := range h.Serials {
			add(s.Name, s.Form)
		}
	}
	for _, b := range boxes {
		for _, r := range b.Serials {
			add(r.Name, r.Form)
		}
	}
	return axes
}

// variantsOf returns the given variants, or, where none is given, all that
// the boxes name and "" for any other.
func variantsOf(given []string, boxes []Box) []string {
	if len(given) > 0 {
		return given
	}
	var names []string
	for _, b := range boxes {
		for _, v := range b.Variants {
			if !slices.Contains(names, v) {
				names = append(names, v)
			}
		}
	}
	return append(names, "")
}

// appliesTo reports whether the box names a variant, or none.
func (b Box) appliesTo(variant string) bool {
	return len(b.Variants) == 0 || slices.Contains(b.Variants, variant)
}

// interval is a stretch of whole numbers, ends inclusive; those of the whole axis
// are open ends.
type interval struct{ lo, hi int64 }

// cell is a stretch of every numbering.
type cell []interval

func newCell(axes []axis) cell {
	c := make(cell, len(axes))
	for i, a := range axes {
		c[i] = a.whole()
	}
	return c
}

// cellOf is the box without its variants; ok is false when it is empty.
func cellOf(b Box, axes []axis) (c cell, ok bool) {
	c = newCell(axes)
	for _, r := range b.Serials {
		if r.Bad != "" {
			return nil, false
		}
		i := slices.IndexFunc(axes, func(a axis) bool { return a.name == r.Name })
		if r.HasFrom {
			c[i].lo = max(c[i].lo, r.From)
		}
		if r.HasTo {
			c[i].hi = min(c[i].hi, r.To)
		}
		if c[i].lo > c[i].hi {
			return nil, false
		}
	}
	return c, true
}

// cellsOf returns the boxes that apply to a variant.
func cellsOf(boxes []Box, variant string, axes []axis) []cell {
	var cells []cell
	for _, b := range boxes {
		if !b.appliesTo(variant) {
			continue
		}
		if c, ok := cellOf(b, axes); ok {
			cells = append(cells, c)
		}
	}
	return cells
}

func (c cell) and(d cell) (both cell, ok bool) {
	both = make(cell, len(c))
	for i := range c {
		both[i] = interval{max(c[i].lo, d[i].lo), min(c[i].hi, d[i].hi)}
		if both[i].lo > both[i].hi {
			return nil, false
		}
	}
	return both, true
}

// subtract returns what is left of c when every cell of the list is cut out.
// The rest is cut along one numbering after the other, so that it lies in
// cells that do not overlap.
func subtract(c cell, list []cell) []cell {
	rest := []cell{c}
	for _, d := range list {
		var next []cell
		for _, r := range rest {
			both, ok := r.and(d)
			if !ok {
				next = append(next, r)
				continue
			}
			for i := range r {
				if both[i].lo > r[i].lo {
					piece := slices.Clone(r)
					piece[i].hi = both[i].lo - 1
					next = append(next, piece)
				}
				if both[i].hi < r[i].hi {
					piece := slices.Clone(r)
					piece[i].lo = both[i].hi + 1
					next = append(next, piece)
				}
				r = slices.Clone(r)
				r[i] = both[i]
			}
		}
		rest = next
	}
	return rest
}

// ranges writes a cell as the ranges of a box.
func (c cell) ranges(axes []axis) []SerialRange {
	var rs []SerialRange
	for i, a := range axes {
		r := SerialRange{Name: a.name, Form: a.form, From: c[i].lo, To: c[i].hi, HasFrom: c[i].lo != a.whole().lo, HasTo: c[i].hi != math.MaxInt64}
		if !r.HasFrom && !r.HasTo {
			continue
		}
		if !r.HasFrom {
			r.From = 0
		}
		if !r.HasTo {
			r.To = 0
		}
		r.Text = r.String()
		rs = append(rs, r)
	}
	return rs
}

// orList joins words as in speech: "A", "A or B", "A, B or C".
func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " or " + words[n]
}
