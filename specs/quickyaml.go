package specs

import (
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"

	"snapgauge/schema"
)

// quickYAML feeds a decoder with the events of a node of the YAML library. As
// quickJSON does, it takes less than yamlReader: where it is not sure, with
// anchors, aliases and tags among the rest, the record goes the plain way.
func quickYAML(d *schema.Decoder, y *yaml.Node, depth int) bool {
	if depth > quickDepth || !unadorned(y) {
		return false
	}
	switch y.Kind {
	case yaml.ScalarNode:
		switch {
		case y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0:
			return d.Text(y.Value, false)
		case y.Value == "" || y.Value == "~" || y.Value == "null":
			return d.Null()
		}
		return d.Text(y.Value, true)
	case yaml.SequenceNode:
		if !d.Open(true) {
			return false
		}
		for _, c := range y.Content {
			if !quickYAML(d, c, depth+1) {
				return false
			}
		}
		return d.Close()
	case yaml.MappingNode:
		if !d.Open(false) {
			return false
		}
		for i := 0; i+1 < len(y.Content); i += 2 {
			if !quickName(y.Content[i]) || !d.Member(y.Content[i].Value) || !quickYAML(d, y.Content[i+1], depth+1) {
				return false
			}
		}
		return d.Close()
	}
	return false
}

// unadorned reports a node without anchor and tag that is no alias.
func unadorned(y *yaml.Node) bool {
	return y.Kind != yaml.AliasNode && y.Anchor == "" && y.Style&yaml.TaggedStyle == 0 && y.Tag != "!"
}

// quickName reports the name of a member about which there is nothing to say.
func quickName(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && unadorned(y) && y.Value != "" && y.Value != "<<" && y.Value[0] != '-' && y.Value[0] < utf8.RuneSelf
}
