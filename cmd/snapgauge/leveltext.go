package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/fluid"
)

// levelPage is what level prints of one record.
type levelPage struct {
	entry   schema.Entry
	t       convert.Quantity // the temperature that was asked for
	queries []string         // what the checks ask about this level
	b       strings.Builder
}

// write tells the level itself. A temperature of which the record says nothing
// is an error.
func (p *levelPage) write() error {
	r := p.entry.Record
	fmt.Fprintf(&p.b, "%s: %s of %s\n", r.ID, r.Where, p.entry.Head.Machine.Name)
	fmt.Fprintf(&p.b, "%s\n\n", p.temperature())
	for _, q := range p.queries {
		fmt.Fprintf(&p.b, "a person must look first: %s\n\n", q)
	}
	switch l := &r.Level; {
	case len(l.Points) > 0:
		return p.table(l)
	case len(l.Marks) > 0:
		return p.marks(l)
	}
	return p.window(&r.Level)
}

// temperature is the asked one in both units.
func (p *levelPage) temperature() string {
	text := "at " + p.t.String()
	if c, ok := counterpart(p.t, false); ok {
		text += " (" + c.String() + ", converted)"
	}
	return text
}

// counterpart is a figure in the unit that the trade prints beside its own.
func counterpart(q convert.Quantity, limits bool) (convert.Quantity, bool) {
	d := q.Unit.Dimension()
	beside := map[string]string{"°C": "°F", "°F": "°C", "mm": "in", "in": "mm", "L": "US qt", "US qt": "L"}[q.Unit.Symbol()]
	if beside == "" {
		beside = counterparts[d][0]
	}
	u, ok := unitOf(beside, d)
	if !ok {
		return convert.Quantity{}, false
	}
	c, err := q.To(u, limits)
	return c.Quantity, err == nil
}

// table tells low and high by the level table.
func (p *levelPage) table(l *schema.Level) error {
	points, dim := fluid.PointsOf(l)
	tC := celsius(p.t.Nominal())
	low, high, err := fluid.At(points, tC)
	var outside *fluid.OutsideError
	switch {
	case errors.As(err, &outside):
		from, to := p.limit(l, outside.FromC), p.limit(l, outside.ToC)
		limits := "from " + from + " to " + to
		switch {
		case math.IsInf(outside.FromC, 0):
			limits = "up to " + to
		case math.IsInf(outside.ToC, 0):
			limits = "from " + from + " up"
		case from == to:
			limits = "at " + from + " only"
		}
		return fmt.Errorf("the record gives the level %s and says nothing of %s; nothing is drawn beyond its table", limits, p.t)
	case err != nil:
		return fmt.Errorf("%s: %w", p.entry.Record.ID, err)
	}
	u := levelUnit(l, dim)
	bounds, err := inward(low, high, u, step(l, u))
	if err != nil {
		return fmt.Errorf("%s: %w", p.entry.Record.ID, err)
	}
	p.bound(bounds, low, high)
	beside := "as printed"
	if !printedAt(points, tC) {
		beside = "on the straight line between the points beside it, bounds rounded inwards"
	}
	fmt.Fprintf(&p.b, "  (%s)\n\n", beside)
	p.chart(points, tC, u)
	p.b.WriteByte('\n')
	for i := range l.Marks {
		if m := &l.Marks[i]; holds(&m.At, p.t) {
			fmt.Fprintf(&p.b, "the mark that holds: %s\n", m.Mark)
		}
	}
	for i := range l.Points {
		pt := &l.Points[i]
		fmt.Fprintf(&p.b, "printed: at %s low %s, high %s\n", texts(&pt.At), texts(&pt.Low), texts(&pt.High))
	}
	return nil
}

// bound prints low and high in the unit of the table and in its counterpart.
func (p *levelPage) bound(q convert.Quantity, low, high fluid.Interval) {
	lowest, highest := q, q
	lowest.Form, highest.Form = convert.AtLeast, convert.AtMost
	one := func(name string, known bool, q convert.Quantity) {
		if !known {
			fmt.Fprintf(&p.b, "  %-5s not given at this temperature\n", name)
			return
		}
		fmt.Fprintf(&p.b, "  %-5s %s", name, single(q))
		if c, ok := counterpart(q, true); ok {
			fmt.Fprintf(&p.b, "  (%s, converted)", single(c))
		}
		p.b.WriteByte('\n')
	}
	one("low", low.Known(), lowest)
	one("high", high.Known(), highest)
}

// single drops the min and max of a limit: the row says which it is.
func single(q convert.Quantity) string {
	if q.Form == convert.AtMost {
		q.First = q.Second
	}
	q.Form = convert.Single
	return q.String()
}

// celsius goes from K to °C as package fluid does, so that a printed
// temperature is found in the table.
func celsius(k float64) float64 { return math.Round((k-273.15)*1e6) / 1e6 }

// limit is an end of the table as it is printed.
func (p *levelPage) limit(l *schema.Level, tC float64) string {
	for i := range l.Points {
		q, ok := l.Points[i].At.Quantity()
		if !ok {
			continue
		}
		lo, hi := q.Bounds()
		switch end := q; {
		case q.Form == convert.Single && celsius(lo) == tC:
			return q.String()
		case q.Form != convert.Range && q.Form != convert.AtLeast && q.Form != convert.AtMost:
		case celsius(lo) == tC:
			end.Form = convert.Single
			return end.String()
		case celsius(hi) == tC:
			end.Form, end.First = convert.Single, q.Second
			return end.String()
		}
	}
	return fmt.Sprintf("%g °C", tC)
}

// levelUnit is the unit of the first level of that dimension.
func levelUnit(l *schema.Level, dim convert.Dimension) convert.Unit {
	for _, f := range levelFigures(l) {
		if q, ok := f.Quantity(); ok && q.Unit.Dimension() == dim {
			return q.Unit
		}
	}
	return dim.SI()
}

// step is the coarsest last digit of the levels that are printed in a unit.
func step(l *schema.Level, u convert.Unit) float64 {
	coarse := 0.0
	for _, f := range levelFigures(l) {
		q, ok := f.Quantity()
		if !ok || q.Unit != u {
			continue
		}
		d := q.First
		if q.Form == convert.AtMost {
			d = q.Second
		}
		x, _ := d.Step().Float64()
		coarse = max(coarse, x)
	}
	if coarse == 0 {
		return 0.1
	}
	return coarse
}

func levelFigures(l *schema.Level) []*schema.Figure {
	var out []*schema.Figure
	for i := range l.Points {
		out = append(out, &l.Points[i].Low, &l.Points[i].High)
	}
	return out
}

// inward rounds low up and high down to the last digit that is printed in the
// table, or to a finer one where the room between them would close. Ends are in
// mm or litres, a thousandth of the SI unit.
func inward(low, high fluid.Interval, u convert.Unit, step float64) (convert.Quantity, error) {
	a, b := math.Inf(-1), math.Inf(1)
	if low.Known() {
		a = u.FromSI(low.Hi / 1000)
	}
	if high.Known() {
		b = u.FromSI(high.Lo / 1000)
	}
	if a > b {
		return convert.Quantity{}, fmt.Errorf("low is above high at this temperature: %w", fluid.ErrTable)
	}
	exp := int32(math.Floor(math.Log10(step) + 1e-9))
	for range 4 {
		unit := math.Pow(10, float64(exp))
		const slack = 1e-7 // of a step: the noise of binary arithmetic
		lo, hi := math.Ceil(a/unit-slack), math.Floor(b/unit+slack)
		if lo <= hi || math.IsInf(a, 0) || math.IsInf(b, 0) {
			return convert.Quantity{Form: convert.Range, First: decimal(lo, exp), Second: decimal(hi, exp), Unit: u}, nil
		}
		exp--
	}
	return convert.Quantity{}, fmt.Errorf("low and high leave no room between them: %w", fluid.ErrTable)
}

func decimal(mant float64, exp int32) convert.Decimal {
	if math.IsInf(mant, 0) {
		return convert.Decimal{}
	}
	if exp > 0 {
		mant, exp = mant*math.Pow(10, float64(exp)), 0
	}
	return convert.Decimal{Mant: int64(math.Round(mant)), Exp: exp}
}

func printedAt(points []fluid.Point, tC float64) bool {
	for _, p := range points {
		if p.TC.Lo <= tC && tC <= p.TC.Hi {
			return true
		}
	}
	return false
}

// texts are the texts of a figure as authored, a misprint marked.
func texts(f *schema.Figure) string {
	var out []string
	for i := range f.Values {
		out = append(out, f.Values[i].Text)
	}
	switch {
	case len(out) == 0:
		return "not given"
	case f.Misprint:
		return strings.Join(out, ", ") + " (a misprint, see below)"
	}
	return strings.Join(out, ", ")
}

// marks tells which mark holds.
func (p *levelPage) marks(l *schema.Level) error {
	var given []string
	found := false
	for i := range l.Marks {
		m := &l.Marks[i]
		given = append(given, texts(&m.At))
		if m.At.IsZero() || holds(&m.At, p.t) {
			found = true
			fmt.Fprintf(&p.b, "  the mark that holds: %s\n", m.Mark)
		}
	}
	if !found {
		return fmt.Errorf("the record gives marks for %s, and none for %s; nothing is drawn between marks", strings.Join(given, " and for "), p.t)
	}
	p.b.WriteByte('\n')
	p.windows(l)
	return nil
}

// window tells the sign of a plug, where the temperature is within its window.
func (p *levelPage) window(l *schema.Level) error {
	switch {
	case l.At.IsZero():
		p.b.WriteString("  the record names no temperature for this level\n")
	case !holds(&l.At, p.t):
		return fmt.Errorf("%s is outside the window in which this level is read, %s", p.t, texts(&l.At))
	default:
		fmt.Fprintf(&p.b, "  inside the window of %s\n", texts(&l.At))
	}
	if l.Sign == "" {
		p.b.WriteString("  the sign to look for is not stated\n")
	} else {
		fmt.Fprintf(&p.b, "  the level is right when: %s\n", l.Sign)
	}
	p.b.WriteByte('\n')
	p.windows(l)
	return nil
}

// holds reports that a temperature lies in a figure as printed, ends inclusive.
func holds(f *schema.Figure, t convert.Quantity) bool {
	q, ok := f.Quantity()
	if !ok {
		return false
	}
	lo, hi := q.Bounds()
	const noise = 1e-6 // K
	x := t.Nominal()
	return lo-noise <= x && x <= hi+noise
}

// reading tells how the level is read, who says so and what to mind.
func (p *levelPage) reading(book []schema.Entry) {
	r, l := p.entry.Record, &p.entry.Record.Level
	line := func(name, text string) {
		if text == "" {
			text = "not stated"
		}
		p.b.WriteString(pad(name, 12) + text + "\n")
	}
	p.b.WriteString("\nhow it is read\n")
	line("  by", l.By)
	line("  engine", figureText(&l.Engine))
	line("  selector", l.Selector)
	line("  ground", l.Ground)
	line("  wait", figureText(&l.After))
	if !l.BetweenMarks.IsZero() {
		line("  between", "low and high lie "+texts(&l.BetweenMarks))
	}
	p.b.WriteByte('\n')
	if len(r.Applies) > 0 {
		var boxes []string
		for _, b := range r.Applies {
			boxes = append(boxes, b.String())
		}
		fmt.Fprintf(&p.b, "applies to %s\n", strings.Join(boxes, "; or "))
	}
	for _, e := range book {
		if !e.HeadOnly && !e.Lost && e.Record.Supersedes == r.ID && e.Head.Machine.ID == p.entry.Head.Machine.ID {
			fmt.Fprintf(&p.b, "superseded by %s: see there\n", e.Record.ID)
		}
	}
	if m := &r.Misprint; m.Printed != "" {
		fmt.Fprintf(&p.b, "misprint: the source prints %s; used is %s, because %s\n", m.Printed, texts(&m.Use), m.Because)
	}
	fmt.Fprintf(&p.b, "source: %s\n", sourceText(p.entry.Head, r.Source))
	for _, id := range r.Caution {
		if c, ok := reference.CautionByID(id); ok {
			p.b.WriteString(wrap(strings.ToLower(c.Signal)+": "+c.Text, "", 79))
		} else {
			fmt.Fprintf(&p.b, "caution: %s\n", id)
		}
	}
}

// figureText is the first text of a figure and what stands beside it; "" where
// it is absent.
func figureText(f *schema.Figure) string {
	if f.IsZero() {
		return ""
	}
	return texts(f)
}

// sourceText names the document of a record, its edition and place.
func sourceText(h *schema.Head, s schema.Source) string {
	d, ok := h.SourceOf(s)
	if !ok {
		return "not declared"
	}
	var parts []string
	for _, t := range []string{d.Title, d.Edition, s.At} {
		if t != "" {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, ", ")
}
