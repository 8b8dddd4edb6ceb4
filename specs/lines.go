package specs

import (
	"bufio"
	"io"
	"slices"
	"strings"
)

// Lines reads lines by their numbers (from 1), so that the place of a finding
// can be shown. Lines that do not exist are absent. A byte order mark and the
// line ends are taken off, and a line longer than [MaxLine] is absent.
func Lines(r io.Reader, want []int) (map[int]string, error) {
	want = slices.Clone(want)
	slices.Sort(want)
	lines := make(map[int]string, len(want))
	in := lineReader{in: bufio.NewReaderSize(r, 64<<10)}
	for _, n := range slices.Compact(want) {
		for in.line < n {
			line, err := in.next()
			if err == io.EOF {
				return lines, nil
			}
			if err != nil {
				return lines, err
			}
			if in.line == n && !in.long {
				s := string(line)
				if n == 1 {
					s = strings.TrimPrefix(s, bom)
				}
				lines[n] = s
			}
		}
	}
	return lines, nil
}
