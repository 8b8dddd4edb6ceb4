package specs

import (
	"fmt"
	"strings"
	"testing"

	"snapgauge/schema"
)

// spots are tried on one text each. The place that must come out is marked
// with « » in the text.
func TestLocateYAML(t *testing.T) {
	at := schema.At
	for _, c := range []struct {
		name, marked string
		spot         schema.Spot
	}{
		{"scalar", "id: a\nto: «71 lbf·in»\n", schema.Spot{Path: at("to")}},
		{"quoted scalar", "id: a\nclass: «\"8.8\"» # c\n", schema.Spot{Path: at("class")}},
		{"name", "id: a\n«class»: \"8.8\"\n", schema.Spot{Path: at("class"), Key: true}},
		{"unit", "id: a\nto: 71 «lbf·in»\n", schema.Spot{Path: at("to"), From: 3, To: 10}},
		{"number", "id: a\nto: [6 N·m, «53» lbf·in]\n", schema.Spot{Path: at("to", 1), To: 2}},
		{"behind a dot", "id: a\nto: [·, x·m «N·m»]\n", schema.Spot{Path: at("to", 1), From: 5, To: 9}},
		{"in quotes", "id: a\nto: '6 «N·m»'\n", schema.Spot{Path: at("to"), From: 2, To: 6}},
		{"beyond the text", "id: a\nto: «6 N·m»\n", schema.Spot{Path: at("to"), From: 2, To: 99}},
		{"doubled quote", "id: a\nto: '6'' «N·m» '\n", schema.Spot{Path: at("to"), From: 3, To: 7}},
		{"escape", `id: a` + "\n" + `to: "6 «N\u00b7m» \x41"` + "\n", schema.Spot{Path: at("to"), From: 2, To: 6}},
		{"behind escapes", `id: a` + "\n" + `to: "\"\U000000b0\N\_\L\t «N·m»"` + "\n", schema.Spot{Path: at("to"), From: 12, To: 16}},
		{"in an escape", `id: a` + "\n" + `to: «"6 N\u00b7m"»` + "\n", schema.Spot{Path: at("to"), From: 4, To: 6}},
		{"escape folded", "id: a\nto: «\"6\\\"\n  N·m\"»\n", schema.Spot{Path: at("to"), From: 2, To: 6}},
		{"literal", "id: a\nto: |\n  6 N·m\n  9 «N·m»\n", schema.Spot{Path: at("to"), From: 9, To: 13}},
		{"folded", "id: a\nto: >-\n  6\n  «N·m» x\n", schema.Spot{Path: at("to"), From: 2, To: 6}},
		{"plain folded", "id: a\nto: 6\n  «N·m» x\n", schema.Spot{Path: at("to"), From: 2, To: 6}},
		{"all of a literal", "id: a\nto: «|\n  6 N·m\n  9 N·m»\nx: y\n", schema.Spot{Path: at("to")}},
		{"the record", "kind: torque\nid: «lid-screws»\n", schema.Spot{}},
		{"the record without id", "«kind: torque»\nwhere: here\n", schema.Spot{}},
		{"missing field", "id: «lid»\nkind: torque\n", schema.Spot{Path: at("where")}},
		{"missing below", "id: a\n«joint»: {into: steel}\n", schema.Spot{Path: at("joint", "threads"), Key: true}},
		{"missing in an item", "id: a\ntighten:\n  - «pattern: spiral»   # c\n    x: y\n", schema.Spot{Path: at("tighten", 0, "to")}},
		{"missing in a flow item", "id: a\ntighten:\n  - «{pattern: spiral}» # c\n", schema.Spot{Path: at("tighten", 0, "to")}},
		{"item beyond", "id: a\n«to»: [b, c]\n", schema.Spot{Path: at("to", 2)}},
		{"member of a scalar", "id: a\nto: b\n«by»: c\n", schema.Spot{Path: at("by", "x")}},
		{"a map", "id: a\n«joint»:\n  into: steel\n", schema.Spot{Path: at("joint")}},
		{"a list item", "id: a\nto:\n  - «b: c»\n    d: e\n", schema.Spot{Path: at("to", 0)}},
		{"empty", "id: a\n«to»:\nby: c\n", schema.Spot{Path: at("to")}},
		{"cut off", "id: a\nthread:  «#10-32»  \nx: y\n", schema.Spot{Path: at("thread")}},
		{"cut off item", "id: a\nx:\n  - «# 10»\n", schema.Spot{Path: at("x", 0)}},
		{"empty item", "id: a\nx:\n  «-»\n  - b\n", schema.Spot{Path: at("x", 0)}},
		{"null", "id: a\nx: «~»\n", schema.Spot{Path: at("x")}},
		{"key of an item", "id: a\nx: [«b»]\n", schema.Spot{Path: at("x", 0), Key: true}},
		{"crlf", "id: a\r\nx:\r\n  - «b: c»\r\n    d: e\r\n", schema.Spot{Path: at("x", 0)}},
		{"alias", "id: a\nx: &x «6 N·m»\ny: *x\n", schema.Spot{Path: at("y")}},
	} {
		t.Run(c.name, func(t *testing.T) {
			src, want := unmark(t, c.marked)
			x, root := yamlTree(t, src)
			diff(t, "place", want[0], shown(src, x.locator(root)(c.spot)))
		})
	}
}

func TestLocateJSON(t *testing.T) {
	at := schema.At
	for _, c := range []struct {
		marked string
		spot   schema.Spot
	}{
		{`{"id": «"a"»}`, schema.Spot{}},
		{`{"id": «"a"»}`, schema.Spot{Path: at("kind")}},
		{`«{"kind": "b"}»`, schema.Spot{Path: at("id")}},
		{`{"to": "6 «N·m»"}`, schema.Spot{Path: at("to"), From: 2, To: 6}},
		{`{"to": "6 «N\u00b7m»"}`, schema.Spot{Path: at("to"), From: 2, To: 6}},
		{`{"to": "\ud834\udd1e «N\u00b7m»"}`, schema.Spot{Path: at("to"), From: 5, To: 9}},
		{`{"to": "\/\\\n «90»\u00B0"}`, schema.Spot{Path: at("to"), From: 4, To: 6}},
		{`{"count": «16»}`, schema.Spot{Path: at("count")}},
		{`{"count": 1«6»}`, schema.Spot{Path: at("count"), From: 1, To: 2}},
		{`{"yield": «true»}`, schema.Spot{Path: at("yield")}},
		{`{"joint": {«"a/b"»: null}}`, schema.Spot{Path: at("joint", "a/b"), Key: true}},
		{`{"x": «""»}`, schema.Spot{Path: at("x")}},
		{"{\"x\": [\n\t«{»\n \"a\": 1}]}", schema.Spot{Path: at("x", 0)}},
	} {
		src, want := unmark(t, c.marked)
		x, root := jsonTree(t, src)
		diff(t, src, want[0], shown(src, x.locator(root)(c.spot)))
	}
}

// shown tells a span the way unmark does.
func shown(src string, s schema.Span) string {
	if s.Start.Line == s.End.Line {
		line := []rune(strings.Split(strings.TrimPrefix(src, bom), "\n")[s.Start.Line-1])
		return fmt.Sprintf("%v %s", s.Start, string(line[s.Start.Column-1:s.End.Column-1]))
	}
	lines := strings.Split(src, "\n")[s.Start.Line-1 : s.End.Line]
	last := len(lines) - 1
	lines[last] = string([]rune(lines[last])[:s.End.Column-1])
	lines[0] = string([]rune(lines[0])[s.Start.Column-1:])
	return fmt.Sprintf("%v %s", s.Start, strings.Join(lines, "\n"))
}
