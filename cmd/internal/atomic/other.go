//go:build !linux

package atomic

import (
	"errors"
	"os"
	"time"
)

// exchange cannot be done in one step.
func exchange(_, _ string) error { return errors.ErrUnsupported }

func hold(*os.File) (release func()) { return func() {} }

// abandoned reports whether nobody can be writing it any more: it is a day old.
func abandoned(name string) bool {
	info, err := os.Lstat(name)
	return err != nil || time.Since(info.ModTime()) > 24*time.Hour
}
