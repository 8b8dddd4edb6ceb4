package schema_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	yaml "go.yaml.in/yaml/v4"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/specs"
)

// The record of the first example of the format, with a head; %s stands for the
// torque.
const coverScrews = `format: snapgauge/1.0
machine: {id: wrackline-40, name: Wrackline 40 reduction gear}
variants: [A, B]
serials: {gear: number}
entered: {by: RM, date: 2026-03-02}
sources:
  manual: {title: Wrackline 40 workshop manual, edition: third 2019, kind: maker}
records:
  - id: control-cover-screws
    kind: torque
    where: control block cover to gearcase
    applies: [{variant: [A], gear: 1200 to 9999}, {variant: [B]}]
    fastener: {type: screw, thread: M6x1, class: "8.8", length: 25 mm, count: 16}
    tighten:
      - {to: %s, tolerance: ±10 %%}
    source: {ref: manual, at: page 4-12}
`

func readOne(t *testing.T, name, text string) (*schema.Head, *schema.Record) {
	t.Helper()
	for e, err := range specs.Read(name, strings.NewReader(text)) {
		if err != nil {
			t.Fatal(err)
		}
		if !e.HeadOnly {
			if len(e.Problems) > 0 {
				t.Fatalf("%v\n%s", e.Problems, text)
			}
			return e.Head, e.Record
		}
	}
	t.Fatal("no record")
	return nil, nil
}

func printOf(t *testing.T, name, text string) string {
	t.Helper()
	h, r := readOne(t, name, text)
	f, err := schema.Fingerprint(h, r)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The canonical form, written by hand from its description, and the SHA-256 of
// it by sha256sum of coreutils.
func TestCanonical(t *testing.T) {
	h, r := readOne(t, "a.yaml", fmt.Sprintf(coverScrews, "[71 lbf·in, 8.0 N·m]"))
	got, err := schema.Canonical(h, r)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"applies":[{"gear":"1200 to 9999","variant":["A"]},{"variant":["B"]}],` +
		`"fastener":[{"class":"8.8","count":16,"length":[{"hi":"2.5e1","lo":"2.5e1","u":"mm"}],"thread":"M6x1","type":"screw"}],` +
		`"id":"control-cover-screws","kind":"torque","machine":"wrackline-40",` +
		`"source":{"at":"page 4-12","edition":"third 2019","kind":"maker","title":"Wrackline 40 workshop manual"},` +
		`"tighten":[{"to":[{"hi":"7.1e1","lo":"7.1e1","u":"[lbf_av].[in_i]"},{"hi":"8.0e0","lo":"8.0e0","u":"N.m"}],` +
		`"tolerance":[{"minus":"1.0e1","plus":"1.0e1","u":"%"}]}],"where":"control block cover to gearcase"}`
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	print, err := schema.Fingerprint(h, r)
	if want := "f1:24201f95c723401c60f8e28e177e927a3fe2403d56ce3b933fc9e81d8aa72c1a"; err != nil || print != want {
		t.Errorf("fingerprint %s (%v), want %s", print, err, want)
	}
}

// The forms of a figure, each as the description of the canonical form has it.
func TestCanonicalFigures(t *testing.T) {
	tests := []struct {
		kind, figure, want string
	}{
		{"torque", "53 N·m", `[{"hi":"5.3e1","lo":"5.3e1","u":"N.m"}]`}, // the example of the design
		{"torque", "53.0 N·m", `[{"hi":"5.30e1","lo":"5.30e1","u":"N.m"}]`},
		{"torque", "0.50 N·m", `[{"hi":"5.0e-1","lo":"5.0e-1","u":"N.m"}]`},
		{"torque", "300 N·m", `[{"hi":"3.00e2","lo":"3.00e2","u":"N.m"}]`},
		{"torque", "8 to 10 N·m", `[{"hi":"1.0e1","lo":"8e0","u":"N.m"}]`},
		{"torque", "9 +1/-0 N·m", `[{"minus":"0e0","plus":"1e0","u":"N.m","v":"9e0"}]`},
		{"torque", "45 N·m ±10 %", `[{"minus":"1.0e1","percent":true,"plus":"1.0e1","u":"N.m","v":"4.5e1"}]`},
		{"torque", "max 9 N·m", `[{"hi":"9e0","u":"N.m"}]`},
		{"torque", "min 9 N·m", `[{"lo":"9e0","u":"N.m"}]`},
		{"torque", "71 lb", `[{"text":"71 lb"}]`}, // cut short: not read for sure
		{"volume", "4 1/2 US qt", `[{"hi":"9/2","lo":"9/2","u":"[qt_us]"}]`},
		{"volume", "[1 qt, 0.95 L]", `[{"hi":"1e0","lo":"1e0","u":"[qt_us]"},{"hi":"9.5e-1","lo":"9.5e-1","u":"L"}]`},
		{"pressure", "20 psi", `[{"hi":"2.0e1","lo":"2.0e1","u":"[psi]"}]`},
		{"pressure", "20 psig", `[{"hi":"2.0e1","lo":"2.0e1","of":"gauge","u":"[psi]"}]`},
		{"pressure", "20 psi (a)", `[{"hi":"2.0e1","lo":"2.0e1","of":"absolute","u":"[psi]"}]`},
		{"pressure", "30 inches Hg", `[{"hi":"3.0e1","lo":"3.0e1","u":"[in_i'Hg]"}]`},
		{"pressure", "10 Torr", `[{"hi":"1.0e1","lo":"1.0e1","u":"x:Torr"}]`},
		{"voltage", "12 V DC", `[{"hi":"1.2e1","lo":"1.2e1","of":"dc","u":"V"}]`},
		{"temperature", "-5 °C", `[{"hi":"-5e0","lo":"-5e0","u":"Cel"}]`},
	}
	for _, tt := range tests {
		t.Run(tt.figure, func(t *testing.T) {
			text := "format: snapgauge/1.0\nmachine: {id: m, name: M}\nsources: {s: {title: S}}\nrecords:\n" +
				"  - {id: a, where: w, source: {ref: s, at: x}, kind: "
			path := []string{"new"}
			switch tt.kind {
			case "torque":
				text += "torque, tighten: [{to: " + tt.figure + "}]}\n"
				path = []string{"tighten", "to"}
			case "volume":
				text += "fill, amounts: [{when: dry fill, volume: " + tt.figure + "}]}\n"
				path = []string{"amounts", "volume"}
			default:
				text += "tolerance, of: " + tt.kind + ", new: " + tt.figure + "}\n"
			}
			h, r := readOne(t, "a.yaml", text)
			b, err := schema.Canonical(h, r)
			if err != nil {
				t.Fatal(err)
			}
			var x any
			if err := json.Unmarshal(b, &x); err != nil {
				t.Fatal(err)
			}
			for _, name := range path {
				if list, ok := x.([]any); ok {
					x = list[0]
				}
				x = x.(map[string]any)[name]
			}
			got, _ := json.Marshal(x)
			if diff := cmp.Diff(tt.want, string(got)); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// What changes the print and what does not.
func TestFingerprintChanges(t *testing.T) {
	was := fmt.Sprintf(coverScrews, "[71 lbf·in, 8 N·m]")
	print := printOf(t, "a.yaml", was)
	tests := []struct {
		name, old, now string
		same           bool
	}{
		{"a unit respelt", "71 lbf·in", "71 in-lb", true},
		{"blanks and dots", "8 N·m", "8Nm", true},
		{"a range of numbers respelt", "1200 to 9999", "1200-9999", true},
		{"a single variant without brackets", "variant: [B]", "variant: B", true},
		{"a list of one fastener", "{type: screw, thread: M6x1, class: \"8.8\", length: 25 mm, count: 16}", "[{type: screw, thread: M6x1, class: \"8.8\", length: 25 mm, count: 16}]", true},
		{"the author", "by: RM", "by: JT", true},
		{"an answer", "    source: {ref", "    answers: [{check: c, figure: /tighten/0/to, read: 8 N·m, because: b, by: RM, date: 2026-01-01}]\n    source: {ref", true},
		{"a key of the user", "    source: {ref", "    x-shelf: 4\n    source: {ref", true},
		{"the name of the machine", "name: Wrackline 40 reduction gear", "name: Wrackline 40", true},
		{"a comment", "    tighten:", "    tighten: # as printed", true},

		{"a digit", "71 lbf·in", "77 lbf·in", false},
		{"a digit more", "8 N·m", "8.0 N·m", false},
		{"a unit", "71 lbf·in", "71 lbf·ft", false},
		{"the other value first", "[71 lbf·in, 8 N·m]", "[8 N·m, 71 lbf·in]", false},
		{"a value gone", "[71 lbf·in, 8 N·m]", "71 lbf·in", false},
		{"the tolerance", "±10 %", "±5 %", false},
		{"the count", "count: 16", "count: 14", false},
		{"the thread", "M6x1", "M8x1", false},
		{"where it applies", "1200 to 9999", "1200 to 9998", false},
		{"the machine", "id: wrackline-40", "id: wrackline-41", false},
		{"the id", "id: control-cover-screws", "id: control-cover", false},
		{"the page", "page 4-12", "page 4-21", false},
		{"the edition", "third 2019", "fourth 2024", false},
		{"a caution", "    source: {ref", "    caution: [hot-oil]\n    source: {ref", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if !strings.Contains(was, tt.old) {
				t.Fatal("the text has no such place")
			}
			now := printOf(t, "a.yaml", strings.ReplaceAll(was, tt.old, tt.now))
			if (now == print) != tt.same {
				t.Errorf("%q for %q: same print %v, want %v", tt.now, tt.old, now == print, tt.same)
			}
		})
	}
}

// A source that is only called by another name in the file is the same source.
func TestFingerprintResolvesSource(t *testing.T) {
	was := fmt.Sprintf(coverScrews, "8 N·m")
	now := strings.NewReplacer("  manual: {", "  book: {", "ref: manual", "ref: book").Replace(was)
	if printOf(t, "a.yaml", was) != printOf(t, "a.yaml", now) {
		t.Error("the print depends on what the file calls its source")
	}
}

// demo reads all demo books as text by name.
func demo(t *testing.T) map[string]string {
	t.Helper()
	files, err := filepath.Glob("../specs/demo/*")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	out := map[string]string{}
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out[name] = string(b)
	}
	return out
}

func printsOf(t *testing.T, name, text string) (prints []string) {
	t.Helper()
	for e, err := range specs.Read(name, strings.NewReader(text)) {
		if err != nil {
			t.Fatal(err)
		}
		if e.HeadOnly {
			continue
		}
		f, err := schema.Fingerprint(e.Head, e.Record)
		if err != nil {
			t.Fatal(err)
		}
		prints = append(prints, e.Record.ID+" "+f)
	}
	return prints
}

// TestFingerprintFormats: the demo books written as JSON, as NDJSON and as YAML
// with the fields of every mapping shuffled have the prints that they have.
func TestFingerprintFormats(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	records := 0
	for name, text := range demo(t) {
		if strings.HasSuffix(name, ".ndjson") {
			continue
		}
		want := printsOf(t, name, text)
		records += len(want)
		root := tree(t, text)
		asJSON, err := json.Marshal(root)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, printsOf(t, "a.json", string(asJSON))); diff != "" {
			t.Errorf("%s as JSON (-want +got):\n%s", name, diff)
		}
		if diff := cmp.Diff(want, printsOf(t, "a.ndjson", lines(t, root))); diff != "" {
			t.Errorf("%s as NDJSON (-want +got):\n%s", name, diff)
		}
		for range 3 {
			var b strings.Builder
			shuffled(&b, root, r)
			if diff := cmp.Diff(want, printsOf(t, "a.yaml", b.String())); diff != "" {
				t.Fatalf("%s shuffled (-want +got):\n%s", name, diff)
			}
		}
	}
	if records < 100 {
		t.Errorf("%d records, too few", records)
	}
}

// tree reads YAML or JSON with every scalar as text, but for whole numbers and
// truth where the format wants them.
func tree(t *testing.T, text string) map[string]any {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(text), &n); err != nil {
		t.Fatal(err)
	}
	return value(n.Content[0], "").(map[string]any)
}

func value(n *yaml.Node, name string) any {
	switch n.Kind {
	case yaml.AliasNode:
		return value(n.Alias, name)
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i < len(n.Content); i += 2 {
			key := n.Content[i].Value
			m[key] = value(n.Content[i+1], key)
		}
		return m
	case yaml.SequenceNode:
		list := make([]any, len(n.Content))
		for i := range list {
			list[i] = value(n.Content[i], name)
		}
		return list
	}
	numbers := []string{"count", "again", "places", "order"}
	_, place := convert.Parse(n.Value, convert.Of(convert.Number), convert.Point)
	switch {
	case n.Value == "true" && n.Style == 0, n.Value == "false" && n.Style == 0:
		return n.Value == "true"
	case slices.Contains(numbers, name) && place == nil, place == nil && name != "" && name[0] <= '9' && name[0] >= '0':
		return json.Number(n.Value)
	}
	return n.Value
}

// lines writes a book as NDJSON, each record with its head.
func lines(t *testing.T, root map[string]any) string {
	t.Helper()
	var b strings.Builder
	for _, x := range root["records"].([]any) {
		record := map[string]any{}
		for k, v := range x.(map[string]any) {
			record[k] = v
		}
		for _, k := range []string{"format", "machine", "variants", "serials", "decimal"} {
			if v, ok := root[k]; ok {
				record[k] = v
			}
		}
		full := func(x any) map[string]any {
			s := map[string]any{}
			for k, v := range x.(map[string]any) {
				s[k] = v
			}
			if ref, ok := s["ref"].(string); ok {
				delete(s, "ref")
				for k, v := range root["sources"].(map[string]any)[ref].(map[string]any) {
					s[k] = v
				}
			}
			return s
		}
		record["source"] = full(record["source"])
		if m, ok := record["misprint"].(map[string]any); ok {
			copied := map[string]any{}
			for k, v := range m {
				copied[k] = v
			}
			copied["source"] = full(m["source"])
			record["misprint"] = copied
		}
		line, err := json.Marshal(record)
		if err != nil {
			t.Fatal(err)
		}
		b.Write(line)
		b.WriteByte('\n')
	}
	return b.String()
}

// shuffled writes a tree as YAML in flow style, the members of each mapping in
// a random order.
func shuffled(b *strings.Builder, x any, r *rand.Rand) {
	switch x := x.(type) {
	case map[string]any:
		var names []string
		for name := range x {
			names = append(names, name)
		}
		slices.Sort(names)
		r.Shuffle(len(names), func(i, k int) { names[i], names[k] = names[k], names[i] })
		b.WriteString("{")
		for i, name := range names {
			if i > 0 {
				b.WriteString(",\n ")
			}
			fmt.Fprintf(b, "%s: ", name)
			shuffled(b, x[name], r)
		}
		b.WriteString("}")
	case []any:
		b.WriteString("[")
		for i := range x {
			if i > 0 {
				b.WriteString(", ")
			}
			shuffled(b, x[i], r)
		}
		b.WriteString("]")
	case json.Number:
		b.WriteString(x.String())
	case bool:
		fmt.Fprint(b, x)
	default:
		q, _ := json.Marshal(x)
		b.Write(q)
	}
}

// TestFingerprintEveryFigure: whatever digit of whatever figure of the demo
// books is changed, the print changes, and the ledger's line says which figure.
func TestFingerprintEveryFigure(t *testing.T) {
	changed := 0
	for name, text := range demo(t) {
		for e, err := range specs.Read(name, strings.NewReader(text)) {
			if err != nil {
				t.Fatal(err)
			}
			if e.HeadOnly {
				continue
			}
			line, err := schema.NewCountersign(e.Head, e.Record, "JT", "2026-06-01")
			if err != nil {
				t.Fatal(err)
			}
			if got := line.Changes(e.Head, e.Record); len(got) > 0 {
				t.Fatalf("%s %s: changed without a change: %v", name, e.Record.ID, got)
			}
			for p, f := range e.Record.Figures() {
				for i := range f.Values {
					was := f.Values[i].Text
					k := strings.IndexAny(was, "123456789")
					if f.Word || k < 0 || strings.ContainsAny(was, "/") || e.Record.Misprint.Is(was) {
						continue
					}
					digit := byte('1' + (was[k]-'1'+1)%9)
					f.Values[i].Text = was[:k] + string(digit) + was[k+1:]
					e.Record.ReadFigures(e.Head.Decimal)
					now, err := schema.Fingerprint(e.Head, e.Record)
					if err != nil || now == line.Fingerprint {
						t.Errorf("%s %s %s: %q for %q does not change the print", name, e.Record.ID, p, f.Values[i].Text, was)
					}
					got := line.Changes(e.Head, e.Record)
					if len(got) == 0 || got[0].Path != p || !got[0].Figure {
						t.Errorf("%s %s %s: changes %v", name, e.Record.ID, p, got)
					}
					f.Values[i].Text = was
					e.Record.ReadFigures(e.Head.Decimal)
					changed++
				}
			}
		}
	}
	t.Logf("%d values changed", changed)
	if changed < 300 {
		t.Errorf("%d values changed, too few", changed)
	}
}

// Within one dimension no two units have the same code, or a changed unit would
// leave the print as it was.
func TestUnitCodesDiffer(t *testing.T) {
	seen := map[string]convert.Unit{}
	for u := range convert.Units() {
		code := u.UCUM()
		if code == "" || u.Dimension() == convert.TemperatureDifference { // where K and °C are one; no record has any
			continue
		}
		key := fmt.Sprint(u.Dimension(), " ", code)
		if other, twice := seen[key]; twice {
			t.Errorf("%s and %s share the code %s", other, u, code)
		}
		seen[key] = u
	}
}

func TestChanges(t *testing.T) {
	h, r := readOne(t, "a.yaml", fmt.Sprintf(coverScrews, "[71 lbf·in, 8 N·m]"))
	line, err := schema.NewCountersign(h, r, "JT", "2026-06-01")
	if err != nil {
		t.Fatal(err)
	}
	if !line.Of(h, r) {
		t.Error("the line is not of its record")
	}
	bare := schema.Countersign{ID: line.ID, Fingerprint: line.Fingerprint, By: "JT", Date: "2026-06-01"}
	tests := []struct {
		name, text string
		line       schema.Countersign
		want       []schema.Change
	}{
		{"nothing", fmt.Sprintf(coverScrews, "[71 in-lb, 8 Nm]"), line, nil},
		{"a figure", fmt.Sprintf(coverScrews, "[71 lbf·in, 9 N·m]"), line,
			[]schema.Change{{Path: schema.At("tighten", 0, "to"), Figure: true, Was: "71 lbf·in, 8 N·m", Now: "71 lbf·in, 9 N·m"}}},
		{"a figure gone", strings.ReplaceAll(fmt.Sprintf(coverScrews, "[71 lbf·in, 8 N·m]"), ", length: 25 mm", ""), line,
			[]schema.Change{{Path: schema.At("fastener"), Figure: true, Was: "25 mm"}}},
		{"a word", strings.ReplaceAll(fmt.Sprintf(coverScrews, "[71 lbf·in, 8 N·m]"), "page 4-12", "page 4-13"), line,
			[]schema.Change{{Path: schema.At("source")}}},
		{"a line that does not tell", fmt.Sprintf(coverScrews, "[71 lbf·in, 9 N·m]"), bare, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h, r := readOne(t, "a.yaml", tt.text)
			if diff := cmp.Diff(tt.want, tt.line.Changes(h, r), cmp.Comparer(func(a, b schema.Path) bool { return a == b })); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

func BenchmarkFingerprint(b *testing.B) {
	text := fmt.Sprintf(coverScrews, "[71 lbf·in, 8 N·m]")
	var e schema.Entry
	for e = range specs.Read("a.yaml", strings.NewReader(text)) {
	}
	for b.Loop() {
		if _, err := schema.Fingerprint(e.Head, e.Record); err != nil {
			b.Fatal(err)
		}
	}
}
