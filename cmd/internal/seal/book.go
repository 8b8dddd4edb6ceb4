// Package seal makes the files of a release out of spec files. The same spec
// files, edition and key make the same bytes: it looks at no clock, no folder
// and no order but that of the names.
package seal

import (
	"bytes"
	"maps"
	"path"
	"slices"

	"snapgauge/schema"
	"snapgauge/specs"
)

// Book is what the authored files of a release say.
type Book struct {
	Files      int                 // spec files, without ledgers
	Entries    []schema.Entry      // in the order of the names of their files
	Unreadable []*specs.Unreadable // what could not be read: of files, records, lines, ledgers
}

// Read reads authored files by their names, with slashes. Those that bear the
// name of a ledger are that of their folder.
func Read(authored map[string][]byte) *Book {
	b := &Book{}
	signed := map[string]map[string][]schema.Countersign{} // by folder, then by id
	names := slices.Sorted(maps.Keys(authored))
	for _, name := range names {
		if path.Base(name) != specs.Ledger {
			continue
		}
		lines, bad, err := specs.ReadLedger(name, bytes.NewReader(authored[name]))
		if err != nil {
			bad = append(bad, specs.Whole(name, err.Error()))
		}
		b.Unreadable = append(b.Unreadable, bad...)
		byID := map[string][]schema.Countersign{}
		for _, c := range lines {
			byID[c.ID] = append(byID[c.ID], c)
		}
		signed[path.Dir(name)] = byID
	}
	for _, name := range names {
		if path.Base(name) == specs.Ledger {
			continue
		}
		b.Files++
		for e, err := range specs.Read(name, bytes.NewReader(authored[name])) {
			if err != nil {
				bad, ok := err.(*specs.Unreadable)
				if !ok {
					bad = specs.Whole(name, err.Error())
				}
				b.Unreadable = append(b.Unreadable, bad)
			}
			if err != nil && !e.Lost {
				continue
			}
			if e.Record != nil {
				e.Countersigned = signed[path.Dir(name)][e.Record.ID]
			}
			b.Entries = append(b.Entries, e)
		}
	}
	return b
}

// Records are the entries that are records.
func (b *Book) Records() []schema.Entry {
	var out []schema.Entry
	for _, e := range b.Entries {
		if !e.HeadOnly && !e.Lost {
			out = append(out, e)
		}
	}
	return out
}
