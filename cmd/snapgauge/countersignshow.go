package main

import (
	"fmt"
	"strings"
	"unicode"

	"snapgauge/schema"
)

// show is a record as it stands in its file, what its figures were read as below
// their lines, and the source to hold it against.
func (p *countersignPage) show(x toCountersign) string {
	e, r := x.entry, x.entry.Record
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s, %s\n", r.ID, r.Kind, legible(r.Where))
	fmt.Fprintf(&b, "  machine  %s\n", legible(machineName(e.Head)))
	if len(r.Applies) > 0 {
		var boxes []string
		for _, box := range r.Applies {
			boxes = append(boxes, box.String())
		}
		fmt.Fprintf(&b, "  applies  %s\n", legible(strings.Join(boxes, "; or ")))
	}
	entered := r.EnteredBy(e.Head)
	fmt.Fprintf(&b, "  entered  %s\n", legible(joinWords(", ", entered.By, entered.Date)))
	fmt.Fprintf(&b, "  source   %s\n\n", legible(sourceLine(e.Head, r.Source)))
	p.showLines(&b, e)
	for _, c := range e.Countersigned {
		if c.Of(e.Head, r) {
			was := "as it stands"
			if c.Fingerprint != x.line.Fingerprint {
				was = "as it stood then"
			}
			fmt.Fprintf(&b, "  countersigned by %s on %s, %s\n", legible(c.By), legible(c.Date), was)
		}
	}
	if m := &r.Misprint; m.Printed != "" {
		fmt.Fprintf(&b, "  misprint: the source prints %s; %s is used: %s (%s, %s)\n",
			legible(m.Printed), legible(m.Use.Text()), legible(m.Because), legible(sourceLine(e.Head, m.Source)), legible(m.By))
	}
	for _, q := range x.queries {
		fmt.Fprintf(&b, "  query: %s\n", legible(q))
	}
	fmt.Fprintf(&b, "  fingerprint %s\n", x.line.Fingerprint)
	return b.String()
}

func machineName(h *schema.Head) string {
	return joinWords(", ", h.Machine.Name, h.Machine.ID)
}

// sourceLine is a source in full.
func sourceLine(h *schema.Head, s schema.Source) string {
	d, ok := h.SourceOf(s)
	if !ok {
		d.Title = s.Ref
	}
	return joinWords(", ", d.Title, d.Edition, s.At)
}

// joinWords joins what is there.
func joinWords(between string, words ...string) string {
	var there []string
	for _, w := range words {
		if w != "" {
			there = append(there, w)
		}
	}
	return strings.Join(there, between)
}

// showLines writes the lines of a record, and below each line with figures what
// these were read as.
func (p *countersignPage) showLines(b *strings.Builder, e schema.Entry) {
	figures := map[int][]string{}
	first, last := p.extent(e)
	for path, f := range e.Record.Figures() {
		texts := make([]string, len(f.Values))
		for i := range f.Values {
			v := &f.Values[i]
			texts[i] = v.Text
			if v.Problem == nil && !f.Word && !f.Misprint {
				texts[i] = v.Quantity.String()
			}
		}
		n := e.Locate(schema.Spot{Path: f.At(path, 0)}).Start.Line
		figures[n] = append(figures[n], fmt.Sprintf("%s: %s", spoken(path), strings.Join(texts, " = ")))
		if n < first || n > last { // an alias: it is written elsewhere
			p.showLine(b, e.File, n, figures[n])
			delete(figures, n)
		}
	}
	for n := first; n <= last; n++ {
		p.showLine(b, e.File, n, figures[n])
	}
}

func (p *countersignPage) showLine(b *strings.Builder, file string, n int, figures []string) {
	line, ok := p.lines.Line(file, n)
	if !ok {
		line = ""
	}
	const most = 110
	if runes := []rune(legible(strings.ReplaceAll(line, "\t", "  "))); len(runes) > most {
		line = string(runes[:most]) + "…"
	} else {
		line = string(runes)
	}
	fmt.Fprintf(b, "  %5d | %s\n", n, line)
	for _, f := range figures {
		fmt.Fprintf(b, "        > %s\n", legible(f))
	}
}

// extent is the lines of a record: from its id, or what stands before it, to
// the line before the next record.
func (p *countersignPage) extent(e schema.Entry) (first, last int) {
	first = begins(e)
	if e.Head.OfOneLine {
		return first, first
	}
	last = first
	for path, f := range e.Record.Figures() {
		for i := range f.Values {
			if n := e.Locate(schema.Spot{Path: f.At(path, i)}).End.Line; n > last && n < first+200 {
				last = n
			}
		}
	}
	next := 0
	for _, other := range p.book {
		if n := 0; !other.HeadOnly && other.File == e.File {
			if n = begins(other); n > first && (next == 0 || n < next) {
				next = n
			}
		}
	}
	for n := last + 1; n < first+400 && (next == 0 || n < next); n++ {
		line, ok := p.lines.Line(e.File, n)
		if !ok {
			break
		}
		if line = strings.Trim(line, " \t-{}[],"); line != "" && !strings.HasPrefix(line, "#") {
			last = n
		}
	}
	return first, last
}

// begins is the first line of a record.
func begins(e schema.Entry) int {
	first := e.Locate(schema.Spot{Path: schema.At("id")}).Start.Line
	for _, name := range []string{"kind", "where", "item", "applies", "source"} {
		if n := e.Locate(schema.Spot{Path: schema.At(name), Key: true}).Start.Line; n < first && n > 0 {
			first = n
		}
	}
	return first
}

// spoken names a place for people, who count from 1.
func spoken(p schema.Path) string { return p.Words() }

// legible leaves out what a terminal would take for a command.
func legible(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			return '\ufffd'
		}
		return r
	}, s)
}
