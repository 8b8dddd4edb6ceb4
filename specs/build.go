package specs

import (
	"fmt"

	"snapgauge/schema"
)

// builder hands out nodes in slabs, for a record has dozens of them.
type builder struct {
	nodes []schema.Node
	links []*schema.Node
}

func (b *builder) node() *schema.Node {
	if len(b.nodes) == 0 {
		b.nodes = make([]schema.Node, 64)
	}
	n := &b.nodes[0]
	b.nodes = b.nodes[1:]
	return n
}

// children copies a list of nodes to where it may stay.
func (b *builder) children(of []*schema.Node) []*schema.Node {
	if len(of) == 0 {
		return nil
	}
	if len(b.links) < len(of) {
		b.links = make([]*schema.Node, max(128, len(of)))
	}
	list := b.links[:len(of):len(of)]
	b.links = b.links[len(of):]
	copy(list, of)
	return list
}

// members gives a map its names and values, which stand in turn.
func (b *builder) members(n *schema.Node, of []*schema.Node) {
	list := b.children(of)
	half := len(list) / 2
	n.Keys, n.Items = list[:half:half], list[half:]
	for i := range half {
		n.Keys[i], n.Items[i] = of[2*i], of[2*i+1]
	}
}

// doubled finds the first name of a map that was used before it.
func doubled(n *schema.Node) (second, first *schema.Node) {
	if len(n.Keys) <= 16 {
		for i, k := range n.Keys {
			for _, before := range n.Keys[:i] {
				if k.Text == before.Text {
					return k, before
				}
			}
		}
		return nil, nil
	}
	seen := make(map[string]*schema.Node, len(n.Keys))
	for _, k := range n.Keys {
		if before := seen[k.Text]; before != nil {
			return k, before
		}
		seen[k.Text] = k
	}
	return nil, nil
}

// checkNames refuses a map with a doubled name.
func (t *text) checkNames(n *schema.Node) *Unreadable {
	second, first := doubled(n)
	if second == nil {
		return nil
	}
	return t.about(second, fmt.Sprintf("%q stands twice in one mapping, first on line %d; keep one of them", second.Text, first.Line))
}
