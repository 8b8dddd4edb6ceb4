package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"snapgauge/schema"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
	"snapgauge/verify/trial"
)

type trialOptions struct {
	paths  []string
	format string
	seed   uint64
	kinds  []string
}

func newTrial(s streams) *cobra.Command {
	var opt trialOptions
	cmd := &cobra.Command{
		Use:   "trial PATH…",
		Short: "plant slips in good records and count how many are caught",
		Long: `Trial reads spec files as check does, plants one slip of copying at a time in a
copy of each record, and counts how many are caught by a reject or query, and for
how many what was meant is named first or among the three that are shown. Slips
that change a figure by less than 3 % are not planted. It ends with the records
that most slips pass through, and what to add to each: found by trying it.

The files are not changed. The same seed plants the same slips.`,
		Example: "  snapgauge trial specs/demo\n" +
			"  snapgauge trial --seed 7 --kinds unit-swapped,point-moved gear.yaml",
		Args: needs(1, -1, "a path"),
	}
	format := choose(cmd, "format", "form of the output", "text", "json")
	cmd.Flags().Uint64Var(&opt.seed, "seed", 1, "`number` that decides which slips are drawn")
	cmd.Flags().StringSliceVar(&opt.kinds, "kinds", nil, "`kinds` of slip to plant, separated by commas; all when not given")
	complete(cmd, "seed", nil)
	complete(cmd, "kinds", slipKinds())
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		opt.paths, opt.format = args, format.value
		for _, k := range opt.kinds {
			if _, ok := slip.KindOf(k); !ok {
				message := fmt.Sprintf("there is no kind of slip %q", k)
				if near := schema.Nearest(k, slipKinds()); near != "" {
					message += fmt.Sprintf("; did you mean %q?", near)
				}
				return errors.New(message + "; see snapgauge trial --help")
			}
		}
		return runTrial(cmd.Context(), s, opt)
	}
	return cmd
}

func slipKinds() []string {
	var ids []string
	for _, k := range slip.Kinds() {
		ids = append(ids, k.ID)
	}
	return ids
}

// runTrial is one trial over files. What cannot be read is told and left out.
func runTrial(ctx context.Context, s streams, opt trialOptions) (err error) {
	files := &files{stdin: s.in, as: "auto"}
	defer func() { err = errors.Join(err, files.close()) }()
	unread := 0
	entries := func(yield func(schema.Entry) bool) {
		for e, bad := range files.entries(opt.paths) {
			if bad != nil {
				unread++
				fmt.Fprintf(s.err, "%s: %s\n", placeOf(unreadableFinding(e, bad).Place), bad)
				continue
			}
			if e.Lost {
				continue
			}
			if ctx.Err() != nil || !yield(e) {
				return
			}
		}
	}
	progress := progressOn(s.err)
	result := trial.Run(entries, trial.Options{
		Seed: opt.seed, Kinds: opt.kinds, Progress: progress.show, Stop: func() bool { return ctx.Err() != nil },
	})
	progress.done()
	if ctx.Err() != nil {
		return errors.New("interrupted")
	}
	if result.Records == 0 && unread == 0 {
		return errors.New("there are no records to try")
	}
	write := writeTrialText
	if opt.format == "json" {
		write = writeTrialJSON
	}
	if err := write(s.out, result); err != nil {
		return fmt.Errorf("write the trial: %w", err)
	}
	warn(s.err)
	if unread > 0 {
		return errUnreadable
	}
	return nil
}

func placeOf(p rule.Place) string {
	if p.Span.IsZero() {
		return p.File
	}
	return p.File + ":" + p.Span.Start.String()
}

// progress is shown on a terminal only.
type progress struct {
	out   io.Writer
	shown bool
	last  int
}

func progressOn(out io.Writer) *progress {
	f, ok := out.(*os.File)
	if !ok {
		return &progress{}
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return &progress{}
	}
	return &progress{out: out, last: -1}
}

// show tells how far the trial is, when that is another whole per cent.
func (p *progress) show(done, total int) {
	if p.out == nil || total == 0 || 100*done/total == p.last {
		return
	}
	p.last, p.shown = 100*done/total, true
	fmt.Fprintf(p.out, "\r%d of %d records", done, total)
}

// done wipes the line.
func (p *progress) done() {
	if p.shown {
		fmt.Fprintf(p.out, "\r%s\r", "                              ")
	}
}

// totals adds the counts of a report: of two units, of one, of all.
func totals(counts []trial.Count) []trial.Count {
	sum := func(name string, of func(trial.Count) bool) trial.Count {
		t := trial.Count{Name: name}
		for _, c := range counts {
			if of(c) {
				t.Planted += c.Planted
				t.Caught += c.Caught
				t.Rejected += c.Rejected
				t.Named += c.Named
				t.First += c.First
			}
		}
		return t
	}
	two, one := sum("all in two units", func(c trial.Count) bool { return c.Units > 1 }), sum("all in one unit", func(c trial.Count) bool { return c.Units == 1 })
	two.Units, one.Units = 2, 1
	all := sum("all", func(trial.Count) bool { return true })
	return slices.DeleteFunc([]trial.Count{two, one, all}, func(c trial.Count) bool { return c.Planted == 0 })
}
