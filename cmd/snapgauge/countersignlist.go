package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"strings"

	"snapgauge/schema"
)

// listWaiting shows the records that are not countersigned as they stand.
func listWaiting(ctx context.Context, s streams, paths []string) (err error) {
	f := &files{stdin: s.in, as: "auto", ledgers: &ledgers{}}
	defer func() { err = errors.Join(err, f.close()) }()
	out := bufio.NewWriter(s.out)
	records, waiting, unread := 0, 0, 0
	for e, bad := range f.entries(paths) {
		if ctx.Err() != nil {
			return errors.New("interrupted")
		}
		if bad != nil {
			unread++
			fmt.Fprintf(out, "%v\n", bad)
		}
		if bad != nil || e.HeadOnly || e.Lost {
			continue
		}
		records++
		why, err := waits(e)
		if err != nil {
			return err
		}
		if why != "" {
			waiting++
			fmt.Fprintf(out, "%s:%s: %s: %s\n", e.File, e.Locate(schema.Spot{Path: schema.At("id")}).Start, e.Record.ID, legible(why))
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("write the list: %w", err)
	}
	fmt.Fprintf(s.err, "%s in %s: %d not countersigned\n", count(records, "record", "records"), count(f.read, "file", "files"), waiting)
	if unread > 0 {
		return errUnreadable
	}
	return nil
}

// waits tells why a record waits; "" when it does not.
func waits(e schema.Entry) (string, error) {
	how, line, err := e.Standing()
	if err != nil {
		return "", fmt.Errorf("%s: %w", e.Record.ID, err)
	}
	author := e.Record.EnteredBy(e.Head).By
	if how == schema.Signed {
		return "", nil
	}
	if author == "" {
		return "cannot be countersigned: nobody is named who entered it", nil
	}
	switch how {
	case schema.Void:
		why := fmt.Sprintf("changed since %s countersigned it on %s", line.By, line.Date)
		var what []string
		for _, c := range line.Changes(e.Head, e.Record) {
			text := spoken(c.Path)
			if c.Figure {
				text += fmt.Sprintf(" from %s to %s", orNone(c.Was), orNone(c.Now))
			}
			what = append(what, text)
		}
		if len(what) > 0 {
			why += ": " + strings.Join(what, "; ")
		}
		return why, nil
	case schema.OwnSigned:
		return fmt.Sprintf("countersigned by %s only, who entered it", line.By), nil
	}
	return "waits, entered by " + author, nil
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}
