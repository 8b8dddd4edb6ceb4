package main

import (
	"context"
	"errors"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/edition"
)

// openEdition reads one edition of a book: a spec file, or the spec files in a folder.
// What could not be read of it stands in the book; the error is for what stops the run.
func openEdition(ctx context.Context, s streams, path string) (book *edition.Book, err error) {
	f := &files{stdin: s.in, as: "auto"}
	defer func() { err = errors.Join(err, f.close()) }()
	book = &edition.Book{Name: path}
	for e, bad := range f.entries([]string{path}) {
		if ctx.Err() != nil {
			return nil, errors.New("interrupted")
		}
		if bad != nil {
			book.AddUnread(unreadOf(e, bad))
		}
		if bad == nil || e.Lost {
			book.Add(e)
		}
	}
	return book, nil
}

// unreadOf tells what could not be read, and of which record where that is known.
func unreadOf(e schema.Entry, err error) edition.Unread {
	u := edition.Unread{Message: err.Error()}
	u.Place.File, u.Place.Pointer = e.File, e.Pointer
	if e.Head != nil {
		u.Machine = e.Head.Machine.ID
	}
	var bad *specs.Unreadable
	if errors.As(err, &bad) {
		u.Place.File, u.Place.Span, u.Message = bad.File, bad.Span, bad.Message
	}
	if e.Lost {
		u.Place.Record = e.Record.ID
	}
	return u
}
