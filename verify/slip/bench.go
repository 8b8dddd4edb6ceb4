package slip

import (
	"slices"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
)

// Bench is a copy of a record on which texts can be changed and put back. The
// record it was made from is not touched.
type Bench struct {
	Record *schema.Record
	// Used tells how often a unit is met elsewhere in the book, and how often any
	// of its dimension. It may be nil.
	Used func(convert.Unit) (n, all int)
	// Digits tells how many figures of a dimension in the book have so many
	// significant digits, and how many there are. It may be nil.
	Digits func(d convert.Dimension, n int) (k, all int)

	decimal string
	mark    convert.Mark
	figures []spot
	saved   []saved
	scratch []convert.Value
	hard    map[hardText]hardRead
	systems map[reference.Family]bool // of the threads, once asked for
}

type spot struct {
	path   schema.Path
	figure *schema.Figure
}

type saved struct {
	figure *schema.Figure
	was    schema.Figure
	text   *string
	wasTxt string
}

// NewBench copies a record whose file has a decimal mark ("comma", "point" or
// ""). Figures that stand at misprint.use are left alone.
func NewBench(r *schema.Record, decimal string) *Bench {
	b := &Bench{Record: copyOf(r), decimal: decimal}
	if decimal == "comma" {
		b.mark = convert.Comma
	}
	use := schema.At("misprint")
	for p, f := range b.Record.Figures() {
		if !f.Word && !use.Has(p) {
			b.figures = append(b.figures, spot{p, f})
		}
	}
	return b
}

// copyOf copies a record down to all that an edit changes.
func copyOf(r *schema.Record) *schema.Record {
	c := *r
	c.Fasteners.Items = slices.Clone(r.Fasteners.Items)
	c.Tighten = slices.Clone(r.Tighten)
	c.Amounts = slices.Clone(r.Amounts)
	c.Level.Points = slices.Clone(r.Level.Points)
	c.Level.Marks = slices.Clone(r.Level.Marks)
	c.Steps = slices.Clone(r.Steps)
	c.Rows = slices.Clone(r.Rows)
	c.Select.Rows = slices.Clone(r.Select.Rows)
	for _, f := range c.Figures() {
		f.Values = slices.Clone(f.Values)
	}
	return &c
}

// Edit changes one text of a record: value Value of the figure at Path, or,
// where Value is negative, the plain text there (a thread, a class).
type Edit struct {
	Path  schema.Path
	Value int
	Text  string
}

// Paths lists the figures of the record that can be changed.
func (b *Bench) Paths() []schema.Path {
	out := make([]schema.Path, len(b.figures))
	for i, s := range b.figures {
		out[i] = s.path
	}
	return out
}

// Figure finds the figure at a path, nil where there is none.
func (b *Bench) Figure(p schema.Path) *schema.Figure {
	for _, s := range b.figures {
		if s.path == p {
			return s.figure
		}
	}
	return nil
}

// text finds the thread or class at a path.
func (b *Bench) text(p schema.Path) *string {
	for i := range b.Record.Fasteners.Items {
		at := b.Record.Fasteners.At(i)
		switch p {
		case at.Field("thread"):
			return &b.Record.Fasteners.Items[i].Thread
		case at.Field("class"):
			return &b.Record.Fasteners.Items[i].Class
		}
	}
	return nil
}

// Set makes edits and reads the figures changed anew. Reset takes them back.
func (b *Bench) Set(edits []Edit) {
	for _, e := range edits {
		if e.Value < 0 {
			if t := b.text(e.Path); t != nil {
				b.saved = append(b.saved, saved{text: t, wasTxt: *t})
				*t = e.Text
			}
			continue
		}
		f := b.Figure(e.Path)
		if f == nil || e.Value >= len(f.Values) {
			continue
		}
		b.saved = append(b.saved, saved{figure: f, was: *f})
		b.write(f, e.Value, e.Text)
	}
}

// write puts a text into a figure and reads it anew.
func (b *Bench) write(f *schema.Figure, i int, text string) {
	f.Values = slices.Clone(f.Values)
	f.Values[i].Text = text
	if b.Record.Misprint.Printed != "" {
		b.Record.ReadFigures(b.decimal)
		return
	}
	b.reread(f.Values, f.Want)
}

// hardText is a text that could not be read at once. What is wrong with it takes
// a thousand times as long to find out as to read a clear one, so it is kept.
type hardText struct {
	text string
	want convert.Dimensions
}

type hardRead struct {
	quantity convert.Quantity
	problem  convert.Problem
}

// parse reads a text. The problem may be changed.
func (b *Bench) parse(text string, want convert.Dimensions) (convert.Quantity, *convert.Problem) {
	key := hardText{text, want}
	if h, ok := b.hard[key]; ok {
		problem := h.problem
		return h.quantity, &problem
	}
	q, problem := convert.Parse(text, want, b.mark)
	if problem != nil {
		if b.hard == nil {
			b.hard = map[hardText]hardRead{}
		}
		b.hard[key] = hardRead{q, *problem}
	}
	return q, problem
}

func (b *Bench) reread(vs []convert.Value, want convert.Dimensions) {
	for i := range vs {
		v := convert.Value{Text: vs[i].Text}
		v.Quantity, v.Problem = b.parse(v.Text, want)
		vs[i] = v
	}
	convert.Settle(vs)
}

// Reset takes back what Set did.
func (b *Bench) Reset() {
	for _, s := range slices.Backward(b.saved) {
		if s.text != nil {
			*s.text = s.wasTxt
			continue
		}
		*s.figure = s.was
	}
	if len(b.saved) > 0 && b.Record.Misprint.Printed != "" {
		b.Record.ReadFigures(b.decimal)
	}
	b.saved = b.saved[:0]
}

// Copy is another bench with the record as it now is.
func (b *Bench) Copy() *Bench { return NewBench(b.Record, b.decimal) }

// Decimal is the decimal mark of the record's file: "comma", "point" or "".
func (b *Bench) Decimal() string { return b.decimal }

// Parse reads a text as the figure at a path would be read, alone.
func (b *Bench) Parse(p schema.Path, text string) (convert.Quantity, *convert.Problem) {
	f := b.Figure(p)
	if f == nil {
		return convert.Quantity{}, &convert.Problem{Kind: convert.NoNumber, Message: "no figure there"}
	}
	return b.parse(text, f.Want)
}
