package specs

import (
	"strings"
	"unicode/utf8"

	"snapgauge/schema"
)

// locator answers [schema.Entry.Locate] for the record, or the head, at root.
// It works only when asked.
func (t *text) locator(root *schema.Node) func(schema.Spot) schema.Span {
	return func(s schema.Spot) schema.Span {
		n, key, whole := trace(root, s.Path)
		switch {
		case !whole:
			return t.frame(root, n, key)
		case s.Key && key != nil:
			return t.token(key)
		case n.Kind == schema.MapNode || n.Kind == schema.ListNode:
			return t.frame(root, n, key)
		case n.Start == n.End:
			return t.empty(n, key)
		case s.From < s.To && s.To <= len(n.Text):
			return t.within(n, s.From, s.To)
		}
		return t.token(n)
	}
}

// trace follows a path as far as it goes: to the node there, and its name if
// it is a member of a map.
func trace(root *schema.Node, p schema.Path) (n, key *schema.Node, whole bool) {
	n = root
	for i := range p.Len() {
		name, index := p.Step(i)
		if v, k := n.Member(name); v != nil {
			n, key = v, k
			continue
		}
		if name != "" || n.Kind != schema.ListNode || index >= len(n.Items) {
			return n, key, false
		}
		n, key = n.Items[index], nil
	}
	return n, key, true
}

// frame is the place of a map or list as a whole: its name, for a record its
// id, else its first line.
func (t *text) frame(root, n, key *schema.Node) schema.Span {
	if key != nil {
		return t.token(key)
	}
	if n == root {
		if id, _ := n.Member("id"); id != nil && id.Text != "" {
			return t.token(id)
		}
	}
	s := t.source(n)
	if i := strings.IndexByte(s, '\n'); i >= 0 {
		s = s[:i]
		// Without a comment behind the last value of the line.
		end := 0
		for _, item := range n.Items {
			if e := item.End - n.Start; e > end && e <= i {
				end = e
			}
		}
		if end > 0 {
			s = s[:end]
		}
		s = strings.TrimRight(s, " \t\r")
	}
	return stretch(start(n), s)
}

// empty is the place of a value of which nothing is written: the comment that
// cut it off, else its name, else the dash of a list item.
func (t *text) empty(n, key *schema.Node) schema.Span {
	from := n.Start - t.base
	if n.Cut {
		rest := t.src[from:]
		if i := strings.IndexByte(rest, '\n'); i >= 0 {
			rest = rest[:i]
		}
		rest = strings.TrimRight(rest, " \t\r")
		blank := len(rest) - len(strings.TrimLeft(rest, " \t"))
		return stretch(advance(start(n), rest[:blank]), rest[blank:])
	}
	if key != nil {
		return t.token(key)
	}
	p := start(n)
	if from > 0 && t.src[from-1] == '-' {
		return schema.Span{Start: schema.Position{Line: p.Line, Column: p.Column - 1}, End: p}
	}
	return schema.Span{Start: p, End: p}
}

// within is the place of the bytes from and to of the text of a scalar: in the
// file itself where the text stands there as it is, else through the escapes
// and folds, else all of the scalar.
func (t *text) within(n *schema.Node, from, to int) schema.Span {
	token := t.source(n)
	i, j := n.Lead+from, n.Lead+to
	if !n.Raw {
		var ok bool
		if i, j, ok = unfold(token, n.Text, from, to); !ok {
			return stretch(start(n), token)
		}
	}
	return stretch(advance(start(n), token[:i]), token[i:j])
}

// token is the place of all of a node, quotation marks included.
func (t *text) token(n *schema.Node) schema.Span { return stretch(start(n), t.source(n)) }

// source is what stands in the file for a node.
func (t *text) source(n *schema.Node) string { return t.src[n.Start-t.base : n.End-t.base] }

func start(n *schema.Node) schema.Position {
	return schema.Position{Line: n.Line, Column: n.Column}
}

func stretch(from schema.Position, s string) schema.Span {
	return schema.Span{Start: from, End: advance(from, s)}
}

// unfold finds the bytes of a token that stand for bytes from and to of the
// text it was read as; ok is false where that is not simple.
func unfold(token, text string, from, to int) (i, j int, ok bool) {
	switch token[0] {
	case '"':
		return unescape(token, text, from, to, '\\')
	case '\'':
		return unescape(token, text, from, to, '\'')
	case '|', '>':
		head := strings.IndexByte(token, '\n')
		if head < 0 {
			return 0, 0, false
		}
		i, j, ok = loose(token[head:], text, from, to)
		return i + head, j + head, ok
	}
	return loose(token, text, from, to)
}

// unescape walks a quoted token of one line.
func unescape(token, text string, from, to int, escape byte) (i, j int, ok bool) {
	out := 0
	for at := 1; at < len(token)-1; {
		if out == from {
			i = at
		}
		in, n := 1, 1
		switch c := token[at]; {
		case c == '\n':
			return 0, 0, false
		case c == escape && c == '\'':
			in = 2
		case c == escape:
			in, n = escaped(token[at:])
		}
		at += in
		out += n
		if out == to {
			j = at
		}
	}
	// Unless the walk comes out at the length of the text, it went astray.
	return i, j, out == len(text) && i > 0 && j > i && j < len(token)
}

// escaped measures an escape sequence of JSON or YAML: its length in the
// token, and in UTF-8.
func escaped(s string) (in, out int) {
	digits := 0
	switch s[1] {
	case 'x':
		digits = 2
	case 'u':
		digits = 4
	case 'U':
		digits = 8
	case 'N', '_':
		return 2, 2
	case 'L', 'P':
		return 2, 3
	default:
		return 2, 1
	}
	r, ok := hex(s, 2, digits)
	if !ok {
		return len(s), 0
	}
	if r >= 0xd800 && r < 0xdc00 {
		return 12, 4 // a pair of surrogates
	}
	return 2 + digits, utf8.RuneLen(r)
}

func hex(s string, from, n int) (r rune, ok bool) {
	if len(s) < from+n {
		return 0, false
	}
	for _, c := range []byte(s[from : from+n]) {
		d := strings.IndexByte("0123456789abcdef", c|0x20)
		if d < 0 {
			return 0, false
		}
		r = r<<4 | rune(d)
	}
	return r, true
}

// loose walks a token whose line breaks and indentation were folded: all but
// blanks stands in both in the same order.
func loose(token, text string, from, to int) (i, j int, ok bool) {
	i = -1
	at := 0
	for out := 0; out < to; {
		if blank(text[out]) {
			out++
			continue
		}
		for at < len(token) && blank(token[at]) {
			at++
		}
		if at == len(token) || token[at] != text[out] {
			return 0, 0, false
		}
		if i < 0 && out >= from {
			i = at
		}
		at++
		out++
		j = at
	}
	return i, j, i >= 0 && i < j
}

func blank(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }
