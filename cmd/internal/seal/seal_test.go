package seal

import (
	"bytes"
	"encoding/json"
	"errors"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/specs"
	"snapgauge/specs/release"
)

const book = `format: snapgauge/1.0
machine: {id: m-1, name: Machine 1}
variants: [A, B]
serials: {gear: number}
entered: {by: RM, date: 2026-03-02}
sources: {manual: {title: Manual, kind: maker}}
records:
  - id: cover
    kind: torque
    where: cover
    applies: [{variant: [A], gear: from 1200}, {variant: [B]}]
    fastener: {type: screw, thread: M6x1, count: 8}
    tighten: [{to: [71 lbf·in, 8.0 N·m], only: "1"}]
    layout: {places: {1: ["0", "0"]}}
    renew: [gasket]
    caution: [hot-oil]
    answers: [{check: c, figure: /tighten/0/to, read: 8 N·m, because: "a, b", by: KE, date: 2026-03-04}]
    misprint: {printed: 8.0 N·m, use: 8.1 N·m, because: b, source: {title: Bulletin, at: p. 1}, by: KE}
    source: {ref: manual, at: page 4}
  - id: vent
    kind: torque
    where: vent
    unpublished: {why: none printed, do: ask}
    source: {ref: manual, at: page 5}
`

// noDatabase stands for SQLite: names and numbers of rows.
func noDatabase(tables []*Table, state string) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString(state)
	for _, t := range tables {
		for _, row := range t.Rows {
			if len(row) != len(t.Columns) {
				return nil, errors.New(t.Name + ": cells and columns differ in number")
			}
		}
		b.WriteString("\n" + t.Name)
	}
	return b.Bytes(), nil
}

var options = Options{State: release.StateRelease, Edition: "2026-06", Tool: release.Tool{Name: "snapgauge", Version: "0.1.0"}, Checks: []release.Check{}}

func mustFiles(t *testing.T, authored map[string][]byte, opt Options) map[string][]byte {
	t.Helper()
	b := Read(authored)
	if len(b.Unreadable) > 0 {
		t.Fatal(b.Unreadable)
	}
	files, err := Files(authored, b, opt, noDatabase)
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func TestFiles(t *testing.T) {
	authored := map[string][]byte{"b/book.yaml": []byte(book), "a.yaml": []byte(strings.ReplaceAll(book, "m-1", "m-0")), "b/" + specs.Ledger: []byte("\n")}
	files := mustFiles(t, authored, options)
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	want := []string{
		"README.txt", "authored/a.yaml", "authored/b/book.yaml", "authored/b/countersigned.ndjson", "manifest.json", "record.schema.json",
		"records.json", "records.ndjson", "records.schema.json", "records.sqlite", "tables/about.csv", "tables/answers.csv",
		"tables/box_ranges.csv", "tables/box_variants.csv", "tables/boxes.csv", "tables/datapackage.json", "tables/details.csv",
		"tables/figure_values.csv", "tables/figures.csv", "tables/machines.csv", "tables/notes.csv", "tables/numberings.csv",
		"tables/records.csv", "tables/variants.csv",
	}
	if diff := cmp.Diff(want, names); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
	m, err := release.ReadManifest(files[release.ManifestFile])
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Files) != len(want)-1 || m.Edition != "2026-06" || m.State != release.StateRelease {
		t.Errorf("manifest %+v", m)
	}
	for _, f := range m.Files {
		if f != release.FileOf(f.Path, files[f.Path]) {
			t.Errorf("the manifest is wrong about %s", f.Path)
		}
	}
	for name, text := range map[string]string{
		"tables/machines.csv":     "state,machine,name\r\nrelease,m-0,Machine 1\r\nrelease,m-1,Machine 1\r\n",
		"tables/box_ranges.csv":   "state,record,box,place,numbering,form,text,low,high\r\nrelease,1,1,1,gear,number,from 1200,1200,\r\nrelease,3,1,1,gear,number,from 1200,1200,\r\n",
		"tables/box_variants.csv": "state,record,box,place,variant\r\nrelease,1,1,1,A\r\nrelease,1,2,1,B\r\nrelease,2,1,1,A\r\nrelease,2,1,2,B\r\nrelease,3,1,1,A\r\nrelease,3,2,1,B\r\nrelease,4,1,1,A\r\nrelease,4,1,2,B\r\n",
		"tables/details.csv": "state,record,pointer,place,text\r\nrelease,1,/fastener/count,1,8\r\nrelease,1,/fastener/thread,2,M6x1\r\nrelease,1,/fastener/type,3,screw\r\n" +
			"release,1,/layout/places/1/0,4,0\r\nrelease,1,/layout/places/1/1,5,0\r\nrelease,1,/tighten/0/only,6,1\r\n" +
			"release,3,/fastener/count,1,8\r\nrelease,3,/fastener/thread,2,M6x1\r\nrelease,3,/fastener/type,3,screw\r\n" +
			"release,3,/layout/places/1/0,4,0\r\nrelease,3,/layout/places/1/1,5,0\r\nrelease,3,/tighten/0/only,6,1\r\n",
		"tables/notes.csv":   "state,record,list,place,text\r\nrelease,1,caution,1,hot-oil\r\nrelease,1,renew,1,gasket\r\nrelease,3,caution,1,hot-oil\r\nrelease,3,renew,1,gasket\r\n",
		"tables/figures.csv": "state,record,pointer,place,word\r\nrelease,1,/tighten/0/to,1,\r\nrelease,1,/misprint/use,2,\r\nrelease,3,/tighten/0/to,1,\r\nrelease,3,/misprint/use,2,\r\n",
	} {
		if diff := cmp.Diff(text, string(files[name])); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	readme := string(files["README.txt"])
	for _, want := range []string{
		"Release of vetted spec records, edition 2026-06\n====", "Machine 1 (m-0)\n---------------\n",
		"cover: cover\n  applies to variant A, gear from 1200; or variant B\n  /tighten/0/to  71 lbf·in, 8.0 N·m\n  misprint: 8.0 N·m is printed, use 8.1 N·m: b\n  Manual, page 4; entered by RM, NOT countersigned\n",
		"unpublished (none printed): ask",
	} {
		if !strings.Contains(readme, want) {
			t.Errorf("README.txt lacks %q:\n%s", want, readme)
		}
	}
	for line := range strings.Lines(readme) {
		if strings.Contains(line, "DRAFT") {
			t.Errorf("no draft, and %q", line)
		}
	}
}

// The order in which files are read makes no difference.
func TestFilesSame(t *testing.T) {
	authored := map[string][]byte{}
	for _, name := range []string{"b.yaml", "a.yaml", "c/d.yaml", "c/a.yaml"} {
		authored[name] = []byte(strings.ReplaceAll(book, "m-1", "m-"+name[:1]))
	}
	first := mustFiles(t, authored, options)
	for range 5 {
		if diff := cmp.Diff(first, mustFiles(t, maps.Clone(authored), options)); diff != "" {
			t.Fatalf("not the same:\n%s", diff)
		}
	}
}

func TestReadUnreadable(t *testing.T) {
	b := Read(map[string][]byte{
		"a.yaml":              []byte("format: ["),
		"b.ndjson":            []byte("{\n"),
		"x/" + specs.Ledger:   []byte("rubbish\n"),
		"x/sound.yaml":        []byte(book),
		"not-of-us.yaml":      []byte("kind: other\n"),
		"x/y/" + specs.Ledger: nil,
	})
	var got []string
	for _, u := range b.Unreadable {
		got = append(got, u.File)
	}
	slices.Sort(got)
	want := []string{"a.yaml", "b.ndjson", "not-of-us.yaml", "x/countersigned.ndjson"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("unreadable (-want +got):\n%s", diff)
	}
	if b.Files != 4 || len(b.Records()) != 2 {
		t.Errorf("%d files, %d records", b.Files, len(b.Records()))
	}
}

// The ledger of a folder is about its own files.
func TestReadLedgers(t *testing.T) {
	line := `{"id":"cover","fingerprint":"f1:x","by":"JT","date":"2026-06-01"}` + "\n"
	b := Read(map[string][]byte{"a/book.yaml": []byte(book), "b/book.yaml": []byte(book), "a/" + specs.Ledger: []byte(line)})
	for _, e := range b.Records() {
		if got, want := len(e.Countersigned), map[bool]int{true: 1}[e.File == "a/book.yaml" && e.Record.ID == "cover"]; got != want {
			t.Errorf("%s %s: %d lines, want %d", e.File, e.Record.ID, got, want)
		}
	}
}

func TestNumber(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", 0.1: "0.1", 8.0219228609607857: "8.021922860960785", 1e14: "100000000000000", 1e15: "1E+15", 1e-8: "0.00000001",
		1e-10: "1E-10", -0.5: "-0.5", 1.0 / 3: "0.3333333333333333", 2.5e20: "2.5E+20",
	} {
		if got := number(x); got != want {
			t.Errorf("number(%v) = %s, want %s", x, got, want)
		}
	}
}

func TestDraftEverywhere(t *testing.T) {
	opt := options
	opt.State, opt.Key, opt.InTheWay = release.StateDraft, "untrusted comment: x\nRW\n", []string{"book.yaml:1:1: reject: x [y]"}
	files := mustFiles(t, map[string][]byte{"book.yaml": []byte(book)}, opt)
	for name, content := range files {
		if !strings.HasPrefix(name, release.DraftFolder+"/") && name != release.KeyFile && !strings.HasSuffix(name, "answers.csv") &&
			!bytes.Contains(content, []byte("DRAFT")) {
			t.Errorf("%s does not say DRAFT", name)
		}
	}
	var d release.Document
	if err := json.Unmarshal(files[release.RecordsFile], &d); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(opt.InTheWay, d.InTheWay); diff != "" {
		t.Errorf("in the way (-want +got):\n%s", diff)
	}
	if !strings.Contains(string(files["README.txt"]), "release.pub, which anybody could have put here") {
		t.Error("README.txt says nothing of the key")
	}
}

func TestFilesFail(t *testing.T) {
	authored := map[string][]byte{"book.yaml": []byte(book)}
	broken := errors.New("disk full")
	_, err := Files(authored, Read(authored), options, func([]*Table, string) ([]byte, error) { return nil, broken })
	if !errors.Is(err, broken) {
		t.Errorf("error %v", err)
	}
	for i := range 6 {
		w := &failing{left: i}
		if err := (&Table{Columns: []Column{{Name: strings.Repeat("x", 5000)}}, Rows: [][]any{{strings.Repeat("y", 9000)}}}).CSV(w); err == nil && w.left < 0 {
			t.Error("an output that fails is no error")
		}
	}
}

type failing struct{ left int }

func (f *failing) Write(b []byte) (int, error) {
	if f.left--; f.left < 0 {
		return 0, os.ErrClosed
	}
	return len(b), nil
}

func BenchmarkFiles(b *testing.B) {
	authored := map[string][]byte{"book.yaml": []byte(book)}
	for b.Loop() {
		if _, err := Files(authored, Read(authored), options, noDatabase); err != nil {
			b.Fatal(err)
		}
	}
}
