package schema

import (
	"fmt"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

// Sentences about broken shape, for somebody who has the file before them and
// no schema.

// wrong words a value of the wrong form.
func (j *judgement) wrong(c cause, p Path, node *Node) Problem {
	name := nameOf(p)
	if p.Len() == 0 {
		name = "the " + j.what
	}
	problem := Problem{Read: read(node), Want: c.title}
	say := func(is, goes string) Problem {
		problem.Want = strings.TrimSuffix(strings.TrimSuffix(goes, " goes"), " go")
		problem.Message = fmt.Sprintf("%s %s; %s here", name, is, goes)
		return problem
	}
	got, limit := "is "+describe(node), fmt.Sprint(c.schema[c.keyword])
	switch c.keyword {
	case "enum", "anyOf":
		if words, open := wordsOf(c.schema); words != nil {
			if node == nil || node.Kind != TextNode {
				return say(got, "one of "+strings.Join(words, ", ")+open+" goes")
			}
			return vocabularyProblem(problem, c.title, node.Text, words, open)
		}
	case "minimum", "maximum":
		if node != nil {
			got = "is " + clip(node.Text, 60)
		}
		problem.Want = limit + map[string]string{"minimum": " or more", "maximum": " or less"}[c.keyword]
		problem.Message = fmt.Sprintf("%s %s; it must be %s", name, got, problem.Want)
		return problem
	case "minItems", "minProperties":
		if size(node) == 0 {
			problem.Want = limit + " or more"
			problem.Message = fmt.Sprintf("%s is an empty %s; give a value or leave it out", name, kindName(node))
			return problem
		}
		return say("has "+count(size(node), "item"), "at least "+limit+" go")
	case "maxItems":
		return say("has "+count(size(node), "item"), "at most "+limit+" go")
	case "maxLength":
		if node != nil {
			return say("has "+count(utf8.RuneCountInString(node.Text), "letter"), "at most "+limit+" go")
		}
	case "uniqueItems":
		problem.Want = "each once"
		problem.Message = fmt.Sprintf("%s: %s stands twice", name, short(doubled(node)))
		return problem
	}
	goes := c.title
	if c.ofName {
		step, _ := p.Step(p.Len() - 1)
		problem.Message = fmt.Sprintf("%s: the name %s does not go; %s does", nameOf(p.Parent()), short(step), goes)
		return problem
	}
	if goes == "" {
		problem.Message = fmt.Sprintf("%s %s, but %s", name, got, c.message)
		return problem
	}
	if c.keyword == "type" && node != nil && node.Kind == TextNode && !node.Plain && isJSONNumber(node.Text) {
		goes += " without quotation marks"
	}
	say(got, goes+" goes")
	if like := j.like(c, node); like != "" && like != c.title {
		problem.Message += ", such as " + like
	}
	return problem
}

// like is an example of what would go: made from what stands there, where that
// can be, else from the schema.
func (j *judgement) like(c cause, node *Node) string {
	if c.keyword == "pattern" && c.schema["pattern"] == idPattern() && node != nil {
		if id := idLike(node.Text); id != "" {
			return j.style().show(id)
		}
	}
	if c.example == nil {
		return ""
	}
	return j.style().show(c.example)
}

// idPattern is the pattern of the ids of the format.
var idPattern = sync.OnceValue(func() any {
	defs, _ := raw()["common"]["$defs"].(map[string]any)
	id, _ := defs["id"].(map[string]any)
	return id["pattern"]
})

// idLike makes an id of a text: Cover Screws becomes cover-screws.
func idLike(text string) string {
	text = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "å", "a", "ø", "o", "é", "e", "è", "e", "à", "a", "ç", "c", "ñ", "n").
		Replace(strings.ToLower(clip(text, 80)))
	id := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '.' || r == '_' {
			return r
		}
		return ' '
	}, text)
	id = strings.Join(strings.Fields(id), "-")
	return clip(strings.TrimLeft(id, "._"), 80)
}

// vocabularyProblem words a word that the format does not have.
func vocabularyProblem(problem Problem, what, text string, words []string, open string) Problem {
	problem.Message = fmt.Sprintf("no %s %s", what, short(text))
	meant := Meant(text, words)
	switch {
	case len(words) > manyWords && len(meant) == 0:
		problem.Want = "a " + what + " such as " + orList(words[:fewWords])
		problem.Message += fmt.Sprintf("; words such as %s go here, %d in all", andList(words[:fewWords]), len(words))
		return problem
	case len(meant) == 0 || len(words) <= fewWords:
		problem.Want = strings.Join(words, ", ") + open
		problem.Message += "; known: " + problem.Want
	}
	if len(meant) > 0 {
		problem.Want = orList(meant)
		problem.Message += "; did you mean " + orList(quotedWords(meant)) + "?"
	}
	return problem
}

// A sentence lists up to manyWords words, and up to fewWords beside a
// suggestion or where there are more.
const manyWords, fewWords = 14, 5

func quotedWords(words []string) []string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	return quoted
}

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

// nameOf names a place by its last field: count; item 2 of order.
func nameOf(p Path) string {
	item := -1
	for i := p.Len() - 1; i >= 0; i-- {
		name, index := p.Step(i)
		if name != "" {
			name = clip(name, 60)
			if isDigit(name[0]) && i > 0 { // the number of a place
				above, _ := p.Step(i - 1)
				name = strings.TrimSuffix(above, "s") + " " + name
			}
			if item >= 0 {
				return fmt.Sprintf("item %d of %s", item+1, name)
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
		if n.Plain && isJSONNumber(n.Text) {
			return n.Text
		}
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
