package specs

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"iter"
	"math/rand/v2"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v5"

	"snapgauge/schema"
)

// bothWays reads a text the quick way and the plain way and holds the one
// against the other: heads, records, problems, errors and places.
func bothWays(t *testing.T, name, src string) {
	t.Helper()
	quick := entriesOf(Reader{}.Read(name, strings.NewReader(src)))
	plain := entriesOf(Reader{Plain: true}.Read(name, strings.NewReader(src)))
	if d := cmp.Diff(plain, quick, everything); d != "" {
		t.Fatalf("%s: %q (-plain +quick)\n%s", name, src, d)
	}
}

// everything compares fields that are not exported too.
var everything = cmp.Exporter(func(reflect.Type) bool { return true })

// an entry without its functions, which are asked for places instead.
type gotEntry struct {
	Entry  schema.Entry
	Err    string
	Places []schema.Span
}

func entriesOf(entries iter.Seq2[schema.Entry, error]) (all []gotEntry) {
	for e, err := range entries {
		g := gotEntry{Entry: e, Err: fmt.Sprint(err)}
		if e.Locate != nil {
			g.Places = placesOf(e)
			g.Entry.Locate = nil
		}
		all = append(all, g)
	}
	return all
}

// placesOf asks for some places of a record: those of figures and their parts,
// and some that may not be there.
func placesOf(e schema.Entry) (places []schema.Span) {
	ask := func(s schema.Spot) { places = append(places, e.Locate(s)) }
	for _, name := range []string{"id", "kind", "where", "source", "tighten", "x-own", "format", "no such"} {
		ask(schema.Spot{Path: schema.At(name)})
		ask(schema.Spot{Path: schema.At(name), Key: true})
	}
	ask(schema.Spot{})
	if e.Record == nil || e.Lost {
		return places
	}
	for p, f := range e.Record.Figures() {
		for i := range f.Values {
			q := f.Values[i].Quantity
			ask(schema.Spot{Path: f.At(p, i), From: q.UnitAt.Start, To: q.UnitAt.End})
			ask(schema.Spot{Path: f.At(p, i), Key: true})
		}
	}
	return places
}

// sureOf reports whether the decoder is sure of a line.
func sureOf(line string) bool {
	var d schema.Decoder
	var q quickJSON
	d.Line()
	if !q.read(&d, line) {
		return false
	}
	head, _ := d.Done()
	return isReadable(head.Format)
}

// TestSoundBooksAreQuick: of the sound books no record goes the plain way.
func TestSoundBooksAreQuick(t *testing.T) {
	lines := mixedLines(t)
	for _, line := range lines {
		if !sureOf(string(line)) {
			t.Fatalf("not sure of %s", line)
		}
	}
	if len(lines) < 1000 {
		t.Errorf("only %d records", len(lines))
	}
	for _, file := range bookFiles(t) {
		if layoutOf(file) == linesLayout {
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		d, bad := open(file, bytes.NewReader(data), layoutOf(file))
		if bad != nil {
			t.Fatal(bad)
		}
		var dec schema.Decoder
		head, sure := dec.Head(d.root)
		if !sure {
			t.Errorf("%s: not sure of the head", file)
		}
		dec.Keep()
		for i := range d.count() {
			if dec.Record(head); !d.quick(&dec, i) {
				t.Fatalf("%s: not sure of record %d", file, i)
			}
		}
	}
}

// TestBothWaysOnBooks reads all books of the tree both ways, the faulty ones
// among them.
func TestBothWaysOnBooks(t *testing.T) {
	files := bookFiles(t)
	for _, folder := range []string{"faulty", "corpus/misprints", "testdata"} {
		names, err := fs.Glob(os.DirFS(folder), "*")
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			if layoutOf(name) != unknownLayout {
				files = append(files, folder+"/"+name)
			}
		}
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		bothWays(t, file, string(data))
	}
}

// validator is the library itself, with the schemas as they stand in the tree.
func validator(t testing.TB) *jsonschema.Schema {
	c := jsonschema.NewCompiler()
	c.AssertFormat = true
	names, err := fs.Glob(schema.Files(), "*.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		f, err := schema.Files().Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := c.AddResource("urn:snapgauge:schema:1.0:"+strings.TrimSuffix(name, ".json"), f); err != nil {
			t.Fatal(err)
		}
	}
	s, err := c.Compile("urn:snapgauge:schema:1.0:line")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// soundLine decodes a line strictly and asks the validator.
func soundLine(s *jsonschema.Schema, line string) error {
	if _, err := jsontext.AppendFormat(nil, []byte(line)); err != nil {
		return err // bad syntax, UTF-8 or a doubled name
	}
	d := json.NewDecoder(strings.NewReader(line))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return err
	}
	return s.Validate(v)
}

// lineChanges are what is put into lines to break them.
var lineChanges = []string{
	`"`, `\`, `,`, `:`, `{`, `}`, `[`, `]`, ` `, "\t", "\n", "\x00", "\x7f", "\xff", "\xc2", "·", "\u2028", `\u00b7`, `\ud83d\ude00`, `\ud83d`, `\n`, `\/`, `\q`,
	`null`, `true`, `false`, `0`, `-1`, `1.5`, `1e2`, `01`, `1e1000001`, `""`, `" "`, `"x-a":null,`, `"x-a":{"b":1,"b":2},`, `"x-a":[1,[2,{"c":[]}]],`,
	`"id":"b",`, `"kind":"fill",`, `"count":2.0,`, `"count":"2",`, `{"other":"square"}`, `"other: square"`, `"8 N·m"`, `["1,2","3 mm"]`, `"only":"a",`, `"again":1,`,
	`"applies":[{"variant":"A","gear":1250}],`, `"decimal":"comma",`, `"variants":["A","A"],`, `"serials":{"variant":"number"},`, `"unpublished":{"why":"a","do":"b"},`,
}

// changed breaks a line, or not: bytes are flipped, runs deleted, fragments put
// in, and what other lines hold.
func changed(r *rand.Rand, line string, lines [][]byte) string {
	for range 1 + r.IntN(2) {
		i := r.IntN(len(line) + 1)
		j := min(len(line), i+1+r.IntN(12))
		switch r.IntN(6) {
		case 0:
			if i < j {
				line = line[:i] + string(rune(line[i]^(1<<r.IntN(7)))) + line[i+1:]
			}
		case 1:
			line = line[:i] + line[j:]
		case 2, 3:
			// Before a value or a member, as often as anywhere.
			if k := strings.IndexAny(line[i:], `:,{[`); k >= 0 && r.IntN(3) > 0 {
				i += k + 1
			}
			line = line[:i] + lineChanges[r.IntN(len(lineChanges))] + line[i:]
		default:
			line = swapped(r, line, string(lines[r.IntN(len(lines))]))
		}
	}
	return line
}

// swapped puts a text of another line in the place of one.
func swapped(r *rand.Rand, line, other string) string {
	mine, theirs := strings.Split(line, `"`), strings.Split(other, `"`)
	if len(mine) < 3 || len(theirs) < 3 {
		return line
	}
	mine[1+2*r.IntN((len(mine)-1)/2)] = theirs[1+2*r.IntN((len(theirs)-1)/2)]
	return strings.Join(mine, `"`)
}

// TestQuickAgainstPlain changes lines at random and goes both ways.
func TestQuickAgainstPlain(t *testing.T) {
	s := validator(t)
	lines := mixedLines(t)
	r := rand.New(rand.NewPCG(7, 8))
	n := 800
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		n = 150_000
	}
	sure, sound := 0, 0
	for range n {
		line := changed(r, string(lines[r.IntN(len(lines))]), lines)
		if strings.Contains(line, "\n") {
			line = strings.ReplaceAll(line, "\n", " ")
		}
		bothWays(t, "x.ndjson", line)
		if sureOf(line) {
			sure++
			if err := soundLine(s, line); err != nil {
				t.Fatalf("sure of what the validator refuses: %s\n%v", line, err)
			}
		} else if safely(func() error { return soundLine(s, line) }) == nil {
			sound++
		}
	}
	if sure < n/20 || sure > n/2 {
		t.Errorf("sure of %d of %d: the changes are too wild or too mild", sure, n)
	}
	if sound > sure/10 {
		t.Errorf("not sure of %d sound lines, sure of %d", sound, sure)
	}
}

// safely turns a panic of the library into an error.
func safely(f func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%v", p)
		}
	}()
	return f()
}

// FuzzLine goes both ways with one line.
func FuzzLine(f *testing.F) {
	for i, line := range mixedLines(f) {
		if i%40 == 0 {
			f.Add(string(line))
		}
	}
	s := validator(f)
	f.Fuzz(func(t *testing.T, line string) {
		if len(line) > 4000 || strings.Contains(line, "\n") {
			return
		}
		bothWays(t, "x.ndjson", line)
		if sureOf(line) {
			if err := soundLine(s, line); err != nil {
				t.Fatalf("sure of what the validator refuses: %s\n%v", line, err)
			}
		}
	})
}

// FuzzDocument goes both ways with a YAML or JSON file.
func FuzzDocument(f *testing.F) {
	f.Add("x.yaml", string(benchYAML(2)))
	f.Add("x.yaml", "format: snapgauge/1.0\nmachine: &m {id: a}\nrecords:\n- {id: b, kind: fill, where: w, source: {title: t, at: p}, amounts: [{volume: 1 L}], x-a: *m}\n")
	f.Add("x.json", `{"format":"snapgauge/1.0","machine":{"id":"a"},"records":[{"id":"b","kind":"fill","where":"w","source":{"title":"t","at":"p"},"amounts":[{"volume":"1 L"}]},{}]}`)
	f.Fuzz(func(t *testing.T, name, text string) {
		if len(text) < 4000 && (layoutOf(name) == yamlLayout || layoutOf(name) == jsonLayout) {
			bothWays(t, name, text)
		}
	})
}
