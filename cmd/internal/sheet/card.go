package sheet

import (
	"fmt"
	"strings"

	"snapgauge/schema"
)

// Card is one record on the page.
type Card struct {
	ID, Where   string
	Kind        string
	Cautions    []Caution
	Questions   []Question
	Answers     []string // queries that somebody has answered
	Misprint    *Misprint
	Unpublished *Unpublished
	Renew       []string
	Foot        Foot

	Torque    *Torque
	Fill      *Fill
	Tolerance *Tolerance

	figures bool // there are figures beside what is unpublished
}

// section is the kind, "" for a record that only says that nothing is published.
func (c *Card) section() string {
	if c.Unpublished != nil && !c.figures {
		return ""
	}
	return c.Kind
}

// Question is a query that is open.
type Question struct {
	N     int // within the record; 0 where it is about the book
	Text  string
	Check string
}

// Misprint says what the source prints wrong.
type Misprint struct {
	Printed, Use, Because, Source, By string
}

// Unpublished says that no figure is printed.
type Unpublished struct{ Why, Do string }

// Foot says where a record comes from and who has read it.
type Foot struct {
	Source      string
	Entered     string
	Countersign string
	Signed      bool
	Fingerprint string // its first digits
}

// fingerprintDigits are those shown of a fingerprint: 64 bits.
const fingerprintDigits = 16

// cards makes the card of one record.
type cards struct {
	entry  *schema.Entry
	head   *schema.Head
	record *schema.Record
	in     Input
	asked  map[string][]int // by pointer within the record, the numbers of the questions
	card   *Card
}

func newCard(e *schema.Entry, in Input, marks cautionMarks) (*Card, error) {
	r := e.Record
	c := &cards{entry: e, head: e.Head, record: r, in: in, asked: map[string][]int{}}
	c.card = &Card{ID: r.ID, Where: clean(r.Where), Kind: r.Kind, Cautions: marks.of(r)}
	c.questions()
	foot, err := footOf(e)
	if err != nil {
		return nil, err
	}
	c.card.Foot = foot
	for _, part := range r.Renew {
		c.card.Renew = append(c.card.Renew, clean(part))
	}
	if u := r.Unpublished; u.Why != "" || u.Do != "" {
		c.card.Unpublished = &Unpublished{clean(u.Why), clean(u.Do)}
	}
	if m := &r.Misprint; m.Printed != "" {
		c.card.Misprint = &Misprint{
			Printed: clean(m.Printed), Use: figureTexts(&m.Use), Because: clean(m.Because),
			Source: sourceLine(e.Head, m.Source), By: joined(", ", clean(m.By), m.Date),
		}
	}
	for _, a := range r.Answers {
		if a.Figure != "/applies" {
			c.card.Answers = append(c.card.Answers, fmt.Sprintf("%s: %s (%s)", clean(a.Read), clean(a.Because), joined(", ", clean(a.By), a.Date)))
		}
	}
	switch r.Kind {
	case schema.KindTorque:
		c.torque()
	case schema.KindFill:
		c.fill()
	case schema.KindTolerance:
		c.tolerance()
	}
	return c.card, nil
}

// questions are the queries about this record, each with the place of the
// figure that it is about.
func (c *cards) questions() {
	for _, q := range c.in.Queries {
		if q.Place.Record != c.record.ID || q.Place.File != c.entry.File {
			continue
		}
		n := len(c.card.Questions) + 1
		c.card.Questions = append(c.card.Questions, Question{N: n, Text: clean(q.Message), Check: q.Check})
		at := strings.TrimPrefix(q.Place.Pointer, c.entry.Pointer)
		c.asked[at] = append(c.asked[at], n)
	}
}

// askedAt are the questions about a figure, or about one of its values.
func (c *cards) askedAt(p schema.Path) []int {
	at := p.String()
	out := c.asked[at]
	for i := range 3 {
		out = append(out[:len(out):len(out)], c.asked[fmt.Sprint(at, "/", i)]...)
	}
	return out
}

// footOf tells where a record comes from and how it stands by the ledger.
func footOf(e *schema.Entry) (Foot, error) {
	print, err := schema.Fingerprint(e.Head, e.Record)
	if err != nil {
		return Foot{}, fmt.Errorf("%s: %w", e.Record.ID, err)
	}
	how, line, err := e.Standing()
	if err != nil {
		return Foot{}, fmt.Errorf("%s: %w", e.Record.ID, err)
	}
	entered := e.Record.EnteredBy(e.Head)
	f := Foot{
		Source:      sourceLine(e.Head, e.Record.Source),
		Entered:     clean(entered.By),
		Fingerprint: print[:min(len(print), len(schema.FingerprintPrefix)+fingerprintDigits)],
	}
	switch how {
	case schema.Signed:
		f.Signed = true
		f.Countersign = "countersigned by " + joined(", ", clean(line.By), line.Date)
	case schema.OwnSigned:
		f.Countersign = "not countersigned: read only by " + joined(", ", clean(line.By), line.Date) + ", who entered it"
	case schema.Void:
		f.Countersign = "not countersigned: changed since " + joined(", ", clean(line.By), line.Date)
	default:
		f.Countersign = "not countersigned"
	}
	return f, nil
}

// sourceLine is a source in full.
func sourceLine(h *schema.Head, s schema.Source) string {
	d, ok := h.SourceOf(s)
	if !ok {
		d.Title = s.Ref
	}
	return clean(joined(", ", d.Title, d.Edition, s.At))
}

// sourcesOf lists the documents that records are from, each once.
func sourcesOf(records []schema.Entry) []string {
	var out []string
	seen := map[string]bool{}
	for i := range records {
		e := &records[i]
		for _, s := range []schema.Source{e.Record.Source, e.Record.Misprint.Source} {
			d, ok := e.Head.SourceOf(s)
			if !ok {
				d.Title = s.Ref
			}
			line := clean(joined(", ", d.Title, d.Edition))
			if line == "" || seen[line] {
				continue
			}
			seen[line] = true
			if d.Kind != "" {
				line += " (" + clean(strings.TrimPrefix(d.Kind, "other: ")) + ")"
			}
			out = append(out, line)
		}
	}
	return out
}

// joined joins what is there.
func joined(between string, words ...string) string {
	var there []string
	for _, w := range words {
		if w != "" {
			there = append(there, w)
		}
	}
	return strings.Join(there, between)
}

// figureTexts are the texts of a figure as authored.
func figureTexts(f *schema.Figure) string {
	var out []string
	for i := range f.Values {
		out = append(out, clean(f.Values[i].Text))
	}
	return strings.Join(out, ", ")
}

// word is a word of the format, without the other: before a word of the user.
func word(w string) string {
	return clean(strings.TrimSpace(strings.TrimPrefix(w, "other:")))
}
