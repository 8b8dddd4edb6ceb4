package schema

// NodeKind is the kind of a [Node].
type NodeKind uint8

// The kinds of node.
const (
	MapNode NodeKind = iota
	ListNode
	TextNode   // a string, or a plain scalar of YAML
	NumberNode // a JSON number, its text kept
	BoolNode   // a JSON true or false, its text kept
	NullNode
)

// Node is a value of a spec file, the same for every format. Readers make it;
// [Decode] turns it into a record.
type Node struct {
	Kind  NodeKind
	Text  string  // of a scalar, as decoded
	Plain bool    // a plain scalar of YAML, which may stand for a whole number or true/false where one is wanted
	Keys  []*Node // names of the members of a map, in the order of the file
	Items []*Node // values of the members of a map, or items of a list
	// Cut is set on an empty value behind which a comment stands: `thread: #10-32`.
	Cut bool

	// Start and End are byte offsets of the token in the file; Line and Column
	// (code points, from 1) are where it starts. Raw marks a scalar whose text
	// stands in the file as it is, so that a place in Text is a place in the
	// file; Lead is what precedes it there (a quotation mark).
	Start, End   int
	Line, Column int
	Raw          bool
	Lead         int
}

// Member returns the value of a member of a map, and the node of its name;
// both are nil when there is none.
func (n *Node) Member(name string) (value, key *Node) {
	if n == nil || n.Kind != MapNode {
		return nil, nil
	}
	for i, k := range n.Keys {
		if k.Text == name {
			return n.Items[i], k
		}
	}
	return nil, nil
}

// Follow walks a path from n and returns the node at its end. Where the path
// leaves the tree, it returns the last node on the way and whole is false.
// With wantKey the name of the last member is returned, if there is one.
func (n *Node) Follow(p Path, wantKey bool) (at *Node, whole bool) {
	at = n
	for i := range p.Len() {
		name, index := p.Step(i)
		switch {
		case name != "":
			v, k := at.Member(name)
			if v == nil {
				return at, false
			}
			if wantKey && i == p.Len()-1 {
				return k, true
			}
			at = v
		case at.Kind == ListNode && index < len(at.Items):
			at = at.Items[index]
		default:
			return at, false
		}
	}
	return at, true
}
