package convert

import "strings"

// unitOf reads the unit of the figure from the places where units stand. The
// kind is 0 when all is well.
func (p *parser) unitOf() (e entry, at Place, percent bool, k Kind) {
	near, last := p.units[0], p.units[1]
	switch {
	case p.deviation && last.Start < last.End && near.Start < near.End:
		if isPercent(p.text[last.Start:last.End]) { // 9 N·m ±10 %
			percent, last = true, near
		}
	case p.deviation && last.Start < last.End && p.text[last.Start] == '%': // 9 ±10 % N·m
		rest := p.scanner.skipSpace(last.Start + 1)
		if rest < last.End || !p.want.Has(Ratio) {
			percent, last.Start = true, rest
		}
	}
	if last.Start >= last.End {
		last, near = near, last
	}
	if last.Start >= last.End {
		if p.want.Has(Number) {
			return entry{}, last, percent, 0
		}
		return entry{}, Place{0, len(p.text)}, percent, NoUnit
	}
	e, ok := lookup(p.text[last.Start:last.End], p.want)
	if !ok || p.dashAlone(last.Start) {
		return entry{}, last, percent, UnknownUnit
	}
	if near.Start < near.End && near != last {
		if f, ok := lookup(p.text[near.Start:near.End], p.want); !ok {
			return entry{}, near, percent, UnknownUnit
		} else if f != e {
			return entry{}, Place{near.Start, last.End}, percent, TwoUnits
		}
	}
	if e.doubt != nil {
		return e, last, percent, e.doubt.kind
	}
	return e, last, percent, 0
}

// dashAlone reports a dash with a blank behind it: 23 - N·m has lost a number,
// 0.011-inch has not.
func (p *parser) dashAlone(i int) bool {
	n := p.minusAt(i)
	return n > 0 && spaceAt(p.text, i+n) > 0
}

func isPercent(s string) bool {
	e, ok := lookup(s, Of(Ratio))
	return ok && e.doubt == nil && e.unit.Symbol() == "%"
}

// markInDoubt reports a comma or point in doubt. A comma that marks thousands or
// decimals marks thousands where one beside it does: 1,300 to 1,450.5.
func (p *parser) markInDoubt() bool {
	return p.doubt > groupOrMark || p.doubt == groupOrMark && !p.thousand
}

// clean is the quantity, if nothing is in doubt.
func (p *parser) clean() (Quantity, bool) {
	if p.markInDoubt() {
		return Quantity{}, false
	}
	e, at, percent, k := p.unitOf()
	if k != 0 {
		return Quantity{}, false
	}
	p.q.Unit, p.q.UnitAt, p.q.Percent = e.unit, at, percent
	return p.q, true
}

// problem says why the figure was not read. It is called only then.
func (p *parser) problem() *Problem {
	if two := p.twoFigures(); two != nil {
		return two
	}
	if p.bad != 0 {
		return p.badNumber()
	}
	e, at, percent, k := p.unitOf()
	p.q.UnitAt, p.alt.UnitAt = at, at
	p.q.Percent, p.alt.Percent = percent, percent
	p.alt.FirstAt, p.alt.SecondAt = p.q.FirstAt, p.q.SecondAt

	pr := &Problem{Kind: k, At: at}
	variants, decimal, grouped := p.variants()
	units := []Unit{e.unit}
	spelling := p.text[at.Start:at.End]
	switch k {
	case 0:
		pr.Kind, pr.At = CommaDoubt, p.doubtAt
	case NoUnit:
		units = nil
		for d := Ratio; d < dimensions; d++ {
			if p.want.Has(d) {
				units = append(units, d.usual()...)
			}
		}
	case TwoUnits:
		pr.Message = quote(p.text) + " has two units; write each in a figure of its own"
		return pr
	case UnknownUnit:
		if p.dashAlone(at.Start) || len(spelling) > 2 && strings.EqualFold(spelling[:2], "to") && spaceAt(spelling, 2) > 0 {
			pr.Kind, pr.Message = BadNumber, "the range "+quote(p.text)+" has no second number; write it as 8 to 10, or take the mark of the range out"
			return pr
		}
		unread := unreadUnit(spelling, p.want, at)
		pr.Kind, units = unread.Kind, nil
		for _, q := range unread.Readings {
			units = append(units, q.Unit)
		}
		pr.Message = quote(p.text) + ": " + unread.Message
	default:
		units = e.doubt.units
		if p.markInDoubt() && k == Ambiguous {
			pr.Kind, pr.At = CommaDoubt, p.doubtAt
		}
	}
	for i, v := range variants {
		for _, u := range units {
			bit := uint8(1) << min(len(pr.Readings), 7)
			if decimal&(1<<i) != 0 {
				pr.decimal |= bit
			}
			if grouped&(1<<i) != 0 {
				pr.grouped |= bit
			}
			v.Unit = u
			pr.Readings = append(pr.Readings, v)
		}
	}
	switch {
	case pr.Message != "":
	case pr.Kind == NoUnit:
		pr.Message = quote(p.text) + " has no unit"
		if len(pr.Readings) > 0 {
			pr.Message += "; write " + or(texts(pr.Readings, p.mark))
		} else {
			pr.Message += "; " + p.want.String() + " is wanted"
		}
	case pr.Kind == CommaDoubt:
		pr.Message = p.commaMessage(pr)
	default:
		pr.Message = e.doubt.message(spelling, p.text, pr.Readings, p.mark)
	}
	return pr
}

// variants are the readings of the numbers, with a bit for each that takes a
// mark in doubt for decimals or for thousands.
func (p *parser) variants() (qs []Quantity, decimal, grouped uint8) {
	switch {
	case !p.markInDoubt():
	case p.doubt == groupOrMark:
		return []Quantity{p.q, p.alt}, 0b10, 0b01
	case p.doubt == onlyMark:
		return []Quantity{p.alt}, 0b1, 0
	case p.doubt == onlyGroup:
		return []Quantity{p.q}, 0, 0b1
	}
	return []Quantity{p.q}, 0, 0
}

func (p *parser) commaMessage(pr *Problem) string {
	mark, head := "comma", `, or put "decimal: comma" at the head of the file if that is its decimal mark`
	if p.mark == Comma {
		mark, head = "point", ""
	}
	readings := texts(pr.Readings, p.mark)
	switch {
	case p.doubt == onlyGroup:
		return quote(p.text) + ": its marks seem to be those of thousands; write " + or(readings)
	case p.doubt == onlyMark:
		return quote(p.text) + ": the " + mark + " seems to mark decimals; write " + or(readings) + head
	}
	return quote(p.text) + ": the " + mark + " marks thousands or decimals; write " + or(readings) + head
}

// badNumber is the problem of a number that was not read, with what it may
// have been where that is known.
func (p *parser) badNumber() *Problem {
	pr := &Problem{Kind: p.bad, At: p.badAt}
	switch p.bad {
	case NoNumber:
		if strings.TrimSpace(p.text) == "" {
			pr.Message = "the figure is empty; write a number and its unit"
			return pr
		}
		pr.Message = quote(p.text) + " does not begin with a number"
		for d := Ratio; d < dimensions; d++ {
			if us := d.usual(); p.want.Has(d) && len(us) > 0 {
				q := Quantity{First: Decimal{Mant: 8}, Unit: us[0]}
				pr.Message += "; write it as " + quote(q.String()) + " is written"
				break
			}
		}
		return pr
	case Ambiguous:
		pr.Message = quote(p.text) + ": " + quote(p.text[p.badAt.Start:p.badAt.End]) + " " + p.why
	default:
		pr.Message = quote(p.text) + ": " + p.why
	}
	pr.Readings = p.guesses()
	if len(pr.Readings) > 0 {
		pr.Message += "; write " + or(texts(pr.Readings, p.mark))
	}
	return pr
}

// guesses are the readings of a number that was refused, if a unit that is
// known follows it.
func (p *parser) guesses() []Quantity {
	if p.reads == 0 || p.q.Form == Range || p.limit != Single && p.asked != Single {
		return nil
	}
	asked, reads, read := p.asked, p.reads, p.read
	kind := p.bad
	at := p.unit()
	p.bad = kind
	if p.i < len(p.text) {
		return nil
	}
	if at.Start == at.End && p.units[0].Start < p.units[0].End {
		at = p.units[0]
	}
	var u Unit
	if at.Start < at.End {
		e, ok := lookup(p.text[at.Start:at.End], p.want)
		if !ok || e.doubt != nil {
			return nil
		}
		u = e.unit
	} else if !p.want.Has(Number) {
		return nil
	}
	base := Quantity{Unit: u, UnitAt: at, FirstAt: p.badAt}
	var qs []Quantity
	switch asked {
	case Range:
		return readSlash(base, read[0], read[1])
	case Deviation: // 30 +3
		s, o := p.q, p.q
		s.Form, s.Plus, s.Minus, s.Unit = Deviation, read[0], read[0], u
		o.Form, o.Plus, o.Minus, o.Unit = Deviation, read[0], Decimal{}, u
		s.UnitAt, o.UnitAt = at, at
		qs = []Quantity{s, o}
	default:
		for _, d := range read[:reads] {
			q := base
			q.First = d
			qs = append(qs, q)
		}
	}
	return qs
}

// readSlash reads 8/10 as a range or as a fraction, 11/2 as 1 1/2 or 5 1/2.
func readSlash(base Quantity, num, den Decimal) []Quantity {
	ranged, fraction, mixed := base, base, base
	ranged.Form, ranged.First, ranged.Second = Range, num, den
	if num.Exp != 0 || den.Exp != 0 || den.Mant == 0 {
		return []Quantity{ranged}
	}
	n, d := num.Mant, den.Mant
	fraction.First = roundFloat(float64(n)/float64(d), 3)
	for fraction.First.Mant%10 == 0 && fraction.First.Exp < 0 {
		fraction.First.Mant /= 10
		fraction.First.Exp++
	}
	switch {
	case n < d:
		return []Quantity{ranged, fraction}
	case n > 9 && n%10 > 0 && n%10 < d && d < 100:
		mixed.First = Decimal{Mant: n/10*d + n%10, Den: int32(d)}
		return []Quantity{mixed, fraction}
	}
	return []Quantity{fraction}
}
