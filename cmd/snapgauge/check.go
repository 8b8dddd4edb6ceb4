package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"os"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/report"
	"snapgauge/cmd/internal/spill"
	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

type checkOptions struct {
	paths  []string
	format string
	failOn string
	color  string
	as     string
	facts  string // of the machine in hand
	since  string // path of an earlier edition
	plain  bool   // every record goes through the validator
}

func newCheck(s streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "check PATH…",
		Short: "say which figures of spec files do not go",
		Long: `Check reads spec files, and the spec files in folders, as one book and prints
what does not go. A folder is searched to the bottom for .yaml, .yml, .json and
.ndjson files whose format begins with snapgauge/; others are counted and left
alone. A file named on the command line is always read; - is standard input.

A reject does not go; a query is for a person to look at; a note is worth
knowing. The summary goes to standard error.

With --for only the records that apply to the machine in hand are judged. Where
a fact is missing that decides which these are, it is asked for.

With --since the records are held against an earlier edition of the book: a figure
that moved while its source did not is a query.`,
		Example: "  snapgauge check gear.yaml\n" +
			"  snapgauge check --fail-on query specs/\n" +
			"  snapgauge check --for 'variant=B gear=1250' gear.yaml\n" +
			"  snapgauge check --since book-2025/ book/\n" +
			"  snapgauge check --format json - < book.ndjson",
		Args: needs(1, -1, "a path"),
	}
	var forms []string
	for _, f := range report.Forms() {
		forms = append(forms, f.Name)
	}
	format := choose(cmd, "format", "form of the output", forms...)
	failOn := choose(cmd, "fail-on", "least verdict that makes the exit code 1", "reject", "query")
	color := choose(cmd, "color", "colour in the form text", "auto", "always", "never")
	as := choose(cmd, "as", "how standard input is written", "auto", "yaml", "json", "ndjson")
	facts := ""
	cmd.Flags().StringVar(&facts, "for", "", "the machine in hand, as `facts`: 'variant=B gear=1250'")
	complete(cmd, "for", nil)
	since := ""
	cmd.Flags().StringVar(&since, "since", "", "an earlier edition, a `path`: query figures that moved while their source did not")
	plain := cmd.Flags().Bool("plain", false, "send every record through the validator; the findings are the same, and take longer")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if cmd.Flags().Changed("for") && len(schema.SplitFacts(facts)) == 0 {
			return errors.New("--for needs facts, such as --for 'variant=B gear=1250'")
		}
		if cmd.Flags().Changed("since") && (since == "" || since == "-") {
			return errors.New("--since needs the path of an earlier edition: a file or a folder")
		}
		return check(cmd.Context(), s, checkOptions{args, format.value, failOn.value, color.value, as.value, facts, since, *plain})
	}
	return cmd
}

// check is one run over files.
func check(ctx context.Context, s streams, opt checkOptions) (err error) {
	files := &files{stdin: s.in, as: opt.as, keep: opt.format == "text", ledgers: &ledgers{}}
	files.reader.Plain = opt.plain
	sorter := &spill.Sorter{}
	lines := &report.Lines{Open: files.reopen}
	defer func() {
		lines.Close()
		err = errors.Join(err, sorter.Close(), files.close())
	}()

	out := bufio.NewWriter(s.out)
	w, err := report.New(opt.format, out, report.Options{
		Colour: colour(opt.color, s.out), Lines: lines, Checks: checks(), Version: version,
	})
	if err != nil {
		return err
	}
	var t tally
	var failed error // of the output
	say := func(f rule.Finding) bool {
		t.add(f)
		if failed = w.Finding(f); failed == nil {
			failed = out.Flush()
		}
		return failed == nil && ctx.Err() == nil
	}
	earlier := &edition.Book{}
	if opt.since != "" {
		if earlier, err = openEdition(ctx, s, opt.since); err != nil {
			return err
		}
		for _, u := range earlier.Unread() {
			say(rule.Finding{Check: unreadable.ID, Verdict: rule.Reject, Message: u.Message, Place: u.Place})
		}
	}
	entries := func(yield func(schema.Entry) bool) {
		for e, bad := range files.entries(opt.paths) {
			if bad != nil && !say(unreadableFinding(e, bad)) {
				return
			}
			switch {
			case e.Lost: // there for the book, and counted as unreadable
			case bad != nil:
				continue
			case !e.HeadOnly:
				t.records++
			}
			e.Before = earlier.Find(&e)
			if ctx.Err() != nil || !yield(e) {
				return
			}
		}
	}
	judged, told, summary := iter.Seq[schema.Entry](entries), say, ""
	if opt.facts != "" {
		machine, err := chooseFor(entries, opt.facts)
		if err != nil {
			return err
		}
		judged, summary = machine.entries(), machine.String()
		told = func(f rule.Finding) bool { return !machine.concerns(f) || say(f) }
		t.records = machine.records
	}
	err = verify.Run(judged, verify.Options{Sorter: sorter}, told)
	switch {
	case ctx.Err() != nil:
		return errors.New("interrupted")
	case failed != nil:
		return fmt.Errorf("write the findings: %w", failed)
	case err != nil:
		return err
	}
	if err := errors.Join(w.Close(t.unreadable == 0), out.Flush()); err != nil {
		return fmt.Errorf("write the findings: %w", err)
	}
	t.files, t.left = files.read, files.left
	fmt.Fprint(s.err, summary, t)
	warn(s.err)
	return t.outcome(opt.failOn)
}

// colour decides whether the text is coloured: on a terminal only, unless the
// user says otherwise, by flag or by NO_COLOR.
func colour(when string, out io.Writer) bool {
	switch when {
	case "always":
		return true
	case "never":
		return false
	}
	f, ok := out.(*os.File)
	if !ok || os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
