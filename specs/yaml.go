package specs

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"snapgauge/schema"
)

// yamlReader turns the nodes of the YAML library into ours. The library tells
// the line and column (code points) at which a node begins, its anchor and
// tag included; where it ends is found in the text.
type yamlReader struct {
	t       *text
	lines   []int // where in t.src each line begins
	at      yamlCursor
	anchors map[*yaml.Node]*anchored
	aliased int // values that came by way of an alias
	build   builder
	stack   []*schema.Node
}

// anchored is a node with an anchor, as it was read.
type anchored struct {
	built built
	bad   *Unreadable
	done  bool
}

// built is a node that was read.
type built struct {
	*schema.Node
	end    int // where in t.src it ends: for an alias, the alias itself
	weight int // values in it, those behind aliases included
	height int // maps and lists within one another
}

// openYAML reads all of a YAML file but its records.
func openYAML(t *text) (*document, *Unreadable) {
	if bad := t.checkYAML(); bad != nil {
		return nil, bad
	}
	top, bad := t.parseYAML()
	if bad != nil {
		return nil, bad
	}
	r := &yamlReader{t: t, lines: lineStarts(t.src, t.mark()), anchors: map[*yaml.Node]*anchored{}}
	if top.Kind != yaml.MappingNode {
		i := r.offset(top.Line, top.Column)
		return nil, t.at(i, i, "a spec file is a mapping: format, machine, sources and records, each on a line of its own")
	}
	pending := records(top)
	root, bad := r.root(top, pending)
	if bad != nil {
		return nil, bad
	}
	d := &document{text: t, root: root}
	d.record = func(i int) (*schema.Node, *Unreadable) {
		if pending == nil { // they came by way of an alias and were read with the head
			list, _ := root.Member("records")
			return list.Items[i], nil
		}
		n, bad := r.node(pending.Content[i], 2)
		return n.Node, bad
	}
	d.quick = func(d *schema.Decoder, i int) bool { return pending != nil && quickYAML(d, pending.Content[i], 0) }
	d.again = func(i int) (*schema.Node, *Unreadable) {
		again := yamlReader{t: t, lines: r.lines, anchors: map[*yaml.Node]*anchored{}}
		n, bad := again.node(pending.Content[i], 2)
		return n.Node, bad
	}
	d.glean = func(i int) gleaned { return r.glean(pending.Content[i]) }
	return d, nil
}

// records finds the list of records that stands in the root itself.
func records(top *yaml.Node) *yaml.Node {
	for i := 0; i+1 < len(top.Content); i += 2 {
		if v := top.Content[i+1]; top.Content[i].Value == "records" && v.Kind == yaml.SequenceNode && v.Anchor == "" {
			return v
		}
	}
	return nil
}

// parseYAML runs the library over the text and returns the root of the one
// document.
func (t *text) parseYAML() (top *yaml.Node, bad *Unreadable) {
	defer func() {
		if v := recover(); v != nil { // a fault of the library, not of the file
			top, bad = nil, t.whole("the YAML of this file is beyond the parser")
		}
	}()
	src := t.src[t.mark():]
	var in io.Reader = strings.NewReader(src)
	if strings.HasPrefix(src, "%YAML 1.2") {
		// The library knows 1.2 but refuses to be told so.
		in = io.MultiReader(strings.NewReader("#"), strings.NewReader(src[1:]))
	}
	load, err := yaml.NewLoader(in, yaml.WithV4Defaults(),
		yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(MaxDepth), loaderlimits.AliasNone())))
	if err != nil {
		return nil, t.whole(err.Error())
	}
	var first, second yaml.Node
	if err := load.Load(&first); err != nil {
		return nil, t.yamlFault(err)
	}
	switch err := load.Load(&second); {
	case err == nil:
		i := lineStarts(t.src, t.mark())[second.Line-1]
		return nil, t.at(i, i, "a second document begins here; keep one document in a file")
	case !errors.Is(err, io.EOF):
		return nil, t.yamlFault(err)
	}
	return first.Content[0], nil
}

// root reads the root, with stubs for the pending records.
func (r *yamlReader) root(top, pending *yaml.Node) (*schema.Node, *Unreadable) {
	n := r.build.node()
	r.stack = r.stack[:0]
	end := 0
	for i := 0; i+1 < len(top.Content); i += 2 {
		key, bad := r.key(top.Content[i])
		if bad != nil {
			return nil, bad
		}
		var v built
		if top.Content[i+1] == pending {
			v, bad = r.stubs(pending)
		} else {
			v, bad = r.value(top, top.Content[i+1], key.end, 1)
		}
		if bad != nil {
			return nil, bad
		}
		r.stack = append(r.stack, key.Node, v.Node)
		end = max(key.end, v.end)
	}
	of := r.stack
	r.stack = r.stack[:0]
	start, _, bad := r.open(top)
	if bad != nil {
		return nil, bad
	}
	if r.t.src[start] == '{' {
		end = r.t.closing(max(end, start+1))
	}
	r.place(n, start, max(end, start))
	r.build.members(n, of)
	return n, r.t.checkNames(n)
}

// stubs reads a list of records as places only. A stub ends where it begins:
// its end is not known until it is read.
func (r *yamlReader) stubs(y *yaml.Node) (built, *Unreadable) {
	list := r.build.node()
	list.Kind = schema.ListNode
	start, _, bad := r.open(y)
	if bad != nil {
		return built{}, bad
	}
	r.place(list, start, start)
	end := start + 1
	for _, c := range y.Content {
		stub := r.build.node()
		switch c.Kind {
		case yaml.MappingNode:
			stub.Kind = schema.MapNode
		case yaml.SequenceNode:
			stub.Kind = schema.ListNode
		default:
			stub.Kind = schema.TextNode
		}
		end = r.offset(c.Line, c.Column)
		r.place(stub, end, end)
		list.Items = append(list.Items, stub)
	}
	return built{Node: list, end: end}, nil
}

// key reads the name of a member.
func (r *yamlReader) key(y *yaml.Node) (built, *Unreadable) {
	if y.Kind != yaml.ScalarNode {
		i := r.offset(y.Line, y.Column)
		return built{}, r.t.at(i, i, "the name of a field must be a word; put text that begins with [, {, * or ? in quotes")
	}
	k, bad := r.node(y, 0)
	if bad != nil {
		return k, bad
	}
	switch {
	case k.Text == "<<" && k.Plain:
		return k, r.t.about(k.Node, "merge keys (<<) are not read; write the fields out")
	case k.Kind == schema.NullNode && k.Text == "":
		return k, r.t.at(k.Start, k.Start, `a name is missing before this ":"`)
	}
	if k.Plain && (k.Text[0] == '-' || k.Text[0] >= utf8.RuneSelf) {
		if m := oddIndent.FindStringSubmatchIndex(k.Text); m != nil {
			return k, r.t.indentedBy(k.Start+m[2], k.Start+m[3])
		}
	}
	k.Kind = schema.TextNode
	return k, nil
}

// node reads a node that lies depth maps and lists deep.
func (r *yamlReader) node(y *yaml.Node, depth int) (built, *Unreadable) {
	switch {
	case y.Kind == yaml.AliasNode:
		return r.alias(y, depth)
	case y.Anchor != "":
		a := r.anchors[y]
		if a == nil {
			a = &anchored{}
			r.anchors[y] = a
		}
		a.built, a.bad = r.plainNode(y, depth)
		a.done = true
		return a.built, a.bad
	}
	return r.plainNode(y, depth)
}

// alias follows an alias. The tree behind it is shared, not copied: its values
// are placed at the anchor. What it adds is counted all the same.
func (r *yamlReader) alias(y *yaml.Node, depth int) (built, *Unreadable) {
	i := r.offset(y.Line, y.Column)
	end := i + 1 + len(y.Value)
	a := r.anchors[y.Alias]
	if a == nil { // its record was given up before it was reached
		_, bad := r.node(y.Alias, depth)
		if bad != nil {
			return built{}, bad
		}
		a = r.anchors[y.Alias]
	}
	switch {
	case !a.done:
		return built{}, r.t.at(i, end, fmt.Sprintf("alias *%s stands within what it names", y.Value))
	case a.bad != nil:
		return built{}, a.bad
	}
	r.aliased += a.built.weight
	if r.aliased > maxAliased {
		return built{}, r.t.at(i, end, fmt.Sprintf("alias bomb: aliases stand for more than %d values; write them out", maxAliased))
	}
	if depth+a.built.height > MaxDepth {
		return built{}, r.t.tooDeep(i)
	}
	b := a.built
	b.end = end
	return b, nil
}

// plainNode reads a node that is no alias.
func (r *yamlReader) plainNode(y *yaml.Node, depth int) (built, *Unreadable) {
	start, after, bad := r.open(y)
	if bad != nil {
		return built{}, bad
	}
	if y.Kind == yaml.ScalarNode {
		return r.scalar(y, start, after), nil
	}
	if depth >= MaxDepth {
		return built{}, r.t.tooDeep(start)
	}
	n := r.build.node()
	b := built{Node: n, weight: 1}
	base := len(r.stack)
	end := start
	for i, c := range y.Content {
		var child built
		switch {
		case y.Kind != yaml.MappingNode:
			child, bad = r.node(c, depth+1)
		case i%2 == 0:
			child, bad = r.key(c)
		default:
			child, bad = r.value(y, c, end, depth+1)
		}
		if bad != nil {
			r.stack = r.stack[:base]
			return built{}, bad
		}
		r.stack = append(r.stack, child.Node)
		b.weight += child.weight
		b.height = max(b.height, child.height)
		end = max(end, child.end)
	}
	b.height++
	of := r.stack[base:]
	r.stack = r.stack[:base]
	if c := r.t.src[start]; y.Style&yaml.FlowStyle != 0 && (c == '[' || c == '{') && closes(y, c) {
		end = r.t.closing(max(end, start+1))
	}
	b.end = end
	r.place(n, start, end)
	if y.Kind == yaml.SequenceNode {
		n.Kind, n.Items = schema.ListNode, r.build.children(of)
		return b, nil
	}
	n.Kind = schema.MapNode
	r.build.members(n, of)
	return b, r.t.checkNames(n)
}

// value reads the value of a member of y whose name ends at byte i. Where none
// is written, the library may put it at the next token, or within the name: it
// belongs behind the colon.
func (r *yamlReader) value(y, c *yaml.Node, i, depth int) (built, *Unreadable) {
	b, bad := r.node(c, depth)
	if bad != nil || c.Kind != yaml.ScalarNode || c.Anchor != "" || b.Kind != schema.NullNode || b.Text != "" {
		return b, bad
	}
	if y.Style&yaml.FlowStyle == 0 && b.Start > i {
		return b, nil
	}
	if j := skipBlanks(r.t.src, i); j < len(r.t.src) && r.t.src[j] == ':' {
		i = j + 1
	}
	b.Cut = cutOff(r.t.src, i)
	b.end = i
	r.place(b.Node, i, i)
	return b, nil
}

// closes reports whether a bracket is that of the node itself: the map of
// [a: b] has none.
func closes(y *yaml.Node, c byte) bool {
	return (y.Kind == yaml.MappingNode) == (c == '{')
}

// scalar reads a scalar whose text begins at byte start.
func (r *yamlReader) scalar(y *yaml.Node, start, after int) built {
	n := r.build.node()
	n.Kind, n.Text = schema.TextNode, y.Value
	src := r.t.src
	end := start
	switch {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		end = quoteEnd(src, start, '\\')
		n.Lead = 1
	case y.Style&yaml.SingleQuotedStyle != 0:
		end = quoteEnd(src, start, '\'')
		n.Lead = 1
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		end = blockEnd(src, start, y.Value)
	case y.Value == "":
		start = after
		end = after
		n.Kind = schema.NullNode
		n.Cut = cutOff(src, start)
	default:
		n.Plain = true
		if y.Value == "~" || y.Value == "null" {
			n.Kind = schema.NullNode
		}
		end = start + len(y.Value)
		if end > len(src) || src[start:end] != y.Value {
			end = looseEnd(src, start, y.Value)
		}
	}
	r.place(n, start, end)
	if n.Kind == schema.TextNode || n.Plain {
		n.Raw = src[start+n.Lead:max(start+n.Lead, end-n.Lead)] == y.Value
	}
	return built{Node: n, end: end, weight: 1}
}

// place fills in where a node stands: bytes start to end of the text.
func (r *yamlReader) place(n *schema.Node, start, end int) {
	p := r.position(start)
	n.Line, n.Column = p.Line, p.Column
	n.Start, n.End = start, end
}

func (t *text) tooDeep(i int) *Unreadable {
	return t.at(i, i, fmt.Sprintf("this lies more than %d maps and lists deep", MaxDepth))
}
