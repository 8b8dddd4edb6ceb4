// Package changelist writes what changed between two editions of a book: as text, as
// JSON lines, and as a page for people.
package changelist

import (
	"fmt"
	"io"
	"strings"

	"snapgauge/cmd/internal/report"
	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

// List is what is written.
type List struct {
	Old, New string // what the reader calls the editions
	Changes  []edition.Change
	Unread   []Unread
	All      bool   // figures that were only restated are shown too
	Caution  string // stands on the page once
}

// Unread is what could not be read of an edition.
type Unread struct {
	Old bool // of the old edition
	edition.Unread
}

// text tells what could not be read, and of which record.
func (u Unread) text() string {
	if u.Place.Record == "" {
		return u.Message
	}
	return u.Place.Record + ": " + u.Message
}

// Forms lists the forms of output, the usual one first.
func Forms() []string { return []string{"text", "json", "html"} }

// Write writes the list in a form.
func (l *List) Write(w io.Writer, form string) error {
	switch form {
	case "text":
		return l.text(w)
	case "json":
		return l.json(w)
	case "html":
		return l.page(w)
	}
	return fmt.Errorf("no such form of output: %s", form)
}

// shown are the changes to be shown.
func (l *List) shown(yield func(edition.Change) bool) {
	for _, c := range l.Changes {
		if (l.All || !c.Kind.Lesser()) && !yield(c) {
			return
		}
	}
}

// text writes one line a change.
func (l *List) text(w io.Writer) error {
	for _, u := range l.Unread {
		if _, err := fmt.Fprintf(w, "%s: unread: %s\n", where(u.Place), report.Plain(u.text())); err != nil {
			return err
		}
	}
	for c := range l.shown {
		at := c.At
		if at == (rule.Place{}) {
			at = c.WasAt
		}
		if _, err := fmt.Fprintf(w, "%s: %s: %s\n", where(at), c.Kind, report.Plain(Line(c))); err != nil {
			return err
		}
	}
	return nil
}

// where is FILE:LINE:COL, or FILE alone where there is no place in it.
func where(p rule.Place) string {
	if p.Span.IsZero() {
		return report.Plain(p.File)
	}
	return report.Plain(p.File) + ":" + p.Span.Start.String()
}

// Line is a change in one sentence: what, from what to what, and what it means.
func Line(c edition.Change) string {
	var b strings.Builder
	switch c.Kind {
	case edition.New, edition.Gone:
		fmt.Fprintf(&b, "%s, %s", named(c.Record), orElse(c.Where, "no place told"))
	case edition.Renamed:
		fmt.Fprintf(&b, "%s is %s now", c.Was, c.Now)
	case edition.Machine:
		fmt.Fprintf(&b, "%s, %s: %s", c.Machine, c.Field.Words(), fromTo(c))
	case edition.Source:
		fmt.Fprintf(&b, "%s: %s", fromTo(c), some(c.Records))
	case edition.Superseded:
		if c.Field.Len() == 0 {
			fmt.Fprintf(&b, "%s takes the place of %s", c.Now, c.Was)
			break
		}
		fallthrough
	default:
		b.WriteString(named(c.Record))
		if len(c.Records) > 1 {
			b.Reset()
			b.WriteString(some(c.Records))
		}
		if f := c.Field.Words(); f != "" {
			b.WriteString(", " + f)
			if c.Label != "" {
				b.WriteString(" (" + c.Label + ")")
			}
		}
		if c.Field.Len() > 0 {
			b.WriteString(": " + fromTo(c))
		}
	}
	switch {
	case c.Means == "":
	case c.Kind == edition.Unreadable:
		b.WriteString(": " + c.Means)
	default:
		b.WriteString(" (" + c.Means + ")")
	}
	return b.String()
}

func fromTo(c edition.Change) string { return orNone(c.Was) + " → " + orNone(c.Now) }

// some names the first of many.
func some(ids []string) string {
	const most = 4
	names := make([]string, min(most, len(ids)))
	for i := range names {
		names[i] = named(ids[i])
	}
	text := strings.Join(names, ", ")
	if more := len(ids) - len(names); more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// named is the id of a record, which may have none.
func named(id string) string { return orElse(id, "a record without id") }

func orNone(s string) string { return orElse(s, "none") }

func orElse(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// Summary counts what changed: "3 figures moved, 1 record gone"; "no change".
func (l *List) Summary() string {
	n := edition.Count(l.Changes)
	var parts []string
	say := func(k edition.Kind, one, more string) {
		if n[k] > 0 {
			word := more
			if n[k] == 1 {
				word = one
			}
			parts = append(parts, fmt.Sprintf("%d %s", n[k], word))
		}
	}
	say(edition.Figure, "figure moved", "figures moved")
	say(edition.Gone, "record gone", "records gone")
	say(edition.New, "new record", "new records")
	say(edition.Superseded, "superseded", "superseded")
	say(edition.Renamed, "renamed", "renamed")
	other := n[edition.Applies] + n[edition.Text] + n[edition.Source] + n[edition.Place] + n[edition.Machine]
	switch {
	case other == 1:
		parts = append(parts, "1 other change")
	case other > 1:
		parts = append(parts, fmt.Sprintf("%d other changes", other))
	}
	k := len(l.Unread)
	for _, c := range l.Changes {
		if c.Kind == edition.Unreadable {
			k += max(1, len(c.Records))
		}
	}
	switch {
	case len(parts) > 0:
	case k > 0:
		parts = []string{"no change in what could be read"}
	default:
		parts = []string{"no change"}
	}
	text := strings.Join(parts, ", ")
	if n := n[edition.Restated]; n > 0 {
		text += fmt.Sprintf("; %d restated in other digits or units", n)
		if !l.All {
			text += " (--all shows them)"
		}
	}
	if k > 0 {
		text += fmt.Sprintf("; %d could not be read or compared", k)
	}
	return text
}
