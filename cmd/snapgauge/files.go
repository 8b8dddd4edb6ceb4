package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"time"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/rule"
)

// files opens what is named on the command line, and keeps what cannot be
// opened twice so that its lines can be shown.
type files struct {
	stdin io.Reader
	as    string // how standard input is written: yaml, json, ndjson or auto
	keep  bool   // lines will be asked for

	reader specs.Reader

	ledgers *ledgers // of countersigned records, where they are asked for

	read, left int
	seen       map[seenKey][]os.FileInfo // files that were read
	kept       map[string]string         // name to the temporary file that holds a copy
}

// entries reads paths one behind the other. Every error is about a file, a
// record or a line, and the reading goes on after it.
func (f *files) entries(paths []string) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		for _, p := range paths {
			for e, err := range f.path(p) {
				if !yield(e, err) {
					return
				}
			}
		}
	}
}

func (f *files) path(p string) iter.Seq2[schema.Entry, error] {
	if p == "-" {
		f.read++
		return f.pipe(p, f.as, f.stdin)
	}
	if info, err := os.Stat(p); err == nil && info.IsDir() {
		return f.folder(p)
	}
	return f.file(p)
}

// folder reads the spec files in a folder. One without any is an error, for
// it is most likely the wrong folder.
func (f *files) folder(p string) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		found, left := 0, 0
		for name, err := range specs.Walk(os.DirFS(p), ".", func(specs.Skipped) { left++ }) {
			found++
			name = specs.Join(p, name)
			if err != nil {
				if !yield(schema.Entry{File: name}, err) {
					return
				}
				continue
			}
			for e, err := range f.file(name) {
				if !yield(e, err) {
					return
				}
			}
		}
		f.left += left
		if found == 0 {
			message := "there is no spec file in this folder"
			if left > 0 {
				message += fmt.Sprintf(" (%s left alone)", count(left, "other file", "other files"))
			}
			yield(schema.Entry{File: p}, specs.Whole(p, message))
		}
	}
}

// seenKey tells most files apart without comparing each with all others.
type seenKey struct {
	missing string // absolute path of what is not there
	size    int64
	changed time.Time
}

// again reports whether a file was met before, under whatever name, and
// remembers it.
func (f *files) again(name string) bool {
	info, err := os.Stat(name)
	var key seenKey
	if err == nil {
		key = seenKey{size: info.Size(), changed: info.ModTime()}
	} else if key.missing, err = filepath.Abs(name); err != nil {
		return false
	}
	for _, other := range f.seen[key] {
		if info == nil || os.SameFile(info, other) {
			return true
		}
	}
	if f.seen == nil {
		f.seen = map[seenKey][]os.FileInfo{}
	}
	f.seen[key] = append(f.seen[key], info)
	return false
}

// file reads one file, once: a file that is named again, or stands in a folder
// that is named too, or behind a link, is not read twice, for its records would
// double.
func (f *files) file(name string) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		if f.again(name) {
			return
		}
		f.read++
		entries := f.reader.ReadFile(system{}, name, name)
		if info, err := os.Stat(name); err == nil && !info.Mode().IsRegular() {
			in, err := os.Open(name)
			if err == nil {
				defer in.Close()
				entries = f.pipe(name, "auto", in)
			}
		}
		signed, faults := f.ledgers.beside(name)
		for _, bad := range faults {
			if !yield(schema.Entry{File: bad.File}, bad) {
				return
			}
		}
		for e, err := range entries {
			if e.Record != nil {
				e.Countersigned = signed[e.Record.ID]
			}
			if !yield(e, err) {
				return
			}
		}
	}
}

// pipe reads what can be read only once. Where lines will be shown, a copy is
// written to a temporary file.
func (f *files) pipe(name, as string, in io.Reader) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		if f.keep {
			copied, err := os.CreateTemp("", "snapgauge-input-*")
			if err == nil {
				defer copied.Close()
				if f.kept == nil {
					f.kept = map[string]string{}
				}
				f.kept[name] = copied.Name()
				in = io.TeeReader(in, copied)
			}
		}
		called := name
		if as != "auto" {
			called += "." + as // the reader tells the layout by the name
		}
		for e, err := range f.reader.Read(called, in) {
			e.File = name
			var bad *specs.Unreadable
			if errors.As(err, &bad) {
				renamed := *bad
				renamed.File = name
				err = &renamed
			}
			if !yield(e, err) {
				return
			}
		}
	}
}

// reopen opens a file again, for its lines.
func (f *files) reopen(name string) (io.ReadSeekCloser, error) {
	if copied, ok := f.kept[name]; ok {
		return os.Open(copied)
	}
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fs.ErrInvalid
	}
	return os.Open(name)
}

// close removes the copies.
func (f *files) close() error {
	var failed error
	for _, name := range f.kept {
		failed = errors.Join(failed, os.Remove(name))
	}
	f.kept = nil
	return failed
}

// system is the file system as the user names files in it.
type system struct{}

func (system) Open(name string) (fs.File, error) { return os.Open(name) }

// unreadableFinding makes a finding of what could not be read.
func unreadableFinding(e schema.Entry, err error) rule.Finding {
	f := rule.Finding{
		Check: unreadable.ID, Verdict: rule.Reject, Message: err.Error(),
		Place: rule.Place{File: e.File, Pointer: e.Pointer},
	}
	var bad *specs.Unreadable
	if errors.As(err, &bad) {
		f.Place.Span, f.Message = bad.Span, bad.Message
	}
	if e.Lost {
		f.Place.Record = e.Record.ID
	}
	return f
}
