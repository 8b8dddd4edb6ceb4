package verify_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// book runs every check over all files of a folder.
func book(t *testing.T, files []string) (found []rule.Finding, records int) {
	t.Helper()
	all := func(yield func(schema.Entry) bool) {
		for _, file := range files {
			f, err := os.Open(file)
			if err != nil {
				t.Error(err)
				return
			}
			defer f.Close()
			for e, err := range specs.Read(file, f) {
				if err != nil {
					t.Errorf("%v", err)
					continue
				}
				if !e.HeadOnly {
					records++
				}
				if !yield(e) {
					return
				}
			}
		}
	}
	err := verify.Run(all, verify.Options{}, func(f rule.Finding) bool {
		found = append(found, f)
		return true
	})
	if err != nil {
		t.Fatal(err)
	}
	return found, records
}

// TestDemo: good books are silent but for notes.
func TestDemo(t *testing.T) {
	found, records := book(t, demoFiles(t))
	for _, f := range found {
		if f.Verdict > rule.Note {
			t.Errorf("%s:%s: %s: %s [%s]", f.Place.File, f.Place.Span.Start, f.Verdict, f.Message, f.Check)
		}
	}
	if records < 120 {
		t.Errorf("the demo books hold %d records, want 120 or more", records)
	}
}

var mustFind = regexp.MustCompile(`# must find: ([a-z-]+) at (/\S*?):`)

// TestFaulty: every slip of the faulty books is found where its comment says, by
// the check that it names, and nothing else is.
func TestFaulty(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "specs", "faulty", "*.yaml"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	found, _ := book(t, files)
	slips := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(string(data), "\n")
		for i, line := range lines {
			for _, m := range mustFind.FindAllStringSubmatch(line, -1) {
				slips++
				// The slip stands below its comment, before the next.
				from := i + 1
				for from < len(lines) && strings.Contains(lines[from], "# must find") {
					from++
				}
				to := from
				for to < len(lines) && !strings.Contains(lines[to], "# must find") {
					to++
				}
				at := slices.IndexFunc(found, func(f rule.Finding) bool {
					l := f.Place.Span.Start.Line
					return f.Check == m[1] && f.Place.File == file && f.Verdict > rule.Note &&
						strings.HasSuffix(trimIndex(f.Place.Pointer), trimIndex(m[2])) && l > from && l <= to
				})
				if at < 0 {
					t.Errorf("%s:%d: not found: %s", file, i+1, m[0])
					continue
				}
				found = slices.Delete(found, at, at+1)
			}
		}
	}
	for _, f := range found {
		if f.Verdict > rule.Note {
			t.Errorf("%s:%s: not promised: %s: %s [%s] %s", f.Place.File, f.Place.Span.Start, f.Verdict, f.Message, f.Check, f.Place.Pointer)
		}
	}
	if slips < 24 {
		t.Errorf("%d slips, want two dozen", slips)
	}
}

// trimIndex takes the number of a value off a pointer: a figure is one place.
func trimIndex(p string) string { return strings.TrimRight(p, "/0123456789") }
