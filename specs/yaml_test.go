package specs

import (
	"strconv"
	"strings"
	"testing"

	"snapgauge/schema"
)

func yamlTree(t testing.TB, src string) (*text, *schema.Node) {
	t.Helper()
	x := newText("x.yaml", src)
	d, bad := openYAML(x)
	if bad != nil {
		t.Fatalf("%q: %v", src, bad)
	}
	return x, d.root
}

func TestYAMLPlaces(t *testing.T) {
	for name, marked := range map[string]string{
		"plain":            "⟦«a»: «6 N·m»\n«b»: «9 ±1 N·m»⟧\n",
		"non-ascii":        "⟦«°Ω»: «8–10 °C»   # Ω\n«µ»: ⟦[«–», «·»]⟧⟧\n",
		"single quotes":    "⟦«a»: «'8.8'»\n«b»: «'it''s · so'» # c\n«c»: «''»⟧\n",
		"double quotes":    "⟦«a»: «\"8.8\"»\n«b»: «\"a \\\" b\\u00b7\"»\n«c»: «\"\"»⟧\n",
		"quoted name":      "⟦«\"a b\"»: «c»\n«'d'»: «e»⟧\n",
		"literal":          "⟦«a»: «|\n  6 N·m\n\n    b»\n\n«c»: «d»⟧\n",
		"literal kept":     "⟦«a»: «|+2\n   x»\n\n«c»: «d»⟧\n",
		"folded":           "⟦«a»: «>-  # why\n  one\n  two\n\n  three»\n«c»: «d»⟧\n",
		"block, nothing":   "⟦«a»: «|»\n«c»: «>-»\n«d»: «|  # x»⟧\n",
		"flow list":        "⟦«a»: ⟦[«1», «2» , ⟦[]⟧, ⟦[ ]⟧]⟧⟧\n",
		"flow map":         "⟦«a»: ⟦{«b»: «c», «d»: ⟦{«e»: «f»}⟧}⟧ # g\n«h»: ⟦{}⟧⟧\n",
		"flow, many lines": "⟦«a»: ⟦[ # x ]\n  «b», #,]\n  «c»,\n]⟧\n«d»: ⟦{\n  «e»: «f·»,\n  «g»:\n    «h» }⟧⟧\n",
		"flow, no values":  "⟦«a»: ⟦{«b»:«», «c»«»}⟧⟧\n",
		"flow pairs":       "⟦«a»: ⟦[⟦«b»: «c»⟧, «d»]⟧⟧\n",
		"flow root":        "⟦{«a»: «b»}⟧\n",
		"block list":       "⟦«a»:\n  ⟦- «b»\n  - «c d»⟧\n«e»: «f»⟧\n",
		"list at margin":   "⟦«a»:\n⟦- «b»\n- ⟦«c»: «d»\n  «e»: «f»⟧⟧\n«g»: «h»⟧\n",
		"list of lists":    "⟦«a»:\n  ⟦- ⟦- «b»\n    - «c»⟧\n  -  ⟦- «d»⟧⟧⟧\n",
		"tab behind dash":  "⟦«a»:\n  ⟦-\t«b»⟧⟧\n",
		"empty":            "⟦«a»:«»\n«b»:«»   \n«c»:\n  ⟦-«»\n  - «x»⟧⟧\n",
		"nulls":            "⟦«a»: «~»\n«b»: «null»⟧\n",
		"many lines":       "⟦«a»: «one\n  two  \n\n  three»  # c\n«b»: «\"one\n  two\"»\n«c»: «'x\n\n  y'»⟧\n",
		"line joined":      "⟦«a»: «\"one\\\n  two\"»\n«b»: «c»⟧\n",
		"anchors":          "⟦«a»: &x «b·»\n«c»: &y\n  ⟦«d»: «e»⟧\n«f»: &z  ⟦[«g»]⟧\n«h»: &e«»\n«i»: &l\n  ⟦- «j»⟧⟧\n",
		"anchored name":    "⟦&k «a»: «b»⟧\n",
		"explicit name":    "⟦? «a»\n: «b»⟧\n",
		"crlf":             "⟦«a»: «b»\r\n«c»: «|\r\n  d\r\n  e»\r\n«f»: «g\r\n  h»\r\n«i»:«» # j\r\n«k»: «\"l\r\n m\"»⟧\r\n",
		"mark":             "\ufeff⟦«a»: «b»\n«·»: «c»⟧\n",
		"markers":          "---\n⟦«a»: «b»⟧\n...\n# end\n",
		"directive":        "%YAML 1.2\n---\n⟦«a»: «b»⟧\n",
		"no line end":      "⟦«a»: «b»⟧",
		"empty at the end": "⟦«a»:\n  ⟦«b»:«»⟧⟧",
		"hash in text":     "⟦«a»: «b#c»\n«d»: «e» # f\n«g»: «h#»⟧\n",
		"colon in text":    "⟦«a»: «b:c»\n«d»: «12:30»⟧\n",
		"astral":           "⟦«a»: ⟦[«𝄞», «b»]⟧ # 𝄞\n«c𝄞»: «d»⟧\n",
		"indented root":    "  ⟦«a»: «b»\n  «c»: «d»⟧\n",
	} {
		t.Run(name, func(t *testing.T) {
			src, want := unmark(t, marked)
			x, root := yamlTree(t, src)
			diff(t, "places", want, tokens(x, root))
			checkTree(t, x, root)
		})
	}
}

// The rule of the format: every plain scalar is text. YAML 1.2.2, 10.3.2
// (core schema) would read most of these as something else.
func TestYAMLTexts(t *testing.T) {
	for _, c := range []struct {
		src   string
		kind  schema.NodeKind
		text  string
		plain bool
		raw   bool
		lead  int
	}{
		{"yes", schema.TextNode, "yes", true, true, 0},
		{"true", schema.TextNode, "true", true, true, 0},
		{"1e3", schema.TextNode, "1e3", true, true, 0},
		{"0x10", schema.TextNode, "0x10", true, true, 0},
		{"010", schema.TextNode, "010", true, true, 0},
		{"6.0", schema.TextNode, "6.0", true, true, 0},
		{"1_000", schema.TextNode, "1_000", true, true, 0},
		{"1,300 N·m", schema.TextNode, "1,300 N·m", true, true, 0},
		{"2026-03-02", schema.TextNode, "2026-03-02", true, true, 0},
		{".inf", schema.TextNode, ".inf", true, true, 0},
		{"±10 %", schema.TextNode, "±10 %", true, true, 0},
		{"Null", schema.TextNode, "Null", true, true, 0},
		{"~", schema.NullNode, "~", true, true, 0},
		{"null", schema.NullNode, "null", true, true, 0},
		{"", schema.NullNode, "", false, false, 0},
		{`"null"`, schema.TextNode, "null", false, true, 1},
		{`"8.8"`, schema.TextNode, "8.8", false, true, 1},
		{`'8.8'`, schema.TextNode, "8.8", false, true, 1},
		{`""`, schema.TextNode, "", false, true, 1},
		{`'it''s'`, schema.TextNode, "it's", false, false, 1},
		{`"N\u00b7m"`, schema.TextNode, "N·m", false, false, 1},
		{`"°"`, schema.TextNode, "°", false, true, 1},
		{"|\n  a\n  b", schema.TextNode, "a\nb\n", false, false, 0},
		{">-\n  a\n  b", schema.TextNode, "a b", false, false, 0},
		{"a\n  b", schema.TextNode, "a b", true, false, 0},
	} {
		_, root := yamlTree(t, "x: "+c.src+"\n")
		n := root.Items[0]
		got := schema.Node{Kind: n.Kind, Text: n.Text, Plain: n.Plain, Raw: n.Raw, Lead: n.Lead}
		want := schema.Node{Kind: c.kind, Text: c.text, Plain: c.plain, Raw: c.raw, Lead: c.lead}
		diff(t, c.src, want, got)
	}
}

func TestYAMLCut(t *testing.T) {
	for src, want := range map[string]bool{
		"a: #10-32":        true,
		"a:\t#10-32":       true,
		"- #10-32":         true,
		"a: {b: #c\n  }":   true,
		"a: &x #c":         true,
		"a:\n#c\n":         false,
		"a:":               false,
		"a:   ":            false,
		"a: ~ #c":          false,
		"a: '' #c":         false,
		"a: b #c":          false,
		"a: # c\n  b: d\n": false,
		"- ~ # c":          false,
	} {
		_, root := yamlTree(t, "x:\n  - "+strings.ReplaceAll(src, "\n", "\n    ")+"\n")
		got := false
		var walk func(*schema.Node)
		walk = func(n *schema.Node) {
			got = got || n.Cut
			for _, i := range n.Items {
				walk(i)
			}
		}
		walk(root)
		if got != want {
			t.Errorf("%q: cut off is %v, want %v", src, got, want)
		}
	}
}

func TestYAMLAliases(t *testing.T) {
	x, root := yamlTree(t, "a: &x [1, {b: 2}]\nc: *x\nd: [*x, &y z, *y]\n")
	diff(t, "texts", []string{"1", "2", "1", "2", "1", "2", "z", "z"}, scalars(root))
	// A value behind an alias is placed where it is written; the list around
	// it ends where its own bracket stands.
	diff(t, "list", "[*x, &y z, *y]", x.source(root.Items[2]))
	diff(t, "shared", root.Items[0].Start, root.Items[1].Start)
	checkTree(t, x, root)

	// An empty value stays at its anchor, wherever it is used.
	x, root = yamlTree(t, "a: &x\nb: {c: *x}\n")
	diff(t, "empty", "1:6 ", tokens(x, root)[2])
	checkTree(t, x, root)
}

func yamlFault(t testing.TB, src string) *Unreadable {
	t.Helper()
	_, bad := open("x.yaml", strings.NewReader(src), yamlLayout)
	if bad == nil {
		t.Fatalf("%.60q can be read", src)
	}
	return bad
}

// Each row tells what is wrong, where the mark must stand, and words that the
// message must have so that it helps.
func TestYAMLUnreadable(t *testing.T) {
	bomb := "a: &a [x, x, x, x, x, x, x, x, x, x]\n"
	for _, c := range "bcdefg" {
		bomb += string(c) + ": &" + string(c) + " [" + strings.TrimSuffix(strings.Repeat("*"+string(c-1)+", ", 10), ", ") + "]\n"
	}
	chain := "a0: &a0 [x]\n"
	for i := 1; i < 70; i++ {
		chain += "a" + strconv.Itoa(i) + ": &a" + strconv.Itoa(i) + " [*a" + strconv.Itoa(i-1) + "]\n"
	}
	for _, c := range []struct {
		name, src, at, says string
	}{
		{"nothing", "", "1:1", "the file is empty"},
		{"blanks", " \n\n", "1:1", "the file is empty"},
		{"mark only", "\ufeff", "1:1", "the file is empty"},
		{"comments", "# a\n# b\n", "1:1", "nothing but comments"},
		{"no mapping", "- a\n- b\n", "1:1", "is a mapping"},
		{"a word", "spec\n", "1:1", "is a mapping"},
		{"empty document", "---\n", "2:1", "is a mapping"},
		{"two documents", "a: b\n---\nc: d\n", "2:1", "one document"},
		{"second broken", "a: b\n---\nc: [\n", "3:4", "not closed"},
		{"utf-16 le", "\xff\xfea\x00:\x00", "1:1", "UTF-16"},
		{"utf-32 le", "\xff\xfe\x00\x00a\x00\x00\x00", "1:1", "UTF-32"},
		{"utf-32 be", "\x00\x00\xfe\xff\x00\x00\x00a", "1:1", "UTF-32"},
		{"utf-16 be", "\xfe\xff\x00a\x00:", "1:1", "UTF-16"},
		{"latin-1", "a: 90 \xb0\n", "1:7", "byte 0xB0 is not UTF-8"},
		{"latin-1 later", "·: ·\nb: · \xb7\n", "2:6", "byte 0xB7 is not UTF-8"},
		{"nul", "a: b\n\x00\n", "2:1", "NUL"},
		{"bell", "a: b\a\n", "1:5", "U+0007"},
		{"delete is let through, not U+FFFE", "a: b\ufffe\n", "1:5", "not YAML"},
		{"next line", "a: ·\u0085b: c\n", "1:5", "U+0085"},
		{"line separator", "a: b\u2028c\n", "1:5", "U+2028"},
		{"old line ends", "a: b\rc: d\r", "1:5", "LF or CRLF"},
		{"doubled name", "a: b\nc: d\na: e\n", "3:1", `"a" stands twice in one mapping, first on line 1`},
		{"doubled in flow", "x: {a: b, \"a\": c}\n", "1:11", `"a" stands twice`},
		{"merge key", "a: &a {b: c}\nd:\n  <<: *a\n", "3:3", "merge keys"},
		{"tag", "a: !!str 5\n", "1:4", "!!str"},
		{"own tag", "a: !torque 5\n", "1:4", "!torque"},
		{"bare tag", "a: ! 5\n", "1:4", "tags"},
		{"tag behind anchor", "a: &x !!str 5\n", "1:7", "tags"},
		{"tag on map", "a: !!map\n  b: c\n", "1:4", "!!map"},
		{"tag cut short", "a: !<\n", "1:4", "tags"},
		{"tag unknown", "a: !x!y 5\n", "1:4", "tags"},
		{"list as name", "? [a]\n: b\n", "1:3", "name of a field must be a word"},
		{"alias as name", "a: &x b\n*x : c\n", "2:1", "name of a field must be a word"},
		{"no name", "a: b\n: c\n", "2:1", "a name is missing"},
		{"alias bomb", bomb, "4:36", "alias bomb"},
		{"alias within itself", "a: &a [b, *a]\n", "1:11", "within what it names"},
		{"alias chain", chain, "64:12", "64"},
		{"alias unknown", "a: *b\n", "1:4", "anchor"},
		{"star", "a: *\n", "1:4", "cannot begin with *"},
		{"ampersand", "a: & b\n", "1:4", "cannot begin with &"},
		{"too deep, flow", "a: " + strings.Repeat("[", 100) + strings.Repeat("]", 100) + "\n", "1:68", "64"},
		{"too deep, block", nested(100), "65:66", "64"},
		{"too deep, mixed", nested(40) + strings.Repeat(" ", 40) + "x: " + strings.Repeat("[", 40) + strings.Repeat("]", 40) + "\n", "41:67", "64"},
		{"tab", "a:\n\tb: c\n", "2:1", "a tab indents"},
		{"tab in list", "a:\n  - b\n\t- c\n", "3:1", "a tab indents"},
		{"tab in block", "a: >\n x\n\ty\n", "3:1", "a tab indents"},
		{"quote open", "a: \"x\nb: c\n", "1:4", "not closed"},
		{"single quote open", "a: 'x\nb: c\n", "1:4", "not closed"},
		{"quote, marker", "a: \"x\n---\n", "1:4", "not closed"},
		{"escape", `a: "1\4 in"` + "\n", "1:6", `write \\`},
		{"hex escape", `a: "\u00zz"` + "\n", "1:5", `write \\`},
		{"quote in quotes", "a: 'it's'\n", "1:8", "behind the closing quotation mark"},
		{"text behind quotes", "a: \"x\" y\n", "1:8", "behind the closing quotation mark"},
		{"list open", "a: [x, y\nb: c\n", "1:4", "[ opened here is not closed"},
		{"map open", "a: {x: y\nb: c\n", "1:4", "{ opened here is not closed"},
		{"comment in map", "a: {thread: #10-32}\nb: c\n", "1:13", "begins a comment"},
		{"comment in list", "a: [6 N·m, #8]\nb: c\n", "1:12", "begins a comment"},
		{"comment last", "a: {thread: #10-32}\n", "1:13", "begins a comment"},
		{"no value", "a: [b, , c]\n", "1:8", "a value is missing"},
		{"bracket too many", "a: [b]]\n", "1:7", "] closes nothing"},
		{"second colon", "joint: {into: steel}\nthreads: other: graphite\n", "2:10", `a second ":"`},
		{"no space", "a:b\nc: d\n", "1:2", "a space is missing"},
		{"too deep a field", "a: b\n  c: d\n", "2:3", "indented deeper"},
		{"too shallow a field", "  a: b\nc: d\n", "2:1", "same indentation"},
		{"no colon", "a: b\nc\n", "2:1", `":" and a space are missing`},
		{"no colon, middle", "a: b\nc\nd: e\n", "2:1", `":" and a space are missing`},
		{"list below field", "a: b\n- c\n", "2:1", "list item stands where"},
		{"field below list", "a:\n  - b\n  c: d\n", "3:3", "list item (- …) is expected"},
		{"list open to the end", "a: [x, y\n", "1:4", "[ opened here is not closed before the end of the file"},
		{"map open to the end", "a: [{x: y}\n# c\n", "1:4", "[ opened here is not closed before the end of the file"},
		{"map open to the mark", "a:\n  - {x: y\n---\n", "2:5", "{ opened here is not closed before the end of the file"},
		{"map open to another", "a: {x: y\n---\nb: c\n", "1:4", "{ opened here is not closed"},
		{"a space too few", "r:\n  - a: b\n    c: d\n   e: f\n", "4:4",
			`indented like none above; give it the indentation of "c" (column 5), or of "r" (column 1) if it does not belong there`},
		{"a space too few, second line", "r:\n  - a: b\n   e: f\n", "3:4", `indented like none above; give it the indentation of "a" (column 5), or`},
		{"a space too few, deeper above", "r:\n  - 'a b':\n      c:\n        - d: e\n   f: g\n", "5:4", `indentation of "a b" (column 5), or of "r" (column 1)`},
		{"a space too few, comments above", "r:\n  - a: b\n\n# c\n      # d: e\n   f: g\n", "6:4", `indentation of "a" (column 5), or of "r" (column 1)`},
		{"in the column of the dash", "r:\n  - a: b\n  e: f\n", "3:3",
			`a list item (- …) is expected in the column of this line; give it the indentation of "a" (column 5), or of "r" (column 1) if`},
		{"left of the dash", "r:\n  - a: b\n e: f\n", "3:2", `indentation of "a" (column 5), or of "r" (column 1)`},
		{"list at the margin", "r:\n- a: b\n  c: d\n e: f\n", "4:2", `indentation of "c" (column 3), or of "r" (column 1)`},
		{"root deeper", "r:\n   a: b\n  c: d\n", "3:3", `indentation of "a" (column 4), or of "r" (column 1)`},
		{"item a space too far", "r:\n  - a: b\n   - c: d\n", "3:4", "give this list item the indentation of its list: column 3"},
		{"item a space too far, items above", "r:\n  - a: b\n  - a: c\n    d:\n     - e\n     - f\n   - c: d\n", "7:4", "indentation of its list: column 6 or 3"},
		{"item a space too few", "r:\n  - a: b\n - c: d\n", "3:2", "give this list item the indentation of its list: column 3"},
		{"item at the margin", "r:\n  - a:\n      - b\n- c: d\n", "4:1", "give this list item the indentation of its list: column 7 or 3"},
		{"no-break space", "r:\n  - a: b\n\u00a0\u00a0\u00a0\u00a0c: d\n    e: f\n", "3:1", "a no-break space (U+00A0) indents this line"},
		{"no-break space, mixed", "r:\n  - a: b\n \u00a0  c: d\n    e: f\n", "3:2", "a no-break space (U+00A0) indents this line"},
		{"no-break space behind the dash", "r:\n  -\u00a0a: b\n    c: d\n", "2:4", "a no-break space (U+00A0) indents this line"},
		{"no-break space, read as a name", "r:\n\u00a0 a: b\n", "2:1", "a no-break space (U+00A0) indents this line"},
		{"no-break space, a name behind a dash", "r:\n  -\u00a0a: b\n", "2:4", "a no-break space (U+00A0) indents this line"},
		{"narrow no-break space", "r:\n  - a: b\n\u202f   c: d\n    e: f\n", "3:1", "a narrow no-break space (U+202F)"},
		{"wide space", "r:\n  - a: b\n\u3000\u3000c: d\n    e: f\n", "3:1", "a space of another kind (U+3000)"},
		{"no-break space behind a colon", "a: b\nc:\u00a0d\n", "2:3", `a no-break space (U+00A0) follows this ":"`},
		{"no-break space elsewhere", "a: |\n  \u00a0 b\nc: [\nd: e\n", "3:4", "not closed"},
		{"list on the line", "a: - b\n", "1:4", "line below its name"},
		{"question mark", "a: ? b\n", "1:4", `"? " cannot begin a text`},
		{"at sign", "a: @b\n", "1:4", "cannot begin with @"},
		{"percent", "a: %b\n", "1:4", "cannot begin with %"},
		{"grave", "a: `b`\n", "1:4", "cannot begin with `"},
		{"comma", "a: ,b\n", "1:4", "cannot begin with ,"},
		{"directive", "%YAML 1.1\n%YAML 1.1\n---\na: b\n", "2:1", "begin with %"},
		{"other directive", "%FOO bar\n---\na: b\n", "1:1", "begin with %"},
		{"block header", "a: |x\n  b\n", "1:5", "| or >"},
	} {
		t.Run(c.name, func(t *testing.T) {
			bad := yamlFault(t, c.src)
			if at := bad.Span.Start.String(); at != c.at || !strings.Contains(bad.Message, c.says) {
				t.Errorf("%.60q: %s: %s\nwant %s: …%s…", c.src, at, bad.Message, c.at, c.says)
			}
			if s := bad.Span; s.End.Line < s.Start.Line || s.End.Line == s.Start.Line && s.End.Column < s.Start.Column {
				t.Errorf("ends before it begins: %v", s)
			}
		})
	}
}

// nested is maps within maps, n deep, one a line.
func nested(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}
