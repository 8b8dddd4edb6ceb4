package main

import (
	"fmt"
	"iter"
	"regexp"
	"slices"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// chosen holds the records of a book that apply to the machine in hand.
type chosen struct {
	facts   string
	all     []schema.Entry
	applies map[string]bool // by id: whether a record of that id applies
	records int             // how many apply
	of      int             // of how many
}

// chooseFor reads a book to its end and finds the records that apply to a machine,
// told as "variant=B gear=1250". It is an error when a fact is missing that
// decides.
func chooseFor(entries iter.Seq[schema.Entry], text string) (*chosen, error) {
	c := &chosen{facts: text, applies: map[string]bool{}}
	head := &schema.Head{}
	var machines, items []string
	byItem := map[string][]schema.Entry{}
	for e := range entries {
		c.all = append(c.all, e)
		if e.HeadOnly || e.Lost {
			continue
		}
		if id := e.Head.Machine.ID; !slices.Contains(machines, id) {
			machines = append(machines, id)
		}
		declare(head, e.Head)
		item := e.Record.ItemName()
		if byItem[item] == nil {
			items = append(items, item)
		}
		byItem[item] = append(byItem[item], e)
	}
	if len(machines) > 1 {
		return nil, fmt.Errorf("--for tells of one machine, and these records are of %d: %s; name the files of one",
			len(machines), strings.Join(machines[:min(len(machines), 6)], ", "))
	}
	facts, err := schema.ParseFacts(head, factsOf(text))
	if err != nil {
		return nil, fmt.Errorf("--for: %w", err)
	}
	asked := map[string][]string{}
	for _, item := range items {
		records := byItem[item]
		if ask := c.pick(head, records, facts); ask != "" {
			asked[ask] = append(asked[ask], item)
		}
		c.of += len(records)
	}
	if len(asked) > 0 {
		return nil, missingFact(head, asked, text)
	}
	return c, nil
}

// declare adds what a head declares to that of the book.
func declare(book, h *schema.Head) {
	for _, v := range h.Variants {
		if !slices.Contains(book.Variants, v) {
			book.Variants = append(book.Variants, v)
		}
	}
	for _, s := range h.Serials {
		if _, known := book.SerialForm(s.Name); !known {
			book.Serials = append(book.Serials, s)
		}
	}
}

var blanksAround = regexp.MustCompile(`\s*=\s*`)

// factsOf takes a text apart before each name=. A value may hold blanks.
func factsOf(text string) []string {
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

// pick marks the records of one item that apply and that no other that applies
// replaces. It returns the fact that is missing to decide, "" when none is.
func (c *chosen) pick(head *schema.Head, records []schema.Entry, facts schema.Facts) (ask string) {
	boxes := func() (list [][]schema.Box) {
		for _, e := range records {
			var within []schema.Box
			for _, b := range e.Record.Boxes() {
				within = append(within, e.Head.Within(b))
			}
			list = append(list, within)
		}
		return list
	}
	choice := schema.Pick(head, boxes(), facts)
	if gone := replacedBy(records, choice.Sure); len(gone) > 0 {
		records = slices.DeleteFunc(slices.Clone(records), func(e schema.Entry) bool { return gone[e.Record.ID] })
		choice = schema.Pick(head, boxes(), facts)
	}
	if len(choice.May) > 0 && choice.Ask != "" {
		return choice.Ask
	}
	// What cannot be decided by any fact cannot be read: it is judged, so that
	// the fault is told.
	for _, i := range append(choice.Sure, choice.May...) {
		c.applies[records[i].Record.ID] = true
		c.records++
	}
	return ""
}

// replacedBy are the ids that some of the records replace, directly or in a
// chain.
func replacedBy(records []schema.Entry, by []int) map[string]bool {
	old := map[string]string{}
	for _, e := range records {
		old[e.Record.ID] = e.Record.Supersedes
	}
	gone := map[string]bool{}
	for _, i := range by {
		own := records[i].Record.ID
		for id := old[own]; id != "" && id != own && !gone[id]; id = old[id] {
			gone[id] = true
		}
	}
	return gone
}

// missingFact names the facts that are missing, and why.
func missingFact(h *schema.Head, asked map[string][]string, text string) error {
	names := []string{"variant"}
	for _, s := range h.Serials {
		names = append(names, s.Name)
	}
	for name := range asked {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names[1+len(h.Serials):])
	var wanted, why []string
	for _, name := range names {
		items := asked[name]
		if len(items) == 0 {
			continue
		}
		wanted = append(wanted, name+"=…")
		shown := strings.Join(items[:min(len(items), 3)], ", ")
		if more := len(items) - 3; more > 0 {
			shown += fmt.Sprintf(" and %d more", more)
		}
		why = append(why, fmt.Sprintf("%s decides which record of %s applies", name, shown))
	}
	return fmt.Errorf("--for: %s; say it too: --for %q", strings.Join(why, "; "), strings.TrimSpace(text+" "+strings.Join(wanted, " ")))
}

// entries yields all records, for the book is judged as a whole.
func (c *chosen) entries() iter.Seq[schema.Entry] { return slices.Values(c.all) }

// concerns reports whether a finding is about the machine in hand: it stands in
// a record that applies, or in none; and of records that contradict each other
// both apply. Whether another variant lacks an item is not asked.
func (c *chosen) concerns(f rule.Finding) bool {
	if f.Check == "variant-missing" || f.Place.Record != "" && !c.applies[f.Place.Record] {
		return false
	}
	return f.Check != "item-contradicts" || slices.ContainsFunc(f.Related, func(r rule.Related) bool {
		return c.applies[r.Place.Record]
	})
}

func (c *chosen) String() string {
	return fmt.Sprintf("for %s: %d of %s\n", c.facts, c.records, count(c.of, "record applies", "records apply"))
}
