package sheet

import (
	"slices"

	"snapgauge/reference"
	"snapgauge/schema"
)

// Caution is one hazard, with the number that the records refer to it by.
type Caution struct {
	N      int
	Signal string // DANGER, WARNING, CAUTION, NOTICE; "" for a text of the user
	Hazard string
	Text   string
}

// cautionMarks are the cautions of the records of a sheet.
type cautionMarks struct {
	list []Caution
	byID map[string]int // place in the list
}

// signals are the words of ANSI Z535.4, the gravest first.
var signals = []string{"DANGER", "WARNING", "CAUTION", "NOTICE", ""}

// numberCautions collects the cautions of all records, the gravest first, then
// in the order of the table. What the table does not have is the user's own
// text, and gets no signal word of ours.
func numberCautions(records []schema.Entry) cautionMarks {
	m := cautionMarks{byID: map[string]int{}}
	met := map[string]bool{}
	var own []string
	for i := range records {
		for _, id := range records[i].Record.Caution {
			if _, known := reference.CautionByID(id); !known && !met[id] {
				own = append(own, id)
			}
			met[id] = true
		}
	}
	type named struct {
		id string
		c  Caution
	}
	var all []named
	for _, c := range reference.Cautions() {
		if met[c.ID] {
			all = append(all, named{c.ID, Caution{Signal: c.Signal, Hazard: c.Hazard, Text: c.Text}})
		}
	}
	for _, id := range own {
		all = append(all, named{id, Caution{Text: clean(id)}})
	}
	slices.SortStableFunc(all, func(a, b named) int {
		return slices.Index(signals, a.c.Signal) - slices.Index(signals, b.c.Signal)
	})
	for i, n := range all {
		n.c.N = i + 1
		m.byID[n.id] = i
		m.list = append(m.list, n.c)
	}
	return m
}

// of are the cautions of a record, the gravest first.
func (m cautionMarks) of(r *schema.Record) []Caution {
	var at []int
	for _, id := range r.Caution {
		if i := m.byID[id]; !slices.Contains(at, i) {
			at = append(at, i)
		}
	}
	slices.Sort(at)
	var out []Caution
	for _, i := range at {
		out = append(out, m.list[i])
	}
	return out
}
