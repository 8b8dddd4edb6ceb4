package seal

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"snapgauge/specs/release"
)

// readme is the page for people, plain text of at most 100 columns but for
// figures that are longer.
func readme(d *release.Document, opt Options) []byte {
	var b strings.Builder
	name := title(opt)
	fmt.Fprintf(&b, "%s\n%s\n\n", name, strings.Repeat("=", utf8.RuneCountInString(name)))
	if opt.draft() {
		b.WriteString("DRAFT. This is not vetted: do not work by it. ")
		if len(opt.InTheWay) == 0 {
			b.WriteString("Nothing was found to stand in the way of a release.\n")
		} else {
			b.WriteString("What stands in the way of a release:\n\n")
		}
		for _, text := range opt.InTheWay {
			fmt.Fprintf(&b, "  %s\n", text)
		}
		b.WriteByte('\n')
	}
	b.WriteString(wrap("Caution: "+Caution, 100) + "\n\n")
	if !opt.draft() {
		b.WriteString(wrap("Every record in here was countersigned: another person than its author read it against its source. "+
			"Nothing in it was rejected by the checks listed in manifest.json, and every query was answered.", 100) + "\n\n")
	}
	folder := release.AuthoredIn(opt.State)
	for _, row := range [][2]string{
		{folder + "/", "the spec files as authored, with the ledger of who countersigned what"},
		{"records.json, records.ndjson", "the records in normal form: SI values, UCUM codes, printed digits, what would round to them"},
		{"records.schema.json", "the JSON Schema of records.json; record.schema.json that of one record"},
		{"tables/", "the same as CSV; datapackage.json says what each column holds"},
		{"records.sqlite", "the same for SQLite; its table documentation says what each column holds"},
		{"manifest.json", "what made this, and the SHA-256 of each file"},
	} {
		fmt.Fprintf(&b, "  %-28s  %s\n", row[0], row[1])
	}
	if opt.Key != "" {
		fmt.Fprintf(&b, "  %-28s  %s\n", release.SignatureFile, "its signature, for minisign; hold it against a key that you know, not against")
		fmt.Fprintf(&b, "  %-28s  %s\n", "", release.KeyFile+", which anybody could have put here")
	}
	fmt.Fprintf(&b, "\nMade by %s. `snapgauge audit` says whether it is as it was made.\n", opt.Tool)
	for _, m := range d.Machines {
		head := line(m.Name + " (" + m.ID + ")")
		if opt.draft() {
			head += " - DRAFT"
		}
		fmt.Fprintf(&b, "\n%s\n%s\n", head, strings.Repeat("-", utf8.RuneCountInString(head)))
		for i := range d.Records {
			if r := &d.Records[i]; r.Machine == m.ID {
				recordText(&b, r)
			}
		}
	}
	return []byte(b.String())
}

// recordText is a record in a few lines.
func recordText(b *strings.Builder, r *release.Record) {
	fmt.Fprintf(b, "\n%s: %s\n", r.ID, line(r.Where))
	if r.AppliesTo != "all" {
		fmt.Fprintf(b, "  applies to %s\n", r.AppliesTo)
	}
	for _, f := range r.Figures {
		fmt.Fprintf(b, "  %s  %s\n", f.Pointer, textOf(f))
	}
	if m := r.Misprint; m != nil {
		fmt.Fprintf(b, "  misprint: %s is printed, use %s: %s\n", line(m.Printed), textOf(m.Use), line(m.Because))
	}
	if u := r.Unpublished; u != nil {
		fmt.Fprintf(b, "  unpublished (%s): %s\n", line(u.Why), line(u.Do))
	}
	source := r.Source.Title
	for _, more := range []string{r.Source.Edition, r.Source.At} {
		if more != "" {
			source += ", " + more
		}
	}
	signed := "NOT countersigned"
	if c := r.Countersign; c != nil {
		signed = fmt.Sprintf("countersigned by %s on %s", c.By, c.Date)
	}
	fmt.Fprintf(b, "  %s; entered by %s, %s\n", line(source), line(r.Entered.By), line(signed))
}

// textOf is a figure as printed.
func textOf(f release.Figure) string {
	if f.Word != "" {
		return line(f.Word)
	}
	texts := make([]string, len(f.Values))
	for i, v := range f.Values {
		texts[i] = v.Text
	}
	return line(strings.Join(texts, ", "))
}

// line is a text on one line.
func line(text string) string { return strings.Join(strings.Fields(text), " ") }

// wrap breaks a text into lines of at most so many columns.
func wrap(text string, columns int) string {
	var b strings.Builder
	used := 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case used == 0:
		case used+1+n > columns:
			b.WriteByte('\n')
			used = 0
		default:
			b.WriteByte(' ')
			used++
		}
		b.WriteString(word)
		used += n
	}
	return b.String()
}
