package schema

import (
	"encoding/json"
	"strings"
	"testing"
)

// nodeOf makes a tree from JSON text. With plain every scalar is a plain
// scalar, as a YAML reader makes them, and null an empty value.
func nodeOf(text string, plain bool) (*Node, error) {
	d := json.NewDecoder(strings.NewReader(text))
	d.UseNumber()
	return readNode(d, plain)
}

func readNode(d *json.Decoder, plain bool) (*Node, error) {
	token, err := d.Token()
	if err != nil {
		return nil, err
	}
	scalar := func(kind NodeKind, text string) (*Node, error) {
		if plain {
			return &Node{Kind: TextNode, Text: text, Plain: true}, nil
		}
		return &Node{Kind: kind, Text: text}, nil
	}
	switch x := token.(type) {
	case string:
		return scalar(TextNode, x)
	case json.Number:
		return scalar(NumberNode, x.String())
	case bool:
		if x {
			return scalar(BoolNode, "true")
		}
		return scalar(BoolNode, "false")
	case json.Delim:
		n := &Node{Kind: ListNode}
		if x == '{' {
			n.Kind = MapNode
		}
		for d.More() {
			if n.Kind == MapNode {
				key, err := d.Token()
				if err != nil {
					return nil, err
				}
				n.Keys = append(n.Keys, &Node{Kind: TextNode, Text: key.(string)})
			}
			item, err := readNode(d, plain)
			if err != nil {
				return nil, err
			}
			n.Items = append(n.Items, item)
		}
		_, err := d.Token()
		return n, err
	}
	return &Node{Kind: NullNode}, nil
}

func mustNode(t testing.TB, text string, plain bool) *Node {
	t.Helper()
	n, err := nodeOf(text, plain)
	if err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return n
}
