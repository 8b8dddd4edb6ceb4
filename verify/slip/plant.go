package slip

import (
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
)

// planting collects what a kind of slip can make of one value.
type planting struct {
	b     *Bench
	path  schema.Path
	f     *schema.Figure
	i     int
	v     *convert.Value
	parts parts
	mark  byte
	donor *schema.Figure
	out   [][]Edit
}

func (p *planting) add(text string) {
	if text != p.v.Text {
		p.out = append(p.out, []Edit{{p.path, p.i, text}})
	}
}

func (p *planting) numbers(variants func(s string) []string) {
	for _, at := range p.parts.numbers {
		s := p.v.Text[at.Start:at.End]
		if !isNumber(s, p.mark) {
			continue
		}
		for _, x := range variants(s) {
			if isNumber(x, p.mark) {
				p.add(with(p.v.Text, at, x))
			}
		}
	}
}

// Plants lists what a kind of slip can make of value i of the figure at a path,
// each as the edits that plant it, in a fixed order; of the thread or class at a
// path where i is negative. Donor is the figure of a neighbour with which
// figures are exchanged or from which they are copied; it may be nil.
func (k *Kind) Plants(b *Bench, path schema.Path, i int, donor *schema.Figure) [][]Edit {
	p := planting{b: b, path: path, i: i, mark: b.markByte(), donor: donor}
	if i < 0 {
		if t := b.text(path); t != nil && (k.ID == "thread-wrong" || k.ID == "class-wrong") {
			p.v = &convert.Value{Text: *t}
			k.plant(&p)
		}
		return p.out
	}
	p.f = b.Figure(path)
	if k.ID == "thread-wrong" || k.ID == "class-wrong" || p.f == nil || i >= len(p.f.Values) || !p.f.Values[i].Read() || p.f.Misprint {
		return nil
	}
	p.v = &p.f.Values[i]
	p.parts = partsOf(p.v)
	k.plant(&p)
	return p.out
}

func plantUnit(p *planting) {
	if p.parts.unit.End == 0 || p.v.Quantity.Unit == 0 {
		return
	}
	for _, x := range swapsOf(p.v.Quantity.Unit) {
		twice := false
		for _, v := range p.f.Values {
			twice = twice || v.Read() && v.Quantity.Unit.Symbol() == x.text
		}
		if !twice || len(p.f.Values) == 2 {
			p.add(inUnit(p.v.Text, p.parts.unit, x.text))
		}
	}
}

func plantPoint(p *planting) {
	p.numbers(func(s string) []string {
		out := []string{trimmed(shifted(s, -1, p.mark), p.mark), shifted(s, 1, p.mark)}
		if whole, frac, ok := strings.Cut(s, string(p.mark)); ok && whole != "" && len(frac) > 1 {
			out = append(out, shifted(s, len(frac), p.mark)) // lost
		}
		return out
	})
}

func plantLeadingPoint(p *planting) {
	all := make([]string, 0, 2)
	for _, at := range p.parts.numbers {
		s := p.v.Text[at.Start:at.End]
		frac, ok := strings.CutPrefix(strings.TrimPrefix(s, "0"), string(p.mark))
		if !ok {
			return
		}
		all = append(all, frac)
	}
	if len(all) > 0 {
		p.add(withAll(p.v.Text, p.parts.numbers, all))
	}
}

func plantTransposed(p *planting) { p.numbers(transposed) }

func plantLost(p *planting) {
	p.numbers(func(s string) []string { return append(shorter(s, false), shorter(s, true)...) })
}

func plantDoubled(p *planting) {
	p.numbers(func(s string) []string { return longer(s, true) })
}

func plantDigit(p *planting) {
	p.numbers(func(s string) []string {
		var out []string
		for _, at := range digits(s) {
			for _, d := range []byte(besideInRow[s[at]-'0']) {
				out = append(out, s[:at]+string(d)+s[at+1:])
			}
		}
		return out
	})
}

func plantEnds(p *planting) {
	if q := p.v.Quantity; q.Form == convert.Range && q.FirstAt.End > 0 && q.First.Cmp(q.Second) != 0 {
		p.add(endsExchanged(p.v))
	}
}

func plantDash(p *planting) {
	if p.v.Quantity.Form != convert.Range || len(p.parts.numbers) != 2 {
		return
	}
	a, b := p.parts.numbers[0], p.parts.numbers[1]
	if p.parts.unit.Start >= b.End {
		p.add(p.v.Text[:a.End] + p.v.Text[b.Start:])
	}
}

func plantSign(p *planting) {
	t := p.v.Text
	switch q := p.v.Quantity; {
	case strings.Contains(t, "±"):
		before, after, _ := strings.Cut(t, "±")
		p.add(strings.TrimLeft(strings.TrimRight(before, " ")+" "+strings.TrimLeft(after, " "), " "))
	case q.First.Mant < 0 && strings.HasPrefix(t, "-"):
		p.add(t[1:])
	}
}

// What scanners make of the spellings of units (callouts in print).
var misreadUnits = map[string][]string{
	"N·m": {"N•rn", "Nom", "N ). m"}, "lbf·ft": {"Ib-ft", "1b-ft"}, "lbf·in": {"Ib-in", "1b-in."},
	"mm": {"rnm", "mrn"}, "°C": {"0C"}, "°F": {"0F"}, "in": {"ln"}, "L": {"1"},
}

func plantNoise(p *planting) {
	symbol := p.v.Quantity.Unit.Symbol()
	for _, s := range misreadUnits[symbol] {
		if s != "1" {
			p.add(inUnit(p.v.Text, p.parts.unit, s))
		}
	}
	if symbol == "°" {
		p.add(strings.Replace(p.v.Text, "°", "0", 1))
	}
	for _, at := range p.parts.numbers {
		for i := at.Start + 1; i < at.End; i++ {
			p.add(p.v.Text[:i] + " " + p.v.Text[i:])
		}
	}
}

// The units cut short and in wrong forms, as met in call-outs.
var (
	cutUnits   = map[string]string{"N·m": "N", "lbf·ft": "lb", "lbf·in": "lb", "kgf·m": "kg", "kgf·cm": "kg"}
	wrongForms = map[string]string{"N·m": "N/m", "lbf·ft": "ft/lb", "lbf·in": "in/lb", "kgf·m": "kg/m", "kgf·cm": "kg/cm"}
)

func plantCut(p *planting) {
	if s := cutUnits[p.v.Quantity.Unit.Symbol()]; s != "" {
		p.add(inUnit(p.v.Text, p.parts.unit, s))
	}
}

func plantForm(p *planting) {
	if s := wrongForms[p.v.Quantity.Unit.Symbol()]; s != "" {
		p.add(inUnit(p.v.Text, p.parts.unit, s))
	}
}

func plantFactor(p *planting) {
	if p.i == 0 || !p.f.Values[0].Read() {
		return
	}
	first := p.f.Values[0].Quantity
	for _, w := range wrongFactors(first.Unit, p.v.Quantity.Unit) {
		if q, ok := made(first, p.v.Quantity.Unit, w.ratio); ok {
			p.add(q.String())
		}
	}
}

func plantWrongEnd(p *planting) {
	q := p.v.Quantity
	if p.i == 0 || q.Form != convert.Range || q.First.Cmp(q.Second) == 0 || len(p.parts.numbers) != 2 {
		return
	}
	a, b := p.parts.numbers[0], p.parts.numbers[1]
	p.add(with(p.v.Text, a, p.v.Text[b.Start:b.End]))
	p.add(with(p.v.Text, b, p.v.Text[a.Start:a.End]))
}

func plantForce(p *planting) {
	symbol := p.v.Quantity.Unit.Symbol()
	switch p.v.Quantity.Unit.Dimension() {
	case convert.Force:
		for _, torque := range []string{"N·m", "lbf·ft", "kgf·m"} {
			if forceOf[torque] == symbol {
				p.add(inUnit(p.v.Text, p.parts.unit, torque))
			}
		}
	case convert.Torque:
		if p.i == 0 {
			return
		}
		first := p.f.Values[0].Quantity
		a, b := asForce(first), asForce(p.v.Quantity)
		if a.Unit == 0 || b.Unit == 0 || a.Unit == b.Unit {
			return
		}
		if out, err := a.To(b.Unit, false); err == nil {
			q := out.Quantity
			q.Unit = p.v.Quantity.Unit
			p.add(q.String())
		}
	}
}

func plantFahrenheit(p *planting) {
	if p.v.Quantity.Unit.Symbol() != "°C" {
		return
	}
	f, problem := convert.ReadUnit("°F", convert.Of(p.v.Quantity.Unit.Dimension()))
	if problem != nil {
		return
	}
	if out, err := p.v.Quantity.To(f, false); err == nil {
		q := out.Quantity
		q.Unit = p.v.Quantity.Unit
		p.add(q.String())
	}
}

// plantExchanged exchanges the figure with that of another row of the record. Two
// records exchanged look, to each, like a row copied.
func plantExchanged(p *planting) {
	if p.i > 0 {
		return
	}
	for _, s := range p.b.figures {
		if sameColumn(s.path, p.path) && len(s.figure.Values) == len(p.f.Values) && s.figure.Text() != p.f.Text() {
			var edits []Edit
			for i := range p.f.Values {
				edits = append(edits, Edit{p.path, i, s.figure.Values[i].Text}, Edit{s.path, i, p.f.Values[i].Text})
			}
			p.out = append(p.out, edits)
		}
	}
}

func plantCopied(p *planting) {
	if p.i > 0 {
		return
	}
	for _, s := range p.b.figures {
		if sameColumn(s.path, p.path) && len(s.figure.Values) == len(p.f.Values) && s.figure.Text() != p.f.Text() {
			p.copyOf(s.figure)
		}
	}
	p.fromDonor()
}

func (p *planting) fromDonor() {
	if d := p.donor; d != nil && len(d.Values) == len(p.f.Values) && d.Want == p.f.Want && d.Text() != p.f.Text() {
		p.copyOf(d)
	}
}

func (p *planting) copyOf(f *schema.Figure) {
	var edits []Edit
	for i := range f.Values {
		edits = append(edits, Edit{p.path, i, f.Values[i].Text})
	}
	p.out = append(p.out, edits)
}

func plantThread(p *planting) {
	for _, s := range otherThreads(p.v.Text) {
		p.out = append(p.out, []Edit{{p.path, -1, s}})
	}
}

func plantClass(p *planting) {
	for _, s := range otherClasses(p.v.Text) {
		p.out = append(p.out, []Edit{{p.path, -1, s}})
	}
}
