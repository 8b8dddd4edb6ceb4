package release

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"snapgauge/schema"
)

// ErrNoRecord is wrapped by the error of a look-up that finds no record.
var ErrNoRecord = errors.New("no record")

// MissingFactError says which fact is missing to decide which record of an item
// applies.
type MissingFactError struct {
	Machine, Item string
	Fact          string // "variant", or the name of a numbering
}

func (e *MissingFactError) Error() string {
	return fmt.Sprintf("%s decides which record of %s applies to the %s; say it too: %s=…", e.Fact, e.Item, e.Machine, e.Fact)
}

// LookUp returns the one record of an item that applies to a machine. Facts tell
// what is known of it: "variant=B", "gear=1250", "built=2019-03-01"; each once. Where a fact
// is missing that decides, the error is a [*MissingFactError]. Where several
// records of the same figures apply, as two sources give them, it is the first;
// in a draft they may contradict each other, and that is an error.
func (r *Release) LookUp(machine, item string, facts ...string) (*Record, error) {
	d, err := r.Document()
	if err != nil {
		return nil, err
	}
	return d.LookUp(machine, item, facts...)
}

// LookUp is [Release.LookUp] over records that were read already.
func (d *Document) LookUp(machine, item string, facts ...string) (*Record, error) {
	i := slices.IndexFunc(d.Machines, func(m Machine) bool { return m.ID == machine })
	if i < 0 {
		var known []string
		for _, m := range d.Machines {
			known = append(known, m.ID)
		}
		return nil, fmt.Errorf("%w: no machine %q; there are: %s", ErrNoRecord, machine, strings.Join(known, ", "))
	}
	h := d.Machines[i].head()
	var records []*Record
	var of []schema.Candidate
	var items []string
	var boxes []schema.Box
	for i := range d.Records {
		x := &d.Records[i]
		if x.Machine != machine {
			continue
		}
		items, boxes = append(items, x.Item), append(boxes, x.boxes()...)
		if x.Item == item {
			records = append(records, x)
			of = append(of, schema.Candidate{ID: x.ID, Supersedes: x.Supersedes, Boxes: x.boxes()})
		}
	}
	known, err := schema.ParseFacts(h, boxes, facts)
	if err != nil {
		return nil, err
	}
	if len(records) == 0 {
		near := ""
		if n := schema.Nearest(item, items); n != "" {
			near = fmt.Sprintf("; did you mean %q?", n)
		}
		return nil, fmt.Errorf("%w: no item %q of the %s%s", ErrNoRecord, item, machine, near)
	}
	apply, ask := schema.Choose(h, of, known)
	switch {
	case ask != "":
		return nil, &MissingFactError{Machine: machine, Item: item, Fact: ask}
	case len(apply) == 0:
		return nil, fmt.Errorf("%w: none of %s applies to the %s with %s", ErrNoRecord, item, machine, strings.Join(facts, " "))
	case len(apply) > 1 && d.State != StateRelease:
		return nil, fmt.Errorf("%s: %d records apply, and in a draft they may contradict each other", item, len(apply))
	}
	return records[apply[0]], nil
}

func (m Machine) head() *schema.Head {
	h := &schema.Head{Machine: schema.Machine{ID: m.ID, Name: m.Name}, Variants: m.Variants}
	for _, s := range m.Serials {
		h.Serials = append(h.Serials, schema.Serial(s))
	}
	return h
}

func (x *Record) boxes() []schema.Box {
	boxes := make([]schema.Box, len(x.Applies))
	for i, b := range x.Applies {
		boxes[i] = b.box()
	}
	return boxes
}

// box is the box as the algebra of applies has it.
func (b Box) box() schema.Box {
	out := schema.Box{Variants: b.Variants}
	for _, r := range b.Serials {
		x := schema.SerialRange{Name: r.Name, Form: r.Form, Text: r.Text, Bad: r.Bad}
		if r.From != nil {
			x.From, x.HasFrom = *r.From, true
		}
		if r.To != nil {
			x.To, x.HasTo = *r.To, true
		}
		out.Serials = append(out.Serials, x)
	}
	return out
}

// Figure returns the figure at a pointer within the record: "/tighten/0/to".
func (x *Record) Figure(pointer string) (*Figure, bool) {
	for i := range x.Figures {
		if x.Figures[i].Pointer == pointer {
			return &x.Figures[i], true
		}
	}
	return nil, false
}
