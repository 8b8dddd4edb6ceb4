package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"runtime"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/report"
	"snapgauge/cmd/internal/spill"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

func newMerge(s streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "merge ROWFILE…",
		Short: "judge the book whose shards were checked apart",
		Long: `Merge reads the row files that check --rows wrote for the shards of a book, and
prints what the checks of the book say of all of them together.

A large file of NDJSON is parted at any line feeds. Each shard is checked where
there is room, told what it is a part of; what check prints for the shards, one
behind the other, and what merge prints after them is what one run over the
whole file prints. The row files may be named in any order.`,
		Example: "  head -n 500000 book.ndjson | snapgauge check --rows 1.rows --of book.ndjson -\n" +
			"  tail -n +500001 book.ndjson | snapgauge check --rows 2.rows --of book.ndjson --from 500001 -\n" +
			"  snapgauge merge 1.rows 2.rows",
		Args: needs(1, -1, "a row file"),
	}
	var forms []string
	for _, f := range report.Forms() {
		forms = append(forms, f.Name)
	}
	format := choose(cmd, "format", "form of the output", forms...)
	failOn := choose(cmd, "fail-on", "least verdict that makes the exit code 1", "reject", "query")
	color := choose(cmd, "color", "colour in the form text", "auto", "always", "never")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		return merge(cmd.Context(), s, checkOptions{paths: args, format: format.value, failOn: failOn.value, color: color.value})
	}
	return cmd
}

// merge judges a book by its row files. Lines are shown where the files can be
// opened under the names that were told.
func merge(ctx context.Context, s streams, opt checkOptions) error {
	shards, err := openShards(opt.paths)
	if err != nil {
		return err
	}
	defer closeShards(shards)
	var rows []*spill.RowFile
	for _, sh := range shards {
		rows = append(rows, sh.rows)
	}
	book := verify.NewBook(verify.Options{Sorter: spill.Merged(rows), Lanes: runtime.GOMAXPROCS(0)})
	for _, sh := range shards {
		book.Ask(sh.head.Asked...)
	}
	lines := &report.Lines{Open: (&files{}).reopen}
	defer lines.Close()
	out := bufio.NewWriter(s.out)
	w, err := report.New(opt.format, out, report.Options{
		Colour: colour(opt.color, s.out), Lines: lines, Checks: checks(), Version: version,
	})
	if err != nil {
		return err
	}
	var t tally
	var failed error // of the output
	err = book.Judge(func(f rule.Finding) bool {
		t.add(f)
		failed = w.Finding(f)
		return failed == nil && ctx.Err() == nil
	})
	switch {
	case ctx.Err() != nil:
		return errors.New("interrupted")
	case failed == nil && err != nil:
		return err
	}
	if failed = errors.Join(failed, w.Close(true), out.Flush()); failed != nil {
		return fmt.Errorf("write the findings: %w", failed)
	}
	fmt.Fprintf(s.err, "the book of %s: %s\n", count(len(shards), "row file", "row files"), t.verdicts())
	warn(s.err)
	return t.outcome(opt.failOn)
}
