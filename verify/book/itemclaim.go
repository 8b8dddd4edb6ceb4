package book

import (
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// claim is what a record says of its item, as far as another record of the
// item can contradict it. It travels as the payload of a row.
type claim struct {
	ID         string
	Named      bool // the item is written, and not taken from the id
	Kind       string
	Supersedes string
	Unclear    bool // what it applies to could not be read
	None       bool // it says that no figure is published
	Boxes      []schema.Box
	Comma      bool   // decimal mark of its texts
	Steps      string // the acts of tightening, without their figures
	Facts      []fact
	Final      int               // the fact that is the last torque or angle; -1 for none
	place      rule.Place        // of the record
	read       [][]convert.Value // of the facts, once asked for
}

// fact is one figure. Facts of two records that have the same key speak of the
// same thing.
type fact struct {
	Key   string
	Texts []string
	Want  convert.Dimensions
	At    string      // pointer within the record
	Span  schema.Span // of the first text, where it was asked for
	Soft  bool        // stands for a circumstance: two may differ and both be right
	Word  bool
}

// claimOf collects what a record says. Places are looked up where records are
// likely to meet: a record that bears its own item, applies everywhere and
// replaces none has the place of its first figure only.
func claimOf(p *rule.Pass) *claim {
	r := p.Record
	c := &claim{
		ID: r.ID, Named: r.Item != "", Kind: r.Kind, Supersedes: r.Supersedes,
		Comma: p.Head.Decimal == "comma", Final: -1, None: r.Unpublished != (schema.Unpublished{}),
	}
	c.Boxes, c.Unclear = boxesOf(p)
	last := c.steps(r)
	plain := r.Item == "" && len(r.Applies) == 0 && r.Supersedes == ""
	keys := keyer{r: r}
	for _, placed := range p.Figures() {
		path, f := placed.Path, placed.Figure
		key, soft := keys.of(path)
		if key == "" {
			continue
		}
		x := fact{Key: key, Want: f.Want, Soft: soft, Word: f.Word, At: f.At(path, 0).String(), Texts: make([]string, len(f.Values))}
		for i := range f.Values {
			v := &f.Values[i]
			x.Texts[i] = v.Text
			if f.Misprint && r.Misprint.Is(v.Text) && v.Read() {
				x.Texts[i] = v.Quantity.String()
			}
		}
		if !plain || len(c.Facts) == 0 {
			x.Span = p.Place(rule.NumberAt(f, path, 0)).Span
		}
		if name, _ := path.Step(0); name == "tighten" {
			_, step := path.Step(1)
			if act, _ := path.Step(2); step == last && (act == "to" || act == "turn") {
				c.Final = len(c.Facts)
			}
		}
		c.Facts = append(c.Facts, x)
	}
	return c
}

// steps writes down the acts of tightening and returns the number of the last
// that sets a torque or an angle, -1 for none.
func (c *claim) steps(r *schema.Record) (last int) {
	last = -1
	var b strings.Builder
	for i := range r.Tighten {
		s := &r.Tighten[i]
		act := "other"
		switch {
		case !s.To.IsZero():
			act, last = "to", i
		case !s.Turn.IsZero():
			act, last = "turn", i
		case !s.Loosen.IsZero():
			act = "loosen"
		case !s.Check.IsZero():
			act = "check"
		case !s.Wait.IsZero(), s.Run != "":
			continue // between two acts
		}
		b.WriteString(act)
		if len(s.Only) > 0 {
			b.WriteString(" only " + strings.Join(s.Only, ","))
		}
		if s.Again > 0 {
			b.WriteString(" again " + strconv.Itoa(s.Again))
		}
		b.WriteByte(';')
	}
	c.Steps = b.String()
	return last
}

// keyer names figures by what they are of: not by their number in a list where
// the list says better.
type keyer struct {
	r   *schema.Record
	met map[string]int
}

// of is the key of a figure, "" for one that is a condition of others. Soft
// figures are of circumstances.
func (k *keyer) of(p schema.Path) (key string, soft bool) {
	r := k.r
	first, _ := p.Step(0)
	name, _ := p.Step(p.Len() - 1)
	index := func(i int) int { _, n := p.Step(i); return n }
	switch first {
	case "fastener":
		of := 0
		if r.Fasteners.List {
			of = index(1)
		}
		if key := r.Fasteners.Items[of].Key; key != "" {
			return "fastener " + key + " " + name, false
		}
		return k.numbered("fastener " + name), false
	case "joint":
		return first + " " + name, true
	case "tighten":
		if name == "wait" {
			return "", false
		}
		n := 0 // waits and runs may stand in one source and not in the other
		for i := range index(1) {
			if s := &r.Tighten[i]; s.Wait.IsZero() && s.Run == "" {
				n++
			}
		}
		return "tighten " + strconv.Itoa(n) + " " + name, name == "tolerance"
	case "prevailing":
		return first, false
	case "amounts":
		return k.numbered("amount " + r.Amounts[index(1)].When), false
	case "level":
		return k.level(p, name)
	case "steps":
		return "step " + strconv.Itoa(index(1)) + " of " + strconv.Itoa(len(r.Steps)), false
	case "rows":
		if p.Len() > 3 {
			return "", false // a condition
		}
		at := &r.Rows[index(1)].At
		return k.numbered(strings.Join([]string{r.Of, normal(&at.Speed), normal(&at.Temperature), at.Selector}, "|")), false
	case "select":
		if name == "want" {
			return "select want", false
		}
		return "select " + strconv.Itoa(index(2)) + " of " + strconv.Itoa(len(r.Select.Rows)) + " " + name, false
	case "new", "wear-limit", "size":
		return r.Of + " " + first, false
	}
	return "", false // the misprint: the figure that it is of speaks
}

// level names the figures of a level. Levels read in another way, with the
// engine in another state or at another temperature are other levels.
func (k *keyer) level(p schema.Path, name string) (string, bool) {
	l := &k.r.Level
	way := strings.Join([]string{"level", l.By, normal(&l.Engine), l.Selector}, "|")
	_, i := p.Step(2)
	part, _ := p.Step(1)
	switch part {
	case "engine":
		return "", false
	case "points":
		if name == "at" {
			return "", false
		}
		return way + "|" + normal(&l.Points[i].At) + "|" + name, false
	case "marks":
		return k.numbered(way + "|" + l.Marks[i].Mark), false
	case "after":
		return way + "|after", true
	}
	return way + "|" + part, false
}

// numbered tells figures of one name apart by their turn.
func (k *keyer) numbered(key string) string {
	n := k.met[key]
	if k.met == nil {
		k.met = map[string]int{}
	}
	k.met[key] = n + 1
	if n == 0 {
		return key
	}
	return key + " #" + strconv.Itoa(n+1)
}

// normal is a figure as a condition of others.
func normal(f *schema.Figure) string {
	if q, ok := f.Quantity(); ok {
		return q.String()
	}
	return strings.ToLower(strings.TrimSpace(f.Text()))
}

// boxesOf is what a record applies to, its variants spelt out where the head
// has any; unclear where that could not be read. A box that names nothing that
// the head declares is left out: another check speaks of it.
func boxesOf(p *rule.Pass) (boxes []schema.Box, unclear bool) {
	at := schema.At("applies")
	for _, problem := range p.Entry.Problems {
		unclear = unclear || at.Has(problem.At.Path)
	}
	for _, b := range p.Record.Boxes() {
		if b.Bad() {
			unclear = true
			continue
		}
		if b, ok := declared(p.Head, b); ok {
			boxes = append(boxes, b)
		} else {
			unclear = true
		}
	}
	return boxes, unclear
}

// declared leaves of a box what the head declares; ok is false when it names
// other numberings, or variants and none that there is.
func declared(h *schema.Head, b schema.Box) (schema.Box, bool) {
	b = h.Within(b)
	if len(h.Variants) > 0 {
		b.Variants = slices.DeleteFunc(slices.Clone(b.Variants), func(v string) bool { return !slices.Contains(h.Variants, v) })
		if len(b.Variants) == 0 {
			return b, false
		}
	}
	for _, s := range b.Serials {
		if _, known := h.SerialForm(s.Name); !known && len(h.Serials) > 0 {
			return b, false
		}
	}
	return b, true
}

func (c *claim) encode() string {
	w := payload{make([]byte, 0, 512)}
	w.text(c.ID)
	w.text(c.Kind)
	w.text(c.Supersedes)
	w.text(c.Steps)
	w.flags(c.Named, c.Unclear, c.None, c.Comma)
	w.boxes(c.Boxes)
	w.int(int64(c.Final))
	w.int(int64(len(c.Facts)))
	for i := range c.Facts {
		f := &c.Facts[i]
		w.text(f.Key)
		w.texts(f.Texts)
		w.int(int64(f.Want))
		w.text(f.At)
		for _, at := range []schema.Position{f.Span.Start, f.Span.End} {
			w.int(int64(at.Line))
			w.int(int64(at.Column))
		}
		w.flags(f.Soft, f.Word)
	}
	return string(w.b)
}

func decodeClaim(row *rule.Row) (*claim, bool) {
	r := payloadReader{rest: row.Payload}
	c := &claim{place: row.Place, ID: r.text(), Kind: r.text(), Supersedes: r.text(), Steps: r.text()}
	r.flags(&c.Named, &c.Unclear, &c.None, &c.Comma)
	c.Boxes = r.boxes()
	c.Final = int(r.int())
	for range r.count() {
		f := fact{Key: r.text(), Texts: r.texts(), Want: convert.Dimensions(r.int()), At: r.text()}
		for _, at := range []*schema.Position{&f.Span.Start, &f.Span.End} {
			at.Line, at.Column = int(r.int()), int(r.int())
		}
		r.flags(&f.Soft, &f.Word)
		c.Facts = append(c.Facts, f)
	}
	c.read = make([][]convert.Value, len(c.Facts))
	return c, !r.bad
}

// values reads the texts of a fact again.
func (c *claim) values(i int) []convert.Value {
	if c.read[i] == nil {
		f := &c.Facts[i]
		mark := convert.Point
		if c.Comma {
			mark = convert.Comma
		}
		vs := make([]convert.Value, len(f.Texts))
		for k, text := range f.Texts {
			vs[k].Text = text
			vs[k].Quantity, vs[k].Problem = convert.Parse(text, f.Want, mark)
		}
		convert.Settle(vs)
		c.read[i] = vs
	}
	return c.read[i]
}

// at is the place of a fact, or of the record where it has none of that number.
func (c *claim) at(i int) rule.Place {
	place := c.place
	if i < 0 || i >= len(c.Facts) {
		return place
	}
	f := &c.Facts[i]
	place.Pointer += f.At
	if place.Span = f.Span; f.Span.IsZero() { // it was not asked for
		place.Span = c.Facts[0].Span
	}
	return place
}

// text is a fact as authored, or the id of the record.
func (c *claim) text(i int) string {
	if i < 0 || i >= len(c.Facts) {
		return c.ID
	}
	return strings.Join(c.Facts[i].Texts, ", ")
}

// exact reports that every fact has its place.
func (c *claim) exact() bool {
	return len(c.Facts) < 2 || !c.Facts[1].Span.IsZero()
}
