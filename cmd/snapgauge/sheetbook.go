package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"snapgauge/cmd/internal/seal"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// sheetBook is what a sheet is made of: spec files, or a release.
type sheetBook struct {
	entries []schema.Entry
	unread  []rule.Finding
	draft   string // why a sheet of it is a draft
	edition string
	seal    string // what tells the release from another

	open  func(name string) (io.ReadSeekCloser, error) // a file again, for its lines
	close func() error
	took  func(fs.FileInfo) bool // one of the files that it was read from
}

// openSheetBook reads a release, or spec files as check does.
func openSheetBook(ctx context.Context, stdin io.Reader, paths []string) (*sheetBook, error) {
	if len(paths) == 1 && isRelease(paths[0]) {
		return openReleased(paths[0])
	}
	f := &files{stdin: stdin, as: "auto", keep: true, ledgers: &ledgers{}}
	b := &sheetBook{open: f.reopen, close: f.close, took: f.took, draft: "Made from spec files, not from a release."}
	for e, bad := range f.entries(paths) {
		if ctx.Err() != nil {
			return nil, errors.Join(errors.New("interrupted"), f.close())
		}
		if bad != nil {
			b.unread = append(b.unread, unreadableFinding(e, bad))
			continue
		}
		b.entries = append(b.entries, e)
	}
	return b, nil
}

// openReleased reads the authored files of a release, which must be as it was made.
func openReleased(name string) (*sheetBook, error) {
	r, authored, err := readReleased(name)
	if err != nil {
		return nil, err
	}
	read := seal.Read(authored)
	b := &sheetBook{edition: releaseName(r), close: func() error { return nil }, took: partOf(name)}
	b.open = func(file string) (io.ReadSeekCloser, error) {
		text, ok := authored[file]
		if !ok {
			return nil, fs.ErrNotExist
		}
		return noClose{bytes.NewReader(text)}, nil
	}
	if r.Draft() {
		b.draft = "Made from a draft release, which nobody has vetted."
	}
	b.seal = fmt.Sprintf("%s, made by %s, manifest SHA-256 %s", b.edition, r.Manifest.Tool, r.SHA256())
	for _, bad := range read.Unreadable {
		b.unread = append(b.unread, unreadableFinding(schema.Entry{File: bad.File}, bad))
	}
	for _, e := range read.Entries {
		if !e.Lost {
			b.entries = append(b.entries, e)
		}
	}
	return b, nil
}
