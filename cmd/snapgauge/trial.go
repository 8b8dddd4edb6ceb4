package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/schema"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
	"snapgauge/verify/trial"
)

type trialOptions struct {
	paths  []string
	format string
	seed   seed
	kinds  []string
}

// seed is the value of a flag.
type seed uint64

func (s *seed) String() string { return strconv.FormatUint(uint64(*s), 10) }
func (s *seed) Type() string   { return "number" }

func (s *seed) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 64)
	if err != nil {
		return errors.New("must be a whole number from 0 to 18446744073709551615")
	}
	*s = seed(n)
	return nil
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

The files are not changed. The same seed plants the same slips. The exit code is 0
when everything could be read and at least one slip was planted, and 2 otherwise.

The kinds of slip that --kinds takes:
` + listOfKinds(),
		Example: "  snapgauge trial specs/demo\n" +
			"  snapgauge trial --seed 7 --kinds unit-swapped,point-moved gear.yaml",
		Args: needs(1, -1, "a path"),
	}
	format := choose(cmd, "format", "form of the output", "text", "json")
	opt.seed = 1
	cmd.Flags().Var(&opt.seed, "seed", "`number` that decides which slips are drawn")
	cmd.Flags().StringSliceVar(&opt.kinds, "kinds", nil, "`kinds` of slip to plant, separated by commas; all when not given")
	complete(cmd, "seed", nil)
	complete(cmd, "kinds", slipKinds())
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		opt.paths, opt.format = args, format.value
		kinds, err := kindsOf(opt.kinds)
		if err != nil {
			return err
		}
		if cmd.Flags().Changed("kinds") && len(kinds) == 0 {
			return errors.New("--kinds names no kind of slip; " + knownKinds())
		}
		opt.kinds = kinds
		return runTrial(cmd.Context(), s, opt)
	}
	return cmd
}

// kindsOf are the ids that --kinds was given, without the spaces around them.
func kindsOf(given []string) (kinds []string, err error) {
	for _, k := range given {
		if k = strings.TrimSpace(k); k == "" {
			continue
		}
		if _, ok := slip.KindOf(k); !ok {
			if near := schema.Nearest(k, slipKinds()); near != "" {
				return nil, fmt.Errorf("there is no kind of slip %q; did you mean %q?", k, near)
			}
			return nil, fmt.Errorf("there is no kind of slip %q; %s", k, knownKinds())
		}
		kinds = append(kinds, k)
	}
	return kinds, nil
}

func knownKinds() string { return "there are " + strings.Join(slipKinds(), ", ") }

// listOfKinds is the list for the help: id and name.
func listOfKinds() string {
	var b strings.Builder
	for _, k := range slip.Kinds() {
		fmt.Fprintf(&b, "  %-18s %s\n", k.ID, k.Name)
	}
	return strings.TrimRight(b.String(), "\n")
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
				f := unreadableFinding(e, bad)
				fmt.Fprintf(s.err, "%s: %s\n", placeOf(f.Place), f.Message)
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
		Seed: uint64(opt.seed), Kinds: opt.kinds, Progress: progress.show, Stop: func() bool { return ctx.Err() != nil },
	})
	progress.done()
	if ctx.Err() != nil {
		return errors.New("interrupted")
	}
	switch {
	case result.Records == 0 && unread > 0:
		return errUnreadable
	case result.Records == 0:
		return errors.New("there are no records to try")
	case len(result.Counts) == 0:
		return errors.New(nothingPlanted(result))
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

// nothingPlanted says why a trial came to nothing.
func nothingPlanted(r trial.Report) string {
	message := "no slip can be planted in " + count(r.Records, "record", "records")
	if bad := r.Rejected + r.Queried; bad > 0 {
		message += fmt.Sprintf(": %d of them rejected or queried as they are; see snapgauge check", bad)
	}
	return message
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
