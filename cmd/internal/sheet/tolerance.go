package sheet

import (
	"slices"

	"snapgauge/schema"
)

// Tolerance is what only a tolerance has on the page.
type Tolerance struct {
	Of     string
	How    string
	Fit    string
	Size   Figure
	Rows   []Row
	Select *Select
}

// Conditions reports that the rows hold in conditions, so that these stand
// beside the figures.
func (t *Tolerance) Conditions() bool {
	return slices.ContainsFunc(t.Rows, func(r Row) bool { return r.When != "" })
}

// Named reports that what is measured is to be told: a fit tells itself.
func (t *Tolerance) Named() bool { return t.Of != "fit" || t.Fit == "" }

// Row is a line with room for a reading.
type Row struct {
	When string // conditions
	Must Figure // new, or what the row asks for
	Worn Figure
}

// Select is a table from a measured value to the part to fit.
type Select struct {
	Measure string
	Want    Figure
	Rows    []SelectRow
}

// Long reports a table that is better set in two columns.
func (s *Select) Long() bool { return len(s.Rows) > 10 }

// SelectRow is a row of a table of parts.
type SelectRow struct{ From, To, Part Figure }

func (c *cards) tolerance() {
	r := c.record
	t := &Tolerance{Of: word(r.Of), How: clean(r.How), Fit: clean(r.Fit), Size: c.asPrinted(schema.At("size"), &r.Size)}
	c.card.Tolerance = t
	worn := c.limit(schema.At("wear-limit"), &r.WearLimit, wornSide(r.Of))
	if !r.New.IsZero() || worn.Shown() && len(r.Rows) == 0 || len(r.Rows) == 0 && t.Fit != "" {
		t.Rows = append(t.Rows, Row{Must: c.figure(schema.At("new"), &r.New), Worn: worn})
		worn = Figure{}
	}
	for i := range r.Rows {
		row, at := &r.Rows[i], schema.At("rows", i)
		when := joined(", ", figureTexts(&row.At.Speed), figureTexts(&row.At.Temperature), clean(row.At.Selector))
		t.Rows = append(t.Rows, Row{When: when, Must: c.figure(at.Field("figure"), &row.Figure), Worn: worn})
		worn = Figure{}
	}
	c.card.figures = len(t.Rows) > 0
	if s := &r.Select; len(s.Rows) > 0 {
		c.card.figures = true
		t.Select = &Select{Measure: clean(s.Measure), Want: c.figure(schema.At("select", "want"), &s.Want)}
		for i := range s.Rows {
			row, at := &s.Rows[i], schema.At("select", "rows", i)
			t.Select.Rows = append(t.Select.Rows, SelectRow{
				c.asPrinted(at.Field("from"), &row.From), c.asPrinted(at.Field("to"), &row.To), c.asPrinted(at.Field("part"), &row.Part),
			})
		}
	}
}
