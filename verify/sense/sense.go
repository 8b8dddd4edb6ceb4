// Package sense holds the checks of the layer sense: what a record says of itself
// must hold together, whatever the machine. Ranges rise, counts match places,
// steps of a tightening rise, a level rises with the temperature of the oil, a
// wear limit lies beyond the limits for new parts, a selection table is whole.
package sense

import (
	"embed"
	"iter"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

//go:embed *.md
var texts embed.FS

func doc(name string) string { return rule.Doc(texts, name) }

// values walks the values of the record that were read: the figure, its path,
// and the number of the value.
func values(p *rule.Pass) iter.Seq2[spotted, convert.Quantity] {
	return func(yield func(spotted, convert.Quantity) bool) {
		for _, at := range p.Figures() {
			f := at.Figure
			if f.Word {
				continue
			}
			for i := range f.Values {
				if f.Values[i].Read() && !yield(spotted{f, at.Path, i}, f.Values[i].Quantity) {
					return
				}
			}
		}
	}
}

// spotted is one value of a figure and where it stands.
type spotted struct {
	figure *schema.Figure
	path   schema.Path // of the figure
	i      int
}

// at spots a figure by its first value that was read.
func at(f *schema.Figure, path schema.Path) (spotted, bool) {
	_, i, ok := f.First()
	return spotted{f, path, i}, ok && !f.Word
}

func (s spotted) quantity() convert.Quantity { return s.figure.Values[s.i].Quantity }
func (s spotted) number() schema.Spot        { return rule.NumberAt(s.figure, s.path, s.i) }
func (s spotted) dimension() convert.Dimension {
	return s.quantity().Unit.Dimension()
}

// text is the value as authored; of a misprint, what is used in its place.
func (s spotted) text() string {
	v := &s.figure.Values[s.i]
	if s.figure.Misprint && v.Quantity.FirstAt == v.Quantity.SecondAt {
		return v.Quantity.String()
	}
	return v.Text
}

// pair picks the values of two figures that are best compared: two in one unit
// where there are such, else the first two of one dimension.
func pair(f *schema.Figure, fp schema.Path, g *schema.Figure, gp schema.Path) (a, b spotted, ok bool) {
	if f.Word || g.Word {
		return a, b, false
	}
	for i := range f.Values {
		for j := range g.Values {
			if !f.Values[i].Read() || !g.Values[j].Read() {
				continue
			}
			x, y := f.Values[i].Quantity.Unit, g.Values[j].Quantity.Unit
			if x == y {
				return spotted{f, fp, i}, spotted{g, gp, j}, true
			}
			if !ok && x.Dimension() == y.Dimension() {
				a, b, ok = spotted{f, fp, i}, spotted{g, gp, j}, true
			}
		}
	}
	return a, b, ok
}
