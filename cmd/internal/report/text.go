package report

import (
	"fmt"
	"io"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// maxWidth is how many columns of a source line are shown.
const maxWidth = 100

type textWriter struct {
	w   io.Writer
	opt Options
}

func newText(w io.Writer, opt Options) Writer { return textWriter{w, opt} }

// Finding writes the claim, the line it is about, then the evidence.
func (t textWriter) Finding(f rule.Finding) error {
	var b strings.Builder
	ink := verdictInk[f.Verdict]
	fmt.Fprintf(&b, "%s: %s: %s [%s]\n",
		t.ink(bold, where(f.Place)), t.ink(ink, f.Verdict.String()), plain(f.Message), f.Check)
	t.mark(&b, f.Place, ink)
	for _, r := range f.Related {
		switch {
		case r.Place.File == "" && r.Place.Span.IsZero():
			fmt.Fprintf(&b, "    %s\n", plain(r.Message))
		default:
			fmt.Fprintf(&b, "    %s: %s\n", where(r.Place), plain(r.Message))
		}
	}
	for _, s := range f.Slips {
		fmt.Fprintf(&b, "    perhaps %s (%s)", plain(s.Reads), plain(s.Slip))
		if s.Because != "" {
			fmt.Fprintf(&b, ": %s", plain(s.Because))
		}
		b.WriteByte('\n')
	}
	if !f.Source.IsZero() {
		fmt.Fprintf(&b, "    source: %s\n", plain(f.Source.String()))
	}
	_, err := io.WriteString(t.w, b.String())
	return err
}

func (textWriter) Close(bool) error { return nil }

// where is FILE:LINE:COL, or FILE alone where there is no place in it.
func where(p rule.Place) string {
	if p.Span.IsZero() {
		return plain(p.File)
	}
	return plain(p.File) + ":" + p.Span.Start.String()
}

const bold = "1"

var verdictInk = map[rule.Verdict]string{rule.Reject: "1;31", rule.Query: "1;33", rule.Note: "1;36"}

func (t textWriter) ink(code, s string) string {
	if !t.opt.Colour {
		return s
	}
	return "\x1b[" + code + "m" + s + "\x1b[0m"
}

// mark shows the source line with a mark under the place. Where that is a whole
// file, there is none to show.
func (t textWriter) mark(b *strings.Builder, p rule.Place, ink string) {
	first := schema.Position{Line: 1, Column: 1}
	if t.opt.Lines == nil || p.Span.IsZero() || p.Span == (schema.Span{Start: first, End: first}) {
		return
	}
	line, ok := t.opt.Lines.Line(p.File, p.Span.Start.Line)
	if !ok {
		return
	}
	text, indent, carets, ok := excerpt(line, p.Span)
	if !ok {
		return
	}
	fmt.Fprintf(b, "  | %s\n  | %s%s\n", text, indent, t.ink(ink, carets))
}

// excerpt cuts a line to what can be shown around a span that starts in it.
// Indent holds the tabs of the text, so that the mark stands below its place
// whatever a tab is worth. ok is false when the span does not lie in the line.
func excerpt(line string, s schema.Span) (text, indent, carets string, ok bool) {
	runes := []rune(plain(line))
	from := s.Start.Column - 1
	if from < 0 || from > len(runes) {
		return "", "", "", false
	}
	to := len(runes)
	if s.End.Line == s.Start.Line {
		to = min(to, s.End.Column-1)
	}
	to = max(to, from)

	left, right := window(runes, from, to)
	var before strings.Builder
	if left > 0 {
		text = "…"
		before.WriteByte(' ')
	}
	for _, r := range runes[left:from] {
		if r == '\t' {
			before.WriteByte('\t')
		} else {
			before.WriteString(strings.Repeat(" ", runeWidth(r)))
		}
	}
	text += string(runes[left:right])
	if right < len(runes) {
		text += "…"
	}
	marked := 0
	for _, r := range runes[from:min(to, right)] {
		marked += runeWidth(r)
	}
	return text, before.String(), strings.Repeat("^", max(marked, 1)), true
}

// window chooses the runes to show: all when they fit, otherwise maxWidth
// columns that hold the start of the mark with some room before it.
func window(runes []rune, from, to int) (left, right int) {
	total := 0
	for _, r := range runes {
		total += runeWidth(r)
	}
	if total <= maxWidth {
		return 0, len(runes)
	}
	room := max((maxWidth-(to-from))/2, maxWidth/10)
	left = max(from-room, 0)
	right = left
	for used := 0; right < len(runes) && used < maxWidth; right++ {
		used += runeWidth(runes[right])
	}
	for used := right - left; right == len(runes) && left > 0 && used < maxWidth; used++ {
		left--
	}
	return left, right
}
