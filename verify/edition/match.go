package edition

import (
	"slices"

	"snapgauge/schema"
)

// match is a record of the new edition and what it was.
type match struct {
	was, now *schema.Entry // was is nil for a new record, now for one that is gone
	how      how
}

// how tells by what a record was found again.
type how uint8

const (
	byID how = iota
	bySaying
	bySuperseding
	byItem
)

// matches lays the records of one machine side by side: those of the new edition in its
// order, then those that are gone in theirs.
func matches(old, now *machine) []match {
	out := make([]match, len(now.entries))
	for j := range now.entries {
		out[j].now = &now.entries[j]
	}
	taken := make([]bool, len(old.entries))
	take := func(j, i int, by how) {
		out[j].was, out[j].how, taken[i] = &old.entries[i], by, true
	}

	// By id: where one stands twice, first those that say the same, then in order.
	ids := map[string][]int{}
	for i := range old.entries {
		r := old.entries[i].Record
		ids[r.Kind+" "+r.ID] = append(ids[r.Kind+" "+r.ID], i)
	}
	sayings := &sayings{}
	for _, alike := range []bool{true, false} {
		for j := range out {
			r := out[j].now.Record
			same := ids[r.Kind+" "+r.ID]
			if out[j].was != nil || r.ID == "" || alike && len(same) < 2 {
				continue
			}
			for _, i := range same {
				if !taken[i] && (!alike || sayings.same(&old.entries[i], out[j].now)) {
					take(j, i, byID)
					break
				}
			}
		}
	}

	// A kind that is none may have been any.
	anyKind := map[string][]int{}
	for i := range old.entries {
		anyKind[old.entries[i].Record.ID] = append(anyKind[old.entries[i].Record.ID], i)
	}
	for j := range out {
		r := out[j].now.Record
		if out[j].was != nil || r.ID == "" {
			continue
		}
		for _, i := range anyKind[r.ID] {
			if !taken[i] && (!schema.KnownKind(r.Kind) || !schema.KnownKind(old.entries[i].Record.Kind)) {
				take(j, i, byID)
				break
			}
		}
	}

	said := map[string][]int{}
	for i := range old.entries {
		if !taken[i] {
			s := sayings.of(&old.entries[i])
			said[s] = append(said[s], i)
		}
	}
	each := func(by how, find func(r *schema.Record, e *schema.Entry) (int, bool)) {
		for j := range out {
			if out[j].was == nil {
				if i, ok := find(out[j].now.Record, out[j].now); ok {
					take(j, i, by)
				}
			}
		}
	}
	if len(said) > 0 {
		each(bySaying, func(_ *schema.Record, e *schema.Entry) (int, bool) {
			for _, i := range said[sayings.of(e)] {
				if !taken[i] {
					return i, true
				}
			}
			return 0, false
		})
	}
	each(bySuperseding, func(r *schema.Record, _ *schema.Entry) (int, bool) {
		if r.Supersedes == "" {
			return 0, false
		}
		// The one that it supersedes may still stand, and is compared twice then.
		same := ids[r.Kind+" "+r.Supersedes]
		return firstOf(same), len(same) > 0
	})
	left, right := map[string][]int{}, map[string][]int{}
	for i := range old.entries {
		if r := old.entries[i].Record; !taken[i] {
			left[itemOf(r)] = append(left[itemOf(r)], i)
		}
	}
	for j := range out {
		if r := out[j].now.Record; out[j].was == nil {
			right[itemOf(r)] = append(right[itemOf(r)], j)
		}
	}
	each(byItem, func(r *schema.Record, _ *schema.Entry) (int, bool) {
		was := overlapping(r, left[itemOf(r)], func(i int) *schema.Record { return old.entries[i].Record })
		if len(was) != 1 {
			return 0, false
		}
		rivals := overlapping(old.entries[was[0]].Record, right[itemOf(r)], func(j int) *schema.Record { return out[j].now.Record })
		return was[0], len(rivals) == 1
	})
	for i := range old.entries {
		if !taken[i] {
			out = append(out, match{was: &old.entries[i]})
		}
	}
	return out
}

// itemOf names what a record is about.
func itemOf(r *schema.Record) string { return r.Kind + " " + r.ItemName() }

func firstOf(list []int) int {
	if len(list) == 0 {
		return 0
	}
	return list[0]
}

// overlapping picks those of a list that apply to a machine to which r applies.
func overlapping(r *schema.Record, list []int, record func(int) *schema.Record) []int {
	var out []int
	for _, i := range list {
		if _, both := schema.Overlap(r.Boxes(), record(i).Boxes()); both {
			out = append(out, i)
		}
	}
	return out
}

// sayings keeps what records say but for their ids and items.
type sayings struct{ known map[*schema.Entry]string }

func (s *sayings) of(e *schema.Entry) string {
	if text, ok := s.known[e]; ok {
		return text
	}
	r := *e.Record
	r.ID, r.Item = "", ""
	b, err := schema.Canonical(e.Head, &r)
	text := string(b)
	if err != nil {
		text = e.Record.ID // which nobody else says
	}
	if s.known == nil {
		s.known = map[*schema.Entry]string{}
	}
	s.known[e] = text
	return text
}

func (s *sayings) same(a, b *schema.Entry) bool { return s.of(a) == s.of(b) }

// machinesOf lists the machines of both editions, those of the new one first.
func machinesOf(old, now *Book) []string {
	list := slices.Clone(now.order)
	for _, id := range old.order {
		if now.machines[id] == nil {
			list = append(list, id)
		}
	}
	return list
}
