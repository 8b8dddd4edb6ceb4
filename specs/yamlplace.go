package specs

import (
	"sort"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"

	"snapgauge/schema"
)

// yamlCursor remembers where the last node began, so that a long line is not
// walked from its beginning for each of its nodes.
type yamlCursor struct {
	line, column, off int
}

// lineStarts lists where each line begins.
func lineStarts(src string, first int) []int {
	starts := make([]int, 1, 1+strings.Count(src, "\n"))
	starts[0] = first
	for i := first; ; {
		j := strings.IndexByte(src[i:], '\n')
		if j < 0 {
			return starts
		}
		i += j + 1
		starts = append(starts, i)
	}
}

// offset is the byte at which a line and column stand.
func (r *yamlReader) offset(line, column int) int {
	line = min(max(line, 1), len(r.lines))
	c := yamlCursor{line: line, column: 1, off: r.lines[line-1]}
	if r.at.line == line && r.at.column <= column {
		c = r.at
	}
	for c.column < column && c.off < len(r.t.src) && r.t.src[c.off] != '\n' {
		n := 1
		if r.t.src[c.off] >= utf8.RuneSelf {
			_, n = utf8.DecodeRuneInString(r.t.src[c.off:])
		}
		c.off += n
		c.column++
	}
	r.at = c
	return c.off
}

// position is the inverse of offset.
func (r *yamlReader) position(off int) schema.Position {
	c := r.at
	if off < c.off || c.line == 0 || (c.line < len(r.lines) && off >= r.lines[c.line]) {
		line := sort.SearchInts(r.lines, off+1)
		line = max(line, 1)
		c = yamlCursor{line: line, column: 1, off: r.lines[line-1]}
	}
	if off > c.off {
		c.column += utf8.RuneCountInString(r.t.src[c.off:off])
		c.off = off
	}
	r.at = c
	return schema.Position{Line: c.line, Column: c.column}
}

// open finds where the content of a node begins, behind its anchor. after is
// the end of the anchor, where a node without content stands. A tag is
// refused.
func (r *yamlReader) open(y *yaml.Node) (start, after int, bad *Unreadable) {
	src := r.t.src
	i := r.offset(y.Line, y.Column)
	after = i
	tagged := y.Style&yaml.TaggedStyle != 0 || y.Tag == "!"
	if y.Anchor == "" && !tagged {
		return min(i, max(len(src)-1, 0)), i, nil
	}
	for i < len(src) {
		switch src[i] {
		case '!':
			j := wordEnd(src, i)
			return 0, 0, r.t.at(i, j, "tags such as "+src[i:j]+" are not read; take it out, or put the text in quotes")
		case '&':
			after = i + 1 + len(y.Anchor)
			i = skipBlanks(src, after)
			continue
		}
		return i, after, nil
	}
	return after, after, nil
}

// wordEnd is where the word at byte i ends.
func wordEnd(src string, i int) int {
	if j := strings.IndexAny(src[i:], " \t\r\n,[]{}"); j >= 0 {
		return i + max(j, 1)
	}
	return len(src)
}

// skipBlanks passes over blanks, line ends and comments.
func skipBlanks(src string, i int) int {
	for i < len(src) {
		switch {
		case blank(src[i]):
			i++
		case src[i] == '#' && (i == 0 || blank(src[i-1])):
			i = lineEnd(src, i)
		default:
			return i
		}
	}
	return i
}

// lineEnd is where the line of byte i ends.
func lineEnd(src string, i int) int {
	if j := strings.IndexByte(src[i:], '\n'); j >= 0 {
		return i + j
	}
	return len(src)
}

// closing is the end of a flow map or list whose last part ends at byte i.
func (t *text) closing(i int) int {
	for at := i; ; at++ {
		at = skipBlanks(t.src, at)
		if at == len(t.src) {
			return i // not reached in what the parser took
		}
		switch t.src[at] {
		case ']', '}':
			return at + 1
		case ',', ':', '?':
		case '#': // directly behind a comma
			at = lineEnd(t.src, at) - 1
		default:
			return i
		}
	}
}

// quoteEnd is the end of the quoted scalar at byte i.
func quoteEnd(src string, i int, escape byte) int {
	quote := src[i]
	for j := i + 1; j < len(src); j++ {
		switch {
		case src[j] == escape && escape == '\\':
			j++
		case src[j] != quote:
		case escape == '\'' && j+1 < len(src) && src[j+1] == '\'':
			j++
		default:
			return j + 1
		}
	}
	return len(src)
}

// blockEnd is the end of the block scalar whose | or > stands at byte i.
func blockEnd(src string, i int, value string) int {
	head := lineEnd(src, i)
	if end := looseEnd(src, head, value); end > head {
		return end
	}
	return i + len(strings.TrimRight(src[i:head], " \t\r"))
}

// looseEnd is the end of a scalar of several lines that begins at byte i.
func looseEnd(src string, i int, value string) int {
	_, end, _ := loose(src[i:], value, 0, len(value))
	return i + end
}

// cutOff reports whether a comment follows byte i on its line.
func cutOff(src string, i int) bool {
	rest := strings.TrimLeft(src[i:lineEnd(src, i)], " \t")
	return strings.HasPrefix(rest, "#")
}
