package sheet

import (
	"snapgauge/convert"
	"snapgauge/schema"
)

// Fill is what only a fill has on the page.
type Fill struct {
	Fluid   string
	Grade   string
	Amounts []Amount
	Steps   []FillStep
	Level   *Level
}

// Amount is a volume and the occasion it is for.
type Amount struct {
	When   string
	Volume Figure
}

// FillStep is one go of a fill done in several.
type FillStep struct {
	N    int
	Add  Figure
	Then string
}

// Level is how a level is checked.
type Level struct {
	By       string
	Engine   Figure
	At       Figure // temperature, of a plug
	After    Figure
	Selector string
	Ground   string
	Sign     string
	Points   []LevelPoint
	Marks    []LevelMark
	Between  Figure
	Missing  []string // what the record does not say and the check needs
	Chart    *Drawing
}

// LevelPoint is a row of a level table.
type LevelPoint struct{ At, Low, High Figure }

// LevelMark is the mark that holds in a band of temperature.
type LevelMark struct {
	N    int
	At   Figure
	Mark string
}

func (c *cards) fill() {
	r := c.record
	f := &Fill{Fluid: clean(r.Fluid.Name), Grade: clean(r.Fluid.Grade)}
	c.card.Fill = f
	for i := range r.Amounts {
		c.card.figures = true
		a := &r.Amounts[i]
		f.Amounts = append(f.Amounts, Amount{word(a.When), c.figure(schema.At("amounts", i, "volume"), &a.Volume)})
	}
	for i := range r.Steps {
		c.card.figures = true
		s := &r.Steps[i]
		f.Steps = append(f.Steps, FillStep{i + 1, c.figure(schema.At("steps", i, "add"), &s.Add), clean(s.Then)})
	}
	f.Level = c.level(&r.Level)
}

func (c *cards) level(l *schema.Level) *Level {
	out := &Level{
		By: word(l.By), Selector: clean(l.Selector), Ground: clean(l.Ground), Sign: clean(l.Sign),
		Engine:  c.figure(schema.At("level", "engine"), &l.Engine),
		At:      c.figure(schema.At("level", "at"), &l.At),
		After:   c.figure(schema.At("level", "after"), &l.After),
		Between: c.figure(schema.At("level", "between-marks"), &l.BetweenMarks),
	}
	for i := range l.Points {
		p, at := &l.Points[i], schema.At("level", "points", i)
		out.Points = append(out.Points, LevelPoint{
			c.figure(at.Field("at"), &p.At), c.limit(at.Field("low"), &p.Low, atLeast), c.limit(at.Field("high"), &p.High, atMost),
		})
	}
	for i := range l.Marks {
		m := &l.Marks[i]
		out.Marks = append(out.Marks, LevelMark{i + 1, c.figure(schema.At("level", "marks", i, "at"), &m.At), clean(m.Mark)})
	}
	if out.By == "" && !out.Engine.Shown() && !out.At.Shown() && out.Sign == "" && out.Ground == "" && out.Selector == "" &&
		!out.After.Shown() && !out.Between.Shown() && len(out.Points)+len(out.Marks) == 0 {
		return nil
	}
	c.card.figures = true
	if !out.Engine.Shown() {
		out.Missing = append(out.Missing, "engine running or off")
	}
	if !out.At.Shown() && len(out.Points) == 0 && len(l.Marks) == 0 {
		out.Missing = append(out.Missing, "temperature")
	}
	switch {
	case len(l.Points) > 0:
		out.Chart = levelChart(l)
	case len(l.Marks) > 0:
		var figures []*schema.Figure
		for i := range l.Marks {
			figures = append(figures, &l.Marks[i].At)
		}
		out.Chart = windowChart(figures, true)
	case !l.At.IsZero():
		out.Chart = windowChart([]*schema.Figure{&l.At}, false)
	}
	return out
}

// bothSystems reports that levels are printed in metric and in inch units, so
// that the chart bears both scales.
func bothSystems(l *schema.Level, d convert.Dimension) (other convert.Unit, both bool) {
	var first convert.Unit
	known := false
	for i := range l.Points {
		for _, f := range []*schema.Figure{&l.Points[i].Low, &l.Points[i].High} {
			for j := range f.Values {
				v := &f.Values[j]
				if !v.Read() || v.Quantity.Unit.Dimension() != d {
					continue
				}
				u := v.Quantity.Unit
				if !known {
					first, known = u, true
				} else if systemOf(u) != systemOf(first) {
					return u, true
				}
			}
		}
	}
	return first, false
}
