package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"sync"
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

	of    string // what is read is a shard of the file of this name
	from  int    // and begins with this line of it
	shard string // what the shard is called where it stands

	ledgers *ledgers // of countersigned records, where they are asked for

	read, left int
	seen       map[seenKey][]os.FileInfo // files that were read

	lock   sync.Mutex
	kept   map[string]string // name to the temporary file that holds a copy
	closed bool              // no more copies
}

// entries reads paths one behind the other. Every error is about a file, a
// record or a line, and the reading goes on after it.
func (f *files) entries(paths []string) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		for part := range f.parts(paths) {
			for e, err := range part {
				if !yield(e, err) {
					return
				}
			}
		}
	}
}

// parts takes what there is to read apart, in order. Each part may be read on a
// goroutine of its own.
func (f *files) parts(paths []string) iter.Seq[specs.Part] {
	return func(yield func(specs.Part) bool) {
		for _, p := range paths {
			for part := range f.path(p) {
				if !yield(part) {
					return
				}
			}
		}
	}
}

func (f *files) path(p string) iter.Seq[specs.Part] {
	switch {
	case f.of != "":
		return f.partsOfShard(p)
	case p == "-":
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
func (f *files) folder(p string) iter.Seq[specs.Part] {
	return func(yield func(specs.Part) bool) {
		found, left := 0, 0
		for name, err := range specs.Walk(os.DirFS(p), ".", func(specs.Skipped) { left++ }) {
			found++
			name = specs.Join(p, name)
			if err != nil {
				if !yield(fault(name, err)) {
					return
				}
				continue
			}
			for part := range f.file(name) {
				if !yield(part) {
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
			yield(fault(p, specs.Whole(p, message)))
		}
	}
}

// fault is a part that holds one error.
func fault(name string, err error) specs.Part {
	return func(yield func(schema.Entry, error) bool) { yield(schema.Entry{File: name}, err) }
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
func (f *files) file(name string) iter.Seq[specs.Part] {
	return func(yield func(specs.Part) bool) {
		if f.again(name) {
			return
		}
		f.read++
		signed, faults := f.ledgers.beside(name)
		for _, bad := range faults {
			if !yield(fault(bad.File, bad)) {
				return
			}
		}
		for part := range f.partsOf(name) {
			if !yield(withLedger(part, signed)) {
				return
			}
		}
	}
}

// partsOf takes one file apart. One that is not NDJSON by its name is opened by
// whoever reads the part.
func (f *files) partsOf(name string) iter.Seq[specs.Part] {
	return func(yield func(specs.Part) bool) {
		info, err := os.Stat(name)
		if err != nil || info.Mode().IsRegular() && !specs.IsLines(name) {
			yield(f.reader.ReadFile(system{}, name, name))
			return
		}
		in, err := os.Open(name)
		if err != nil {
			yield(f.reader.ReadFile(system{}, name, name)) // says why
			return
		}
		defer in.Close()
		parts := f.reader.Parts(name, in, 1)
		if !info.Mode().IsRegular() {
			parts = f.pipe(name, "auto", in)
		}
		parts(yield)
	}
}

// withLedger puts the lines of a ledger to the records that they are of.
func withLedger(part specs.Part, signed map[string][]schema.Countersign) specs.Part {
	if len(signed) == 0 {
		return part
	}
	return func(yield func(schema.Entry, error) bool) {
		for e, err := range part {
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
func (f *files) pipe(name, as string, in io.Reader) iter.Seq[specs.Part] {
	return func(yield func(specs.Part) bool) {
		if f.keep {
			if copied := f.copyOf(name); copied != nil {
				defer copied.Close()
				in = io.TeeReader(in, copied)
			}
		}
		called := name
		if as != "auto" {
			called += "." + as // the reader tells the layout by the name
		}
		for part := range f.reader.Parts(called, in, 1) {
			if !yield(renamed(part, name)) {
				return
			}
		}
	}
}

// partsOfShard takes a shard of NDJSON apart as what it is of the whole file.
func (f *files) partsOfShard(p string) iter.Seq[specs.Part] {
	return func(yield func(specs.Part) bool) {
		f.read++
		f.shard = p
		var signed map[string][]schema.Countersign
		in := f.stdin
		if p != "-" {
			file, err := os.Open(p)
			if err != nil {
				yield(f.reader.ReadFile(system{}, p, p)) // says why
				return
			}
			defer file.Close()
			f.again(p)
			in = file
			var faults []*specs.Unreadable
			signed, faults = f.ledgers.beside(p)
			for _, bad := range faults {
				if !yield(fault(bad.File, bad)) {
					return
				}
			}
		} else if f.keep {
			if copied := f.copyOf(f.of); copied != nil {
				defer copied.Close()
				in = io.TeeReader(in, copied)
			}
		}
		for part := range f.reader.Parts(f.of, in, f.from) {
			if !yield(withLedger(part, signed)) {
				return
			}
		}
	}
}

// copyOf makes the file that a copy of a pipe is written to, nil where that is
// not to be.
func (f *files) copyOf(name string) *os.File {
	f.lock.Lock()
	defer f.lock.Unlock()
	if f.closed {
		return nil
	}
	copied, err := os.CreateTemp("", "snapgauge-input-*")
	if err != nil {
		return nil
	}
	if f.kept == nil {
		f.kept = map[string]string{}
	}
	f.kept[name] = copied.Name()
	return copied
}

// renamed has the entries of a part say that they come from the file called name.
func renamed(part specs.Part, name string) specs.Part {
	return func(yield func(schema.Entry, error) bool) {
		for e, err := range part {
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
	f.lock.Lock()
	copied, ok := f.kept[name]
	f.lock.Unlock()
	if ok {
		return os.Open(copied)
	}
	if f.of != "" && name == f.of {
		name = f.shard
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
	f.lock.Lock()
	defer f.lock.Unlock()
	f.closed = true
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
