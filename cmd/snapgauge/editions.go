package main

import (
	"context"
	"errors"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/edition"
)

// openEdition reads one edition of a book: a release, a spec file, or the spec files in a
// folder. What could not be read of it stands in the book; the error is for what stops the
// run, and for a release that is not as it was made.
func openEdition(ctx context.Context, s streams, path string) (book *edition.Book, err error) {
	if isRelease(path) {
		return openReleasedEdition(path)
	}
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

// openReleasedEdition takes the authored records of a release. A place in it is that of the
// authored file, behind the name of the release.
func openReleasedEdition(path string) (*edition.Book, error) {
	r, err := openReleased(path)
	if err != nil {
		return nil, err
	}
	book := &edition.Book{Name: path}
	if r.edition != "release" {
		book.Name += " (" + r.edition + ")"
	}
	for _, f := range r.unread {
		book.AddUnread(edition.Unread{Place: f.Place, Message: f.Message})
	}
	for _, e := range r.entries {
		e.File = path + ": " + e.File
		book.Add(e)
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
