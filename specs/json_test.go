package specs

import (
	"strings"
	"testing"

	"snapgauge/schema"
)

func jsonTree(t testing.TB, src string) (*text, *schema.Node) {
	t.Helper()
	x := newText("x.json", src)
	d, bad := openJSON(x, []byte(src))
	if bad != nil {
		t.Fatalf("%q: %v", src, bad)
	}
	return x, d.root
}

func TestJSONPlaces(t *testing.T) {
	for name, marked := range map[string]string{
		"scalars":    `⟦{«"a"»: «"6 N·m"», «"b"»:«1.50», «"c"» : «true»,«"d"»:«null»}⟧`,
		"nested":     "⟦{\n  «\"a\"»: ⟦[«1», ⟦{}⟧, ⟦[ ]⟧, ⟦[«\"·\"», ⟦{«\"b\"»: ⟦[]⟧}⟧]⟧]⟧,\n  «\"°Ω\"»: «\"\"»\n}⟧\n",
		"crlf, tabs": "⟦{\r\n\t«\"a\"»:\t«1»,\r\n\t«\"b\"»: «-2.5e+3»\r\n}⟧",
		"mark":       "\ufeff⟦{«\"·\"»: «\"a\"»,\n «\"b\"»: «2»}⟧",
		"escapes":    `⟦{«"a\"b"»: «"N\u00b7m"», «"\ud834\udd1e"»: «"𝄞"»}⟧`,
		"separators": "⟦{«\"a\u2028\"»: «\"b\u0085\"», «\"c\"»: «1»}⟧",
		"like yaml":  `⟦{«"a"»: «"x, y: {z}"», «"b"»: «"[1]"»}⟧`,
	} {
		t.Run(name, func(t *testing.T) {
			src, want := unmark(t, marked)
			x, root := jsonTree(t, src)
			diff(t, "places", want, tokens(x, root))
			checkTree(t, x, root)
		})
	}
}

func TestJSONTexts(t *testing.T) {
	for _, c := range []struct {
		src  string
		kind schema.NodeKind
		text string
		raw  bool
		lead int
	}{
		{`"6 N·m"`, schema.TextNode, "6 N·m", true, 1},
		{`"6 N\u00b7m"`, schema.TextNode, "6 N·m", false, 1},
		{`"a\n\t\"\\\/\ud834\udd1e"`, schema.TextNode, "a\n\t\"\\/𝄞", false, 1},
		{`""`, schema.TextNode, "", true, 1},
		{`16`, schema.NumberNode, "16", true, 0},
		{`6.0`, schema.NumberNode, "6.0", true, 0},
		{`-1.50E-07`, schema.NumberNode, "-1.50E-07", true, 0},
		{`1e400`, schema.NumberNode, "1e400", true, 0},
		{`12345678901234567890123456789012345678.5`, schema.NumberNode, "12345678901234567890123456789012345678.5", true, 0},
		{`true`, schema.BoolNode, "true", true, 0},
		{`false`, schema.BoolNode, "false", true, 0},
		{`null`, schema.NullNode, "null", true, 0},
	} {
		_, root := jsonTree(t, `{"x": `+c.src+`}`)
		n := root.Items[0]
		got := schema.Node{Kind: n.Kind, Text: n.Text, Plain: n.Plain, Raw: n.Raw, Lead: n.Lead}
		want := schema.Node{Kind: c.kind, Text: c.text, Raw: c.raw, Lead: c.lead}
		diff(t, c.src, want, got)
	}
}

func TestJSONUnreadable(t *testing.T) {
	for _, c := range []struct {
		name, src, at, says string
	}{
		{"nothing", "", "1:1", "the file is empty; a spec file holds one JSON object"},
		{"blanks", " \n ", "1:1", "the file is empty; a spec file holds one JSON object"},
		{"mark only", "\ufeff", "1:1", "the file is empty"},
		{"list", "[]", "1:1", "one JSON object"},
		{"word", `"a"`, "1:1", "one JSON object"},
		{"two objects", "{}\n{}", "2:1", "ends before this"},
		{"rubbish behind", "{} x", "1:4", "ends before this"},
		{"utf-16", "\xff\xfe{\x00}\x00", "1:1", "UTF-16"},
		{"latin-1", "{\"a\": \"90 \xb0\"}", "1:11", "byte 0xB0"},
		{"nul", "{\"a\": \"\x00\"}", "1:8", "NUL"},
		{"doubled name", "{\"a\": 1,\n \"b\": 2, \"a\": 3}", "2:10", `"a" stands twice in one mapping, first on line 1`},
		{"doubled by escape", `{"a": 1, "\u0061": 2}`, "1:10", `"a" stands twice`},
		{"many names, one doubled", `{` + manyNames(20) + `"n7": 1}`, "1:162", `"n7" stands twice`},
		{"cut short", `{"a": [1, 2`, "1:12", "missing"},
		{"cut short in text", `{"a": "b`, "1:9", "missing"},
		{"cut short behind name", `{"a"`, "1:5", "missing"},
		{"cut short behind comma", `{"a": 1,`, "1:9", "missing"},
		{"cut short in word", `{"a": tr`, "1:9", "missing"},
		{"comma too many", `{"a": [1, 2,]}`, "1:12", "take the comma out"},
		{"comma too many in map", "{\"a\": 1,\n}", "1:8", "take the comma out"},
		{"comma missing", "{\"a\": 1\n \"b\": 2}", "2:2", "a comma"},
		{"comma missing in list", `{"a": [1 2]}`, "1:10", "a comma"},
		{"two commas", `{"a": 1,, "b": 2}`, "1:9", "comma"},
		{"comma first", `{"a": [,1]}`, "1:8", "comma"},
		{"wrong bracket", `{"a": [1}`, "1:9", "bracket"},
		{"colon missing", `{"a" 1}`, "1:6", `":" is missing`},
		{"value missing", `{"a": }`, "1:7", "a value is missing"},
		{"value missing, comma", `{"a": , "b": 1}`, "1:7", "put a value in"},
		{"bare name", `{a: 1}`, "1:2", "double quotes"},
		{"number as name", `{1: 2}`, "1:2", "double quotes"},
		{"map as name", `{{}: 2}`, "1:2", "double quotes"},
		{"single quotes", `{'a': 1}`, "1:2", "single quotes"},
		{"single quoted value", `{"a": 'b'}`, "1:7", "single quotes"},
		{"bare word", `{"a": yes}`, "1:7", "double quotes"},
		{"comment", "{\"a\": 1} // b", "1:10", "ends before this"},
		{"comment within", "{\"a\": 1, // b\n\"c\": 2}", "1:10", "no comments"},
		{"line within text", "{\"a\": \"b\nc\"}", "1:9", "ends this text"},
		{"escape", `{"a": "1\4"}`, "1:9", `write \\`},
		{"half a pair", `{"a": "\ud834"}`, "1:8", `write \\`},
		{"leading zero", `{"a": 01}`, "1:8", "comma"},
		{"plus", `{"a": +1}`, "1:7", "double quotes"},
		{"point first", `{"a": .5}`, "1:7", "double quotes"},
		{"point last", `{"a": 5.}`, "1:9", "double quotes"},
		{"figure bare", `{"a": 6 N·m}`, "1:9", "a comma"},
		{"not a number", `{"a": NaN}`, "1:7", "double quotes"},
		{"monstrous exponent", `{"a": 1e1000001}`, "1:7", "exponent"},
		{"monstrous small", `{"a": 1E-99999999999999999999}`, "1:7", "exponent"},
		{"long number", `{"a": ` + strings.Repeat("1", 41) + `}`, "1:7", "41 characters"},
		{"too deep", `{"a": ` + strings.Repeat("[", 100) + strings.Repeat("]", 100) + `}`, "1:70", "64"},
		{"beyond depth", `{"a": ` + strings.Repeat("[", 20000) + `}`, "1:70", "64"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, bad := open("x.json", strings.NewReader(c.src), jsonLayout)
			if bad == nil {
				t.Fatal("can be read")
			}
			if at := bad.Span.Start.String(); at != c.at || !strings.Contains(bad.Message, c.says) {
				t.Errorf("%.60q: %s: %s\nwant %s: …%s…", c.src, at, bad.Message, c.at, c.says)
			}
		})
	}
}

// manyNames is n members of 8 bytes each, the eighth named n7.
func manyNames(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(`"n` + string(rune('a'+i)) + `": 1,`)
	}
	return strings.Replace(b.String(), `"nh"`, `"n7"`, 1)
}
