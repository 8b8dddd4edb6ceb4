package main

import (
	"os"
	"syscall"
)

// goesNowhere reports whether a standard stream was most likely closed by who
// started the program (>&-). The runtime opens the null device for reading and
// writing in its place. Some programs that throw output away on purpose give
// the same, so that this is worth a sentence and no more; > /dev/null of a shell
// does not.
func goesNowhere(f *os.File) bool {
	info, err := f.Stat()
	if err != nil {
		return true
	}
	null, err := os.Stat(os.DevNull)
	if err != nil || !os.SameFile(info, null) {
		return false
	}
	flags, _, failed := syscall.Syscall(syscall.SYS_FCNTL, f.Fd(), syscall.F_GETFL, 0)
	return failed == 0 && flags&syscall.O_ACCMODE == syscall.O_RDWR
}
