package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/report"
	"snapgauge/cmd/internal/spill"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

type checkOptions struct {
	paths   []string
	format  string
	failOn  string
	color   string
	as      string
	facts   string // of the machine in hand
	rows    string // the row file to write
	of      string // the file that what is read is a shard of
	from    int    // the number of its first line there
	workers int
	plain   bool   // every record goes through the validator
	since   string // path of an earlier edition
}

func newCheck(s streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "check PATH…",
		Short: "say which figures of spec files do not go",
		Long: `Check reads spec files, and the spec files in folders, as one book and prints
what does not go. A folder is searched to the bottom for .yaml, .yml, .json and
.ndjson files whose format begins with snapgauge/; others, and releases in it,
are counted and left alone. A file named on the command line is always read;
- is standard input.

A reject does not go; a query is for a person to look at; a note is worth
knowing. The summary goes to standard error.

With --for only the records that apply to the machine in hand are judged. Where
a fact is missing that decides which these are, it is asked for.

With --since the records are held against an earlier edition of the book, spec
files or a release: a figure that moved while its source did not is a query.`,
		Example: "  snapgauge check gear.yaml\n" +
			"  snapgauge check --fail-on query specs/\n" +
			"  snapgauge check --for 'variant=B gear=1250' gear.yaml\n" +
			"  snapgauge check --since book-2025/ book/\n" +
			"  snapgauge check --since gear-2026-06.zip book/\n" +
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
	opt := checkOptions{}
	cmd.Flags().Var((*factsFlag)(&opt.facts), "for", "the machine in hand, as `facts`: 'variant=B gear=1250'")
	cmd.Flags().StringVar(&opt.rows, "rows", "", "write the rows of the book to this `file` for merge, and leave the book unjudged")
	cmd.Flags().StringVar(&opt.of, "of", "", "what is read is a shard of the `file` of this name")
	cmd.Flags().IntVar(&opt.from, "from", 1, "and begins with its `line` of this number")
	cmd.Flags().BoolVar(&opt.plain, "plain", false, "send every record through the validator; the findings are the same, and take longer")
	cmd.Flags().IntVar(&opt.workers, "workers", 0, "how many judge at a time; 0 means as many as there are cores")
	complete(cmd, "for", nil)
	cmd.Flags().StringVar(&opt.since, "since", "", "an earlier edition, a `path` or a release: query figures that moved while their source did not")
	complete(cmd, "of", nil)
	complete(cmd, "from", nil)
	complete(cmd, "workers", nil)
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if cmd.Flags().Changed("for") && len(schema.SplitFacts(opt.facts)) == 0 {
			return errors.New("--for needs facts, such as --for 'variant=B gear=1250'")
		}
		if cmd.Flags().Changed("since") && (opt.since == "" || opt.since == "-") {
			return errors.New("--since needs the path of an earlier edition: a release, a file or a folder")
		}
		opt.paths, opt.format, opt.failOn, opt.color, opt.as = args, format.value, failOn.value, color.value, as.value
		if err := opt.settle(cmd.Flags().Changed("from")); err != nil {
			return err
		}
		if opt.since != "" {
			opt.workers = 1 // an earlier edition is looked up by one at a time
		}
		return check(cmd.Context(), s, opt)
	}
	return cmd
}

// check is one run over files.
func check(ctx context.Context, s streams, opt checkOptions) (err error) {
	files := &files{stdin: s.in, as: opt.as, keep: opt.format == "text", ledgers: &ledgers{}, of: opt.of, from: opt.from}
	// Each record is judged before the next is read, but for those that are chosen from.
	files.reader = specs.Reader{Plain: opt.plain, Reuse: opt.facts == ""}
	sorter := &spill.Sorter{}
	lines := &report.Lines{Open: files.reopen, First: opt.from}
	defer func() {
		lines.Close()
		err = errors.Join(err, sorter.Close(), files.close())
	}()

	out := bufio.NewWriter(s.out)
	opt.workers = cmp.Or(opt.workers, runtime.GOMAXPROCS(0))
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
		failed = w.Finding(f)
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
	summary := ""
	if opt.facts != "" {
		summary, err = checkFor(ctx, files, opt, earlier, sorter, &t, say)
	} else {
		book := verify.NewBook(verify.Options{Sorter: sorter, Lanes: opt.workers, Apart: opt.rows != ""})
		judging := judging{files: files, sorter: sorter, book: book, earlier: earlier}
		t.records, err = judging.parts(ctx, opt, func(found *verify.Said) bool {
			if !book.Hear(found, say) {
				return false
			}
			// What was found so far is shown while the rest is read.
			failed = out.Flush()
			return failed == nil
		})
		switch {
		case err != nil || failed != nil || ctx.Err() != nil:
		case opt.rows != "":
			if err = notRead("--rows", opt.rows, files.took); err == nil {
				err = writeRows(opt, sorter, book)
			}
		default:
			err = book.Judge(say)
		}
	}
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

// checkFor is a run over the records that apply to the machine in hand. The book
// is judged as a whole, and what is not about that machine is not told.
func checkFor(ctx context.Context, files *files, opt checkOptions, earlier *edition.Book, sorter *spill.Sorter, t *tally, say func(rule.Finding) bool) (summary string, err error) {
	machine, err := chooseFor(func(yield func(schema.Entry) bool) {
		for e, bad := range files.entries(opt.paths) {
			if bad != nil && !say(unreadableFinding(e, bad)) {
				return
			}
			if bad != nil && !e.Lost {
				continue
			}
			e.Before = earlier.Find(&e)
			if ctx.Err() != nil || !yield(e) {
				return
			}
		}
	}, opt.facts, nil)
	if err != nil {
		return "", err
	}
	t.records = machine.records
	return machine.String(), verify.Run(machine.entries(), verify.Options{Sorter: sorter}, func(f rule.Finding) bool {
		return !machine.concerns(f) || say(f)
	})
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
