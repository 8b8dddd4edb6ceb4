package edition

import "snapgauge/schema"

// Find returns the record of the book that an entry of a later edition was: that with its
// id and kind, else the only one of its item that applies to the same machines. It is nil
// where there is none. Where an id stands twice the first counts.
func (b *Book) Find(e *schema.Entry) *schema.Before {
	if e.Record == nil || e.Lost || e.Head == nil {
		return nil
	}
	m := b.machines[e.Head.Machine.ID]
	if m == nil {
		return nil
	}
	m.index()
	r := e.Record
	if i, ok := m.byID[r.Kind+" "+r.ID]; ok && r.ID != "" {
		return &schema.Before{Edition: b.Name, Entry: &m.entries[i]}
	}
	one := -1
	for _, i := range m.byItem[r.Kind+" "+r.ItemName()] {
		if !schema.Equal(m.entries[i].Record.Boxes(), r.Boxes()) {
			continue
		}
		if one >= 0 {
			return nil
		}
		one = i
	}
	if one < 0 {
		return nil
	}
	return &schema.Before{Edition: b.Name, Entry: &m.entries[one]}
}

// index lists the records by id and by item.
func (m *machine) index() {
	if m.indexed == len(m.entries) {
		return
	}
	m.byID, m.byItem, m.indexed = map[string]int{}, map[string][]int{}, len(m.entries)
	for i := range m.entries {
		r := m.entries[i].Record
		if _, again := m.byID[r.Kind+" "+r.ID]; !again {
			m.byID[r.Kind+" "+r.ID] = i
		}
		item := r.Kind + " " + r.ItemName()
		m.byItem[item] = append(m.byItem[item], i)
	}
}
