package verify_test

import (
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

// TestCases runs every check alone over its own cases: verify/LAYER/testdata/ID.
// An expectation stands in a comment on the line that it is about, as
// `# want "regexp"`, and is matched against "VERDICT: MESSAGE"; a finding that is
// missing or too many fails. Each check has flagged, clean and near cases; the
// latter two are silent.
func TestCases(t *testing.T) {
	for _, c := range verify.All() {
		if c.Answers {
			continue // TestAnswers
		}
		t.Run(c.ID, func(t *testing.T) {
			seen := map[string]bool{}
			for _, file := range caseFiles(t, c) {
				kind, _, _ := strings.Cut(strings.TrimSuffix(filepath.Base(file), filepath.Ext(file)), "-")
				seen[kind] = true
				t.Run(filepath.Base(file), func(t *testing.T) { runCase(t, c, file, kind) })
			}
			for _, kind := range []string{"flagged", "clean", "near"} {
				if !seen[kind] {
					t.Errorf("no %s case in %s", kind, caseDir(c))
				}
			}
		})
	}
}

func caseDir(c *rule.Check) string {
	return filepath.Join(string(c.Layer), "testdata", c.ID)
}

func caseFiles(t *testing.T, c *rule.Check) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(caseDir(c), "*"))
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func runCase(t *testing.T, c *rule.Check, file, kind string) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	wanted := wants(t, string(data))
	if kind == "flagged" && len(wanted) == 0 {
		t.Fatal("a flagged case wants no finding")
	}
	if kind != "flagged" && len(wanted) > 0 {
		t.Fatalf("a %s case is silent", kind)
	}
	for _, f := range run(t, []*rule.Check{c}, file, string(data)) {
		line := f.Place.Span.Start.Line
		text := fmt.Sprintf("%s: %s", f.Verdict, f.Message)
		if !take(wanted, line, text) {
			t.Errorf("line %d: not wanted: %s", line, text)
		}
		if f.Verdict > c.Verdict {
			t.Errorf("line %d: %s is more than the check's %s", line, f.Verdict, c.Verdict)
		}
	}
	for line, res := range wanted {
		for _, re := range res {
			t.Errorf("line %d: no finding matches %q", line, re)
		}
	}
}

// run checks one file and fails on what cannot be read.
func run(t *testing.T, checks []*rule.Check, file, data string) []rule.Finding {
	t.Helper()
	var found []rule.Finding
	err := verify.Run(entries(t, file, data), verify.Options{Checks: checks}, func(f rule.Finding) bool {
		found = append(found, f)
		return true
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// A line `# countersigned: {…}` is one of the ledger of the file, the lines behind
// `# before:` are an earlier edition of it.
func entries(t *testing.T, file, data string) iter.Seq[schema.Entry] {
	ledger := ledgerOf(t, data)
	earlier := earlierOf(t, data)
	return func(yield func(schema.Entry) bool) {
		for e, err := range specs.Read(file, strings.NewReader(data)) {
			if err != nil {
				t.Errorf("%s: %v", file, err)
				return
			}
			e.Countersigned = ledger
			e.Before = earlier.Find(&e)
			if !yield(e) {
				return
			}
		}
	}
}

func ledgerOf(t *testing.T, data string) []schema.Countersign {
	t.Helper()
	var b strings.Builder
	for line := range strings.Lines(data) {
		if signed, ok := strings.CutPrefix(line, "# countersigned: "); ok {
			b.WriteString(signed)
		}
	}
	signs, bad, err := specs.ReadLedger("ledger", strings.NewReader(b.String()))
	if err != nil || len(bad) > 0 {
		t.Fatal(err, bad)
	}
	return signs
}

func earlierOf(t *testing.T, data string) *edition.Book {
	t.Helper()
	book := &edition.Book{Name: "the book of 2025"}
	var b strings.Builder
	for line := range strings.Lines(data) {
		if before, ok := strings.CutPrefix(line, "# before:"); ok {
			b.WriteString(strings.TrimPrefix(before, " "))
		}
	}
	if b.Len() == 0 {
		return book
	}
	for e, err := range specs.Read("before.yaml", strings.NewReader(b.String())) {
		if err != nil {
			t.Fatal(err)
		}
		book.Add(e)
	}
	return book
}

var wantComment = regexp.MustCompile(`# want((?: +"(?:[^"\\]|\\.)*")+)`)

var quoted = regexp.MustCompile(`"(?:[^"\\]|\\.)*"`)

// wants collects the expectations of a case by line.
func wants(t *testing.T, data string) map[int][]*regexp.Regexp {
	t.Helper()
	out := map[int][]*regexp.Regexp{}
	for i, line := range strings.Split(data, "\n") {
		if !strings.Contains(line, "# want") {
			continue
		}
		m := wantComment.FindStringSubmatch(line)
		if m == nil {
			t.Fatalf("line %d: cannot read the expectation: %s", i+1, line)
		}
		for _, q := range quoted.FindAllString(m[1], -1) {
			s, err := strconv.Unquote(q)
			if err != nil {
				s = q[1 : len(q)-1] // a regexp such as "\d" is no Go string
			}
			re, err := regexp.Compile(s)
			if err != nil {
				t.Fatalf("line %d: %v", i+1, err)
			}
			out[i+1] = append(out[i+1], re)
		}
	}
	return out
}

func take(wanted map[int][]*regexp.Regexp, line int, text string) bool {
	for i, re := range wanted[line] {
		if re.MatchString(text) {
			wanted[line] = append(wanted[line][:i:i], wanted[line][i+1:]...)
			return true
		}
	}
	return false
}
