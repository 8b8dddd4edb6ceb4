package schema

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
)

// The shapes that are more than one field, one value.

// fasteners reads one fastener, or a list of them.
func (w *walker) fasteners(n *Node, p Path, f *Fasteners) any {
	switch n.Kind {
	case MapNode:
		f.Items = make([]Fastener, 1)
		return w.value(n, p, valueOf(&f.Items[0]))
	case ListNode:
		f.List = true
		return w.list(n, p, valueOf(&f.Items))
	}
	return shallow(n)
}

// boxes reads applies. The ranges are parsed later, when the head is known.
func (w *walker) boxes(n *Node, p Path, x *[]Box) any {
	if n.Kind != ListNode {
		return shallow(n)
	}
	plain := make([]any, len(n.Items))
	*x = make([]Box, len(n.Items))
	for i, item := range n.Items {
		if item.isEmpty() {
			w.emptied(item, p.Index(i))
			continue
		}
		plain[i] = w.box(item, p.Index(i), &(*x)[i])
	}
	return plain
}

func (w *walker) box(n *Node, p Path, b *Box) any {
	return w.members(n, p, func(name string, item *Node, p Path) any {
		if name == "variant" {
			if item.Kind == TextNode {
				b.Variants = []string{item.Text}
				return item.Text
			}
			return w.texts(item, p, &b.Variants)
		}
		switch item.Kind {
		case TextNode:
			b.Serials = append(b.Serials, SerialRange{Name: name, Text: item.Text})
			return item.Text
		case NumberNode:
			plain := w.number(item, p)
			if plain != nil {
				b.Serials = append(b.Serials, SerialRange{Name: name, Text: item.Text})
			}
			return plain
		}
		return shallow(item)
	})
}

// serials reads a mapping of numberings, in the order of the file.
func (w *walker) serials(n *Node, p Path, x *[]Serial) any {
	return w.members(n, p, func(name string, item *Node, _ Path) any {
		if item.Kind == TextNode {
			*x = append(*x, Serial{Name: name, Form: item.Text})
		}
		return shallow(item)
	})
}

// sources reads a mapping of documents, in the order of the file.
func (w *walker) sources(n *Node, p Path, x *[]NamedSource) any {
	return w.members(n, p, func(name string, item *Node, p Path) any {
		s := NamedSource{Name: name}
		plain := w.value(item, p, valueOf(&s.Source))
		if item.Kind == MapNode {
			*x = append(*x, s)
		}
		return plain
	})
}

// places reads where the places lie, in the order of the file. Where one cannot
// be read none is kept, for their number would mislead.
func (w *walker) places(n *Node, p Path, x *[]PlaceAt) any {
	sound := true
	plain := w.members(n, p, func(name string, item *Node, p Path) any {
		var xy []string
		plain := w.texts(item, p, &xy)
		number, err := strconv.Atoi(name)
		if err == nil && len(xy) == 2 {
			*x = append(*x, PlaceAt{Place: number, X: xy[0], Y: xy[1]})
		}
		sound = sound && err == nil && len(xy) == 2
		return plain
	})
	if !sound {
		*x = nil
	}
	return plain
}

// members reads a mapping whose names are the user's.
func (w *walker) members(n *Node, p Path, read func(name string, item *Node, p Path) any) any {
	if n.Kind != MapNode {
		return shallow(n)
	}
	plain := make(map[string]any, len(n.Keys))
	for i, key := range n.Keys {
		name := key.Text
		if _, doubled := plain[name]; doubled || ofUser(name) || i >= len(n.Items) {
			continue
		}
		if item := n.Items[i]; item.isEmpty() {
			plain[name] = w.emptied(item, p.Field(name))
		} else {
			plain[name] = read(name, item, p.Field(name))
		}
	}
	return plain
}

// joinSplit puts numbers together that a comma has split: the list
// [1,2 to 1,8 mm] has the items 1, "2 to 1" and "8 mm". Split tells that there
// are such.
func joinSplit(items []*Node) (joined []string, split bool) {
	for i, item := range items {
		if item == nil || item.Kind != TextNode && item.Kind != NumberNode {
			return nil, false
		}
		text := strings.TrimSpace(item.Text)
		if i > 0 && cutAtComma(joined[len(joined)-1]) && text != "" && isDigit(text[0]) {
			joined[len(joined)-1] += "," + text
			split = true
			continue
		}
		joined = append(joined, text)
	}
	return joined, split && !slices.ContainsFunc(joined, noNumber)
}

// noNumber reports a text whose numbers are none even with a decimal comma:
// "320-425,434-576 Nm" is two ranges, of which one lacks its unit.
func noNumber(text string) bool {
	_, problem := convert.Parse(text, ^convert.Dimensions(0), convert.Comma)
	return problem != nil && (problem.Kind == convert.BadNumber || problem.Kind == convert.NoNumber || problem.Kind == convert.TwoUnits)
}

// cutAtComma reports whether a text may be the left half of a split number: no
// unit, and a whole number at its end.
func cutAtComma(s string) bool {
	return s != "" && isDigit(s[len(s)-1]) && !strings.Contains(s, "/") && halfNumber.MatchString(s)
}

// A number, range or limit without unit whose last number is whole and has no
// comma of its own: after 1,2 a further comma splits nothing.
var halfNumber = regexp.MustCompile(`^(?i:(?:min|max|from)\.? *)?[-+−±]?(?:[\d.,]+ *(?:to|[-–—±+]) *)*\d+$`)

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// splitNumber reports a list whose commas split a number.
func (w *walker) splitNumber(n *Node, p Path, joined []string) {
	var read []string
	for _, item := range n.Items {
		read = append(read, strings.TrimSpace(item.Text))
	}
	quoted := make([]string, len(joined))
	for i, s := range joined {
		quoted[i] = strconv.Quote(clip(s, 60))
	}
	want := strings.Join(quoted, ", ")
	if len(quoted) > 1 {
		want = "[" + want + "]"
	}
	w.report(Problem{
		Fault: SplitNumber, At: Spot{Path: p}, Read: clip("["+strings.Join(read, ", ")+"]", 200), Want: want,
		Message: fmt.Sprintf("%s is a number split by a comma, for a comma ends an item of a list: put it in quotes, %s, and say decimal: comma at the head", nameOf(p), want),
	})
}
