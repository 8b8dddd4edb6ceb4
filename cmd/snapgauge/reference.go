package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
)

func newReference(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "reference TERM",
		Short: "look a term up in the cited tables",
		Long: `Reference prints what the tables know under a term (a thread, a class or grade, a
unit, a condition of threads, a material, a head, a caution, a cited document)
and where each value stands in print, or that it was not seen there. Of what does
not exist it says why.`,
		Example: "  snapgauge reference M8x1.25\n  snapgauge reference 10.9\n  snapgauge reference cast aluminium",
		Args:    needs(1, -1, "a term"),
		ValidArgsFunction: func(_ *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
			return knownTerms(), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if err := lookUp(s.out, strings.Join(args, " ")); err != nil {
				return err
			}
			warn(s.err)
			return nil
		},
	}
}

// knownTerms are terms to offer; the tables know more spellings than these.
func knownTerms() []string {
	var terms []string
	for _, t := range reference.Threads() {
		terms = append(terms, t.Designation)
	}
	for u := range convert.Units() {
		terms = append(terms, u.Symbol())
	}
	for _, c := range reference.Cautions() {
		terms = append(terms, c.ID)
	}
	for _, v := range []string{"threads", "into", "head", "pattern"} {
		terms = append(terms, schema.Vocabulary(v)...)
	}
	return terms
}

func lookUp(w io.Writer, term string) error {
	entries := reference.Look(term)
	if len(entries) == 0 {
		if reason, near := reference.Why(term); reason != "" {
			message := fmt.Sprintf("the tables know nothing under %q: %s", term, reason)
			if len(near) > 0 {
				message += "; did you mean " + orList(near) + "?"
			}
			return errors.New(message)
		}
		if near := schema.Nearest(term, knownTerms()); near != "" {
			return fmt.Errorf("the tables know nothing under %q; did you mean %q?", term, near)
		}
		return fmt.Errorf("the tables know nothing under %q", term)
	}
	var b strings.Builder
	for i, e := range entries {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(e.Title + "\n")
		wide := 0
		for _, l := range e.Lines {
			wide = max(wide, utf8.RuneCountInString(l[0]))
		}
		for _, l := range e.Lines {
			pad := strings.Repeat(" ", wide-utf8.RuneCountInString(l[0]))
			fmt.Fprintf(&b, "  %s%s  %s\n", l[0], pad, l[1])
		}
		if !e.Source.IsZero() {
			fmt.Fprintf(&b, "  source: %s (%s)\n", e.Source.Text, seen(e.Source.Seen))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// seen says how well a value stands in print.
func seen(s reference.Seen) string {
	switch s {
	case reference.SeenTwice:
		return "seen in print twice"
	case reference.SeenOnce:
		return "seen in print"
	case reference.Computed:
		return "computed"
	case reference.Practice:
		return "common practice, no source"
	}
	return "from memory, not seen in print"
}
