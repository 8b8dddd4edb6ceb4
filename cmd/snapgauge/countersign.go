package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/report"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

func newCountersign(s streams) *cobra.Command {
	by, date, list := "", "", false
	cmd := &cobra.Command{
		Use:   "countersign FILE ID… --by INITIALS | --list PATH…",
		Short: "say that you have read records against their source",
		Long: `Countersign shows each record as it stands in its file, with the source to hold
it against, and asks whether you have read it there. Each yes is one line in the
ledger countersigned.ndjson beside the file: the id, the fingerprint of what was
shown, by whom, and the date. Lines are only ever added, and two people may
countersign at once.

Another person than the author must do it: a record that does not say who
entered it cannot be countersigned, nor one that the checks reject. A figure that
is changed afterwards voids it; a unit that is spelt another way does not.

Each question is answered by a line of standard input: y or yes, anything else
is no. With --list nothing is asked: what still waits is shown.`,
		Example: "  snapgauge countersign gear.yaml control-cover-screws gearcase-oil --by JT\n" +
			"  snapgauge countersign --list specs/",
		Args: needs(1, -1, "a file and ids of records, or --list and a path"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 || list {
				return nil, cobra.ShellCompDirectiveDefault
			}
			return waitingRecords(args[0]), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if list {
				return listWaiting(cmd.Context(), s, args)
			}
			date, err := countersignDate(date)
			if err != nil {
				return err
			}
			by, err := countersigner(by)
			if err != nil {
				return err
			}
			if len(args) < 2 {
				return errors.New("countersign needs the ids of the records that you have read; --list shows what still waits")
			}
			return countersign(cmd.Context(), s, args[0], args[1:], by, date)
		},
	}
	cmd.Flags().StringVar(&by, "by", "", "your `initials` or name")
	cmd.Flags().StringVar(&date, "date", "", "`date` of the reading, when it is not today: 2026-03-09")
	cmd.Flags().BoolVar(&list, "list", false, "show what still waits")
	complete(cmd, "by", nil)
	complete(cmd, "date", nil)
	return cmd
}

func countersignDate(date string) (string, error) {
	if date == "" {
		return time.Now().Format(time.DateOnly), nil
	}
	if _, err := time.Parse(time.DateOnly, date); err != nil {
		return "", fmt.Errorf("--date: %q is no date, such as 2026-03-09", date)
	}
	return date, nil
}

func countersigner(by string) (string, error) {
	switch by = strings.TrimSpace(by); {
	case by == "":
		return "", errors.New("countersign needs --by with your initials: --by JT")
	case len(by) > 100 || strings.ContainsFunc(by, unicode.IsControl):
		return "", errors.New("--by: write initials or a name")
	}
	return by, nil
}

// countersign asks for each record, and appends a line for each yes at once.
func countersign(ctx context.Context, s streams, path string, ids []string, by, date string) (err error) {
	f := &files{stdin: strings.NewReader(""), as: "auto", ledgers: &ledgers{}}
	lines := &report.Lines{Open: f.reopen}
	defer func() {
		lines.Close()
		err = errors.Join(err, f.close())
	}()
	if path == "-" {
		return errors.New("standard input has no ledger beside it; name a file")
	}
	var book []schema.Entry
	for e, bad := range f.entries([]string{path}) {
		if bad != nil {
			return bad
		}
		book = append(book, e)
	}
	p := countersignPage{book: book, lines: lines, by: by, date: date}
	if err := p.prepare(ids); err != nil {
		return err
	}
	in := bufio.NewReader(s.in)
	declined := 0
	for _, x := range p.asked {
		if ctx.Err() != nil {
			return errors.New("interrupted")
		}
		if x.already != "" {
			if _, err := fmt.Fprintf(s.out, "%s: %s\n", x.entry.Record.ID, x.already); err != nil {
				return err
			}
			continue
		}
		if _, err := io.WriteString(s.out, p.show(x)+countersignQuestion); err != nil {
			return err
		}
		answer, err := in.ReadString('\n')
		if err != nil && answer == "" {
			fmt.Fprintln(s.out)
			return &rejectedError{fmt.Sprintf("%s: no answer; it is not countersigned", x.entry.Record.ID)}
		}
		if ctx.Err() != nil {
			return errors.New("interrupted")
		}
		switch strings.ToLower(strings.TrimSpace(answer)) {
		case "y", "yes":
		default:
			declined++
			fmt.Fprintf(s.out, "%s: not countersigned\n", x.entry.Record.ID)
			continue
		}
		if err := specs.AppendLedger(ledgerBeside(x.entry.File), x.line); err != nil {
			return fmt.Errorf("%s is not countersigned: write %s: %w", x.entry.Record.ID, ledgerBeside(x.entry.File), err)
		}
		if _, err := fmt.Fprintf(s.out, "%s: countersigned by %s\n", x.entry.Record.ID, by); err != nil {
			return err
		}
	}
	warn(s.err)
	if declined > 0 {
		return errRejected
	}
	return nil
}

const countersignQuestion = "have you read this against its source, and does every figure agree? [y/N] "

// countersignPage holds what is to be countersigned.
type countersignPage struct {
	book     []schema.Entry
	lines    *report.Lines
	by, date string
	asked    []toCountersign
}

// toCountersign is one record and the line that a yes adds.
type toCountersign struct {
	entry   schema.Entry
	line    schema.Countersign
	queries []string
	already string // why it need not be asked
}

// prepare finds the records and refuses those that cannot be countersigned,
// before anything is asked.
func (p *countersignPage) prepare(ids []string) error {
	var known []string
	for _, e := range p.book {
		if !e.HeadOnly {
			known = append(known, e.Record.ID)
		}
	}
	var refused []string
	for i, id := range ids {
		if slices.Contains(ids[:i], id) {
			continue
		}
		e, err := p.named(id, known)
		if err != nil {
			return err
		}
		why, err := p.refuses(e)
		if err != nil {
			return err
		}
		if why != "" {
			refused = append(refused, fmt.Sprintf("%s: %s", id, why))
			continue
		}
		x := toCountersign{entry: e}
		if x.line, err = schema.NewCountersign(e.Head, e.Record, p.by, p.date); err != nil {
			return fmt.Errorf("%s: %w", id, err)
		}
		for _, c := range e.Countersigned {
			if c.Of(e.Head, e.Record) && c.Fingerprint == x.line.Fingerprint && schema.SamePerson(c.By, p.by) {
				x.already = fmt.Sprintf("countersigned by %s on %s already, as it stands", c.By, c.Date)
			}
		}
		p.asked = append(p.asked, x)
	}
	if len(refused) == 0 {
		rejects, err := p.judge()
		if err != nil {
			return err
		}
		refused = rejects
	}
	if len(refused) > 0 {
		return &rejectedError{"this cannot be countersigned\n" + strings.Join(refused, "\n")}
	}
	return nil
}

// named finds the one record of an id.
func (p *countersignPage) named(id string, known []string) (schema.Entry, error) {
	var found []schema.Entry
	for _, e := range p.book {
		if !e.HeadOnly && e.Record.ID == id {
			found = append(found, e)
		}
	}
	switch near := schema.Nearest(id, known); {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return schema.Entry{}, fmt.Errorf("%d records are named %q; give each an id of its own, or name one file", len(found), id)
	case near != "":
		return schema.Entry{}, fmt.Errorf("no record is named %q; did you mean %q?", id, near)
	}
	return schema.Entry{}, fmt.Errorf("no record is named %q", id)
}

// refuses tells why a record cannot be countersigned by this person; "" when it
// can.
func (p *countersignPage) refuses(e schema.Entry) (string, error) {
	author := e.Record.EnteredBy(e.Head).By
	switch {
	case e.Lost:
		return "it could not be read", nil
	case len(e.Problems) > 0:
		return e.Problems[0].Message, nil
	case author == "":
		return "nobody is named who entered it; say so under entered, on the record or at the head", nil
	case schema.SamePerson(author, p.by):
		return fmt.Sprintf("%s entered it; another person must read it against its source", author), nil
	}
	return "", nil
}

// judge runs the checks over the book. What they reject of the records is
// returned; what they query is shown beside them.
func (p *countersignPage) judge() (rejects []string, err error) {
	err = verify.Run(slices.Values(p.book), verify.Options{}, func(f rule.Finding) bool {
		if f.Check == "countersign-void" {
			return true // that is why we are here
		}
		for i := range p.asked {
			x := &p.asked[i]
			if f.Place.Record != x.entry.Record.ID || f.Place.File != x.entry.File || x.already != "" {
				continue
			}
			text := fmt.Sprintf("%s:%s: %s [%s]", f.Place.File, f.Place.Span.Start, f.Message, f.Check)
			switch f.Verdict {
			case rule.Reject:
				rejects = append(rejects, text)
			case rule.Query:
				x.queries = append(x.queries, text)
			}
		}
		return true
	})
	return rejects, err
}

// waitingRecords are the records of a file that wait, for the shell.
func waitingRecords(path string) []string {
	f := &files{stdin: strings.NewReader(""), as: "auto", ledgers: &ledgers{}}
	defer f.close()
	var out []string
	for e, err := range f.entries([]string{path}) {
		if err != nil || e.HeadOnly || e.Lost {
			continue
		}
		if how, _, err := e.Standing(); err == nil && how != schema.Signed {
			out = append(out, e.Record.ID+"\t"+e.Record.Where)
		}
	}
	return out
}
