//go:build linux

package atomic

import (
	"errors"
	"fmt"
	"os"

	"golang.org/x/sys/unix"
)

// exchange gives each of two the name of the other, in one step.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.ENOTSUP) {
		return fmt.Errorf("%w: %w", errors.ErrUnsupported, err) // not every file system can
	}
	if err != nil {
		return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
	}
	return nil
}

// hold marks a file or folder as being written by a process that lives. The mark
// ends with the process.
func hold(f *os.File) (release func()) {
	fd, err := unix.Dup(int(f.Fd()))
	if err != nil {
		return func() {}
	}
	unix.CloseOnExec(fd)
	_ = unix.Flock(fd, unix.LOCK_EX) // waits for one who is just taking it away
	return func() {
		_ = unix.Flock(fd, unix.LOCK_UN)
		_ = unix.Close(fd)
	}
}

// takeAway removes what nobody is writing any more.
func takeAway(name string) error {
	fd, err := unix.Open(name, unix.O_RDONLY|unix.O_CLOEXEC|unix.O_NOFOLLOW, 0)
	if errors.Is(err, unix.ENOENT) {
		return nil
	}
	if err == nil {
		defer unix.Close(fd)
		if unix.Flock(fd, unix.LOCK_EX|unix.LOCK_NB) != nil {
			return nil
		}
	}
	return os.RemoveAll(name)
}
