package schema

import (
	"maps"
	"reflect"
	"slices"
	"strings"
)

// Countersign says that a second person has read a record against its source.
// It is a line of the ledger. The first members are those that count; the others
// let a later reader tell what has changed.
type Countersign struct {
	ID          string `json:"id"`
	Machine     string `json:"machine,omitempty"`
	Fingerprint string `json:"fingerprint"`
	By          string `json:"by"`
	Date        string `json:"date"` // 2026-03-09

	// Figures holds each figure in its normal form, by its pointer in the record.
	Figures map[string]string `json:"figures,omitempty"`
	// Members holds the beginning of the SHA-256 of each member in its canonical
	// form.
	Members map[string]string `json:"members,omitempty"`
}

// NewCountersign makes the line that countersigns a record as it stands.
func NewCountersign(h *Head, r *Record, by, date string) (Countersign, error) {
	print, err := Fingerprint(h, r)
	if err != nil {
		return Countersign{}, err
	}
	c := Countersign{ID: r.ID, Fingerprint: print, By: by, Date: date, Figures: map[string]string{}}
	if h != nil {
		c.Machine = h.Machine.ID
	}
	for p, f := range r.Figures() {
		c.Figures[p.String()] = f.normal()
	}
	c.Members, err = membersOf(h, r)
	return c, err
}

// Of reports whether the line is about a record: it bears its id, and its
// machine where the line tells one.
func (c *Countersign) Of(h *Head, r *Record) bool {
	return c.ID == r.ID && (c.Machine == "" || h == nil || c.Machine == h.Machine.ID)
}

// Change is what has changed of a record since it was countersigned.
type Change struct {
	Path     Path   // of the figure, or of the member
	Figure   bool   // a figure; else a member, and Was and Now are empty
	Was, Now string // in normal form; "" where there was or is none
}

// Changes tells what has changed since the line was written, figures first and
// in the order of the record. It is empty where the line does not tell.
func (c *Countersign) Changes(h *Head, r *Record) []Change {
	var figures []Change
	if len(c.Figures) > 0 {
		seen := map[string]bool{}
		for p, f := range r.Figures() {
			at, now := p.String(), f.normal()
			seen[at] = true
			if was := c.Figures[at]; was != now {
				figures = append(figures, Change{Path: p, Figure: true, Was: was, Now: now})
			}
		}
		for _, at := range slices.Sorted(maps.Keys(c.Figures)) {
			if !seen[at] {
				figures = append(figures, Change{Path: memberOf(at), Figure: true, Was: c.Figures[at]})
			}
		}
	}
	if len(figures) > 0 || len(c.Members) == 0 {
		return figures
	}
	now, err := membersOf(h, r)
	if err != nil {
		return nil
	}
	var members []Change
	names := append(slices.Clone(tableOf(reflect.TypeFor[Record]()).names), "machine")
	for _, name := range names {
		if now[name] != c.Members[name] {
			members = append(members, Change{Path: At(name)})
		}
	}
	return members
}

// memberOf is the path of the member that a pointer leads into.
func memberOf(pointer string) Path {
	name, _, _ := strings.Cut(strings.TrimPrefix(pointer, "/"), "/")
	return At(name)
}

func membersOf(h *Head, r *Record) (map[string]string, error) {
	out := map[string]string{}
	for name, x := range canonOf(h, r).members(r) {
		b, err := canonicalJSON(x)
		if err != nil {
			return nil, err
		}
		out[name] = shaOf(b, 4)
	}
	return out, nil
}

// normal is the figure in its normal form: the values in the order of the file,
// each in our symbols, and as authored where it could not be read.
func (f *Figure) normal() string {
	texts := make([]string, len(f.Values))
	for i := range f.Values {
		v := &f.Values[i]
		texts[i] = strings.TrimSpace(v.Text)
		if !f.Word && !f.Misprint && (v.Problem == nil || v.Problem.Settled) {
			texts[i] = v.Quantity.String()
		}
	}
	return strings.Join(texts, ", ")
}

// SamePerson reports whether two names or sets of initials are one, whatever
// their case. It cannot know that a name and initials are.
func SamePerson(a, b string) bool {
	return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// Standing is how a record stands by its ledger.
type Standing uint8

// The ways in which a record may stand.
const (
	NeverSigned Standing = iota // no line is about it
	Signed                      // as it stands now, by another than its author
	OwnSigned                   // as it stands now, and only by its author, or nobody knows who that is
	Void                        // it has changed since
)

// Standing tells how the record of an entry stands by the lines of its ledger,
// and the line that decides: the first that holds, else the last that does not.
func (e *Entry) Standing() (Standing, *Countersign, error) {
	if e.Record == nil {
		return NeverSigned, nil, nil
	}
	var line *Countersign
	how := NeverSigned
	author := e.Record.EnteredBy(e.Head).By
	now := ""
	for i := range e.Countersigned {
		c := &e.Countersigned[i]
		if !c.Of(e.Head, e.Record) {
			continue
		}
		if now == "" {
			var err error
			if now, err = Fingerprint(e.Head, e.Record); err != nil {
				return NeverSigned, nil, err
			}
		}
		switch {
		case c.Fingerprint == now && author != "" && !SamePerson(c.By, author):
			return Signed, c, nil
		case c.Fingerprint == now:
			how, line = OwnSigned, c
		case how != OwnSigned:
			how, line = Void, c
		}
	}
	return how, line, nil
}
