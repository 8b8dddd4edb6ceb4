package main

import (
	"context"
	"errors"

	"snapgauge/cmd/internal/seal"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/edition"
)

// openEdition reads one edition of a book: a spec file, the spec files in a folder, or
// a release, which must be as it was made.
// What could not be read of it stands in the book; the error is for what stops the run.
func openEdition(ctx context.Context, s streams, path string) (book *edition.Book, err error) {
	if isRelease(path) {
		return releasedEdition(path)
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

// releasedEdition reads the authored files of a release.
func releasedEdition(path string) (*edition.Book, error) {
	r, authored, err := readReleased(path)
	if err != nil {
		return nil, err
	}
	book := &edition.Book{Name: path}
	if r.Draft() || r.Manifest.Edition != "" {
		book.Name += " (" + legible(releaseName(r)) + ")"
	}
	placed := make(map[string][]byte, len(authored)) // as a reader finds them
	for name, text := range authored {
		placed[specs.Join(path, name)] = text
	}
	read := seal.Read(placed)
	for _, bad := range read.Unreadable {
		book.AddUnread(unreadOf(schema.Entry{File: bad.File}, bad))
	}
	for _, e := range read.Entries {
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
