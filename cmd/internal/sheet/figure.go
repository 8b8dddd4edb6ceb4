package sheet

import (
	"strings"
	"unicode"

	"snapgauge/convert"
	"snapgauge/schema"
)

// Role tells what a text of a figure is.
type Role string

// The roles. The template gives each a look of its own and, but for the first
// two, a word.
const (
	Printed   Role = "printed"   // as the source prints it, its own unit first
	Use       Role = "use"       // in place of a misprint
	Wrong     Role = "wrong"     // the misprint, as printed
	ReadAs    Role = "read"      // how a doubtful spelling was read
	Converted Role = "converted" // by us
)

// Part is one text of a figure.
type Part struct {
	Role Role
	Text string
}

// Figure is a figure on the page.
type Figure struct {
	Parts []Part
	Asked []int // numbers of the open questions about it
}

// Shown reports whether there is anything to show.
func (f Figure) Shown() bool { return len(f.Parts) > 0 }

// Main is the text to work by.
func (f Figure) Main() Part {
	for _, p := range f.Parts {
		if p.Role != Wrong {
			return p
		}
	}
	return Part{}
}

// Beside are the other texts.
func (f Figure) Beside() []Part {
	main, past := f.Main(), false
	var out []Part
	for _, p := range f.Parts {
		if !past && p == main {
			past = true
			continue
		}
		out = append(out, p)
	}
	return out
}

// figure makes the parts of a figure at a path: every text as printed, a
// misprint with what to use in its place, and the figure in the other system of
// units where it is printed in one only. While a question about it is open
// nothing is converted, for it would carry the doubt on.
func (c *cards) figure(p schema.Path, f *schema.Figure) Figure { return c.limit(p, f, noLimit) }

// limit is figure for a value that is a limit: what is converted is rounded to
// the side that permits less.
func (c *cards) limit(p schema.Path, f *schema.Figure, side limitSide) Figure {
	base, _ := f.Quantity()
	return c.like(p, f, base, side)
}

// like is limit in units that suit another figure: a tolerance of ±5 N·m is
// shown in the units of the torque that it belongs to.
func (c *cards) like(p schema.Path, f *schema.Figure, base convert.Quantity, side limitSide) Figure {
	var out Figure
	if f.IsZero() {
		return out
	}
	out.Asked = c.askedAt(p)
	m := &c.record.Misprint
	for i := range f.Values {
		v := &f.Values[i]
		if f.Misprint && m.Is(v.Text) {
			continue
		}
		out.add(Printed, v.Text)
		if c.doubtful(p, f, i) {
			out.add(ReadAs, v.Quantity.String())
		}
	}
	if f.Misprint {
		var use []Part
		for i := range m.Use.Values {
			use = append(use, Part{Use, clean(m.Use.Values[i].Text)})
		}
		if f.Values[0].Text != "" && m.Is(f.Values[0].Text) {
			out.Parts = append(use, out.Parts...)
		} else {
			out.Parts = append(out.Parts, use...)
		}
		out.add(Wrong, m.Printed)
	}
	if len(out.Asked) == 0 && !f.Word {
		for _, q := range otherSystem(f, base, side) {
			out.add(Converted, q)
		}
	}
	return out
}

func (f *Figure) add(role Role, text string) {
	f.Parts = append(f.Parts, Part{role, clean(text)})
}

// doubtful reports a text whose unit or number was read only after a second
// value or an answer had settled how.
func (c *cards) doubtful(p schema.Path, f *schema.Figure, i int) bool {
	v := &f.Values[i]
	return !f.Word && v.Problem != nil && v.Read() && v.Quantity.String() != v.Text
}

// limitSide tells which way a single value limits.
type limitSide uint8

const (
	noLimit limitSide = iota
	atMost
	atLeast
)

// wornSide is the side of a wear limit.
func wornSide(of string) limitSide {
	switch _, wear, _ := schema.MeasureOf(of); wear {
	case schema.Grows:
		return atMost
	case schema.Shrinks:
		return atLeast
	}
	return noLimit
}

// otherSystem is a figure in the metric or the inch units that it is not printed
// in. A range is rounded inwards.
func otherSystem(f *schema.Figure, base convert.Quantity, side limitSide) []string {
	q, ok := f.Quantity()
	if !ok || q.Unit.Dimension() != base.Unit.Dimension() {
		return nil
	}
	have := map[system]bool{}
	for i := range f.Values {
		if v := &f.Values[i]; v.Read() {
			have[systemOf(v.Quantity.Unit)] = true
		}
	}
	var out []string
	for _, s := range []system{metric, inch} {
		u, ok := unitIn(s, base)
		if have[s] || !ok || systemOf(q.Unit) == neither {
			continue
		}
		if text, ok := converted(q, u, side); ok {
			out = append(out, text)
		}
	}
	return out
}

func converted(q convert.Quantity, u convert.Unit, side limitSide) (string, bool) {
	single := q.Form == convert.Single
	if single {
		switch side {
		case atMost:
			q.Form, q.Second = convert.AtMost, q.First
		case atLeast:
			q.Form = convert.AtLeast
		}
	}
	c, err := q.To(u, true)
	if err != nil || !c.Quantity.Ordered() && q.Ordered() {
		return "", false
	}
	if out := &c.Quantity; single && out.Form != convert.Single {
		if out.Form == convert.AtMost {
			out.First = out.Second
		}
		out.Form = convert.Single
	}
	return c.Quantity.String(), true
}

// clean replaces what is no letter and would tear the page: control characters,
// and those that turn the direction of the text around them.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\t':
			return ' '
		case unicode.IsControl(r), '\u202a' <= r && r <= '\u202e', '\u2066' <= r && r <= '\u2069', r == '\ufeff':
			return '\ufffd'
		}
		return r
	}, s)
}
