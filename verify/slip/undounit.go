package slip

import (
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
)

// The units that are taken for each other, by dimension, with how often one is
// taken for another of them: judgement, no source; the pound-foot and the
// pound-inch differ in one word.
var swaps = map[convert.Dimension][]string{
	convert.Torque:          {"N·m", "lbf·ft", "lbf·in", "kgf·m", "kgf·cm"},
	convert.Force:           {"N", "lbf", "kgf", "kN"},
	convert.Pressure:        {"bar", "psi", "kPa", "MPa", "kgf/cm²"},
	convert.Volume:          {"L", "US qt", "imp qt", "US gal", "imp gal", "US pt", "imp pt", "mL"},
	convert.Length:          {"mm", "in", "cm"},
	convert.Temperature:     {"°C", "°F"},
	convert.Resistance:      {"Ω", "kΩ", "mΩ", "MΩ"},
	convert.Voltage:         {"V", "mV"},
	convert.Current:         {"A", "mA"},
	convert.Mass:            {"kg", "g", "lb"},
	convert.Time:            {"min", "s", "h"},
	convert.Flow:            {"L/min", "US gpm", "imp gpm"},
	convert.Power:           {"kW", "hp"},
	convert.Speed:           {"km/h", "mph"},
	convert.SpringRate:      {"N/mm", "lbf/in"},
	convert.Angle:           {"°", "turn"},
	convert.RotationalSpeed: {"rpm"},
}

// swapsOf lists the units that a unit is taken for, with their shares.
func swapsOf(u convert.Unit) []variant {
	all := swaps[u.Dimension()]
	var out []variant
	for _, s := range all {
		if s != u.Symbol() {
			out = append(out, variant{s, 1})
		}
	}
	for i := range out {
		out[i].share = 1 / float64(len(out))
		if pair := u.Symbol() + "|" + out[i].text; pair == "lbf·ft|lbf·in" || pair == "lbf·in|lbf·ft" {
			out[i].share = 0.6
		}
	}
	return out
}

// inUnit is the value's text with another unit.
func (u *undoing) inUnit(symbol string) string { return inUnit(u.v.Text, u.parts.unit, symbol) }

func inUnit(text string, at convert.Place, symbol string) string {
	before := strings.TrimRight(text[:at.Start], " -")
	if symbol != "°" {
		before += " "
	}
	return before + symbol + text[at.End:]
}

func undoUnit(u *undoing) {
	if !u.v.Read() || u.v.Quantity.Unit == 0 || u.parts.unit.End == 0 {
		return
	}
	for _, x := range swapsOf(u.v.Quantity.Unit) {
		u.add(u.inUnit(x.text), x.share)
	}
	for _, s := range seldom[u.v.Quantity.Unit.Dimension()] {
		if s != u.v.Quantity.Unit.Symbol() {
			u.add(u.inUnit(s), seldomShare)
		}
	}
}

// The units that are met too seldom to be typed for another, but may have been
// meant.
var seldom = map[convert.Dimension][]string{
	convert.Torque: {"N·cm", "ozf·in"},
	convert.Length: {"m", "ft"},
}

const seldomShare = 0.2

// reads adds the readings of a doubt.
func (u *undoing) reads(kinds ...convert.Kind) {
	p := u.v.Problem
	if p == nil {
		return
	}
	for _, k := range kinds {
		if p.Kind != k {
			continue
		}
		for _, q := range p.Readings {
			if q.First != (convert.Decimal{}) || q.Second != (convert.Decimal{}) || q.Plus != (convert.Decimal{}) {
				u.add(q.String(), 1/float64(len(p.Readings)))
			} else if q.Unit != 0 {
				u.add(u.inUnit(q.Unit.Symbol()), 1/float64(len(p.Readings)))
			}
		}
	}
}

// undoCut gives a unit back what was cut off, or the unit itself.
func undoCut(u *undoing) {
	u.reads(convert.CutShort, convert.Ambiguous)
	if u.v.Problem == nil || u.v.Problem.Kind != convert.NoUnit {
		return
	}
	text := strings.TrimSpace(u.v.Text)
	for d, units := range swaps {
		if u.f.Want.Has(d) {
			for _, s := range units {
				u.add(inUnit(text, convert.Place{Start: len(text), End: len(text)}, s), 1/float64(len(units)))
			}
		}
	}
}

func undoForm(u *undoing) { u.reads(convert.WrongForm) }

// undoForce takes a torque for a force and the reverse.
func undoForce(u *undoing) {
	switch {
	case u.v.Problem != nil && u.v.Problem.Kind == convert.WrongDimension && u.f.Want.Has(convert.Force):
		unit, problem := convert.ReadUnit(u.v.Text[u.parts.unit.Start:u.parts.unit.End], convert.Of(convert.Torque))
		if problem == nil && forceOf[unit.Symbol()] != "" {
			u.add(u.inUnit(forceOf[unit.Symbol()]), 1)
		}
		u.allForces()
	case u.f.Want.Has(convert.Torque) && u.v.Read():
		// 30 lbf·ft beside 133 N·m: the ratio is that of pounds and newtons.
		for i := range u.f.Values {
			other := &u.f.Values[i]
			if i >= u.i || !other.Read() {
				continue
			}
			a, b := asForce(other.Quantity), asForce(u.v.Quantity)
			if a.Unit == 0 || b.Unit == 0 || a.Unit == b.Unit || habit(convert.Agree(a, b).Outcome) == 0 {
				continue
			}
			u.out = append(u.out, Candidate{
				Kind: u.kind, Path: u.path, Edits: []Edit{{u.path, u.i, b.String()}}, Reads: b.String(), share: 0.5,
				because: "as forces " + a.String() + " and " + b.String() + " agree", outside: true,
				weight: printedSo(a, b) * customary([]convert.Value{{Quantity: a}, {Quantity: b}}) * u.b.consistent(u.path, u.f.Values),
			})
			// Or a torque was converted as a force.
			if good, err := other.Quantity.To(u.v.Quantity.Unit, false); err == nil {
				u.add(good.Quantity.String(), 0.5)
			}
		}
	}
}

// allForces takes every value of a figure for a force, where each of them is in
// the unit of a torque.
func (u *undoing) allForces() {
	if u.i > 0 || len(u.f.Values) < 2 {
		return
	}
	c := Candidate{Kind: u.kind, Path: u.path, share: 1}
	var texts []string
	for i := range u.f.Values {
		v := &u.f.Values[i]
		at := partsOf(v).unit
		unit, problem := convert.ReadUnit(v.Text[at.Start:at.End], convert.Of(convert.Torque))
		if problem != nil || forceOf[unit.Symbol()] == "" {
			return
		}
		text := inUnit(v.Text, at, forceOf[unit.Symbol()])
		c.Edits, texts = append(c.Edits, Edit{u.path, i, text}), append(texts, text)
	}
	c.Reads, c.because = strings.Join(texts, ", "), "as forces the values agree"
	u.out = append(u.out, c)
}

var forceOf = map[string]string{"N·m": "N", "lbf·ft": "lbf", "lbf·in": "lbf", "kgf·m": "kgf", "kgf·cm": "kgf", "kN·m": "kN"}

// asForce takes a torque for the force that it names.
func asForce(q convert.Quantity) convert.Quantity {
	unit, problem := convert.ReadUnit(forceOf[q.Unit.Symbol()], convert.Of(convert.Force))
	if problem != nil {
		return convert.Quantity{}
	}
	q.Unit = unit
	return q
}

// undoFahrenheit reads a number under °C as one of °F.
func undoFahrenheit(u *undoing) {
	if !u.v.Read() || u.v.Quantity.Unit.Symbol() != "°C" {
		return
	}
	q, c := u.v.Quantity, u.v.Quantity.Unit
	f, problem := convert.ReadUnit("°F", convert.Of(c.Dimension()))
	if problem != nil {
		return
	}
	q.Unit = f
	if out, err := q.To(c, false); err == nil {
		u.add(out.Quantity.String(), 1)
	}
}

// undoNoise takes back what scanners make of print.
func undoNoise(u *undoing) {
	text := u.v.Text
	if fixed, ok := lettersAsDigits(text); ok && u.v.Problem != nil {
		// It is the number then, and no letter of the unit: 22O °F.
		u.add(fixed, 1)
		u.reads(convert.CommaDoubt)
	} else {
		u.reads(convert.UnknownUnit, convert.CommaDoubt)
	}
	// The sign of degrees read as 0: 700 C, 900 for 90°.
	if u.f.Want.Has(convert.Temperature) || u.f.Want.Has(convert.Angle) {
		bare := strings.TrimRight(text, " CF")
		rest := strings.TrimSpace(text[len(bare):])
		if strings.HasSuffix(bare, "0") && len(bare) > 1 {
			cut := strings.TrimRight(bare[:len(bare)-1], " ")
			switch {
			case rest != "":
				u.add(cut+" °"+rest, 0.5)
			case u.f.Want.Has(convert.Angle):
				u.add(cut+"°", 0.5)
			}
		}
		if u.v.Read() && u.v.Quantity.Unit.Dimension() == convert.Temperature {
			for _, at := range u.parts.numbers {
				if s := text[at.Start:at.End]; len(s) > 1 && s[len(s)-1] == '0' {
					u.add(with(text, at, s[:len(s)-1]), 0.2)
				}
			}
		}
	}
	// A speck before a number, read as 0: 054 N·m.
	for _, at := range u.parts.numbers {
		if s := text[at.Start:at.End]; mayBeNumber(s, u.mark) && paddedWithZero(s, u.mark) {
			u.add(with(text, at, s[1:]), 0.1)
		}
	}
	// A blank in a number: 7 1 N·m, 6. 2 L.
	for i := 1; i+1 < len(text); i++ {
		if text[i] == ' ' && numeral(text[i-1]) && numeral(text[i+1]) {
			u.add(text[:i]+text[i+1:], 0.5)
		}
	}
}

// lettersForDigits are what a scanner, or a hasty typist, makes of digits.
const lettersForDigits, digitsForLetters = "lI|!OoSBZ", "111100582"

// lettersAsDigits puts digits for the letters that stand in numbers: l2, O.46,
// 47 to 6l. A letter belongs to a number where a digit stands in the same run and
// no other letter beside it: 5 lb and 5lb have none.
func lettersAsDigits(text string) (fixed string, ok bool) {
	out := []byte(text)
	in := func(i int) bool {
		return numeral(text[i]) || text[i] == '/' || strings.IndexByte(lettersForDigits, text[i]) >= 0
	}
	for i := 0; i < len(text); {
		from, some := i, false
		for ; i < len(text) && in(i); i++ {
			some = some || digit(text[i])
		}
		if i == from {
			i++
			continue
		}
		if !some || from > 0 && letter(text[from-1]) || i < len(text) && letter(text[i]) {
			continue
		}
		for k := from; k < i; k++ {
			if n := strings.IndexByte(lettersForDigits, out[k]); n >= 0 {
				out[k], ok = digitsForLetters[n], true
			}
		}
	}
	return string(out), ok
}

func letter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// undoExchanged exchanges the figure with the same figure of another row.
func undoExchanged(u *undoing) {
	if u.i > 0 {
		return // a row is exchanged whole
	}
	var others []schema.Path
	for _, s := range u.b.figures {
		if (sameColumn(s.path, u.path) || sameRow(s.path, u.path)) && len(s.figure.Values) == len(u.f.Values) {
			others = append(others, s.path)
		}
	}
	for _, p := range others {
		f := u.b.Figure(p)
		c := Candidate{Kind: u.kind, Path: u.path, Reads: f.Text(), share: 1 / float64(len(others)),
			because: "its text stands at " + p.String() + ", and its own fits there"}
		for i := range f.Values {
			c.Edits = append(c.Edits, Edit{u.path, i, f.Values[i].Text}, Edit{p, i, u.f.Values[i].Text})
		}
		if f.Text() != u.f.Text() {
			u.out = append(u.out, c)
		}
	}
}

// sameColumn reports two paths that differ in the number of one item only.
func sameColumn(a, b schema.Path) bool {
	if a.Len() != b.Len() || a == b {
		return false
	}
	differ := 0
	for i := range a.Len() {
		x, n := a.Step(i)
		y, m := b.Step(i)
		switch {
		case x != y:
			return false
		case n != m:
			differ++
		}
	}
	return differ == 1
}

// sameRow reports the two ends of one row.
func sameRow(a, b schema.Path) bool {
	if a == b || a.Len() != b.Len() || a.Parent() != b.Parent() {
		return false
	}
	x, _ := a.Step(a.Len() - 1)
	y, _ := b.Step(b.Len() - 1)
	switch x + " " + y {
	case "low high", "high low", "from to", "to from":
		return true
	}
	return false
}
