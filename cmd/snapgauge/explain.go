package main

import (
	_ "embed"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

//go:embed unreadable.md
var unreadableDoc string

// unreadable stands for the reader among the checks: a file that cannot be
// read is a finding too.
var unreadable = &rule.Check{
	ID: "unreadable", Layer: "reading", Title: "a file that cannot be read",
	Doc: unreadableDoc, Since: "v0.1.0", Verdict: rule.Reject,
}

// checks are all that can speak, by layer.
func checks() []*rule.Check {
	out := []*rule.Check{unreadable}
	all := verify.All()
	for _, l := range []rule.Layer{rule.Shape, rule.Units, rule.Sense, rule.Physics, rule.Cited, rule.Book} {
		for _, c := range all {
			if c.Layer == l {
				out = append(out, c)
			}
		}
	}
	return out
}

func checkIDs() []string {
	var ids []string
	for _, c := range checks() {
		ids = append(ids, c.ID)
	}
	return ids
}

func newExplain(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "explain [CHECK]",
		Short: "tell what a check looks for and why; without a name, list the checks",
		Long: `Explain prints the text of a check: the rule, why it holds, an example, what it
does not catch and when it may be wrong. Without a name it lists the checks by
layer, with the most severe verdict that each gives.`,
		Example: "  snapgauge explain\n  snapgauge explain unreadable",
		Args:    needs(0, 1, "the name of one check"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			var out []string
			for _, c := range checks() {
				out = append(out, c.ID+"\t"+c.Title)
			}
			return out, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listChecks(s.out)
			}
			return explain(s.out, args[0])
		},
	}
}

func listChecks(w io.Writer) error {
	var b strings.Builder
	var layer rule.Layer
	for _, c := range checks() {
		if c.Layer != layer {
			if layer != "" {
				b.WriteByte('\n')
			}
			layer = c.Layer
			fmt.Fprintf(&b, "%s\n", layer)
		}
		fmt.Fprintf(&b, "  %-26s %-7s %s\n", c.ID, c.Verdict, c.Title)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func explain(w io.Writer, id string) error {
	for _, c := range checks() {
		if c.ID != id {
			continue
		}
		var b strings.Builder
		fmt.Fprintf(&b, "%s: %s\nlayer %s, up to %s, since %s\n", c.ID, c.Title, c.Layer, c.Verdict, c.Since)
		if !c.Source.IsZero() {
			fmt.Fprintf(&b, "source: %s\n", c.Source)
		}
		fmt.Fprintf(&b, "\n%s\n", strings.TrimSpace(c.Doc))
		_, err := io.WriteString(w, b.String())
		return err
	}
	if near := schema.Nearest(id, checkIDs()); near != "" {
		return fmt.Errorf("no check is named %q; did you mean %q?", id, near)
	}
	return fmt.Errorf("no check is named %q; snapgauge explain lists them", id)
}
