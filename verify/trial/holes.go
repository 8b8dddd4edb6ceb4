package trial

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/slip"
)

// Hole is a record that slips pass through.
type Hole struct {
	File, Record, Pointer string
	Planted, Passed       int
	Example               Example
	Add                   []Addition // what closes it, best first
}

// Example is a slip that passed.
type Example struct {
	Kind, Was, Reads string
}

// Addition is something to add to a record, and how many of the slips that
// passed are caught then.
type Addition struct {
	What   string
	Closes int
}

// mostHoles is how many records are told of.
const mostHoles = 20

// holes lists the records that slips pass through, worst first, and tries what
// would close each.
func (t *trial) holes() []Hole {
	open := slices.DeleteFunc(slices.Clone(t.records), func(s *subject) bool { return len(s.through) == 0 })
	slices.SortStableFunc(open, func(a, b *subject) int {
		return cmp.Or(
			cmp.Compare(len(b.through)*a.planted, len(a.through)*b.planted),
			cmp.Compare(len(b.through), len(a.through)),
			cmp.Compare(a.index, b.index),
		)
	})
	var out []Hole
	for _, s := range open[:min(len(open), mostHoles)] {
		h := Hole{
			File: s.entry.File, Record: s.entry.Record.ID, Pointer: s.entry.Pointer,
			Planted: s.planted, Passed: len(s.through), Example: example(s),
		}
		last := ""
		for _, a := range additions(s) {
			switch n := t.closes(s, a); {
			case n == 0:
			case a.kind == last: // tried with another value before
				if x := &h.Add[len(h.Add)-1]; n > x.Closes {
					*x = Addition{a.what, n}
				}
			default:
				h.Add, last = append(h.Add, Addition{a.what, n}), a.kind
			}
		}
		slices.SortStableFunc(h.Add, func(a, b Addition) int { return cmp.Compare(b.Closes, a.Closes) })
		out = append(out, h)
	}
	return out
}

// example is the slip that passed and does the most harm: the greatest change.
func example(s *subject) Example {
	var out Example
	most := -1.0
	for _, p := range s.through {
		reads := p.edits[0].Text
		if x := harm(s.bench, p); x > most {
			most, out = x, Example{p.kind.Name, p.was[0], reads}
		}
	}
	return out
}

func harm(b *slip.Bench, p plant) float64 {
	if p.value < 0 {
		return 0
	}
	was, problem := b.Parse(p.path, p.was[0])
	is, problem2 := b.Parse(p.path, p.edits[0].Text)
	if problem != nil || problem2 != nil || was.Nominal() <= 0 || is.Nominal() <= 0 {
		return 0
	}
	r := is.Nominal() / was.Nominal()
	return max(r, 1/r)
}

// addition is something that a record could say, made on a copy of it.
type addition struct {
	kind string // those of one kind are tried one after the other
	what string
	make func(r *schema.Record)
}

// additions lists what a record leaves out, with values that the record, as it
// is, goes with.
func additions(s *subject) []addition {
	var out []addition
	r := s.entry.Record
	if what := inTwo(s.bench); what != "" {
		out = append(out, addition{"unit", what + " in a second unit, if the source prints one", nil})
	}
	if coil := secondTemperature(r); coil != nil {
		out = append(out, addition{"row", "the resistance at a second temperature, if the source prints one (tried with copper 60 K warmer)", coil})
	}
	if r.Kind != schema.KindTorque {
		return out
	}
	items := r.Fasteners.Items
	has := func(text func(*schema.Fastener) string) bool {
		return len(items) > 0 && !slices.ContainsFunc(items, func(f schema.Fastener) bool { return text(&f) == "" })
	}
	each := func(r *schema.Record, set func(*schema.Fastener)) {
		for i := range r.Fasteners.Items {
			set(&r.Fasteners.Items[i])
		}
	}
	if has(func(f *schema.Fastener) string { return f.Thread }) {
		if !has(func(f *schema.Fastener) string { return f.Type }) {
			out = append(out, addition{"type", "the type of the fastener", func(r *schema.Record) {
				each(r, func(f *schema.Fastener) { f.Type = cmp.Or(f.Type, "screw") })
			}})
		}
		if !has(func(f *schema.Fastener) string { return f.Class }) {
			for _, class := range []string{"8.8", "SAE 5", "8"} {
				out = append(out, addition{"class", "the class (tried with " + class + ")", func(r *schema.Record) {
					each(r, func(f *schema.Fastener) {
						f.Class = cmp.Or(f.Class, class)
						f.Type = cmp.Or(f.Type, "screw")
					})
				}})
			}
		}
		if r.Joint.Into == "" && r.Joint.Engagement.IsZero() {
			out = append(out, addition{"engagement", "what it is screwed into, and the engagement (tried with cast aluminium, 1.5 diameters)", func(r *schema.Record) {
				r.Joint.Into = "cast aluminium"
				t, problem := reference.ParseThread(r.Fasteners.Items[0].Thread)
				if problem != nil || t.D <= 0 {
					return
				}
				text := convert.FromFloat(t.D*1.5/1000, mm(), 2).String()
				r.Joint.Engagement = schema.Figure{Values: []convert.Value{{Text: text}}}
			}})
		} else if r.Joint.Engagement.IsZero() {
			out = append(out, addition{"engagement", "the engagement (tried with 1.5 diameters)", func(r *schema.Record) {
				t, problem := reference.ParseThread(r.Fasteners.Items[0].Thread)
				if problem != nil || t.D <= 0 {
					return
				}
				text := convert.FromFloat(t.D*1.5/1000, mm(), 2).String()
				r.Joint.Engagement = schema.Figure{Values: []convert.Value{{Text: text}}}
			}})
		}
	} else {
		out = append(out, addition{"thread", "the thread and class (tried with the size that the torque fits best, 8.8)", fitThread})
	}
	return out
}

// inTwo names the figures of a record that are also printed in a second unit
// somewhere; "" when there are none. Nobody prints ohms or volts in two.
func inTwo(b *slip.Bench) string {
	var names []string
	all := true
	for _, p := range b.Paths() {
		f := b.Figure(p)
		if secondUnit(f) == "" {
			all = all && len(f.Values) > 1
			continue
		}
		q, _ := f.Quantity()
		if n := q.Unit.Dimension().String(); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	switch {
	case len(names) == 0:
		return ""
	case all:
		return "the figures"
	}
	return "the " + strings.Join(names, " and the ")
}

// secondTemperature gives a coil of one resistance that of a warmer one; nil for
// any other record. Copper gains 0.00393 of its resistance at 20 °C a kelvin (IEC
// 60028).
func secondTemperature(r *schema.Record) func(*schema.Record) {
	if r.Of != "coil resistance" || len(r.Rows) != 1 {
		return nil
	}
	row := r.Rows[0]
	cold, ok := row.At.Temperature.Quantity()
	q, ok2 := row.Figure.Quantity()
	if !ok || !ok2 || len(row.Figure.Values) != 1 || cold.Form != convert.Single {
		return nil
	}
	const alpha, more = 0.00393, 60
	c := cold.Nominal() - 273.15
	factor := (1 + alpha*(c+more-20)) / (1 + alpha*(c-20))
	lo, hi := q.Bounds()
	text := convert.FromFloat(lo*factor, q.Unit, 3).String()
	if lo < hi && !math.IsInf(hi, 0) && lo > 0 {
		text = convert.FromFloat(lo*factor, q.Unit, 3).First.String() + " to " + convert.FromFloat(hi*factor, q.Unit, 3).String()
	}
	return func(r *schema.Record) {
		warm := r.Rows[0]
		warm.Figure = schema.Figure{Values: []convert.Value{{Text: text}}}
		warm.At.Temperature = schema.Figure{Values: []convert.Value{{Text: fmt.Sprintf("%.0f °C", c+more)}}}
		r.Rows = append(slices.Clone(r.Rows), warm)
	}
}

func mm() convert.Unit {
	u, _ := convert.UnitBySymbol("mm")
	return u
}

// fitThread gives a record the coarse metric screw of class 8.8 that its last
// torque suits: some 0.2 of proof stress, stress area and diameter.
func fitThread(r *schema.Record) {
	nm := 0.0
	for i := range r.Tighten {
		if q, ok := r.Tighten[i].To.Quantity(); ok {
			nm = q.Nominal()
		}
	}
	best, off := "", 0.0
	for _, size := range []struct {
		thread string
		nm     float64 // VDI 2230-1 table for 8.8 and 0.12, rounded; only the order counts
	}{{"M3x0.5", 1.2}, {"M4x0.7", 2.8}, {"M5x0.8", 5.5}, {"M6x1", 9.5}, {"M8x1.25", 23}, {"M10x1.5", 46}, {"M12x1.75", 79}, {"M16x2", 195}, {"M20x2.5", 390}, {"M24x3", 670}} {
		x := max(size.nm/nm, nm/size.nm)
		if best == "" || x < off {
			best, off = size.thread, x
		}
	}
	if len(r.Fasteners.Items) == 0 {
		r.Fasteners.Items = []schema.Fastener{{}}
	}
	for i := range r.Fasteners.Items {
		f := &r.Fasteners.Items[i]
		f.Thread, f.Class, f.Type = cmp.Or(f.Thread, best), cmp.Or(f.Class, "8.8"), cmp.Or(f.Type, "screw")
	}
}

// The unit that a figure is given in beside its own.
var beside = map[string]string{
	"N·m": "lbf·ft", "lbf·ft": "N·m", "lbf·in": "N·m", "kgf·m": "N·m", "kgf·cm": "N·m",
	"mm": "in", "in": "mm", "L": "US qt", "mL": "US fl oz", "US qt": "L", "imp qt": "L", "US gal": "L", "imp gal": "L",
	"bar": "psi", "psi": "bar", "kPa": "psi", "MPa": "psi", "kgf/cm²": "psi",
	"°C": "°F", "°F": "°C", "N": "lbf", "lbf": "N", "kgf": "N", "L/min": "US gpm",
}

// secondUnit is a unit that a figure of one value could also be given in.
func secondUnit(f *schema.Figure) string {
	if f == nil || len(f.Values) != 1 || !f.Values[0].Read() || f.Values[0].Quantity.Form == convert.Tolerance {
		return ""
	}
	return beside[f.Values[0].Quantity.Unit.Symbol()]
}

// closes counts the slips that passed and are caught with an addition made; 0
// when the record does not go with it.
func (t *trial) closes(s *subject, a addition) int {
	if a.make == nil {
		return t.closesInTwo(s)
	}
	with := s.bench.Copy()
	a.make(with.Record)
	with = slip.NewBench(with.Record, with.Decimal())
	with.Record.ReadFigures(with.Decimal())
	e := s.entry
	e.Record = with.Record
	for _, f := range t.judge(&e) {
		if !s.known[keyOf(f)] {
			return 0
		}
	}
	n := 0
	for _, p := range s.through {
		with.Set(p.edits)
		if t.judgePlanted(s, with, p).caught {
			n++
		}
		with.Reset()
	}
	return n
}

// closesInTwo counts them with each figure printed in a second unit too.
func (t *trial) closesInTwo(s *subject) int {
	n := 0
	for _, p := range s.through {
		if p.value != 0 || len(p.edits) != 1 {
			continue
		}
		f := s.bench.Figure(p.path)
		symbol := secondUnit(f)
		if symbol == "" {
			continue
		}
		q := f.Values[0].Quantity
		u, problem := convert.ReadUnit(symbol, convert.Of(q.Unit.Dimension()))
		if problem != nil {
			continue
		}
		second, err := q.To(u, false)
		if err != nil {
			continue
		}
		with := s.bench.Copy()
		g := with.Figure(p.path)
		g.Values = append(slices.Clone(g.Values), convert.Value{Text: second.Quantity.String(), Quantity: second.Quantity})
		g.List = true
		with.Set(p.edits)
		if t.judgePlanted(s, with, p).caught {
			n++
		}
	}
	return n
}
