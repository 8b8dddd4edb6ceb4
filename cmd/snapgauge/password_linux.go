//go:build linux

package main

import (
	"bufio"
	"fmt"
	"os"
	"strings"

	"golang.org/x/sys/unix"
)

// askPassword asks on the terminal, without showing what is typed.
func askPassword(s streams, question string) (string, error) {
	f, ok := s.in.(*os.File)
	if !ok {
		return "", errNoTerminal
	}
	fd := int(f.Fd())
	shown, err := unix.IoctlGetTermios(fd, unix.TCGETS)
	if err != nil {
		return "", errNoTerminal
	}
	hidden := *shown
	hidden.Lflag &^= unix.ECHO
	hidden.Lflag |= unix.ICANON | unix.ISIG
	if err := unix.IoctlSetTermios(fd, unix.TCSETS, &hidden); err != nil {
		return "", errNoTerminal
	}
	defer unix.IoctlSetTermios(fd, unix.TCSETS, shown) //nolint:errcheck // nothing can be done about it
	fmt.Fprint(s.err, question)
	line, err := bufio.NewReader(f).ReadString('\n')
	fmt.Fprintln(s.err)
	if err != nil && line == "" {
		return "", err
	}
	return strings.TrimRight(line, "\r\n"), nil
}
