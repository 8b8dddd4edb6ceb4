package specs

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"snapgauge/schema"
)

// reading reads a file and asserts what holds for every input: every place
// that is told lies within the text, and a second reading tells the same.
func reading(t *testing.T, name, src string) {
	t.Helper()
	spans := func() (all []schema.Span, faults []string) {
		for e, err := range Read(name, strings.NewReader(src)) {
			if err != nil {
				u := err.(*Unreadable)
				all = append(all, u.Span)
				faults = append(faults, u.Error())
				if !e.Lost {
					continue
				}
			}
			all = append(all, e.Locate(schema.Spot{}), e.Locate(schema.Spot{Path: schema.At("records", 0, "x")}))
			for _, p := range e.Problems {
				all = append(all, e.Locate(p.At))
			}
		}
		return all, faults
	}
	all, faults := spans()
	for _, s := range all {
		within(t, src, s)
	}
	again, faultsAgain := spans()
	if !reflect.DeepEqual(all, again) || !reflect.DeepEqual(faults, faultsAgain) {
		t.Fatalf("%q: a second reading differs:\n%v %q\n%v %q", src, all, faults, again, faultsAgain)
	}
	IsSpec(name, strings.NewReader(src))
}

// within asserts that a span lies within a text and does not end before it
// begins. The column behind the end of a line is still within it.
func within(t *testing.T, src string, s schema.Span) {
	t.Helper()
	if s.IsZero() {
		return
	}
	lines := strings.Split(strings.TrimPrefix(src, bom), "\n")
	for _, p := range []schema.Position{s.Start, s.End} {
		if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.Column > len([]rune(lines[p.Line-1]))+1 {
			t.Fatalf("%q: %v is not in the text", src, p)
		}
	}
	if s.End.Line < s.Start.Line || s.End.Line == s.Start.Line && s.End.Column < s.Start.Column {
		t.Fatalf("%q: %v ends before it begins", src, s)
	}
}

// spotsOf asserts that every spot of a tree is within the text, whole and in
// part.
func spotsOf(t *testing.T, x *text, root *schema.Node) {
	t.Helper()
	checkTree(t, x, root)
	locate := x.locator(root)
	budget := 2000 // shared trees can be walked in very many ways
	var walk func(n *schema.Node, p schema.Path)
	walk = func(n *schema.Node, p schema.Path) {
		if budget--; budget < 0 || p.Len() > 8 {
			return
		}
		within(t, x.src, locate(schema.Spot{Path: p}))
		within(t, x.src, locate(schema.Spot{Path: p, Key: true}))
		within(t, x.src, locate(schema.Spot{Path: p.Field("no such")}))
		for i := range n.Text {
			within(t, x.src, locate(schema.Spot{Path: p, From: i, To: len(n.Text)}))
			within(t, x.src, locate(schema.Spot{Path: p, From: 0, To: i}))
		}
		for i, item := range n.Items {
			if n.Kind == schema.MapNode {
				walk(item, p.Field(n.Keys[i].Text))
			} else {
				walk(item, p.Index(i))
			}
		}
	}
	walk(root, schema.Path{})
}

func FuzzYAML(f *testing.F) {
	for _, book := range seeds(f, "*.yaml") {
		f.Add(book)
	}
	for _, s := range []string{
		bookYAML, "a: &x [*x]\n", "a: {b: #c\n}\n", "? a\n: |\n  b\n", "a: &x\nb: *x\n", "\ufeff- >2-\n   x\n",
		"{a: b, ? c, d: }\n", "a: 'b''\n\n  c'\n", "a: \"\\\n b\\x41\"\n", "---\n- &a a\n- !b c\n...\n", "a: [b: c, ? d]\n",
		"\"a\":[\"b\":c,\"d\"]\r\n", "- - - a\n    - b\n- ? |\n    x\n", "a: b\n--- # c\nd: e\n", "<<: {a: b}\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		x := newText("x.yaml", src)
		if bad := x.checkText(); bad == nil {
			d, bad := openYAML(x)
			if bad != nil {
				within(t, src, bad.Span)
			} else {
				spotsOf(t, x, d.root)
				for i := range d.count() {
					if n, bad := d.record(i); bad == nil {
						spotsOf(t, x, n)
					}
				}
			}
		}
		reading(t, "x.yaml", src)
		reading(t, "x.yaml", "format: snapgauge/1.0\nrecords:\n- "+strings.ReplaceAll(src, "\n", "\n  "))
	})
}

func FuzzJSON(f *testing.F) {
	for _, book := range seeds(f, "*.json") {
		f.Add(book)
	}
	for _, s := range []string{
		bookJSON, `{"a": [1, {"b": "\u00b7\ud834\udd1e"}], "c": null}`, "{\"a\":\r\n[[],{}]}", `{"records": [{"a": 1, "a": 2}, 1e999]}`,
		"\ufeff{\"·\": \"Ω\"}", `{"a" 1}`, `{"a": [1,,2]}`, `{"a": "b`, `{} {}`, `{"a": 1e5000}`,
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		x := newText("x.json", src)
		if bad := x.checkText(); bad == nil {
			d, bad := openJSON(x, []byte(src))
			if bad != nil {
				within(t, src, bad.Span)
			} else {
				spotsOf(t, x, d.root)
				for i := range d.count() {
					if n, bad := d.record(i); bad == nil {
						spotsOf(t, x, n)
					}
				}
			}
		}
		reading(t, "x.json", src)
		reading(t, "x.json", `{"format": "snapgauge/1.0", "records": [`+src+"]}")
		reading(t, "-", src)
	})
}

func FuzzNDJSON(f *testing.F) {
	for _, book := range seeds(f, "*.ndjson") {
		f.Add(book)
	}
	for _, s := range []string{
		bookLines, "\ufeff{}\r\n\r\n{\"a\": 1}", "{\n}\n", "{} {}\n[]\nnull\n", "{\"format\": \"snapgauge/1.0\", \"a\": \"\\u00b7\"}",
		"\ufeff\n{\"a\": \"\xb7\"}\n\x00",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) { reading(t, "x.ndjson", src) })
}

// seeds are the books of the demo and the corpus, if they are there.
func seeds(f *testing.F, pattern string) []string {
	f.Helper()
	var all []string
	for _, dir := range []string{"demo", "faulty", "testdata"} {
		names, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			f.Fatal(err)
		}
		for _, name := range names {
			b, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			all = append(all, string(b))
		}
	}
	return all
}
