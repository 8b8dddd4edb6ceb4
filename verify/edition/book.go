package edition

import (
	"slices"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Book is one edition: its records as they were read, and what could not be.
type Book struct {
	Name string // what a reader calls it: a path, or the edition of a release

	machines map[string]*machine
	order    []string // of the machines, as met
	unread   []Unread
}

// Unread is what could not be read of an edition.
type Unread struct {
	Place   rule.Place // Place.Record is the id where that could be told
	Machine string     // where that could be told
	Message string
}

type machine struct {
	id       string
	name     string
	entries  []schema.Entry
	lost     map[string]rule.Place // ids of records that could not be read
	variants []string
	serials  []schema.Serial
	head     rule.Place

	indexed int // how many of the entries the indexes know
	byID    map[string]int
	byItem  map[string][]int
}

func (b *Book) machine(h *schema.Head) *machine {
	id := ""
	if h != nil {
		id = h.Machine.ID
	}
	m := b.machines[id]
	if m == nil {
		if b.machines == nil {
			b.machines = map[string]*machine{}
		}
		m = &machine{id: id, lost: map[string]rule.Place{}}
		b.machines[id] = m
		b.order = append(b.order, id)
	}
	if h != nil {
		if m.name == "" {
			m.name = h.Machine.Name
		}
		for _, v := range h.Variants {
			if !slices.Contains(m.variants, v) {
				m.variants = append(m.variants, v)
			}
		}
		for _, s := range h.Serials {
			if !slices.Contains(m.serials, s) {
				m.serials = append(m.serials, s)
			}
		}
	}
	return m
}

// Add takes an entry. The head of a file, and a record that is lost, count too.
func (b *Book) Add(e schema.Entry) {
	m := b.machine(e.Head)
	switch {
	case e.HeadOnly:
		if m.head == (rule.Place{}) {
			m.head = rule.Resolve(&e, schema.Spot{Path: schema.At("machine")})
		}
		b.nameless(e)
		for _, p := range e.Problems {
			if name, _ := p.At.Path.Step(0); p.At.Path.Len() > 0 && name == "records" || p.Want == "records" {
				b.unread = append(b.unread, Unread{Place: rule.Resolve(&e, p.At), Machine: m.id, Message: p.Message})
			}
		}
	case e.Lost:
		at := rule.Resolve(&e, schema.Spot{Path: schema.At("id")})
		if e.Record != nil && e.Record.ID != "" {
			m.lost[e.Record.ID] = at
		}
	case e.Record != nil:
		if e.Head != nil && e.Head.OfOneLine {
			b.nameless(e)
		}
		m.entries = append(m.entries, e)
	}
}

// nameless notes records of a machine that is not named: they may be anybody's.
func (b *Book) nameless(e schema.Entry) {
	if e.Head != nil && e.Head.Machine.ID == "" {
		b.unread = append(b.unread, Unread{
			Place:   rule.Place{File: e.File, Pointer: e.Pointer, Span: rule.Resolve(&e, schema.Spot{Path: schema.At("machine")}).Span},
			Message: "the machine is not named, so that nobody knows whose records these are",
		})
	}
}

// AddUnread notes that a file, or a part of one, could not be read; of a record that is
// lost this is said beside [Book.Add].
func (b *Book) AddUnread(u Unread) { b.unread = append(b.unread, u) }

// Unread lists what could not be read.
func (b *Book) Unread() []Unread { return b.unread }

// Records counts the records that were read.
func (b *Book) Records() int {
	n := 0
	for _, m := range b.machines {
		n += len(m.entries)
	}
	return n
}

// hides reports whether a record of a machine may stand in what could not be read, and
// where: under its id, which Place.Record bears then, or in a part of which nothing is
// known.
func (b *Book) hides(machine, id string) (at rule.Place, may bool) {
	if m := b.machines[machine]; m != nil {
		if at, ok := m.lost[id]; ok {
			return at, true
		}
	}
	for _, u := range b.unread {
		if (u.Machine == "" || u.Machine == machine) && u.Place.Record == "" {
			return u.Place, true
		}
	}
	return at, false
}
