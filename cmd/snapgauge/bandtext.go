package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/joint"
)

// chartShare is the use of the screw that printed tables are made for (VDI
// 2230-1, nu = 0.9).
const chartShare = 0.9

// smallMM: up to this diameter torques are printed in lbf·in, above in lbf·ft.
const smallMM = 7

// pair of units that figures are shown in, that of the thread's own first.
type pair struct{ first, second convert.Unit }

func (q *question) units() (torque, load pair) {
	torque, load = unitsNamed("N·m", "lbf·ft"), unitsNamed("kN", "lbf")
	if q.facts.Thread.D <= smallMM {
		torque = unitsNamed("N·m", "lbf·in")
	}
	if q.facts.Thread.Family == reference.Unified {
		torque.first, torque.second = torque.second, torque.first
		load.first, load.second = load.second, load.first
	}
	return torque, load
}

func unitsNamed(first, second string) pair {
	a, _ := convert.UnitBySymbol(first)
	b, _ := convert.UnitBySymbol(second)
	return pair{a, b}
}

// span prints two ends in both units: "11 to 35 N·m (8 to 26 lbf·ft)".
func (p pair) span(lo, hi float64, digits int) string {
	return span(lo, hi, p.first, digits) + " (" + span(lo, hi, p.second, digits) + ")"
}

// span prints two ends in one unit, one where they print alike.
func span(lo, hi float64, u convert.Unit, digits int) string {
	a, b := convert.FromFloat(lo, u, digits).String(), convert.FromFloat(hi, u, digits).String()
	if a == b {
		return a
	}
	return strings.TrimSuffix(a, " "+u.Symbol()) + " to " + b
}

// text is all that band prints.
func (q *question) text() string {
	band := joint.BandOf(q.facts)
	torque, load := q.units()
	p := bandPage{question: q, band: band, torque: torque, load: load}
	p.head()
	p.table()
	p.charts()
	p.picture()
	p.costs()
	p.sources()
	return p.b.String()
}

// bandPage is a page being written.
type bandPage struct {
	*question
	b            strings.Builder
	band         joint.Band
	yield        joint.Use
	strip        joint.Stripping
	strips       bool
	torque, load pair
}

func (p *bandPage) head() {
	f, w := &p.facts, &p.words
	of := []string{w.Type + " " + p.thread()}
	if w.Class != "" {
		of[0] += " of class " + w.Class
	}
	if f.Head != "" {
		of = append(of, f.Head+" head")
	}
	switch {
	case w.FrictionLo > 0 && w.FrictionLo == w.FrictionHi:
		of = append(of, "friction "+number(w.FrictionLo))
	case w.FrictionLo > 0:
		of = append(of, "friction "+number(w.FrictionLo)+" to "+number(w.FrictionHi))
	case f.Condition != "":
		of = append(of, "threads "+f.Condition)
	}
	if f.Into != "" {
		of = append(of, "into "+f.Into)
	}
	if f.EngagementMM.Hi > 0 {
		of = append(of, "engaged over "+p.engagement)
	}
	if f.Insert {
		of = append(of, "with insert")
	}
	if f.Seal != "" {
		of = append(of, "on "+f.Seal)
	}
	fmt.Fprintf(&p.b, "%s\n", strings.Join(of, ", "))
	fmt.Fprintf(&p.b, "a general band, no specification: it is there to find slips, not to tighten by\n\n")
	p.b.WriteString(p.pitches())
	p.b.WriteString(f.ThreadText())
	if !slices.ContainsFunc(f.Threads, func(t reference.Thread) bool { return t.Listed }) {
		p.b.WriteString(", worked out: the tables do not have this thread")
	}
	p.b.WriteByte('\n')
	if len(f.Strengths) > 0 {
		p.b.WriteString(wrap(f.ClassText(), "", 79))
	}
	if f.MuLo > 0 && w.Threads != "" {
		fmt.Fprintf(&p.b, "threads %s: the stated friction counts, not the condition\n", w.Threads)
	}
	if f.Condition != "" && f.MuLo == 0 {
		mu, _ := reference.UsualFriction(f.Condition)
		fmt.Fprintf(&p.b, "threads %s: coefficient of friction usually %s to %s\n", f.Condition, number(mu.Lo), number(mu.Hi))
	}
}

// pitches says what a thread without its pitch was taken for.
func (p *bandPage) pitches() string {
	f := &p.facts
	if f.Thread.PitchGiven {
		return ""
	}
	var names []string
	for _, t := range f.Threads {
		names = append(names, t.Designation)
	}
	coarse := ""
	if p.chart.Family == reference.Metric && p.chart.Pitch > 0 {
		coarse = p.chart.Designation
	}
	switch text := p.typed + " "; {
	case len(names) == 1 && names[0] == coarse:
		return wrap(text+"is read as "+coarse+", the coarse thread (ISO 965-1)", "", 79)
	case len(names) > 1 && coarse != "":
		return wrap(text+"is "+coarse+", the coarse thread (ISO 965-1); fine ones are printed so too, and the band holds for "+andList(names), "", 79)
	case len(names) > 1:
		return wrap(text+"may be "+orList(names)+": the band holds for each", "", 79)
	}
	return ""
}

func andList(names []string) string {
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

func (p *bandPage) thread() string {
	if p.facts.Thread.PitchGiven {
		return p.facts.Thread.Designation
	}
	return p.facts.Thread.Text
}

// Widths of the columns of text.
const firstColumn, secondColumn = 18, 38

func (p *bandPage) row(label, first, second string) {
	p.b.WriteString(strings.TrimRight(pad(label, firstColumn-2)+"  "+pad(first, secondColumn-2)+"  "+second, " ") + "\n")
}

func (p *bandPage) use(label string, u joint.Use) {
	p.row(label, p.torque.span(u.TorqueNm.Lo, u.TorqueNm.Hi, 2), p.load.span(u.PreloadN.Lo, u.PreloadN.Hi, 2))
}

// table is what is usual, what yields, strips and breaks.
func (p *bandPage) table() {
	b := p.band
	p.b.WriteByte('\n')
	p.row("", "torque", "clamp load")
	p.row("too little below", p.torque.span(b.FloorNm, b.FloorNm, 2), "")
	p.row("usual in print", p.torque.span(b.UsualLoNm, b.UsualHiNm, 2), "")
	if u, err := joint.UseAt(p.facts, chartShare); err == nil {
		p.use("at 0.9 of yield", u)
	}
	if u, err := joint.UseAt(p.facts, 1); err == nil {
		p.yield = u
		p.use("at yield", u)
	}
	p.stripping()
	p.row("too much above", p.torque.span(b.CeilingNm, b.CeilingNm, 2), "the "+p.words.Type+" does not bear it,")
	p.row("", "", "whatever the friction")
	if p.strips {
		p.b.WriteString(p.weaker() + "\n")
	}
}

func (p *bandPage) stripping() {
	p.strip, p.strips = joint.StrippingOf(p.facts)
	if !p.strips {
		p.row("at stripping", p.whyNot(), "")
		return
	}
	one := func(label string, nm, n float64) {
		p.row(label, p.torque.span(nm, nm, 2), p.load.span(n, n, 2))
	}
	t, f := p.strip.TorqueNm, p.strip.PreloadN
	one("at stripping", t.Middling, f.Middling)
	one("  at the least", t.Least, f.Least)
	one("  at the most", t.Most, f.Most)
}

// whyNot says what is wanted before stripping can be worked out.
func (p *bandPage) whyNot() string {
	_, _, known := reference.Tapped(p.words.Into)
	var want []string
	switch {
	case p.facts.Part == joint.NutPart:
		return "not worked out for a nut: its height is not known"
	case p.words.Into == "":
		want = append(want, "--into")
	case !known:
		return "not worked out: the strength of " + p.words.Into + " is not known"
	}
	if p.facts.EngagementMM.Hi <= 0 {
		want = append(want, "--engagement")
	}
	return "not worked out without " + strings.Join(want, " and ")
}

// weaker tells which gives way first, the thread or the screw.
func (p *bandPage) weaker() string {
	thread := "the tapped thread"
	switch {
	case p.strip.OwnThread:
		thread = "the thread of the " + p.words.Type
	case p.facts.Insert:
		thread = "the hole of the insert"
	}
	switch {
	case p.strip.PreloadN.Most < p.yield.PreloadN.Lo:
		return thread + " strips before the " + p.words.Type + " yields"
	case p.strip.PreloadN.Least < p.yield.PreloadN.Hi:
		return thread + " may strip before the " + p.words.Type + " yields"
	}
	return "the " + p.words.Type + " yields before " + thread + " strips"
}

// charts are the figures as printed tables have them, for one class, one
// friction and the head of the standard.
func (p *bandPage) charts() {
	rows := p.chartRows()
	if len(rows) == 0 {
		return
	}
	head, thread := rows[0].head, ""
	if len(p.facts.Threads) > 1 {
		thread = p.chart.Designation + "; "
	}
	estimated, mark := estimatedBearing(head), ""
	if estimated {
		mark = ", head estimated"
		p.b.WriteString("\n" + wrap(fmt.Sprintf("at 0.9 of yield (VDI 2230; %s%s head estimated by proportion: no table here has it for this "+
			"diameter, and printed figures lie some per cent off)", thread, head.Kind), "", 79))
	} else {
		fmt.Fprintf(&p.b, "\nat 0.9 of yield, as tables print it (VDI 2230; %s%s)\n", thread, head.Kind)
	}
	for _, r := range rows {
		p.row("  "+r.class+", "+number(r.mu), p.torque.span(r.torqueNm, r.torqueNm, 3), p.load.span(r.preloadN, r.preloadN, 3)+mark)
	}
	p.b.WriteString("  (class, coefficient of friction in thread and under head)\n")
}

// picture is the band on a scale of torque.
func (p *bandPage) picture() {
	b := p.band
	a := axis{lo: b.FloorNm / 1.6, hi: b.CeilingNm * 1.6, byRatio: true, width: axisWidth}
	in := func(u convert.Unit) func(float64) float64 { return u.FromSI }
	numbers, line := a.scale(in(p.torque.first))
	p.b.WriteString("\n" + labelled(p.torque.first.Symbol(), numbers) + labelled("", line))
	tracks := []track{
		{label: "too little", from: a.lo, to: b.FloorNm, left: '<', fill: '<', right: '|'},
		{label: "usual", from: b.UsualLoNm, to: b.UsualHiNm, left: '[', fill: '=', right: ']'},
	}
	if p.yield.TorqueNm.Hi > 0 {
		tracks = append(tracks, track{label: "yield", from: p.yield.TorqueNm.Lo, to: p.yield.TorqueNm.Hi, left: '#', fill: '#', right: '#'})
	}
	if p.strips {
		t := p.strip.TorqueNm
		tracks = append(tracks, track{label: "stripping", from: t.Least, to: t.Most, left: '.', fill: '.', right: '.', at: t.Middling, mark: 'X'})
	}
	tracks = append(tracks, track{label: "too much", from: b.CeilingNm, to: a.hi, left: '|', fill: '>', right: '>'})
	for _, t := range tracks {
		p.b.WriteString(labelled(t.label, t.draw(a)))
	}
	numbers, line = a.scale(in(p.torque.second))
	p.b.WriteString(labelled("", line) + labelled(p.torque.second.Symbol(), numbers))
}

func (p *bandPage) sources() {
	list := p.facts.Sources()
	if p.strips && !p.strip.Source.IsZero() {
		list = append(list, p.strip.Source)
	}
	p.b.WriteString("\nsources\n")
	for _, c := range list {
		p.b.WriteString(wrap(c.String(), "  ", 79))
	}
}

// number prints a coefficient of friction: two decimals, more where it has them.
func number(x float64) string {
	if hundredths := x * 100; round(hundredths) == math.Round(hundredths) {
		return strconv.FormatFloat(x, 'f', 2, 64)
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}
