package edition

import (
	"fmt"
	"slices"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Kind is a kind of change.
type Kind string

// The kinds of change, the gravest first.
const (
	Unreadable Kind = "unread"     // it could not be read in one of the editions
	Figure     Kind = "figure"     // a figure moved, is new or is gone
	Gone       Kind = "gone"       // a record is gone
	New        Kind = "new"        // a record is new
	Superseded Kind = "superseded" // a new record takes the place of an old one
	Applies    Kind = "applies"    // a record applies to other machines
	Text       Kind = "text"       // anything else that a record says
	Source     Kind = "source"     // another document or edition
	Place      Kind = "place"      // another place in its source
	Renamed    Kind = "renamed"    // the same under another id
	Machine    Kind = "machine"    // the variants or numberings of a machine
	Restated   Kind = "restated"   // a figure in other digits or units, and no other: no change
)

// Kinds lists the kinds, the gravest first.
func Kinds() []Kind {
	return []Kind{Unreadable, Figure, Gone, New, Superseded, Applies, Text, Source, Place, Renamed, Machine, Restated}
}

// Lesser reports a kind that is no change to whoever works by the book.
func (k Kind) Lesser() bool { return k == Restated }

// Change is one difference between two editions.
type Change struct {
	Kind    Kind
	Machine string
	Name    string // of the machine
	Item    string
	Where   string
	Record  string // id in the new edition, in the old one where it is gone
	Was     string // the figure or text; of a record, its id
	Now     string
	Field   schema.Path // in the record, of what is gone in the old one; the zero Path is the record
	Label   string      // what the item of a list is for: "after overhaul", "20 °C"
	Means   string      // of a figure: "+50 %", "12 times"; of others what else there is to say
	At      rule.Place  // in the new edition; zero where it is gone
	WasAt   rule.Place  // in the old edition; zero where it is new
	Records []string    // where one thing is said of many: their ids
}

// Compare tells in what the new edition differs from the old one: machine by machine,
// in the order of the new edition, what is gone behind the rest. A record of which
// [Book.Unread] tells that it could not be read is not told again.
func Compare(old, now *Book) []Change {
	var out []Change
	for _, id := range machinesOf(old, now) {
		c := comparison{old: old, now: now, id: id}
		was, is := old.machines[id], now.machines[id]
		if was == nil {
			was = &machine{id: id}
		}
		if is == nil {
			is = &machine{id: id}
		}
		c.name = is.name
		if c.name == "" {
			c.name = was.name
		}
		c.heads(was, is)
		for _, m := range matches(was, is) {
			c.match(m)
		}
		out = append(out, c.out...)
	}
	return out
}

type comparison struct {
	old, now *Book
	id, name string
	out      []Change
	gathered map[[2]string]int // places in out of changes that are said once of many records
}

func (c *comparison) add(x Change) {
	x.Machine, x.Name = c.id, c.name
	c.out = append(c.out, x)
}

// heads compares what the heads declare.
func (c *comparison) heads(was, now *machine) {
	if len(was.entries) == 0 || len(now.entries) == 0 {
		return
	}
	serials := func(m *machine) string {
		var list []string
		for _, s := range m.serials {
			list = append(list, s.Name+" ("+s.Form+")")
		}
		slices.Sort(list)
		return strings.Join(list, ", ")
	}
	variants := func(m *machine) string {
		return strings.Join(slices.Sorted(slices.Values(m.variants)), ", ")
	}
	for _, x := range []struct{ field, was, now string }{
		{"variants", variants(was), variants(now)}, {"serials", serials(was), serials(now)},
	} {
		if x.was != x.now {
			c.add(Change{Kind: Machine, Was: x.was, Now: x.now, Field: schema.At(x.field), At: now.head, WasAt: was.head})
		}
	}
}

// match tells what is new of one record.
func (c *comparison) match(m match) {
	switch {
	case m.was == nil:
		x := c.whole(New, m.now)
		x.At, x.Now = place(m.now, schema.Path{}), x.Record
		if at, may := c.old.hides(c.id, x.Record); may {
			c.hidden(x, at, "old")
			return
		}
		c.add(x)
		return
	case m.now == nil:
		x := c.whole(Gone, m.was)
		x.WasAt, x.Was = place(m.was, schema.Path{}), x.Record
		if at, may := c.now.hides(c.id, x.Record); may {
			c.hidden(x, at, "new")
			return
		}
		c.add(x)
		return
	}
	x := c.whole(Renamed, m.now)
	x.Was, x.Now = m.was.Record.ID, m.now.Record.ID
	x.At, x.WasAt = place(m.now, schema.At("id")), place(m.was, schema.At("id"))
	switch {
	case m.how == bySuperseding:
		x.Kind = Superseded
		x.At = place(m.now, schema.At("supersedes"))
		c.add(x)
	case m.how != byID:
		c.add(x)
	}
	for _, d := range schema.Differences(m.was.Head, m.was.Record, m.now.Head, m.now.Record) {
		c.difference(m, d)
	}
}

func (c *comparison) difference(m match, d schema.Difference) {
	first, _ := d.Path.Step(0)
	if (m.how == bySuperseding && first == "supersedes") || first == "item" && m.was.Record.ItemName() == m.now.Record.ItemName() {
		return
	}
	x := c.whole(Text, m.now)
	x.Field, x.Was, x.Now, x.Label = d.Path, d.Was, d.Now, label(m.now.Record, d.Path)
	if d.Now == "" {
		x.Field, x.Label = d.WasPath, label(m.was.Record, d.WasPath)
	}
	x.At, x.WasAt = place(m.now, d.Path), place(m.was, d.WasPath)
	switch {
	case broken(m.now, at(d.Path, d.Now)):
		x.Kind, x.Means = Unreadable, "it could not be read in the new edition"
	case broken(m.was, at(d.WasPath, d.Was)):
		x.Kind, x.Means = Unreadable, "it could not be read in the old edition"
	case d.Figure && d.How == schema.Restated:
		x.Kind = Restated
	case d.Figure && d.How == schema.Unclear:
		x.Kind, x.Means = Unreadable, "a figure that cannot be read for sure"
	case d.Figure:
		x.Kind = Figure
		if d.WasFigure != nil && d.NowFigure != nil {
			x.Means = Means(d.WasFigure, d.NowFigure)
		}
	case first == "applies":
		x.Kind = Applies
	case first == "supersedes":
		x.Kind = Superseded
	case first == "source" && d.Path.Len() == 1:
		c.source(x)
		return
	case first == "source":
		if _, edition := c.sourceOf(m); edition {
			return // a new edition has new pages
		}
		x.Kind = Place
	}
	c.add(x)
}

// sourceOf tells whether the document of a record is another.
func (c *comparison) sourceOf(m match) (doc schema.Document, other bool) {
	was, _ := m.was.Head.SourceOf(m.was.Record.Source)
	doc, _ = m.now.Head.SourceOf(m.now.Record.Source)
	return doc, was != doc
}

// source notes that a record has another source, once for all records that go from one
// document to the other.
func (c *comparison) source(x Change) {
	x.Kind = Source
	c.gather([2]string{x.Was, x.Now}, x)
}

// hidden notes that a record may stand in what could not be read of an edition, once for
// all that may stand in one place.
func (c *comparison) hidden(x Change, at rule.Place, in string) {
	x.Kind = Unreadable
	if in == "new" {
		x.At = at
	} else {
		x.WasAt = at
	}
	if at.Record != "" {
		return // told by Unread
	}
	x.Means = "not found in what could be read of the " + in + " edition"
	c.gather([2]string{in, at.File + at.Pointer + at.Span.Start.String()}, x)
}

// gather adds a change once for all records of which the same is to be said.
func (c *comparison) gather(key [2]string, x Change) {
	if i, again := c.gathered[key]; again {
		c.out[i].Records = append(c.out[i].Records, x.Record)
		return
	}
	if c.gathered == nil {
		c.gathered = map[[2]string]int{}
	}
	c.gathered[key] = len(c.out)
	x.Records = []string{x.Record}
	c.add(x)
}

func (c *comparison) whole(k Kind, e *schema.Entry) Change {
	return Change{Kind: k, Item: e.Record.ItemName(), Where: e.Record.Where, Record: e.Record.ID}
}

// label tells what the item of a list is for in which a place lies, so that people need
// not count.
func label(r *schema.Record, p schema.Path) string {
	name := func(i int) string { name, _ := p.Step(i); return name }
	item := func(i, of int) (n int, ok bool) {
		if p.Len() <= i {
			return 0, false
		}
		word, n := p.Step(i)
		return n, word == "" && n < of
	}
	if p.Len() < 2 {
		return ""
	}
	switch name(0) {
	case "amounts":
		if i, ok := item(1, len(r.Amounts)); ok {
			return r.Amounts[i].When
		}
	case "fastener":
		if i, ok := item(1, len(r.Fasteners.Items)); ok {
			return r.Fasteners.Items[i].Key
		}
	case "level":
		if i, ok := item(2, len(r.Level.Points)); ok && name(1) == "points" && name(3) != "at" {
			return r.Level.Points[i].At.Text()
		}
	case "rows":
		if i, ok := item(1, len(r.Rows)); ok && name(2) == "figure" {
			at := &r.Rows[i].At
			return strings.Join(slices.DeleteFunc([]string{at.Speed.Text(), at.Temperature.Text(), at.Selector}, func(s string) bool { return s == "" }), ", ")
		}
	}
	return ""
}

func place(e *schema.Entry, p schema.Path) rule.Place { return rule.Resolve(e, schema.Spot{Path: p}) }

// at is where an edition may hide a text: where there is none, anywhere in that member of
// the record.
func at(p schema.Path, text string) schema.Path {
	if name, _ := p.Step(0); text == "" {
		return schema.At(name)
	}
	return p
}

// broken reports a place whose value has the wrong shape, so that what was read of it
// says nothing.
func broken(e *schema.Entry, p schema.Path) bool {
	return slices.ContainsFunc(e.Problems, func(pr schema.Problem) bool {
		switch pr.Fault {
		case schema.WrongValue, schema.EmptiedField, schema.SplitNumber:
			return pr.At.Path.Len() > 0 && (pr.At.Path.Has(p) || p.Has(pr.At.Path))
		}
		return false
	})
}

// Count counts changes by kind.
func Count(changes []Change) map[Kind]int {
	n := map[Kind]int{}
	for _, c := range changes {
		n[c.Kind]++
	}
	return n
}

// String is a change in a few words, for tests and messages.
func (c Change) String() string {
	return fmt.Sprintf("%s %s%s: %s → %s %s", c.Kind, c.Record, c.Field, c.Was, c.Now, c.Means)
}
