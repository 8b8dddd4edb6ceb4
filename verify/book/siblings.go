package book

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// sibling is the torque of one fastener as its siblings see it.
type sibling struct {
	place  rule.Place
	thread string // designation: M8x1.25
	read   string // the figure as authored
	also   string // its other values, parted by alsoMark
	unit   convert.Unit
	column string // what is said of it but for its size
	named  bool   // its class is in the tables
	doubt  bool   // a check of the record speaks of it: it has siblings, and is none
	d, p   float64
	area   float64 // stress area, mm²
	nm     float64 // the figure: its middle, N·m
	slack  float64 // half its last digit, as a difference of logarithms
	norm   float64 // d As Re: what torque goes with
}

// ratio is the logarithm of torque over d As Re: of K times the share of the
// yield that is used.
func (s *sibling) ratio() float64 { return math.Log(s.nm / s.norm) }

// firstOrder and a diameter in µm have as many digits as any other.
const firstOrder = 100_000_000

// Marks that stand in no text of a spec file.
const (
	fieldMark = "\x1f"
	alsoMark  = "\x1e"
)

// emitSiblings emits the final torque of each fastener whose thread, strength
// and joint can be compared. Figures outside their band are no good siblings, but
// the line tells what was meant by them; unless somebody has answered for them.
// Those that contradict themselves are left out.
func emitSiblings(p *rule.Pass, emit func(rule.Row)) {
	r := p.Record
	if r == nil || p.Entry.Lost || r.Kind != schema.KindTorque {
		return
	}
	for k := range r.Tighten {
		fastener, ok := fastenerOf(r, k)
		if !ok {
			continue
		}
		figure := &r.Tighten[k].To
		v, n, ok := figure.First()
		if !ok || disagree(figure) {
			continue
		}
		w := joint.WordsOf(r, fastener)
		known, ok := joint.Known(w)
		if !ok {
			continue
		}
		doubt := known.BandIn(r).Side(v, joint.Final) != "" || v.Quantity.Form == convert.Range && !v.Quantity.Ordered()
		if doubt && answeredFor(r, schema.At("tighten", k, "to")) {
			continue
		}
		s, ok := siblingOf(known, v)
		if !ok {
			continue
		}
		s.column, s.doubt = columnOf(r.Where, w.Thread), doubt
		s.also = alsoOf(figure, n)
		emit(rule.Row{
			Group:   groupOf(p, &w, &v.Quantity),
			Order:   strconv.Itoa(firstOrder + int(math.Round(s.d*1000))),
			Place:   p.Place(rule.NumberAt(figure, schema.At("tighten", k, "to"), n)),
			Payload: s.encode(),
		})
	}
}

// answeredFor reports that somebody has answered a query on a figure.
func answeredFor(r *schema.Record, at schema.Path) bool {
	return slices.ContainsFunc(r.Answers, func(a schema.Answer) bool {
		return a.Figure == at.String() || strings.HasPrefix(a.Figure, at.String()+"/")
	})
}

// alsoOf are the other values of a figure than n, as authored.
func alsoOf(f *schema.Figure, n int) string {
	var also []string
	for i := range f.Values {
		if i != n && f.Values[i].Read() {
			also = append(also, f.Values[i].Text)
		}
	}
	return strings.Join(also, alsoMark)
}

// fastenerOf is the fastener for which step k is the final torque; not ok where
// there is none, or the figure is for fasteners that differ.
func fastenerOf(r *schema.Record, k int) (fastener int, ok bool) {
	for i := range r.Fasteners.Items {
		if r.Tighten[k].To.IsZero() || joint.RoleOf(r, i, k) != joint.Final {
			continue
		}
		a, b := &r.Fasteners.Items[i], &r.Fasteners.Items[fastener]
		if ok && (a.Thread != b.Thread || a.Class != b.Class || a.Type != b.Type) {
			return 0, false
		}
		if !ok {
			fastener, ok = i, true
		}
	}
	return fastener, ok
}

// disagree reports whether the values of a figure contradict each other.
func disagree(f *schema.Figure) bool {
	for i := 1; i < len(f.Values); i++ {
		a, b := &f.Values[0], &f.Values[i]
		if a.Read() && b.Read() && convert.Agree(a.Quantity, b.Quantity).Outcome == convert.Disagree {
			return true
		}
	}
	return false
}

func siblingOf(known *joint.Judged, v *convert.Value) (sibling, bool) {
	f := &known.Facts
	if v.Quantity.Unit.Dimension() != convert.Torque || v.Quantity.Form == convert.Tolerance {
		return sibling{}, false
	}
	// Of a size without its pitch the coarse thread is taken, for all alike.
	t := f.Threads[0]
	for _, c := range f.Threads {
		if c.Pitch > t.Pitch {
			t = c
		}
	}
	s := sibling{
		thread: f.Thread.Text, read: v.Text, unit: v.Quantity.Unit,
		d: t.D, p: t.Pitch, area: joint.ScrewOf(t).StressAreaMM2, nm: v.Quantity.Nominal(),
	}
	if f.Thread.PitchGiven {
		s.thread = f.Thread.Designation
	}
	strength := 1.0
	for i, row := range f.Strengths {
		x := row.Yield
		if row.Part == "nut" {
			x = row.Proof
		}
		if i == 0 || x < strength {
			strength = x
		}
		s.named = true
	}
	s.norm = s.d * s.area * strength / 1000
	if lo, hi, ok := joint.Ends(v); ok && v.Quantity.Form == convert.Single && lo > 0 {
		s.slack = math.Log(hi/lo) / 2
	}
	return s, s.nm > 0 && s.norm > 0 && !math.IsInf(s.ratio(), 0)
}

// groupOf names what siblings have in common: machine, document, what is turned,
// class, and all of the joint that bears on its torque.
func groupOf(p *rule.Pass, w *joint.Words, q *convert.Quantity) string {
	r := p.Record
	source, _ := p.Head.SourceOf(r.Source)
	return strings.Join([]string{
		p.Head.Machine.ID, source.Title, source.Edition, r.Source.Ref,
		w.Type, strings.ToLower(strings.TrimSpace(w.Class)), conditionOf(r, w, q),
	}, fieldMark)
}

// conditionOf is all of a joint but its fastener that bears on its torque, and
// whether that is a limit.
func conditionOf(r *schema.Record, w *joint.Words, q *convert.Quantity) string {
	head := w.Head
	switch head {
	case "hex", "hex flange", "socket cap", "hexalobular":
		head = "" // tightened alike
	}
	friction := ""
	if w.FrictionHi > 0 {
		friction = r.Joint.Friction.Text()
	}
	locks := "-"
	if !r.Prevailing.Torque.IsZero() || r.Prevailing.Included != nil {
		_, included := joint.RunningTorque(r)
		locks = strconv.FormatBool(included)
	}
	limit := "-"
	switch q.Form {
	case convert.AtMost:
		limit = "max"
	case convert.AtLeast:
		limit = "min"
	}
	insert := "-"
	if w.Insert != "" {
		insert = "insert"
	}
	return strings.Join([]string{head, w.Threads, friction, w.Into, w.Seal, insert, locks, limit}, fieldMark)
}

// columnOf is what a record says of its place but for the size: rows of a table
// say the same, joints of a machine do not. The digit of a class may stand in a
// size too (SAE 5, 5/8-11): only what is the size as a whole is left out.
func columnOf(where, thread string) string {
	sizes := strings.Fields(strings.ToLower(thread))
	b := make([]byte, 0, len(where))
	before := ""
	for w := range strings.FieldsSeq(strings.ToLower(where)) {
		bare := strings.Trim(w, ",;:()")
		switch bare {
		case "in", "in.", "fine", "coarse", "and", "unc", "unf":
			continue
		}
		size := bare != "" && slices.ContainsFunc(sizes, func(s string) bool { return sizeIn(s, bare) })
		if size && numbered(before) {
			size = strings.Trim(bare, "0123456789") != ""
		}
		before = w
		if size {
			continue
		}
		if len(b) > 0 {
			b = append(b, ' ')
		}
		b = append(b, w...)
	}
	return string(b)
}

// sizeIn reports that a word with a digit is a thread, or one of its parts: M8 or
// 1.25 of M8x1.25, 5/8 or 11 of 5/8-11, but not 5.
func sizeIn(thread, word string) bool {
	if !strings.ContainsAny(word, "0123456789") {
		return false
	}
	if rest, ok := strings.CutPrefix(thread, word); ok && (rest == "" || strings.ContainsRune("-x×", []rune(rest)[0])) {
		return true
	}
	front, ok := strings.CutSuffix(thread, word)
	return ok && (strings.HasSuffix(front, "-") || strings.HasSuffix(front, "x") || strings.HasSuffix(front, "×") || front == "m")
}

// numbered reports a word after which a bare number is no size: SAE 8, table 20.
func numbered(word string) bool {
	switch word {
	case "sae", "grade", "gr", "gr.", "class", "property", "or", "table", "chart", "figure", "fig.", "page", "step", "type", "row":
		return true
	}
	return false
}

func (s *sibling) encode() string {
	b := make([]byte, 0, 160)
	for _, text := range []string{s.thread, s.read, s.also, s.unit.Symbol(), s.column, strconv.FormatBool(s.named), strconv.FormatBool(s.doubt)} {
		b = append(append(b, text...), fieldMark...)
	}
	for i, x := range []float64{s.d, s.p, s.area, s.nm, s.slack, s.norm} {
		if i > 0 {
			b = append(b, fieldMark...)
		}
		b = strconv.AppendFloat(b, x, 'g', -1, 64)
	}
	return string(b)
}

func decodeSibling(row *rule.Row) (s sibling, ok bool) {
	parts := strings.Split(row.Payload, fieldMark)
	if len(parts) != 13 {
		return sibling{}, false
	}
	s = sibling{
		place: row.Place, thread: parts[0], read: parts[1], also: parts[2], column: parts[4],
		named: parts[5] == "true", doubt: parts[6] == "true",
	}
	if s.unit, ok = convert.UnitBySymbol(parts[3]); !ok {
		return sibling{}, false
	}
	for i, to := range []*float64{&s.d, &s.p, &s.area, &s.nm, &s.slack, &s.norm} {
		x, err := strconv.ParseFloat(parts[7+i], 64)
		if err != nil {
			return sibling{}, false
		}
		*to = x
	}
	return s, true
}
