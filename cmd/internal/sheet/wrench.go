package sheet

import (
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/wrench"
)

// Setting is a torque wrench and what it is set to.
type Setting struct {
	Wrench    string // its name in the list of the shop
	Drive     string
	Set       string // with its unit; "" where no wrench of the list will do
	Converted bool   // the source does not print the torque in that unit
	How       string // what the setting comes from, where it is not the printed figure
	Missing   string // why none will do
}

// setting chooses a wrench of the shop for a step. Nil where the shop lists none, or
// where there is nothing to set.
func (c *cards) setting(step int) *Setting {
	choice, ok := wrench.Choose(c.head, c.record, step)
	if !ok {
		return nil
	}
	if len(choice.Settings) == 0 {
		out := &Setting{Missing: "no wrench of the list will do"}
		if len(choice.Misses) > 0 {
			m := choice.Misses[0]
			out.Missing += ": " + clean(m.Wrench.ID) + ", the nearest, " + clean(m.Why)
		}
		return out
	}
	s := &choice.Settings[0]
	how := clean(s.How)
	if how != "" && !strings.HasPrefix(how, "within ") {
		how = "from " + how
	}
	return &Setting{
		Wrench: clean(s.Wrench.ID), Drive: clean(s.Wrench.Drive), Set: clean(s.Text), Converted: s.Converted,
		How: how,
	}
}

// wrenchesOf describes the wrenches that are set on the sheet, in the order of the
// list.
func wrenchesOf(records []schema.Entry, all []*Card) []string {
	used := map[string]bool{}
	for _, c := range all {
		if c.Torque == nil {
			continue
		}
		for _, s := range c.Torque.Steps {
			if s.Wrench != nil && s.Wrench.Set != "" {
				used[s.Wrench.Wrench] = true
			}
		}
	}
	var out []string
	for i := range records {
		for j := range records[i].Head.Wrenches {
			w := &records[i].Head.Wrenches[j]
			if !used[clean(w.ID)] {
				continue
			}
			delete(used, clean(w.ID))
			out = append(out, clean(joined(", ", w.ID+" "+strings.ReplaceAll(figureTexts(&w.Range), ", ", " / "),
				named("drive ", w.Drive), named("class ", w.Class), named("calibrated ", w.Calibrated))))
		}
	}
	return out
}
