// Package atomic puts a file or a folder in its place wholly or not at all: a
// crash at any point leaves what was there before, or what is there now.
//
// Both are written under another name in the same folder, brought to the disk,
// and then renamed. In place of a folder that is there already the new one is
// exchanged with it in one step, where the system can (Linux, renameat2 with
// RENAME_EXCHANGE). Elsewhere the old one is renamed aside first: a crash between
// the two renames leaves no folder under the name, and the next run puts the old
// one back. What a crash leaves under other names the next run takes away.
package atomic

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// The names beside NAME are .NAME.new-… for what is being written and
// .NAME.old-… for what is being replaced.
const (
	beingWritten  = ".new-"
	beingReplaced = ".old-"
)

// beside makes a name beside another that is not taken.
func beside(name, mark string) (string, error) {
	var b [6]byte
	if _, err := rand.Read(b[:]); err != nil {
		return "", err
	}
	return filepath.Join(filepath.Dir(name), "."+filepath.Base(name)+mark+hex.EncodeToString(b[:])), nil
}

// leftovers are the names beside a name that bear a mark.
func leftovers(name, mark string) []string {
	entries, err := os.ReadDir(filepath.Dir(name))
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), "."+filepath.Base(name)+mark) {
			out = append(out, filepath.Join(filepath.Dir(name), e.Name()))
		}
	}
	return out
}

// Recover does what a run that was ended left undone: it puts back what was
// renamed aside, and takes away what was never finished, unless another run is
// just writing it.
func Recover(name string) error {
	for _, old := range leftovers(name, beingReplaced) {
		_, err := os.Lstat(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			if err := os.Rename(old, name); err != nil {
				return err
			}
		case err != nil:
			return err
		default:
			if err := takeAway(old); err != nil {
				return err
			}
		}
	}
	for _, half := range leftovers(name, beingWritten) {
		if err := takeAway(half); err != nil {
			return err
		}
	}
	return nil
}

// begin makes something beside a name and holds it. Another run may have taken it
// for left behind before it was held; then it is made once more.
func begin(name string, make func(half string) (*os.File, error)) (f *os.File, release func(), err error) {
	for range 100 {
		half, err := beside(name, beingWritten)
		if err != nil {
			return nil, nil, err
		}
		f, err := make(half)
		if errors.Is(err, fs.ErrNotExist) && exists(filepath.Dir(name)) {
			continue
		}
		if err != nil {
			return nil, nil, err
		}
		release := hold(f)
		is, err := f.Stat()
		if err == nil {
			if there, err := os.Lstat(half); err == nil && os.SameFile(is, there) {
				return f, release, nil
			}
		}
		release()
		f.Close()
	}
	return nil, nil, errors.New("something beside it is taken away again and again")
}

func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
}

// ErrLink is what a name that is a symbolic link is refused with. Whoever means what
// it leads to names that, and knows then what is replaced.
var ErrLink = errors.New("this is a link; name what it leads to")

func noLink(name string) error {
	if info, err := os.Lstat(name); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		return &fs.PathError{Op: "replace", Path: name, Err: ErrLink}
	}
	return nil
}

// File writes a file. Write is given the new one.
func File(name string, write func(io.Writer) error) error {
	if err := noLink(name); err != nil {
		return err
	}
	if err := Recover(name); err != nil {
		return err
	}
	f, release, err := begin(name, func(half string) (*os.File, error) {
		return os.OpenFile(half, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	})
	if err != nil {
		return err
	}
	half := f.Name()
	defer os.Remove(half) //nolint:errcheck // it is gone, or has another name
	defer release()
	if err := errors.Join(write(f), f.Sync(), f.Close()); err != nil {
		return err
	}
	if err := os.Rename(half, name); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(name))
}

// Folder writes files, by their names with slashes, as a folder. What it replaces
// is taken away, if ours says that it may be: it is asked again once the new
// folder is in its place, and is given back its place where it may not.
func Folder(name string, files map[string][]byte, ours func(folder string) error) error {
	if err := noLink(name); err != nil {
		return err
	}
	if err := Recover(name); err != nil {
		return err
	}
	if err := ours(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	d, release, err := begin(name, func(half string) (*os.File, error) {
		if err := os.Mkdir(half, 0o777); err != nil {
			return nil, err
		}
		return os.Open(half)
	})
	if err != nil {
		return err
	}
	half := d.Name()
	defer os.RemoveAll(half) //nolint:errcheck // the next run takes it away
	defer d.Close()
	defer release()
	if err := fill(half, files); err != nil {
		return err
	}
	if err := put(half, name, ours); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(name))
}

// put brings a finished folder into its place. Afterwards what was there before,
// if anything was, stands under the other name.
func put(half, name string, ours func(string) error) error {
	release, there, err := holdOld(name)
	if err != nil {
		return err
	}
	if !there {
		return os.Rename(half, name)
	}
	defer release()
	err = exchange(half, name)
	if errors.Is(err, errors.ErrUnsupported) {
		return putAside(half, name, ours)
	}
	if err != nil {
		return err
	}
	if err := ours(half); err != nil {
		return errors.Join(err, exchange(half, name))
	}
	return nil
}

// holdOld holds what is to be replaced, so that no other run takes it away before
// it is known that it may be.
func holdOld(name string) (release func(), there bool, err error) {
	for {
		d, err := os.Open(name)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, false, nil
		}
		if err != nil {
			return nil, false, err
		}
		unmark := hold(d)
		is, err := d.Stat()
		if err == nil {
			if now, err := os.Stat(name); err == nil && os.SameFile(is, now) {
				return func() { unmark(); d.Close() }, true, nil
			}
		}
		unmark()
		d.Close() // another has replaced it meanwhile
	}
}

// putAside is put in two steps.
func putAside(half, name string, ours func(string) error) error {
	old := strings.Replace(half, beingWritten, beingReplaced, 1)
	if err := os.Rename(name, old); err != nil {
		return err
	}
	err := ours(old)
	if err == nil {
		if err = os.Rename(half, name); err == nil {
			return os.RemoveAll(old)
		}
	}
	return errors.Join(err, os.Rename(old, name))
}

// fill writes files below a folder and brings them to the disk.
func fill(folder string, files map[string][]byte) error {
	folders := map[string]bool{folder: true}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		at := filepath.Join(folder, filepath.FromSlash(name))
		for d := filepath.Dir(at); !folders[d]; d = filepath.Dir(d) {
			folders[d] = true
		}
		if err := os.MkdirAll(filepath.Dir(at), 0o777); err != nil {
			return err
		}
		if err := writeFile(at, files[name]); err != nil {
			return err
		}
	}
	for _, d := range slices.Sorted(maps.Keys(folders)) {
		if err := syncFolder(d); err != nil {
			return err
		}
	}
	return nil
}

func writeFile(name string, content []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	return errors.Join(err, f.Sync(), f.Close())
}

// syncFolder makes sure that new names are found again. Where folders cannot be
// synced, as on Windows, there is nothing to do.
func syncFolder(name string) error {
	d, err := os.Open(name)
	if err != nil {
		return err
	}
	defer d.Close()
	_ = d.Sync()
	return nil
}
