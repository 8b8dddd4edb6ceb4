package specs

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
)

// In marked text « » stand around the token of each scalar and name, and
// ⟦ ⟧ around each map and list, in the order of the file. unmark takes the
// marks out and tells what each pair enclosed, as "line:column source".
func unmark(t testing.TB, marked string) (src string, want []string) {
	t.Helper()
	type pair struct{ start, line, column, at int }
	var open []pair
	var b strings.Builder
	line, column := 1, 1
	for _, r := range marked {
		switch r {
		case '«', '⟦':
			open = append(open, pair{b.Len(), line, column, len(want)})
			want = append(want, "")
		case '»', '⟧':
			p := open[len(open)-1]
			open = open[:len(open)-1]
			want[p.at] = fmt.Sprintf("%d:%d %s", p.line, p.column, b.String()[p.start:])
		case '\n':
			b.WriteRune(r)
			line, column = line+1, 1
		case '\ufeff':
			b.WriteRune(r)
			if b.Len() > len(bom) {
				column++
			}
		default:
			b.WriteRune(r)
			column++
		}
	}
	if len(open) > 0 {
		t.Fatalf("a mark is not closed in %q", marked)
	}
	return b.String(), want
}

// tokens lists the nodes of a tree the way unmark does.
func tokens(t *text, n *schema.Node) []string {
	list := []string{fmt.Sprintf("%d:%d %s", n.Line, n.Column, t.source(n))}
	for i, item := range n.Items {
		if n.Kind == schema.MapNode {
			list = append(list, tokens(t, n.Keys[i])...)
		}
		list = append(list, tokens(t, item)...)
	}
	return list
}

// scalars lists the texts of the values of a tree in order, without names.
func scalars(n *schema.Node) []string {
	switch n.Kind {
	case schema.MapNode, schema.ListNode:
		var list []string
		for _, item := range n.Items {
			list = append(list, scalars(item)...)
		}
		return list
	}
	return []string{n.Text}
}

// checkTree asserts what must hold for every node: its place lies within the
// text and within that of the map or list around it, line and column say the
// same as the offset, and the text of a raw scalar stands where it says.
func checkTree(t testing.TB, x *text, root *schema.Node) {
	t.Helper()
	shared := map[*schema.Node]bool{}
	var walk func(n *schema.Node)
	walk = func(n *schema.Node) {
		if shared[n] {
			return
		}
		shared[n] = true
		i, j := n.Start-x.base, n.End-x.base
		if i < 0 || i > j || j > len(x.src) {
			t.Fatalf("%q: node %q at bytes %d to %d of %d", x.src, n.Text, i, j, len(x.src))
		}
		if got := start(n); got != x.position(i) {
			t.Fatalf("%q: node %q: %v, byte %d is %v", x.src, n.Text, got, i, x.position(i))
		}
		if !utf8.ValidString(x.src[i:j]) {
			t.Fatalf("%q: node %q cuts a character in two", x.src, n.Text)
		}
		if n.Raw && x.src[i+n.Lead:i+n.Lead+len(n.Text)] != n.Text {
			t.Fatalf("%q: raw text %q is not at byte %d", x.src, n.Text, i+n.Lead)
		}
		if n.Lead == 1 && (j-i < 2 || x.src[i] != x.src[j-1] || !strings.ContainsRune(`"'`, rune(x.src[i]))) {
			t.Fatalf("%q: %q is not all of a quoted text", x.src, x.src[i:j])
		}
		if strings.TrimSpace(n.Text) != "" && i == j {
			t.Fatalf("%q: text %q stands nowhere", x.src, n.Text)
		}
		for k, item := range n.Items {
			if item.Start == item.End && item.Kind != schema.NullNode {
				continue // the stub of a record
			}
			if n.Kind == schema.MapNode {
				walk(n.Keys[k])
				if key := n.Keys[k]; key.Start < n.Start || key.End > n.End {
					t.Fatalf("%q: name %q is not within its map", x.src, key.Text)
				}
			}
			walk(item)
			if n.End < item.End && !strings.Contains(x.src, "*") && !strings.Contains(x.src, "records") {
				t.Fatalf("%q: %q is not within %q", x.src, x.source(item), x.source(n))
			}
		}
	}
	walk(root)
}

func diff(t *testing.T, what string, want, got any) {
	t.Helper()
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("%s (-want +got):\n%s", what, d)
	}
}
