package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

func newLevel(s streams) *cobra.Command {
	at, comma := "", false
	cmd := &cobra.Command{
		Use:   "level FILE RECORD --at TEMPERATURE",
		Short: "tell between which levels a fill must stand at a temperature",
		Long: `Level reads a fill record of a spec file and tells between which levels it must
stand at a temperature. Between two points of the level table it takes the
straight line, and rounds both bounds inwards; over a range (15 to 25 °C) the
level that is printed for it holds; beyond the table it says nothing.
Of a level by marks it tells the mark that holds, of a level by plug the sign to
look for. How the level is to be read is told with it: engine, selector, ground
and wait.

A record whose level the checks reject is refused.`,
		Example: "  snapgauge level specs/demo/wrackline-40.yaml gearcase-oil --at 52°C\n" +
			"  snapgauge level specs/demo/warphead-12.yaml hydraulic-tank --at '120 °F'",
		Args: needs(2, 2, "a file and the id of a record"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			switch len(args) {
			case 0:
				return nil, cobra.ShellCompDirectiveDefault
			case 1:
				return levelRecords(args[0]), cobra.ShellCompDirectiveNoFileComp
			}
			return nil, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if at == "" {
				return errors.New("level needs --at with a temperature: --at 52°C; see snapgauge level --help")
			}
			text, err := level(s.in, args[0], args[1], at, comma)
			if err != nil {
				return err
			}
			if _, err := io.WriteString(s.out, text); err != nil {
				return err
			}
			warn(s.err)
			return nil
		},
	}
	cmd.Flags().StringVar(&at, "at", "", "`temperature` of the fill, with its unit: 52°C")
	complete(cmd, "at", nil)
	commaFlag(cmd, &comma)
	return cmd
}

// level tells the level of a record at a temperature.
func level(stdin io.Reader, path, id, at string, comma bool) (string, error) {
	t, err := temperatureOf(at, comma)
	if err != nil {
		return "", err
	}
	book, err := readAll(stdin, path)
	if err != nil {
		return "", err
	}
	e, err := recordNamed(book, id)
	if err != nil {
		return "", err
	}
	r := e.Record
	l := &r.Level
	switch {
	case r.Kind != schema.KindFill:
		return "", fmt.Errorf("%s is a %s record, not a fill", id, r.Kind)
	case len(l.Points) == 0 && len(l.Marks) == 0 && l.At.IsZero() && l.Sign == "":
		return "", noLevel(r)
	}
	queries, err := judge(book, e)
	if err != nil {
		return "", err
	}
	p := levelPage{entry: e, t: t, queries: queries}
	if err := p.write(); err != nil {
		return "", err
	}
	p.reading(book)
	return p.b.String(), nil
}

// temperatureOf reads one temperature.
func temperatureOf(text string, comma bool) (convert.Quantity, error) {
	q, p := convert.Parse(text, convert.Of(convert.Temperature), decimalMark(comma))
	if p != nil {
		return q, fmt.Errorf("--at: %w", refusal(text, p))
	}
	if q.Form != convert.Single {
		return q, fmt.Errorf("--at: %s: write one temperature, such as 52 °C", text)
	}
	if q.Nominal() < 0 {
		zero, _ := convert.Parse("0.00 K", convert.Of(convert.Temperature), convert.Point)
		if c, err := zero.To(q.Unit, false); err == nil {
			zero = c.Quantity
		}
		return q, fmt.Errorf("--at: %s is below absolute zero, %s", q, zero)
	}
	return q, nil
}

// readAll reads a file to its end. What cannot be read of it is an error, for
// the record that is looked for may be there, or one that supersedes it.
func readAll(stdin io.Reader, path string) ([]schema.Entry, error) {
	f := &files{stdin: stdin, as: "auto"}
	var book []schema.Entry
	for e, err := range f.entries([]string{path}) {
		if err != nil {
			return nil, errors.Join(err, f.close())
		}
		book = append(book, e)
	}
	return book, f.close()
}

// recordNamed finds the one record of that id.
func recordNamed(book []schema.Entry, id string) (schema.Entry, error) {
	var found, fills []schema.Entry
	var ids []string
	for _, e := range book {
		if e.HeadOnly {
			continue
		}
		if e.Lost {
			// Nothing of it was read but its id.
			if e.Record != nil && e.Record.ID == id {
				return schema.Entry{}, fmt.Errorf("%s: %s could not be read; see snapgauge check", e.File, id)
			}
			continue
		}
		if e.Record.ID == id {
			found = append(found, e)
		}
		if hasLevel(e.Record) {
			fills = append(fills, e)
			ids = append(ids, e.Record.ID)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return schema.Entry{}, fmt.Errorf("%d records are named %q, the first two in %s and %s; name one file",
			len(found), id, found[0].File, found[1].File)
	}
	message := fmt.Sprintf("no record is named %q", id)
	switch near := schema.Nearest(id, ids); {
	case near != "":
		message += fmt.Sprintf("; did you mean %q?", near)
	case len(fills) == 0:
		message += ", and no record here has a level"
	default:
		message += "; records with a level are " + strings.Join(ids[:min(len(ids), 8)], ", ")
	}
	return schema.Entry{}, errors.New(message)
}

func hasLevel(r *schema.Record) bool {
	l := &r.Level
	return len(l.Points) > 0 || len(l.Marks) > 0 || !l.At.IsZero() || l.Sign != ""
}

// levelRecords are the records of a file that have a level, for the shell.
func levelRecords(path string) []string {
	book, _ := readAll(strings.NewReader(""), path)
	var out []string
	for _, e := range book {
		if !e.HeadOnly && !e.Lost && hasLevel(e.Record) {
			out = append(out, e.Record.ID+"\t"+e.Record.Where)
		}
	}
	return out
}

func noLevel(r *schema.Record) error {
	if u := r.Unpublished; u.Why != "" || u.Do != "" {
		return fmt.Errorf("%s has no level: %s; %s", r.ID, u.Why, u.Do)
	}
	return fmt.Errorf("%s says nothing of a level", r.ID)
}

// judge runs the checks over the book. What they reject of the level of the
// record is an error, for a level that does not go must not be worked from;
// what they query is returned, to be shown beside it.
func judge(book []schema.Entry, e schema.Entry) (queries []string, err error) {
	var rejects []string
	level := e.Pointer + "/level"
	err = verify.Run(slices.Values(book), verify.Options{}, func(f rule.Finding) bool {
		within := f.Place.Pointer == level || strings.HasPrefix(f.Place.Pointer, level+"/")
		if !within || f.Place.File != e.File || f.Place.Record != e.Record.ID {
			return true
		}
		text := fmt.Sprintf("%s:%s: %s [%s]", e.File, f.Place.Span.Start, f.Message, f.Check)
		switch f.Verdict {
		case rule.Reject:
			rejects = append(rejects, text)
		case rule.Query:
			queries = append(queries, text)
		}
		return true
	})
	if err == nil && len(rejects) > 0 {
		err = &rejectedError{fmt.Sprintf("the level of %s does not go; put it right first\n%s", e.Record.ID, strings.Join(rejects, "\n"))}
	}
	return queries, err
}
