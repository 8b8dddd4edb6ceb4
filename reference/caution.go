package reference

import (
	"slices"
	"strings"
	"sync"
)

// Caution is a hazard of the work, to print beside a record.
type Caution struct {
	ID, Signal, Hazard, Text string
	Kinds                    []string // record kinds it goes with: torque, fill, tolerance
	Source                   Citation
}

type cautionTable struct {
	list []Caution
	byID map[string]int
	// signals are the definitions of the signal words; no record is marked with
	// one.
	signals []Caution
}

var cautions = sync.OnceValue(func() cautionTable {
	tab := cautionTable{byID: make(map[string]int)}
	for _, r := range mustTable("cautions.csv") {
		c := Caution{
			ID: r.text("id"), Signal: r.text("signal_word"), Hazard: r.text("hazard"), Text: r.text("text"),
			Source: r.citation("hazards"),
		}
		if strings.Contains(c.Source.Text, "common practice, no source") && c.Source.Seen == Memory {
			c.Source.ID, c.Source.Seen = "common-practice", Practice
		}
		if c.Hazard == "definition" {
			c.Source.ID = "ansi-z535.4"
			tab.signals = append(tab.signals, c)
			continue
		}
		for _, kind := range []string{"torque", "fill", "tolerance"} {
			if k := r.text("record_kinds"); k == "all" || strings.Contains(k, kind) {
				c.Kinds = append(c.Kinds, kind)
			}
		}
		tab.byID[c.ID] = len(tab.list)
		tab.list = append(tab.list, c)
	}
	return tab
})

// Cautions returns all cautions in table order.
func Cautions() []Caution { return slices.Clone(cautions().list) }

// CautionByID finds a caution by its name: "hot-oil".
func CautionByID(id string) (Caution, bool) {
	i, ok := cautions().byID[id]
	if !ok {
		return Caution{}, false
	}
	return cautions().list[i], true
}
