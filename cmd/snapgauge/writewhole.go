package main

import (
	"errors"
	"os"
	"path/filepath"
)

// writeWhole writes a file under another name and gives it its own once it is on
// the disk: at any moment the old file stands there or the new one.
func writeWhole(name string, data []byte) (err error) {
	mode := os.FileMode(0o644)
	if old, err := os.Stat(name); err == nil {
		if !old.Mode().IsRegular() {
			return &os.PathError{Op: "write", Path: name, Err: errors.New("is no regular file")}
		}
		mode = old.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if _, err = f.Write(data); err == nil {
		err = errors.Join(f.Chmod(mode), f.Sync())
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
