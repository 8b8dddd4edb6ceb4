package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// sheetPage is one run.
type sheetPage struct {
	opt     sheetOptions
	book    []schema.Entry  // of the machine
	items   map[string]bool // that are asked for
	chosen  *chosen
	records []schema.Entry // that stand on the sheet
	rejects []rule.Finding
	queries []rule.Finding
}

// choose narrows the book to the machine and finds the records that apply.
func (p *sheetPage) choose() error {
	if err := p.ofMachine(); err != nil {
		return err
	}
	wanted, err := p.wanted()
	if err != nil {
		return err
	}
	if p.chosen, err = chooseFor(slices.Values(wanted), p.opt.facts, p.book); err != nil {
		return err
	}
	gone := p.replaced()
	met := map[string]bool{}
	for _, e := range wanted {
		if e.HeadOnly || !p.chosen.applies[e.Record.ID] || gone[e.Record.ID] || !p.named(e.Record) {
			continue
		}
		met[e.Record.ItemName()], met[e.Record.ID] = true, true
		p.records = append(p.records, e)
	}
	for _, id := range p.opt.items {
		if !met[id] {
			return fmt.Errorf("--item: %s does not apply to %s", id, p.machineInHand())
		}
	}
	if len(p.records) == 0 {
		return fmt.Errorf("no record applies to %s", p.machineInHand())
	}
	return nil
}

// ofMachine keeps the book of one machine.
func (p *sheetPage) ofMachine() error {
	var ids []string
	for _, e := range p.book {
		if id := e.Head.Machine.ID; !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	shown := strings.Join(ids[:min(len(ids), 8)], ", ")
	switch want := p.opt.machine; {
	case want == "" && len(ids) > 1:
		return fmt.Errorf("there are books of %d machines: %s; name one with --machine", len(ids), shown)
	case want == "":
		return nil
	case !slices.Contains(ids, want):
		if near := schema.Nearest(want, ids); near != "" {
			return fmt.Errorf("--machine: no book of %q; did you mean %q?", want, near)
		}
		return fmt.Errorf("--machine: no book of %q; there are %s", want, shown)
	}
	p.book = slices.DeleteFunc(p.book, func(e schema.Entry) bool { return e.Head.Machine.ID != p.opt.machine })
	return nil
}

// named reports that a record is asked for: by its item, by its own name, or because
// all are.
func (p *sheetPage) named(r *schema.Record) bool {
	return len(p.opt.items) == 0 || p.items[r.ItemName()]
}

// wanted are the records that are asked for, and those that may replace one of them.
// A record that is named brings the others of its item, for which of them applies is
// what is to be found out.
func (p *sheetPage) wanted() ([]schema.Entry, error) {
	if len(p.opt.items) == 0 {
		return p.book, nil
	}
	var known []string
	p.items = map[string]bool{}
	for _, e := range p.book {
		if !e.HeadOnly {
			known = append(known, e.Record.ItemName(), e.Record.ID)
			if slices.Contains(p.opt.items, e.Record.ID) || slices.Contains(p.opt.items, e.Record.ItemName()) {
				p.items[e.Record.ItemName()] = true
			}
		}
	}
	for _, id := range p.opt.items {
		if slices.Contains(known, id) {
			continue
		}
		if near := schema.Nearest(id, known); near != "" {
			return nil, fmt.Errorf("--item: nothing is named %q; did you mean %q?", id, near)
		}
		return nil, fmt.Errorf("--item: nothing is named %q", id)
	}
	in, ids := maps.Clone(p.items), map[string]bool{}
	for grown := true; grown; {
		grown = false
		for _, e := range p.book {
			if e.HeadOnly || ids[e.Record.ID] {
				continue
			}
			if in[e.Record.ItemName()] || ids[e.Record.Supersedes] {
				in[e.Record.ItemName()], ids[e.Record.ID], grown = true, true, true
			}
		}
	}
	var out []schema.Entry
	for _, e := range p.book {
		if e.HeadOnly || in[e.Record.ItemName()] {
			out = append(out, e)
		}
	}
	return out, nil
}

// replaced are the records that another replaces which applies to the machine,
// directly or in a chain, whatever item they are of.
func (p *sheetPage) replaced() map[string]bool {
	old := map[string]string{}
	for _, e := range p.book {
		if !e.HeadOnly {
			old[e.Record.ID] = e.Record.Supersedes
		}
	}
	gone := map[string]bool{}
	for own, applies := range p.chosen.applies {
		if !applies {
			continue
		}
		for id := old[own]; id != "" && id != own && !gone[id]; id = old[id] {
			gone[id] = true
		}
	}
	return gone
}

// judge runs the checks over the book and keeps what they say of the records on
// the sheet.
func (p *sheetPage) judge() error {
	shown := map[string]bool{}
	for _, e := range p.records {
		shown[e.Record.ID] = true
	}
	return verify.Run(slices.Values(p.book), verify.Options{}, func(f rule.Finding) bool {
		if !p.chosen.concerns(f) || f.Place.Record != "" && !shown[f.Place.Record] {
			return true
		}
		switch f.Verdict {
		case rule.Reject:
			p.rejects = append(p.rejects, f)
		case rule.Query:
			p.queries = append(p.queries, f)
		}
		return true
	})
}
