package specs

import (
	"bufio"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

func bufioReader(s string) *bufio.Reader { return bufio.NewReaderSize(strings.NewReader(s), 16) }

func file(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }

func walked(fsys fs.FS, root string) (found, left []string) {
	for name, err := range Walk(fsys, root, func(s Skipped) { left = append(left, s.Name+": "+s.Why) }) {
		if err != nil {
			name = err.Error()
		}
		found = append(found, name)
	}
	return found, left
}

func TestWalk(t *testing.T) {
	fsys := fstest.MapFS{
		"b.yaml":                   file("format: snapgauge/1.0\n"),
		"a.yml":                    file("# the lid\n---\nformat: 'snapgauge/2.0'\n"),
		"c/d.json":                 file(bookJSON),
		"c/e.ndjson":               file(bookLines),
		"c/countersigned.ndjson":   file(bookLines),
		"c/f.jsonl":                file(bookLines),
		"c/README.md":              file("format: snapgauge/1.0\n"),
		"c/package.json":           file(`{"name": "x", "format": {"y": "snapgauge/1.0"}}`),
		"c/broken.yaml":            file("format: snapgauge/1.0\na: [\n"),
		"c/ci.yaml":                file("on: push\nsteps:\n  format: snapgauge/1.0\n"),
		"dir.yaml/x.yaml":          file("format: snapgauge/1.0\n"),
		".hidden.yaml":             file("format: snapgauge/1.0\n"),
		".git/x.yaml":              file("format: snapgauge/1.0\n"),
		"link.yaml":                {Data: []byte("b.yaml"), Mode: fs.ModeSymlink},
		"pipe.yaml":                {Mode: fs.ModeNamedPipe},
		"z.yaml":                   file(""),
		"wrackline·40/Ω–lid.yaml":  file("format: snapgauge/1.0\n"),
		"c/d.yaml/not-a-spec.yaml": file("a: b\n"),
	}
	found, left := walked(fsys, ".")
	diff(t, "found", []string{
		"a.yml", "b.yaml", "c/broken.yaml", "c/d.json", "c/e.ndjson", "dir.yaml/x.yaml", "wrackline·40/Ω–lid.yaml",
	}, found)
	diff(t, "left alone", []string{
		".git: hidden",
		".hidden.yaml: hidden",
		"c/README.md: not named as a spec file",
		"c/ci.yaml: its format is not snapgauge",
		"c/countersigned.ndjson: the ledger of countersigned records",
		"c/d.yaml/not-a-spec.yaml: its format is not snapgauge",
		"c/f.jsonl: not named as a spec file",
		"c/package.json: its format is not snapgauge",
		"link.yaml: a link",
		"pipe.yaml: not a regular file",
		"z.yaml: its format is not snapgauge",
	}, left)

	found, _ = walked(fsys, "c")
	diff(t, "below c", []string{"c/broken.yaml", "c/d.json", "c/e.ndjson"}, found)
	for range Walk(fsys, ".", nil) { // no one to tell, and a user who stops
		break
	}
}

// A release below a folder is one thing that is left alone, or the records in it
// would be read beside those that it was made of.
func TestWalkRelease(t *testing.T) {
	manifest := file("{\n \"format\": \"snapgauge-release/1.0\",\n \"state\": \"release\"\n}\n")
	spec := file("format: snapgauge/1.0\n")
	fsys := fstest.MapFS{
		"a.yaml":                          spec,
		"r/2026/manifest.json":            manifest,
		"r/2026/authored/a.yaml":          spec,
		"r/2026/records.ndjson":           file(`{"number": 1, "authored": {"format": "snapgauge/1.0"}}`),
		"r/draft/manifest.json":           manifest,
		"r/draft/authored-DRAFT/a.yaml":   spec,
		"s/no-authored/manifest.json":     manifest,
		"s/no-authored/a.yaml":            spec,
		"s/other/manifest.json":           file(`{"name": "x", "format": {"y": "snapgauge-release/1.0"}}`),
		"s/other/authored/a.yaml":         spec,
		"s/spec/authored/a.yaml":          spec,
		"s/spec/manifest.json":            file(`{"format": "snapgauge/1.0"}`),
		"s/folder/manifest.json/authored": spec,
		"s/folder/authored/a.yaml":        spec,
	}
	found, left := walked(fsys, ".")
	diff(t, "found", []string{
		"a.yaml", "s/folder/authored/a.yaml", "s/no-authored/a.yaml", "s/other/authored/a.yaml",
		"s/spec/authored/a.yaml", "s/spec/manifest.json",
	}, found)
	diff(t, "left alone", []string{
		"r/2026: a release", "r/draft: a release",
		"s/folder/manifest.json/authored: not named as a spec file",
		"s/no-authored/manifest.json: its format is not snapgauge",
		"s/other/manifest.json: its format is not snapgauge",
	}, left)

	// One that is named has its authored files read.
	found, _ = walked(fsys, "r/2026")
	diff(t, "the release itself", []string{"r/2026/authored/a.yaml"}, found)
}

// barred is a file system some of which cannot be opened.
type barred struct{ fstest.MapFS }

func (b barred) Open(name string) (fs.File, error) {
	if strings.Contains(name, "barred") {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return b.MapFS.Open(name)
}

func (b barred) ReadDir(name string) ([]fs.DirEntry, error) {
	if strings.Contains(name, "barred") {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return b.MapFS.ReadDir(name)
}

func TestWalkBarred(t *testing.T) {
	fsys := barred{fstest.MapFS{
		"a/x.yaml":      file(bookYAML),
		"barred/x.yaml": file(bookYAML),
		"barred.yaml":   file(bookYAML),
		"c/x.yaml":      file("format: snapgauge/1.0\n"),
	}}
	diff(t, "folder", []string{
		"dir/a/x.yaml: head at 1:9", "dir/a/x.yaml/records/0 at 4:9", "dir/a/x.yaml/records/1 at 6:22",
		"dir/barred:1:1: could not be read: permission denied",
		"dir/barred.yaml:1:1: could not be read: permission denied",
		"dir/c/x.yaml: head at 1:9",
	}, told(t, ReadFolder(fsys, "dir/", nil)))
	for stop := 1; stop < 6; stop++ {
		seen := 0
		for range ReadFolder(fsys, "dir", nil) {
			if seen++; seen == stop {
				break
			}
		}
		if seen != stop {
			t.Errorf("stopped at %d, wanted at %d", seen, stop)
		}
	}
	found, _ := walked(fsys, "none")
	diff(t, "no such folder", []string{"none:1:1: could not be read: file does not exist"}, found)
	diff(t, "no such file", []string{"typed.yaml:1:1: could not be read: file does not exist"},
		told(t, ReadFile(fsys, "none.yaml", "typed.yaml")))
}

// A folder named like a spec file cannot be read as one.
func TestReadFolderAsFile(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "x.yaml"), 0o755); err != nil {
		t.Fatal(err)
	}
	got := told(t, ReadFile(os.DirFS(dir), "x.yaml", "x.yaml"))
	if len(got) != 1 || !strings.HasPrefix(got[0], "x.yaml:1:1: could not be read: ") {
		t.Errorf("got %q", got)
	}
}

// Links are not followed: neither to files nor around in circles.
func TestWalkLinks(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.yaml"), []byte(bookYAML), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, to := range map[string]string{"b.yaml": "a.yaml", "round": "."} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip("no links here:", err)
		}
	}
	found, left := walked(os.DirFS(dir), ".")
	diff(t, "found", []string{"a.yaml"}, found)
	diff(t, "left", []string{"b.yaml: a link", "round: a link"}, left)
}

func TestIsSpec(t *testing.T) {
	for _, c := range []struct {
		name, src string
		want      bool
	}{
		{"a.yaml", "format: snapgauge/1.0", true},
		{"a.yaml", "\ufeffformat: snapgauge/9\r\n", true},
		{"a.yaml", "\"format\" : \"snapgauge/1.0\"\n", true},
		{"a.yaml", "%YAML 1.2\n---\n# c\n\n  a: b\n  format: snapgauge/1.0\n", true},
		{"a.yaml", "{format: snapgauge/1.0}\n", true},
		{"a.yaml", "machine:\n  id: x\nrecords: []\nformat:   snapgauge/1.0\n", true},
		{"a.yaml", "x: " + strings.Repeat("y", 100_000) + "\nformat: snapgauge/1.0\n", true},
		{"a.yaml", "- format: snapgauge/1.0\n", false},
		{"a.yaml", "a:\n  format: snapgauge/1.0\n", false},
		{"a.yaml", "formats: snapgauge/1.0\n", false},
		{"a.yaml", "format: gauge/1.0\n", false},
		{"a.yaml", "# format: snapgauge/1.0\n", false},
		{"a.json", `{"format":"snapgauge/3.0"}`, true},
		{"a.json", "\ufeff" + `{"a": {"format": 1}, "format": "snapgauge/1.0", `, true},
		{"a.json", `{"a": x, "format": "snapgauge/1.0"}`, true},
		{"a.json", `{"a" "format": "snapgauge/1.0"}`, true},
		{"a.json", `{"records": [` + strings.Repeat(`{"a": 1},`, 20_000) + `{}], "format": "snapgauge/1.0"}`, true},
		{"a.json", `{"a": {"format": "snapgauge/1.0"}}`, false},
		{"a.json", `{"format": {"x": "snapgauge/1.0"}}`, false},
		{"a.json", `{"format": "x", "format": "snapgauge/1.0"}`, false},
		{"a.json", `[{"format": "snapgauge/1.0"}]`, false},
		{"a.json", ``, false},
		{"a.ndjson", "\n" + bookLines, true},
		{"a.ndjson", `{"id": 1 1, "format": "snapgauge/1.0"}`, true},
		{"a.ndjson", `{"state": "release", "record": {"format": "snapgauge/1.0"}}` + "\n" + `{"format": "snapgauge/1.0"}`, false},
		{"a.ndjson", "\n" + `{"x-a": "` + strings.Repeat("y", 100_000) + `", "format": "snapgauge/1.0"}`, true},
		{"a.ndjson", `{"format": "snapgauge-release/1.0"}`, false},
		{"a.ndjson", "{\"id\": 1}\n" + bookLines, false},
	} {
		if got := IsSpec(c.name, strings.NewReader(c.src)); got != c.want {
			t.Errorf("%s %.60q: %v, want %v", c.name, c.src, got, c.want)
		}
	}
}

func TestJoin(t *testing.T) {
	for _, c := range [][3]string{
		{"books", "a.yaml", "books/a.yaml"},
		{"books/", "c/a.yaml", "books/c/a.yaml"},
		{"./books", "a.yaml", "./books/a.yaml"},
		{"../x", "a.yaml", "../x/a.yaml"},
		{".", "a.yaml", "a.yaml"},
		{"/", "a.yaml", "/a.yaml"},
		{"books", ".", "books"},
	} {
		diff(t, c[0]+" and "+c[1], c[2], Join(c[0], c[1]))
	}
}
