package specs

import (
	"strings"
	"unicode/utf8"

	"snapgauge/schema"
)

// text is the text of a file, or of one line of NDJSON.
type text struct {
	file string
	src  string
	base int // byte offset of src in the file
	line int // number of the line that src begins with
}

func newText(file, src string) *text { return &text{file: file, src: src, line: 1} }

// mark is the length of a byte order mark at the beginning.
func (t *text) mark() int {
	if t.base == 0 && strings.HasPrefix(t.src, bom) {
		return len(bom)
	}
	return 0
}

// position finds byte i of src. It counts from the beginning: for errors only.
func (t *text) position(i int) schema.Position {
	from := min(t.mark(), i)
	return advance(schema.Position{Line: t.line, Column: 1}, t.src[from:i])
}

// at makes an Unreadable about bytes i to j of src. Where they are no stretch,
// it is about the one character at i.
func (t *text) at(i, j int, message string) *Unreadable {
	i = min(i, len(t.src))
	start := t.position(i)
	end := start
	if j > i && j <= len(t.src) {
		end = advance(start, t.src[i:j])
	} else if i < len(t.src) && t.src[i] != '\n' {
		end.Column++
	}
	return &Unreadable{File: t.file, Span: schema.Span{Start: start, End: end}, Message: message}
}

// about makes an Unreadable about the token of a node.
func (t *text) about(n *schema.Node, message string) *Unreadable {
	return &Unreadable{File: t.file, Span: t.token(n), Message: message}
}

// whole makes an Unreadable about the file.
func (t *text) whole(message string) *Unreadable {
	return Whole(t.file, message)
}

// advance moves a position over s.
func advance(p schema.Position, s string) schema.Position {
	if i := strings.LastIndexByte(s, '\n'); i >= 0 {
		p.Line += strings.Count(s, "\n")
		p.Column = 1
		s = s[i+1:]
	}
	p.Column += utf8.RuneCountInString(s)
	return p
}

// cursor is a position that only moves forward, so that the positions of all
// tokens of a file cost one pass over it.
type cursor struct {
	off int // in src
	pos schema.Position
}

// to moves the cursor to byte i of src, which is not before it.
func (c *cursor) to(src string, i int) schema.Position {
	c.pos = advance(c.pos, src[c.off:i])
	c.off = i
	return c.pos
}
