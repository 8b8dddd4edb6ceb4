package main

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// factsFlag is --for. Given again it adds facts, so that none is lost unseen.
type factsFlag string

func (f *factsFlag) String() string { return string(*f) }
func (f *factsFlag) Type() string   { return "facts" }
func (f *factsFlag) Set(text string) error {
	*f = factsFlag(strings.TrimSpace(string(*f) + " " + text))
	return nil
}

// chosen holds the records of a book that apply to the machine in hand.
type chosen struct {
	facts   string
	all     []schema.Entry
	applies map[string]bool // by id: whether a record of that id applies
	records int             // how many apply
	of      int             // of how many
}

// chooseFor reads a book to its end and finds the records that apply to a machine,
// told as "variant=B gear=1250". The book is all that is known of the machine, where
// the entries are a part of that. It is an error when a fact is missing that decides,
// and when one is told that there is not.
func chooseFor(entries iter.Seq[schema.Entry], text string, book []schema.Entry) (*chosen, error) {
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
	if book == nil {
		book = c.all
	}
	var boxes []schema.Box
	for _, e := range book {
		if !e.HeadOnly && !e.Lost {
			head.Declare(e.Head)
			boxes = append(boxes, e.Record.Applies...)
		}
	}
	facts, err := schema.ParseFacts(head, boxes, schema.SplitFacts(text))
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

// pick marks the records of one item that apply and that no other that applies
// replaces. It returns the fact that is missing to decide, "" when none is.
func (c *chosen) pick(head *schema.Head, records []schema.Entry, facts schema.Facts) (ask string) {
	of := make([]schema.Candidate, len(records))
	for i, e := range records {
		of[i] = schema.CandidateOf(e.Head, e.Record)
	}
	// What cannot be decided by any fact cannot be read: it is judged, so that
	// the fault is told.
	apply, ask := schema.Choose(head, of, facts)
	for _, i := range apply {
		c.applies[records[i].Record.ID] = true
		c.records++
	}
	return ask
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
