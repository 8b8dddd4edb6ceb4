package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"snapgauge/specs"
	"snapgauge/specs/release"
)

// gathered are the files that a release is made of, read once: what is judged is
// what is released, whatever becomes of the files meanwhile.
type gathered struct {
	content map[string][]byte // by their names in the release, below its folder
	typed   map[string]string // the same to what the user calls them
	left    int               // other files in folders
	faults  []*specs.Unreadable
}

// gather reads the spec files that paths name, and the ledgers beside them. Their
// names in the release start at the deepest folder that holds them all.
func gather(paths []string) (*gathered, error) {
	g := &gathered{content: map[string][]byte{}, typed: map[string]string{}}
	f := &files{as: "auto"}
	var named []string // absolute
	typed := map[string]string{}
	add := func(name string) error {
		if f.again(name) {
			return nil
		}
		abs, err := filepath.Abs(name)
		if err != nil {
			return err
		}
		named, typed[abs] = append(named, abs), name
		return nil
	}
	for _, p := range paths {
		if p == "-" {
			return nil, errors.New("standard input is no file that a release could keep; name files or folders")
		}
		info, err := os.Stat(p)
		if err != nil || !info.IsDir() {
			if err := add(p); err != nil {
				return nil, err
			}
			continue
		}
		found := 0
		for name, err := range specs.Walk(os.DirFS(p), ".", func(specs.Skipped) { g.left++ }) {
			found++
			name = specs.Join(p, name)
			var bad *specs.Unreadable
			if errors.As(err, &bad) {
				renamed := *bad
				renamed.File = name
				g.faults = append(g.faults, &renamed)
				continue
			}
			if err := add(name); err != nil {
				return nil, err
			}
		}
		if found == 0 {
			g.faults = append(g.faults, specs.Whole(p, "there is no spec file in this folder"))
		}
	}
	root, err := commonFolder(named)
	if err != nil {
		return nil, err
	}
	for _, abs := range named {
		if err := g.file(root, abs, typed[abs], false); err != nil {
			return nil, err
		}
		ledger := ledgerBeside(abs)
		if err := g.file(root, ledger, ledgerBeside(typed[abs]), true); err != nil {
			return nil, err
		}
	}
	return g, g.sound()
}

// commonFolder is the deepest folder that holds all files.
func commonFolder(named []string) (string, error) {
	root := ""
	for i, name := range named {
		folder := filepath.Dir(name)
		if i == 0 {
			root = folder
		}
		for folder != root && !strings.HasPrefix(folder, strings.TrimSuffix(root, string(filepath.Separator))+string(filepath.Separator)) {
			up := filepath.Dir(root)
			if up == root {
				return "", fmt.Errorf("%s and %s have no folder in common", named[0], name)
			}
			root = up
		}
	}
	return root, nil
}

// file reads one file. A ledger need not be there.
func (g *gathered) file(root, abs, typed string, ledger bool) error {
	name, err := filepath.Rel(root, abs)
	if err != nil {
		return err
	}
	name = filepath.ToSlash(name)
	if _, again := g.content[name]; again {
		return nil
	}
	content, err := g.read(abs)
	if ledger && errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		g.faults = append(g.faults, specs.Whole(typed, "could not be read: "+ofSystem(err).Error()))
		return nil
	}
	g.content[name], g.typed[name] = content, typed
	return nil
}

// read reads a file as long as there is room.
func (g *gathered) read(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("it is no file that a release could keep")
	}
	room := int64(release.MaxAuthored)
	for _, c := range g.content {
		room -= int64(len(c))
	}
	b, err := io.ReadAll(io.LimitReader(f, room+1))
	if err == nil && int64(len(b)) > room {
		err = fmt.Errorf("a release holds at most %d MiB of spec files", release.MaxAuthored>>20)
	}
	return b, err
}

// sound refuses names that not every system can have, or would hold for one.
func (g *gathered) sound() error {
	lower := map[string]string{}
	for name := range g.content {
		if err := release.CheckName(name); err != nil {
			return fmt.Errorf("%s: %w; give the file another", g.typed[name], err)
		}
		key := strings.ToLower(name)
		if other, taken := lower[key]; taken {
			both := []string{g.typed[name], g.typed[other]}
			slices.Sort(both)
			return fmt.Errorf("%s and %s differ in capital letters only, which not every system tells apart; give one another name", both[0], both[1])
		}
		lower[key] = name
	}
	return nil
}

// ofSystem is an error of the system without the name of the file.
func ofSystem(err error) error {
	var in *fs.PathError
	if errors.As(err, &in) {
		return in.Err
	}
	return err
}
