package specs

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"github.com/go-json-experiment/json/jsontext"

	"snapgauge/schema"
)

// jsonReader makes trees of JSON text. Tokens come from jsontext, which is
// strict; doubled names are told by ourselves, since it does not say where
// the first one stands.
type jsonReader struct {
	t     *text
	dec   *jsontext.Decoder
	in    bytes.Buffer
	from  int // where in t.src the decoder began
	at    cursor
	build builder
	stack []*schema.Node
}

// reset begins to read raw, which is t.src from byte from on.
func (r *jsonReader) reset(t *text, raw []byte, from int, at schema.Position) {
	r.t, r.from, r.at = t, from, cursor{off: from, pos: at}
	// A slab shared by two records would keep the first alive as long as the
	// second, and through it all before.
	r.build = builder{}
	r.stack = r.stack[:0]
	r.in = *bytes.NewBuffer(raw)
	if r.dec == nil {
		r.dec = jsontext.NewDecoder(&r.in, jsontext.AllowDuplicateNames(true))
	} else {
		r.dec.Reset(&r.in, jsontext.AllowDuplicateNames(true))
	}
}

// offset is where in t.src the decoder stands.
func (r *jsonReader) offset() int { return r.from + int(r.dec.InputOffset()) }

// next is where in t.src the next token begins.
func (r *jsonReader) next() int {
	i := r.offset()
	for i < len(r.t.src) && (blank(r.t.src[i]) || r.t.src[i] == ',' || r.t.src[i] == ':') {
		i++
	}
	return i
}

// openJSON reads all of a JSON file but its records.
func openJSON(t *text, raw []byte) (*document, *Unreadable) {
	r := &jsonReader{}
	from := t.mark()
	r.reset(t, raw[from:], from, schema.Position{Line: 1, Column: 1})
	root, bad := r.root(true)
	if bad != nil {
		return nil, bad
	}
	d := &document{text: t, root: root}
	list, _ := root.Member("records")
	read := func(r *jsonReader, i int) (*schema.Node, *Unreadable) {
		stub := list.Items[i]
		r.reset(t, raw[stub.Start:stub.End], stub.Start, start(stub))
		return r.value(2, false)
	}
	d.record = func(i int) (*schema.Node, *Unreadable) { return read(r, i) }
	d.again = func(i int) (*schema.Node, *Unreadable) { return read(&jsonReader{}, i) }
	q := &quickJSON{}
	d.quick = func(d *schema.Decoder, i int) bool { return q.read(d, t.source(list.Items[i])) }
	d.glean = func(i int) gleaned {
		stub := list.Items[i]
		return glean(raw[stub.Start:stub.End], start(stub))
	}
	return d, nil
}

// root reads the one value that the text is: a file, with stubs, or a line.
func (r *jsonReader) root(stubs bool) (*schema.Node, *Unreadable) {
	if i := r.next(); i == len(r.t.src) {
		return nil, r.t.whole("the file is empty; a spec file holds one JSON object")
	}
	root, bad := r.value(0, stubs)
	if bad != nil {
		return nil, bad
	}
	what, holds := "a spec file is one JSON object: {…}", "a JSON file holds one object"
	if !stubs {
		what, holds = "a line is one record, a JSON object: {…}", "a line holds one object, a record"
	}
	if root.Kind != schema.MapNode {
		return nil, r.t.about(root, what)
	}
	i := r.next()
	if _, err := r.dec.ReadToken(); err != io.EOF {
		return nil, r.t.at(i, i, "the object ends before this; "+holds)
	}
	return root, nil
}

// value reads the next value, which lies depth maps and lists deep. With
// stubs, the items of its member records are passed over.
func (r *jsonReader) value(depth int, stubs bool) (*schema.Node, *Unreadable) {
	i := r.next()
	kind := byte(0)
	if i < len(r.t.src) {
		kind = r.t.src[i]
	}
	switch kind {
	case '{', '[':
		return r.container(i, kind, depth, stubs)
	}
	v, err := r.dec.ReadValue()
	if err != nil {
		return nil, r.fault(err)
	}
	n := r.place(i, i+len(v))
	n.Raw = true
	n.Text = r.t.src[n.Start-r.t.base : n.End-r.t.base]
	switch kind {
	case '"':
		n.Kind, n.Lead = schema.TextNode, 1
		if bytes.IndexByte(v, '\\') < 0 {
			n.Text = n.Text[1 : len(n.Text)-1]
			return n, nil
		}
		plain, err := jsontext.AppendUnquote(nil, v)
		if err != nil {
			return nil, r.t.about(n, "this text has an escape that does not stand for a character")
		}
		n.Text, n.Raw = string(plain), false
	case 't', 'f':
		n.Kind = schema.BoolNode
	case 'n':
		n.Kind = schema.NullNode
	default:
		n.Kind = schema.NumberNode
		if why := badNumber(n.Text); why != "" {
			return nil, r.t.about(n, why)
		}
	}
	return n, nil
}

// container reads a map or a list that begins at byte i.
func (r *jsonReader) container(i int, kind byte, depth int, stubs bool) (*schema.Node, *Unreadable) {
	if depth >= MaxDepth {
		return nil, r.t.at(i, i+1, fmt.Sprintf("this lies more than %d maps and lists deep", MaxDepth))
	}
	if _, err := r.dec.ReadToken(); err != nil {
		return nil, r.fault(err)
	}
	n := r.place(i, i+1)
	base := len(r.stack)
	for {
		if k := r.dec.PeekKind(); k == jsontext.KindEndObject || k == jsontext.KindEndArray {
			break
		}
		var name *schema.Node
		if kind == '{' {
			var bad *Unreadable
			if name, bad = r.value(depth+1, false); bad != nil {
				return nil, bad
			}
			r.stack = append(r.stack, name)
		}
		var v *schema.Node
		var bad *Unreadable
		if stubs && name != nil && name.Text == "records" && r.dec.PeekKind() == jsontext.KindBeginArray {
			v, bad = r.records()
		} else {
			v, bad = r.value(depth+1, false)
		}
		if bad != nil {
			return nil, bad
		}
		r.stack = append(r.stack, v)
	}
	if _, err := r.dec.ReadToken(); err != nil {
		return nil, r.fault(err)
	}
	n.End = r.offset() + r.t.base
	of := r.stack[base:]
	r.stack = r.stack[:base]
	if kind == '[' {
		n.Kind, n.Items = schema.ListNode, r.build.children(of)
		return n, nil
	}
	n.Kind = schema.MapNode
	r.build.members(n, of)
	if bad := r.t.checkNames(n); bad != nil {
		return nil, bad
	}
	return n, nil
}

// records reads a list, each item as a stub.
func (r *jsonReader) records() (*schema.Node, *Unreadable) {
	i := r.next()
	if _, err := r.dec.ReadToken(); err != nil {
		return nil, r.fault(err)
	}
	list := r.place(i, i+1)
	list.Kind = schema.ListNode
	for {
		k := r.dec.PeekKind()
		if k == jsontext.KindEndArray {
			break
		}
		i := r.next()
		if err := r.dec.SkipValue(); err != nil {
			return nil, r.fault(err)
		}
		stub := r.place(i, r.offset())
		stub.Kind = kindOf(k)
		list.Items = append(list.Items, stub)
	}
	if _, err := r.dec.ReadToken(); err != nil {
		return nil, r.fault(err)
	}
	list.End = r.offset() + r.t.base
	return list, nil
}

func kindOf(k jsontext.Kind) schema.NodeKind {
	switch k {
	case jsontext.KindBeginObject:
		return schema.MapNode
	case jsontext.KindBeginArray:
		return schema.ListNode
	case jsontext.KindString:
		return schema.TextNode
	case jsontext.KindNumber:
		return schema.NumberNode
	case jsontext.KindNull:
		return schema.NullNode
	}
	return schema.BoolNode
}

// place makes a node of bytes i to j of t.src.
func (r *jsonReader) place(i, j int) *schema.Node {
	n := r.build.node()
	p := r.at.to(r.t.src, i)
	n.Line, n.Column = p.Line, p.Column
	n.Start, n.End = i+r.t.base, j+r.t.base
	return n
}

// fault words an error of jsontext.
func (r *jsonReader) fault(err error) *Unreadable {
	var bad *jsontext.SyntacticError
	if !errors.As(err, &bad) {
		i := r.offset()
		return r.t.at(i, i, unfinishedJSON)
	}
	i := r.from + int(bad.ByteOffset)
	return r.t.wordJSON(i, bad.Err)
}
