package schema

import (
	"maps"
	"slices"
	"testing"
)

// both is the shape of what has two shapes.
func both(t *testing.T, a, b *shape) *shape {
	if a.whatever() {
		return b
	}
	if b.whatever() {
		return a
	}
	out := &shape{truth: a.truth && b.truth}
	switch {
	case a.texts == nil || b.texts == nil:
	case len(a.texts) == 1:
		out.texts = bothTexts(t, b.texts, a.texts[0])
	case len(b.texts) == 1:
		out.texts = bothTexts(t, a.texts, b.texts[0])
	default:
		t.Fatalf("two choices of text are not known: %v and %v", a.texts, b.texts)
	}
	if a.number != nil && b.number != nil {
		out.number = &numberForm{
			whole: a.number.whole || b.number.whole,
			min:   max(a.number.min, b.number.min), max: min(a.number.max, b.number.max),
		}
	}
	if a.list != nil && b.list != nil {
		l := &listShape{min: max(a.list.min, b.list.min), unique: a.list.unique || b.list.unique, items: a.list.items}
		l.max = leastLimit(a.list.max, b.list.max)
		switch {
		case a.list.items == nil:
			l.items = b.list.items
		case b.list.items != nil:
			l.items = both(t, a.list.items, b.list.items)
		}
		out.list = l
	}
	if a.object != nil && b.object != nil {
		out.object = bothObjects(t, a.object, b.object)
	}
	return out
}

// leastLimit is the lesser of two limits, of which 0 is none.
func leastLimit(a, b int) int {
	if a == 0 || b == 0 {
		return max(a, b)
	}
	return min(a, b)
}

func bothTexts(t *testing.T, list []textShape, with textShape) (out []textShape) {
	for _, a := range list {
		b := with
		if a.pattern != "" && b.pattern != "" || a.words != nil && b.words != nil || a.not != "" && b.not != "" {
			t.Fatalf("two patterns, or two lists of words, are not known: %v and %v", a, b)
		}
		a.pattern += b.pattern
		a.words = append(a.words, b.words...)
		a.not += b.not
		a.date = a.date || b.date
		a.min, a.max = max(a.min, b.min), leastLimit(a.max, b.max)
		out = append(out, a)
	}
	return out
}

func bothObjects(t *testing.T, a, b *objectShape) *objectShape {
	out := &objectShape{
		members: maps.Clone(a.members),
		facts:   append(slices.Clone(a.facts), b.facts...),
		closed:  a.closed || b.closed,
		users:   (a.users || b.users) && (a.users || a.only == nil) && (b.users || b.only == nil),
		min:     max(a.min, b.min),
		others:  a.others, names: a.names, only: a.only,
	}
	if b.only != nil {
		out.only = b.only
		if a.only != nil {
			out.only = slices.DeleteFunc(slices.Clone(a.only), func(name string) bool { return !slices.Contains(b.only, name) })
		}
	}
	if b.others != nil {
		out.others = b.others
	}
	if b.names != nil {
		out.names = b.names
	}
	if a.others != nil && (b.others != nil || b.members != nil) || b.others != nil && a.members != nil || a.names != nil && b.names != nil {
		t.Fatal("names of the user in two schemas of one object are not known")
	}
	for name, m := range b.members {
		if out.members == nil {
			out.members = map[string]*shape{}
		}
		if other := out.members[name]; other != nil {
			m = both(t, other, m)
		}
		out.members[name] = m
	}
	p, q := a.part, b.part
	out.part = partShape{
		need: union(p.need, q.need), some: append(slices.Clone(p.some), q.some...), none: append(slices.Clone(p.none), q.none...),
		may: union(p.may, q.may), when: append(slices.Clone(p.when), q.when...),
	}
	return out
}

func union(a, b []string) []string {
	all := slices.Concat(a, b)
	slices.Sort(all)
	if all = slices.Compact(all); len(all) == 0 {
		return nil
	}
	return all
}
