package specs

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"

	"snapgauge/schema"
)

// AppendLedger appends a line to a ledger and returns once it is on the disk.
// The ledger is locked meanwhile, so that two people may countersign at once.
// Nothing that stands in it is changed, but for the rest of a line that was never
// finished: that is taken off.
func AppendLedger(name string, c schema.Countersign) (err error) {
	line, err := ledgerLine(c)
	if err != nil {
		return err
	}
	_, missing := os.Stat(name)
	f, err := lockedfile.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	size, err := mendTail(f.File)
	if err != nil {
		return err
	}
	if size > 0 { // a line that an editor left without its end
		last := make([]byte, 1)
		if _, err := f.ReadAt(last, size-1); err != nil {
			return err
		}
		if last[0] != '\n' {
			line = append([]byte{'\n'}, line...)
		}
	}
	if _, err := f.Write(line); err != nil {
		return errors.Join(err, f.Truncate(size)) // the disk is full, perhaps: no half line
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if missing != nil {
		return syncFolder(filepath.Dir(name))
	}
	return nil
}

// mendTail takes an unfinished last line off and returns the size of the file.
func mendTail(f *os.File) (size int64, err error) {
	if size, err = f.Seek(0, io.SeekEnd); err != nil || size == 0 {
		return size, err
	}
	from := max(0, size-MaxLine)
	tail := make([]byte, size-from)
	if _, err := f.ReadAt(tail, from); err != nil {
		return 0, err
	}
	last := tail[bytes.LastIndexByte(tail, '\n')+1:]
	if len(last) == 0 || int64(len(last)) == size-from && from > 0 || !unfinished(last) {
		return size, nil
	}
	size -= int64(len(last))
	return size, f.Truncate(size)
}

// syncFolder makes sure that a new file is found again. Where folders cannot be
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
