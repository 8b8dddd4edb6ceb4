package schema

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Sentences about broken shape, for somebody who has the file before them and
// no schema.

// meantField maps names that people give to fields to the name of the format,
// where no likeness of letters would find it.
var meantField = map[string]string{
	"torque": "to", "angle": "turn", "back off": "loosen", "bolt": "fastener", "bolts": "fastener", "screw": "fastener",
	"material": "into", "lubrication": "threads", "lube": "threads", "condition": "threads", "quantity": "count", "qty": "count",
	"number": "count", "grade": "class", "property-class": "class", "sequence": "order", "name": "where", "location": "where",
	"limit": "wear-limit", "service-limit": "wear-limit", "type": "kind", "warnings": "caution", "hazards": "caution",
	"capacity": "amounts", "volume": "amounts", "page": "at", "oil": "fluid", "steps": "tighten", "measure": "of", "reason": "because",
}

// wrong words a value of the wrong form.
func (j *judgement) wrong(c cause, p Path, node *Node) Problem {
	name, got := nameOf(p), describe(node)
	if p.Len() == 0 {
		name = "the " + j.what
	}
	if c.ofName {
		step, _ := p.Step(p.Len() - 1)
		name, got = nameOf(p.Parent()), "the name "+short(step)
	}
	problem := Problem{Read: read(node), Want: c.title}
	say := func(got, want string) Problem {
		problem.Want = want
		problem.Message = fmt.Sprintf("%s: got %s, want %s", name, got, want)
		return problem
	}
	limit := fmt.Sprint(c.schema[c.keyword])
	switch c.keyword {
	case "enum", "anyOf":
		if words, open := wordsOf(c.schema); words != nil {
			return vocabularyProblem(problem, c, name, node, words, open)
		}
	case "minimum":
		return say(got, limit+" or more")
	case "maximum":
		return say(got, limit+" or less")
	case "minItems", "minProperties":
		if size(node) == 0 {
			problem.Want = limit + " or more"
			problem.Message = fmt.Sprintf("%s is an empty %s; give a value or leave it out", name, kindName(node))
			return problem
		}
		return say(count(size(node), "item"), limit+" or more")
	case "maxItems":
		return say(count(size(node), "item"), limit+" or fewer")
	case "maxLength":
		if node != nil {
			return say(count(utf8.RuneCountInString(node.Text), "letter"), limit+" or fewer")
		}
	case "uniqueItems":
		problem.Want = "each once"
		problem.Message = fmt.Sprintf("%s: %s stands twice", name, short(doubled(node)))
		return problem
	}
	want := c.title
	if want == "" {
		problem.Message = fmt.Sprintf("%s: got %s, but %s", name, got, c.message)
		return problem
	}
	if c.keyword == "type" && node != nil && node.Kind == TextNode && !node.Plain && isJSONNumber(node.Text) {
		want += " without quotation marks"
	}
	say(got, want)
	if e := example(c.example); e != "" && !c.ofName {
		problem.Message += ", such as " + e
	}
	return problem
}

// vocabularyProblem words a word that the format does not have.
func vocabularyProblem(problem Problem, c cause, name string, node *Node, words []string, open string) Problem {
	known := strings.Join(words, ", ") + open
	problem.Want = known
	if node == nil || node.Kind != TextNode {
		problem.Message = fmt.Sprintf("%s: got %s, want one of %s", name, describe(node), known)
		return problem
	}
	problem.Message = fmt.Sprintf("no %s %s", c.title, short(node.Text))
	near := Nearest(node.Text, words)
	if near == "" {
		if m := meant[strings.ToLower(strings.TrimSpace(node.Text))]; slices.Contains(words, m) {
			near = m
		}
	}
	if near == "" || len(words) <= manyWords {
		problem.Message += "; known: " + known
	}
	if near != "" {
		problem.Want = near
		problem.Message += fmt.Sprintf("; did you mean %q?", near)
	}
	return problem
}

// manyWords is how many words a sentence may list beside a suggestion.
const manyWords = 14

// wordsOf returns the words that a schema lists, and what else it takes.
func wordsOf(schema map[string]any) (words []string, open string) {
	list, _ := schema["enum"].([]any)
	if branches, ok := schema["anyOf"].([]any); ok {
		for _, b := range branches {
			m, _ := b.(map[string]any)
			if l, ok := m["enum"].([]any); ok {
				list = l
			}
			if r, _ := m["$ref"].(string); strings.HasSuffix(r, "/otherText") {
				open = ", or other: …"
			}
			if _, ok := m["pattern"]; ok {
				open = ", or a figure with its unit"
			}
		}
	}
	for _, w := range list {
		if s, ok := w.(string); ok {
			words = append(words, s)
		}
	}
	return words, open
}

// nameOf names a place by its last field: count; order, item 2.
func nameOf(p Path) string {
	item := -1
	for i := p.Len() - 1; i >= 0; i-- {
		name, index := p.Step(i)
		if name != "" {
			name = clip(name, 60)
			if item >= 0 {
				return fmt.Sprintf("%s, item %d", name, item+1)
			}
			return name
		}
		if item < 0 {
			item = index
		}
	}
	return "the whole"
}

// container names a mapping that something stands in: tighten, the record.
func (w *walker) container(p Path) string {
	for i := p.Len() - 1; i >= 0; i-- {
		if name, _ := p.Step(i); name != "" {
			return clip(name, 60)
		}
	}
	return "the " + w.what
}

// subject names a mapping that lacks something: a torque record, source.
func (j *judgement) subject(p Path) string {
	if p.Len() > 0 {
		return nameOf(p)
	}
	if k := j.kind(); k != "" && j.what == "record" {
		return "a " + k + " record"
	}
	return "a " + j.what
}

// describe tells what a value is.
func describe(n *Node) string {
	if n == nil {
		return "nothing"
	}
	switch n.Kind {
	case TextNode:
		return short(n.Text)
	case NumberNode:
		return "the number " + clip(n.Text, 60)
	case BoolNode:
		return n.Text
	case MapNode, ListNode:
		return "a " + kindName(n)
	}
	return "nothing"
}

func kindName(n *Node) string {
	if n != nil && n.Kind == MapNode {
		return "mapping"
	}
	return "list"
}

// read is a scalar as it stands in the file.
func read(n *Node) string {
	if n == nil || n.Kind == MapNode || n.Kind == ListNode {
		return ""
	}
	return clip(n.Text, 200)
}

func size(n *Node) int {
	if n == nil {
		return 0
	}
	return len(n.Items)
}

func doubled(n *Node) string {
	if n != nil {
		for i, x := range n.Items {
			for _, y := range n.Items[:i] {
				if x != nil && y != nil && x.Text == y.Text {
					return x.Text
				}
			}
		}
	}
	return ""
}

// short quotes a text, cut where it is long.
func short(s string) string {
	if c := clip(s, 60); len(c) < len(s) {
		return strconv.Quote(c + "…")
	}
	return strconv.Quote(s)
}

func count(n int, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%d %ss", n, of)
}

// example shows an example as a file would have it.
func example(e any) string {
	if e == nil {
		return ""
	}
	b, err := json.Marshal(e)
	if err != nil {
		return ""
	}
	return string(b)
}
