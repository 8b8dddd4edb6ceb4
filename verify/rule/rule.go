// Package rule is the vocabulary of verification: what a check is, what it
// sees, and what it says.
package rule

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
)

// Verdict is what a finding means for the record.
type Verdict uint8

// The verdicts, rising.
const (
	Note   Verdict = iota // worth knowing
	Query                 // a person must look
	Reject                // it does not go
)

func (v Verdict) String() string {
	switch v {
	case Note:
		return "note"
	case Query:
		return "query"
	case Reject:
		return "reject"
	}
	return fmt.Sprintf("verdict %d", uint8(v))
}

// Layer is the layer that a check belongs to.
type Layer string

// The layers, in the order in which they judge.
const (
	Shape   Layer = "shape"
	Units   Layer = "units"
	Sense   Layer = "sense"
	Physics Layer = "physics"
	Cited   Layer = "cited"
	Book    Layer = "book"
)

// Check is one rule. Exactly one of Record, Book and Answers is set, or Head
// alone.
type Check struct {
	ID      string // kebab words, fixed for ever
	Layer   Layer
	Title   string // what it says is wrong, in a few words
	Doc     string // Markdown: the rule, why it holds, an example, what it does not catch, when it may be wrong
	Source  reference.Citation
	Since   string  // version it appeared in: v0.1.0
	Verdict Verdict // the most severe that it gives

	// Record looks at one record.
	Record func(*Pass)
	// Head looks at the head of a file, once. Optional beside Record or Book, or alone.
	Head func(*Pass)
	// Book looks at records together.
	Book *BookCheck
	// Before tells that the check compares with an earlier edition. It says nothing of a
	// record without one, and answers to it wait.
	Before bool
	// Answers marks the check that speaks of answers to nothing. The front door
	// runs it, for it alone knows what was asked.
	Answers bool
}

// BookCheck is a check over many records. Each record (and head) emits rows;
// rows of one group are judged together, in the order of their Order.
type BookCheck struct {
	Emit  func(p *Pass, emit func(Row))
	Judge func(rows []Row, report func(Finding))
	Least int // rows that a group needs for anything to be said; 0 means one
}

// Row is what a record tells a book check. It can be written to a file and
// read back, so it holds values only.
type Row struct {
	Group   string // rows with the same group are judged together
	Order   string // and in this order; ties in input order
	Place   Place
	Payload string // what the check needs, in a form of its own

	Check int    // set by the front door: place of the check in its list
	Seq   uint64 // and by the sorter: place of the row in the input
}

// Place is where a finding stands, resolved.
type Place struct {
	File    string
	Pointer string // from the root of the file
	Record  string // id of the record
	Span    schema.Span
}

// Finding is what a check says of one place. A check of a record fills At (or
// leaves the zero Spot, the record); a book check fills Place.
type Finding struct {
	Check   string
	Verdict Verdict
	At      schema.Spot
	Place   Place
	Message string // one sentence, lower case, no full stop
	Read    string // what stands there, as authored
	// Also are the other values of the figure, where a check of the book says of
	// all what it says of Read.
	Also    []string
	Want    string // what would go
	Source  reference.Citation
	Related []Related
	Slips   []Slip
}

// Related is a second place that made the check think so.
type Related struct {
	At      schema.Spot // within the same record, when Place is zero
	Place   Place
	Message string
}

// Slip is one mistake of copying that would explain the figure.
type Slip struct {
	Slip    string // its name
	Reads   string // the corrected figure, in the printed unit
	Because string // why it is believed
}

// Pass is what a check sees of one record.
type Pass struct {
	Check  *Check
	Entry  *schema.Entry
	Head   *schema.Head
	Record *schema.Record

	report   func(Finding)
	figures  []PlacedFigure
	walked   bool
	doubtful bool
}

// PlacedFigure is a figure of a record and where it stands.
type PlacedFigure struct {
	Path   schema.Path
	Figure *schema.Figure
}

// NewPass makes a pass over an entry. The front door does this.
func NewPass(c *Check, e *schema.Entry, report func(Finding)) *Pass {
	p := &Pass{Check: c, report: report}
	p.Take(e)
	return p
}

// Take turns to another entry, so that one pass serves many.
func (p *Pass) Take(e *schema.Entry) {
	p.Entry, p.Head, p.Record = e, e.Head, e.Record
	p.figures, p.walked, p.doubtful = p.figures[:0], false, false
}

// Figures are those of the record, as [schema.Record.Figures] walks them; the
// walk is made once for all checks. They are good until the next entry.
func (p *Pass) Figures() []PlacedFigure {
	p.walk()
	return p.figures
}

// Doubtful reports whether any text of the figures was not read, or not surely.
func (p *Pass) Doubtful() bool {
	p.walk()
	return p.doubtful
}

func (p *Pass) walk() {
	if p.walked {
		return
	}
	p.walked = true
	if p.Record == nil {
		return
	}
	for path, f := range p.Record.Figures() {
		p.figures = append(p.figures, PlacedFigure{path, f})
		for i := range f.Values {
			p.doubtful = p.doubtful || f.Values[i].Problem != nil
		}
	}
}

// Report hands over a finding. Check and Source are filled in where empty.
func (p *Pass) Report(f Finding) {
	if f.Check == "" {
		f.Check = p.Check.ID
	}
	if f.Source.IsZero() {
		f.Source = p.Check.Source
	}
	p.report(f)
}

// Place resolves a spot of the record, for a row of a book check.
func (p *Pass) Place(at schema.Spot) Place { return Resolve(p.Entry, at) }

// Resolve turns a spot of an entry into a place.
func Resolve(e *schema.Entry, at schema.Spot) Place {
	pl := Place{File: e.File, Pointer: e.Pointer + at.Path.String()}
	if e.Record != nil {
		pl.Record = e.Record.ID
	}
	if e.Locate != nil {
		pl.Span = e.Locate(at)
	}
	return pl
}

// NumberAt is the spot of the number within value i of the figure at p: the
// whole text when the figure was not read.
func NumberAt(f *schema.Figure, p schema.Path, i int) schema.Spot {
	s := schema.Spot{Path: f.At(p, i)}
	if v := &f.Values[i]; v.Read() {
		q := v.Quantity
		s.From, s.To = q.FirstAt.Start, q.FirstAt.End
		if q.SecondAt.End > s.To {
			s.To = q.SecondAt.End
		}
		if q.FirstAt == (convert.Place{}) {
			s.From, s.To = q.SecondAt.Start, q.SecondAt.End
		}
	}
	return s
}

// UnitAt is the spot of the unit within value i of the figure at p.
func UnitAt(f *schema.Figure, p schema.Path, i int) schema.Spot {
	s := schema.Spot{Path: f.At(p, i)}
	if v := &f.Values[i]; v.Read() && v.Quantity.UnitAt.End > 0 {
		s.From, s.To = v.Quantity.UnitAt.Start, v.Quantity.UnitAt.End
	}
	return s
}
