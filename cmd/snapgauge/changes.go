package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/changelist"
	"snapgauge/verify/edition"
)

func newChanges(s streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "changes OLD NEW",
		Short: "say what differs between two editions of a book",
		Long: `Changes compares two editions of a book, each a spec file, a folder of them or a
release (a folder or a .zip, which must be as it was released), and prints which figures moved, which records are gone or new, and what else differs:
one line a change, with its place in the new edition (of what is gone, in the old).

Figures are compared as quantities: 71 lbf·in and 8.0 N·m are the same, 6 N·m and
9 N·m are not. A figure in other digits or units, and no other, is no change;
--all shows it. Records are found again by machine and id, else by what they say,
by what they supersede, or by their item and what they apply to. What could not
be read is said, and never called gone.`,
		Example: "  snapgauge changes book-2019/ book-2024/\n" +
			"  snapgauge changes --format html gear-2019.yaml gear.yaml > changes.html\n" +
			"  snapgauge changes gear-2026-06.zip gear.yaml\n" +
			"  snapgauge changes --fail-on figure gear-2019.yaml gear.yaml",
		Args: needs(2, 2, "two paths, the old edition and the new one"),
	}
	format := choose(cmd, "format", "form of the output", changelist.Forms()...)
	failOn := choose(cmd, "fail-on", "what makes the exit code 1", "nothing", "figure", "change")
	all := cmd.Flags().Bool("all", false, "show figures in other digits or units too")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		return changes(cmd.Context(), s, args[0], args[1], format.value, failOn.value, *all)
	}
	return cmd
}

func changes(ctx context.Context, s streams, oldPath, newPath, format, failOn string, all bool) error {
	if oldPath == "-" && newPath == "-" {
		return errors.New("standard input can be one of the editions, not both")
	}
	old, err := openEdition(ctx, s, oldPath)
	if err != nil {
		return err
	}
	now, err := openEdition(ctx, s, newPath)
	if err != nil {
		return err
	}
	list := changelist.List{Old: oldPath, New: newPath, Changes: edition.Compare(old, now), All: all, Caution: caution}
	for _, b := range []*edition.Book{old, now} {
		for _, u := range b.Unread() {
			list.Unread = append(list.Unread, changelist.Unread{Old: b == old, Unread: u})
		}
	}
	out := bufio.NewWriter(s.out)
	if err := errors.Join(list.Write(out, format), out.Flush()); err != nil {
		return fmt.Errorf("write the changes: %w", err)
	}
	fmt.Fprintf(s.err, "%s → %s, %s → %s: %s\n", oldPath, newPath,
		count(old.Records(), "record", "records"), count(now.Records(), "record", "records"), list.Summary())
	warn(s.err)
	if len(list.Unread) > 0 {
		return errUnreadable
	}
	return failedBy(list.Changes, failOn)
}

// failedBy tells whether the changes make the exit code 1.
func failedBy(changes []edition.Change, failOn string) error {
	n := edition.Count(changes)
	moved := n[edition.Figure] + n[edition.Gone] + n[edition.Superseded]
	total := len(changes) - n[edition.Restated]
	if failOn == "figure" && moved > 0 || failOn == "change" && total > 0 {
		return errRejected
	}
	return nil
}
