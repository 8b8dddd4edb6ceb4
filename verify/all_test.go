package verify_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// TestAll says what every check must have to be in the list.
func TestAll(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	layers := []rule.Layer{rule.Shape, rule.Units, rule.Sense, rule.Physics, rule.Cited, rule.Book}
	seen := map[string]bool{}
	last := 0
	for _, c := range verify.All() {
		if !kebab.MatchString(c.ID) {
			t.Errorf("%s: an id is kebab words", c.ID)
		}
		if seen[c.ID] {
			t.Errorf("%s stands twice in the list", c.ID)
		}
		seen[c.ID] = true
		if c.Title == "" || c.Since == "" {
			t.Errorf("%s: title %q, since %q", c.ID, c.Title, c.Since)
		}
		if c.Source.IsZero() {
			t.Errorf("%s names no source", c.ID)
		}
		if len(c.Doc) < 200 || !strings.Contains(c.Doc, "```yaml") {
			t.Errorf("%s: its text is missing or has no example", c.ID)
		}
		ways := 0
		for _, has := range []bool{c.Record != nil, c.Book != nil, c.Answers} {
			if has {
				ways++
			}
		}
		if ways == 0 && c.Head != nil {
			ways = 1
		}
		if ways != 1 {
			t.Errorf("%s runs in %d ways, want 1", c.ID, ways)
		}
		if c.Book != nil && (c.Book.Emit == nil || c.Book.Judge == nil) {
			t.Errorf("%s: half a check of the book", c.ID)
		}
		i := slices.Index(layers, c.Layer)
		if i < last {
			t.Errorf("%s of layer %s stands behind layer %s", c.ID, c.Layer, layers[last])
		}
		last = max(last, i)
	}
}

// TestAllIsFresh: a caller may change the list that it was given.
func TestAllIsFresh(t *testing.T) {
	a := verify.All()
	first := a[0]
	a[0] = nil
	if verify.All()[0] != first {
		t.Error("All hands out its own list")
	}
}

// TestNoStrayCases: every folder of cases and every text belongs to a check.
func TestNoStrayCases(t *testing.T) {
	known := map[string]bool{}
	for _, c := range verify.All() {
		known[filepath.Join(string(c.Layer), "testdata", c.ID)] = true
		known[filepath.Join(string(c.Layer), c.ID+".md")] = true
	}
	for _, l := range []rule.Layer{rule.Shape, rule.Units, rule.Sense, rule.Physics, rule.Cited, rule.Book} {
		texts, err := filepath.Glob(filepath.Join(string(l), "*.md"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range texts {
			if !known[name] {
				t.Errorf("%s is the text of no check", name)
			}
		}
		dirs, err := os.ReadDir(filepath.Join(string(l), "testdata"))
		if err != nil {
			continue // a layer without checks yet
		}
		for _, d := range dirs {
			name := filepath.Join(string(l), "testdata", d.Name())
			if d.IsDir() && !known[name] && d.Name() != "fuzz" && d.Name() != "tables" {
				t.Errorf("%s holds the cases of no check", name)
			}
		}
	}
}
