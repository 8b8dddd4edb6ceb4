package reference

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// OneTimePart is a part renewed at assembly, and on whose word. The maker of
// the machine decides.
type OneTimePart struct {
	Part   string // as the table names it: "O-ring, preformed packing"
	Renew  string // always, usually, if it fails the test, after N uses, if damaged, after inspection, by common practice, no, …
	Rule   string
	Note   string
	Source Citation
}

// Always reports that the documents named renew it whenever it is removed.
func (p OneTimePart) Always() bool { return p.Renew == "always" }

// partWords is a way to name parts.
type partWords struct {
	words []string
	ids   []string // rows of oneuse.csv
	class string   // bolt, nut, washer, seal; empty for others
}

// general reports that the words name no more than a class: nuts.
func (p partWords) general() bool { return len(p.words) == 1 && p.words[0] == p.class }

type oneUseTable struct {
	byID  map[string][]OneTimePart
	words []partWords // most words first
}

var oneUse = sync.OnceValue(func() oneUseTable {
	tab := oneUseTable{byID: make(map[string][]OneTimePart)}
	for _, r := range mustTable("oneuse.csv") {
		p := OneTimePart{
			Part: r.text("part"), Renew: r.text("renew"), Rule: r.text("rule"), Note: r.text("note"), Source: r.cite(),
		}
		for id := range strings.FieldsSeq(r.text("ids")) {
			tab.byID[id] = append(tab.byID[id], p)
		}
	}
	for _, r := range mustTable("oneuse-words.csv") {
		tab.words = append(tab.words, partWords{
			words: strings.Fields(r.text("words")), ids: strings.Fields(r.text("ids")), class: r.text("class"),
		})
	}
	slices.SortStableFunc(tab.words, func(a, b partWords) int { return cmp.Compare(len(b.words), len(a.words)) })
	return tab
})

// headNoun ends a phrase before what only says where or when: "O-rings under the
// nuts", "gasket when hard".
var headNoun = regexp.MustCompile(`[,;(]| (?:under|of|for|on|when|with|in|at|from|if|each|between|to the) `)

// partsNamed finds what a phrase names. The words of a find are used up, so that
// "spark plug gasket" is no gasket.
func partsNamed(phrase string) []partWords {
	s := strings.ToLower(phrase)
	if at := headNoun.FindStringIndex(s); at != nil && at[0] > 0 {
		s = s[:at[0]]
	}
	words := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" -–—‐‑/.\t\u00a0", r) })
	for i, w := range words {
		if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") {
			words[i] = w[:len(w)-1]
		}
		if words[i] == "oring" {
			words = slices.Replace(words, i, i+1, "o", "ring")
		}
	}
	var out []partWords
	for _, p := range oneUse().words {
		if !slices.ContainsFunc(p.words, func(w string) bool { return !slices.Contains(words, w) }) {
			out = append(out, p)
			words = slices.DeleteFunc(words, func(w string) bool { return slices.Contains(p.words, w) })
		}
	}
	return out
}

// OneUse returns the rows that a word or phrase may mean: "head gasket",
// "O-rings", "split pin", "lock plate", "prevailing nut", "torque-to-yield
// screw". Nil where the table has none. Rows of different schools may disagree
// (self-locking nuts).
func OneUse(part string) []OneTimePart {
	var out []OneTimePart
	var seen []string
	for _, p := range partsNamed(part) {
		for _, id := range p.ids {
			if !slices.Contains(seen, id) {
				seen = append(seen, id)
				out = append(out, oneUse().byID[id]...)
			}
		}
	}
	return out
}

// RenewCovers reports whether a list of parts to renew names a part: "copper
// seat washers" covers "crush washer", "nuts" covers "self-locking nut". Screws
// and bolts of any name cover each other: a list says which by their place.
func RenewCovers(renew []string, part string) bool {
	want := partsNamed(part)
	for _, item := range renew {
		if strings.EqualFold(strings.TrimSpace(item), strings.TrimSpace(part)) && strings.TrimSpace(part) != "" {
			return true
		}
		for _, have := range partsNamed(item) {
			for _, w := range want {
				if have.covers(w) {
					return true
				}
			}
		}
	}
	return false
}

func (p partWords) covers(w partWords) bool {
	if slices.ContainsFunc(p.ids, func(id string) bool { return slices.Contains(w.ids, id) }) {
		return true
	}
	return p.class != "" && p.class == w.class && (p.class == "bolt" || p.general())
}
