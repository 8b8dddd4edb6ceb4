package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// notRead refuses an output that is one of the files that were read, also where a
// link leads there. Called is what the user calls it.
func notRead(flag, called string, read func(fs.FileInfo) bool) error {
	info, err := os.Stat(called)
	if err != nil || !info.Mode().IsRegular() || !read(info) {
		return nil
	}
	if to, ok := linked(called); ok {
		return fmt.Errorf("%s: %s is %s, which is read; name another", flag, called, to)
	}
	return fmt.Errorf("%s: %s is one of the files that are read; name another", flag, called)
}

// linked is where a name leads by links.
func linked(name string) (to string, ok bool) {
	if info, err := os.Lstat(name); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		return "", false
	}
	to, err := filepath.EvalSymlinks(name)
	return to, err == nil
}

// took reports whether a file is one of those that were read.
func (f *files) took(info fs.FileInfo) bool {
	for _, same := range f.seen {
		for _, other := range same {
			if other != nil && os.SameFile(info, other) {
				return true
			}
		}
	}
	if in, ok := f.stdin.(*os.File); ok {
		if other, err := in.Stat(); err == nil && os.SameFile(info, other) {
			return true
		}
	}
	return f.ledgers.took(info)
}

// took reports whether a file is one of the ledgers that were read.
func (l *ledgers) took(info fs.FileInfo) bool {
	if l == nil {
		return false
	}
	for name := range l.read {
		if other, err := os.Stat(name); err == nil && os.SameFile(info, other) {
			return true
		}
	}
	return false
}

// partOf reports whether a file is the one of that name, or lies in the folder.
func partOf(name string) func(fs.FileInfo) bool {
	return func(info fs.FileInfo) bool {
		found := errors.New("found")
		return errors.Is(filepath.WalkDir(name, func(p string, _ fs.DirEntry, _ error) error {
			if other, err := os.Stat(p); err == nil && os.SameFile(info, other) {
				return found
			}
			return nil
		}), found)
	}
}
