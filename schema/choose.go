package schema

import (
	"regexp"
	"slices"
	"strings"
)

// Candidate is one of the records of an item.
type Candidate struct {
	ID         string
	Supersedes string // the id of the record that it replaces
	Boxes      []Box  // with the variants of its head spelt out, see [Head.Within]
}

// CandidateOf makes a candidate of a record and the head of its file.
func CandidateOf(h *Head, r *Record) Candidate {
	c := Candidate{ID: r.ID, Supersedes: r.Supersedes}
	for _, b := range r.Boxes() {
		c.Boxes = append(c.Boxes, h.Within(b))
	}
	return c
}

// Choose tells which records of one item apply to the machine in hand and are
// not replaced by another that applies. Where a fact decides that is not known
// it returns that fact, "variant" or the name of a numbering, and no record. A
// record whose boxes cannot be read counts as applying.
func Choose(h *Head, of []Candidate, facts Facts) (apply []int, ask string) {
	left := make([]int, len(of))
	for i := range of {
		left[i] = i
	}
	pick := func() Choice {
		boxes := make([][]Box, len(left))
		for k, i := range left {
			boxes[k] = of[i].Boxes
		}
		return Pick(h, boxes, facts)
	}
	choice := pick()
	if gone := replacedBy(of, choice.Sure); len(gone) > 0 {
		left = slices.DeleteFunc(left, func(i int) bool { return gone[of[i].ID] })
		choice = pick()
	}
	if len(choice.May) > 0 && choice.Ask != "" {
		return nil, choice.Ask
	}
	for _, k := range append(choice.Sure, choice.May...) {
		apply = append(apply, left[k])
	}
	return apply, ""
}

// replacedBy are the ids that some of the records replace, directly or in a
// chain.
func replacedBy(of []Candidate, by []int) map[string]bool {
	old := map[string]string{}
	for _, c := range of {
		old[c.ID] = c.Supersedes
	}
	gone := map[string]bool{}
	for _, i := range by {
		own := of[i].ID
		for id := old[own]; id != "" && id != own && !gone[id]; id = old[id] {
			gone[id] = true
		}
	}
	return gone
}

// Declare adds the variants and numberings that another head of the same
// machine declares.
func (h *Head) Declare(other *Head) {
	for _, v := range other.Variants {
		if !slices.Contains(h.Variants, v) {
			h.Variants = append(h.Variants, v)
		}
	}
	for _, s := range other.Serials {
		if _, known := h.SerialForm(s.Name); !known {
			h.Serials = append(h.Serials, s)
		}
	}
}

var blanksAround = regexp.MustCompile(`\s*=\s*`)

// SplitFacts takes a text such as "variant=B gear=1250" apart before each name=.
// A value may hold blanks.
func SplitFacts(text string) []string {
	var facts []string
	for _, word := range strings.Fields(blanksAround.ReplaceAllString(text, "=")) {
		if strings.Contains(word, "=") || len(facts) == 0 {
			facts = append(facts, word)
		} else {
			facts[len(facts)-1] += " " + word
		}
	}
	return facts
}
