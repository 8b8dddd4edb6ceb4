package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
)

// Torque is what only a torque has on the page.
type Torque struct {
	Fasteners  []Fastener
	Joint      []Term
	Prevailing *Prevailing
	Steps      []Step
	Pattern    string // that of all steps
	Order      []int  // that of all steps
	Yield      bool
	Renew      []string
	Pictures   []*Picture
	Look       string // what is not in the record and where it is printed
}

// Fastener is what is turned.
type Fastener struct {
	Key    string
	Count  int
	What   string // screw M6x1
	Detail string // class, head
	Length Figure
	Places string
}

// Term is a fact with its name.
type Term struct {
	Name   string
	Text   string
	Figure Figure
}

// Prevailing is the running torque of a locking nut.
type Prevailing struct {
	Torque Figure
	Say    string
}

// Step is one act of tightening.
type Step struct {
	N         int // 0 where there is only one
	Act       string
	Figure    Figure
	Text      string // an act without a figure
	Tolerance Figure
	Only      string
	Pattern   string
	Order     []int
	Again     string
	Yield     bool
	Adapter   Figure
	Wrench    *Setting
}

func (c *cards) torque() {
	r := c.record
	t := &Torque{Yield: r.Yield, Renew: c.card.Renew}
	c.card.Torque = t
	for i := range r.Fasteners.Items {
		f := &r.Fasteners.Items[i]
		t.Fasteners = append(t.Fasteners, Fastener{
			Key: clean(f.Key), Count: f.Count, What: clean(joined(" ", word(f.Type), f.Thread)),
			Detail: joined(", ", named("class ", clean(f.Class)), word(string(f.Head))),
			Length: c.asPrinted(r.Fasteners.At(i).Field("length"), &f.Length),
			Places: numbers(f.Places, ", "),
		})
	}
	j := &r.Joint
	t.term("into", word(string(j.Into)))
	t.figure("engagement", c.asPrinted(schema.At("joint", "engagement"), &j.Engagement))
	t.term("threads", word(string(j.Threads)))
	t.figure("friction", c.asPrinted(schema.At("joint", "friction"), &j.Friction))
	t.term("seal", word(string(j.Seal)))
	t.term("insert", clean(j.Insert))
	if p := &r.Prevailing; !p.Torque.IsZero() {
		c.card.figures = true
		say := "the record does not say whether the figures include it"
		if p.Included != nil {
			say = "not included in the figures: add it as measured"
			if *p.Included {
				say = "included in the figures: do not add it"
			}
		}
		t.Prevailing = &Prevailing{c.figure(schema.At("prevailing", "torque"), &p.Torque), say}
	}
	t.Pattern, t.Order = commonOrder(r.Tighten)
	for i := range r.Tighten {
		t.Steps = append(t.Steps, c.step(i, t))
	}
	t.Pictures = picturesOf(r)
	t.Look = c.lookFor(t)
}

func named(name, text string) string {
	if text == "" {
		return ""
	}
	return name + text
}

func (t *Torque) term(name, text string) {
	if text != "" {
		t.Joint = append(t.Joint, Term{Name: name, Text: text})
	}
}

func (t *Torque) figure(name string, f Figure) {
	if f.Shown() {
		t.Joint = append(t.Joint, Term{Name: name, Figure: f})
	}
}

// asPrinted is a figure that nobody sets or measures, such as the length of a
// screw: it is not converted.
func (c *cards) asPrinted(p schema.Path, f *schema.Figure) Figure {
	out := c.figure(p, f)
	out.Parts = slices.DeleteFunc(out.Parts, func(p Part) bool { return p.Role == Converted })
	return out
}

// step is one act, in working order.
func (c *cards) step(i int, t *Torque) Step {
	s := &c.record.Tighten[i]
	at := schema.At("tighten", i)
	c.card.figures = true
	out := Step{Yield: s.Yield}
	if len(c.record.Tighten) > 1 {
		out.N = i + 1
	}
	var base convert.Quantity
	for _, act := range []struct {
		name, say string
		f         *schema.Figure
	}{
		{"to", "tighten to", &s.To},
		{"turn", "turn on by", &s.Turn},
		{"loosen", "loosen", &s.Loosen},
		{"wait", "wait", &s.Wait},
		{"check", "check that it holds", &s.Check},
	} {
		if act.f.IsZero() {
			continue
		}
		out.Act = act.say
		if act.name == "loosen" && !act.f.Word {
			out.Act = "loosen by"
		}
		out.Figure = c.figure(at.Field(act.name), act.f)
		base, _ = act.f.Quantity()
	}
	if s.Run != "" {
		out.Text = clean(s.Run)
	}
	out.Tolerance = c.like(at.Field("tolerance"), &s.Tolerance, base, noLimit)
	var only []string
	for _, k := range s.Only {
		only = append(only, clean(k))
	}
	out.Only = strings.Join(only, ", ")
	if t.Pattern == "" {
		out.Pattern = patternOf(s)
	}
	if t.Order == nil {
		out.Order = s.Order
	}
	switch {
	case s.Again == 1:
		out.Again = "then once more"
	case s.Again > 1:
		out.Again = fmt.Sprintf("then %d times more", s.Again)
	}
	out.Adapter = c.asPrinted(at.Field("adapter"), &s.Adapter)
	out.Wrench = c.setting(i)
	return out
}

// turns reports a step that turns fasteners, so that an order can be meant.
func turns(s *schema.Step) bool {
	return !s.To.IsZero() || !s.Turn.IsZero() || !s.Loosen.IsZero() || !s.Check.IsZero()
}

// patternOf is the pattern of a step. That it goes in order need not be said
// where the order stands beside it.
func patternOf(s *schema.Step) string {
	if s.Pattern == "in order" && len(s.Order) > 0 {
		return ""
	}
	return word(string(s.Pattern))
}

// commonOrder is the pattern and the order that all steps that turn have; nothing
// where they differ or where there is only one step.
func commonOrder(steps []schema.Step) (pattern string, order []int) {
	n, samePattern, sameOrder := 0, true, true
	for i := range steps {
		s := &steps[i]
		if !turns(s) {
			continue
		}
		if n == 0 {
			pattern, order = patternOf(s), s.Order
		}
		samePattern = samePattern && patternOf(s) == pattern
		sameOrder = sameOrder && slices.Equal(s.Order, order)
		n++
	}
	if n < 2 || !samePattern {
		pattern = ""
	}
	if n < 2 || !sameOrder {
		order = nil
	}
	return pattern, order
}

// Says lists what is to be said of a step beside its figure.
func (s Step) Says() []string {
	var out []string
	for _, x := range []struct {
		name string
		has  bool
	}{
		{"only", s.Only != ""}, {"tolerance", s.Tolerance.Shown()}, {"pattern", s.Pattern != ""},
		{"order", len(s.Order) > 0}, {"adapter", s.Adapter.Shown()}, {"again", s.Again != ""}, {"yield", s.Yield},
	} {
		if x.has {
			out = append(out, x.name)
		}
	}
	return out
}

func numbers(list []int, between string) string {
	var out []string
	for _, n := range list {
		out = append(out, strconv.Itoa(n))
	}
	return strings.Join(out, between)
}

// lookFor tells where to look for the order and the picture of several
// fasteners, where the record holds none.
func (c *cards) lookFor(t *Torque) string {
	count, order, pattern := 0, false, false
	for _, f := range t.Fasteners {
		count += f.Count
	}
	for i := range c.record.Tighten {
		s := &c.record.Tighten[i]
		order = order || len(s.Order) > 0
		pattern = pattern || s.Pattern != ""
	}
	if count < 2 || len(c.record.Tighten) == 0 {
		return ""
	}
	what := "order and picture"
	switch {
	case len(t.Pictures) > 0 && (order || pattern):
		return ""
	case len(t.Pictures) > 0:
		what = "order"
	case order || pattern:
		what = "picture"
	}
	return what + " not recorded here, see " + c.card.Foot.Source
}
