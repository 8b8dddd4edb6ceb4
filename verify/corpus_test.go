package verify_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// corpusFiles lists the spec files of the verified corpus without its misprints.
func corpusFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	err := filepath.WalkDir(filepath.Join("..", "specs", "corpus"), func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && d.Name() == "misprints":
			return fs.SkipDir
		case slices.Contains([]string{".yaml", ".ndjson"}, filepath.Ext(p)):
			files = append(files, p)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// TestCorpus runs every check over figures as standards, handbooks and government
// documents print them: no reject, at most 2 % of the records queried.
func TestCorpus(t *testing.T) {
	var records, torques, fills, tolerances int
	seen := map[string]bool{}
	all := func(yield func(schema.Entry) bool) {
		for _, file := range corpusFiles(t) {
			f, err := os.Open(file)
			if err != nil {
				t.Error(err)
				return
			}
			defer f.Close()
			for e, err := range specs.Read(file, f) {
				if err != nil {
					t.Error(err)
					continue
				}
				if r := e.Record; r != nil {
					records++
					switch r.Kind {
					case schema.KindTorque:
						torques++
					case schema.KindFill:
						fills++
					case schema.KindTolerance:
						tolerances++
					}
					if document(e.Head, r) == "" || r.Source.At == "" {
						t.Errorf("%s: record %s has no source", file, r.ID)
					}
				}
				if !yield(e) {
					return
				}
			}
		}
	}
	err := verify.Run(all, verify.Options{}, func(f rule.Finding) bool {
		switch f.Verdict {
		case rule.Reject:
			t.Errorf("%s:%s: reject: %s [%s]", f.Place.File, f.Place.Span.Start, f.Message, f.Check)
		case rule.Query:
			seen[f.Place.File+" "+recordOf(f.Place.Pointer)] = true
			t.Logf("%s:%s: query: %s [%s]", f.Place.File, f.Place.Span.Start, f.Message, f.Check)
		}
		return true
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d records (%d torques, %d fills, %d tolerances), %d queried", records, torques, fills, tolerances, len(seen))
	if records < 600 {
		t.Errorf("the corpus holds %d records, want 600 or more", records)
	}
	if len(seen)*100 > records*2 {
		t.Errorf("%d of %d records are queried, want at most 2 %%", len(seen), records)
	}
}

// document is the title of what a record's figures were printed in.
func document(h *schema.Head, r *schema.Record) string {
	if r.Source.Title != "" {
		return r.Source.Title
	}
	for _, s := range h.Sources {
		if s.Name == r.Source.Ref {
			return s.Source.Title
		}
	}
	return ""
}

// recordOf is the part of a pointer that names the record.
func recordOf(pointer string) string {
	return strings.Join(strings.SplitN(pointer+"///", "/", 4)[:3], "/")
}

// A misprint is what the line above a record in specs/corpus/misprints says.
type misprint struct {
	file       string
	line       int // of the comment
	shouldBe   string
	check, at  string // "" where nothing finds it today
	second     string // "both alike", "one unit", or "" where two units disagree
	from, upTo int    // the lines of the record
}

var misprinted = regexp.MustCompile(`^ *# printed: (.+) ; should be: (.+) ; why: (.+) ; finds: (?:nothing|([a-z-]+) at (/\S+))(?: \((both alike|one unit)\))?$`)

// inTheirTable also holds the rows beside its misprints, which are right.
const inTheirTable = "in-their-table.yaml"

func misprints(t *testing.T, file string) []misprint {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(data), "\n")
	var list []misprint
	records := 0
	for i, line := range lines {
		if strings.HasPrefix(line, "  - id: ") {
			records++
		}
		if n := len(list); n > 0 && line == "" && list[n-1].upTo == len(lines) {
			list[n-1].upTo = i
		}
		if !strings.HasPrefix(line, "  # ") {
			continue
		}
		m := misprinted.FindStringSubmatch(line)
		if m == nil {
			t.Errorf("%s:%d: not in the form of a misprint: %s", file, i+1, line)
			continue
		}
		list = append(list, misprint{file: file, line: i + 1, shouldBe: m[2], check: m[4], at: m[5], second: m[6], from: i + 2, upTo: len(lines)})
	}
	if records != len(list) && filepath.Base(file) != inTheirTable {
		t.Errorf("%s: %d records, %d of them explained", file, records, len(list))
	}
	return list
}

// TestMisprints: errors that stand in print are found at their place by the check
// that the line above names; nothing else is said. Of those that print a
// disagreement at least 90 % are found.
func TestMisprints(t *testing.T) {
	type share struct{ all, found, named int }
	shares := map[string]*share{"": {}, "both alike": {}, "one unit": {}}
	total := 0
	for _, name := range []string{"callouts.yaml", "tables.yaml", inTheirTable} {
		file := filepath.Join("..", "specs", "corpus", "misprints", name)
		found, _ := book(t, []string{file})
		list := misprints(t, file)
		for _, f := range found {
			if f.Verdict >= rule.Query && !slices.ContainsFunc(list, func(m misprint) bool {
				return slices.ContainsFunc(places(f), func(pl rule.Place) bool { l := pl.Span.Start.Line; return l >= m.from && l <= m.upTo })
			}) {
				t.Errorf("%s:%s: %s [%s], in a record that is right", file, f.Place.Span.Start, f.Message, f.Check)
			}
		}
		for _, m := range list {
			total++
			s := shares[m.second]
			s.all++
			var here []rule.Finding
			for _, f := range found {
				for _, pl := range places(f) {
					if l := pl.Span.Start.Line; l >= m.from && l <= m.upTo && f.Verdict >= rule.Query && pl.Pointer != "" {
						f.Place = pl
						here = append(here, f)
						break
					}
				}
			}
			if len(here) > 0 {
				s.found++
			}
			at := slices.IndexFunc(here, func(f rule.Finding) bool {
				return f.Check == m.check && strings.HasSuffix(trimIndex(f.Place.Pointer), trimIndex(m.at))
			})
			switch {
			case m.check == "" && len(here) > 0:
				t.Errorf("%s:%d: found, though the line says that nothing does: %s [%s] at %s", m.file, m.line, here[0].Message, here[0].Check, here[0].Place.Pointer)
			case m.check != "" && at < 0:
				t.Errorf("%s:%d: want %s at %s, got %v", m.file, m.line, m.check, m.at, lines(here))
			case m.check != "" && named(here[at], m.shouldBe):
				s.named++
			default:
				t.Logf("%s:%d: not named: %s", m.file, m.line, m.shouldBe)
			}
			if m.check != "" && len(here) > 1 {
				t.Errorf("%s:%d: one misprint, %d findings: %v", m.file, m.line, len(here), lines(here))
			}
		}
	}
	for _, second := range []string{"", "both alike", "one unit"} {
		s := shares[second]
		name := second
		if name == "" {
			name = "the two units disagree"
		}
		t.Logf("%s: %d misprints, %d found, %d of them named", name, s.all, s.found, s.named)
	}
	if total < 30 {
		t.Errorf("%d misprints, want 30 or more", total)
	}
	if s := shares[""]; s.found*10 < s.all*9 {
		t.Errorf("%d of %d misprints that print a disagreement are found, want at least 90 %%", s.found, s.all)
	}
}

// places are that of a finding and, of those of the book, that of the row which it
// is held against: which of the two is wrong is not always to be told.
func places(f rule.Finding) []rule.Place {
	out := []rule.Place{f.Place}
	if f.Check == "columns-at-odds" {
		for _, r := range f.Related {
			out = append(out, r.Place)
		}
	}
	return out
}

var anyDimension = convert.Of(convert.Torque, convert.Length, convert.Force, convert.Pressure, convert.Temperature, convert.Volume)

// named reports that a finding lists the figure that should stand there, as a
// slip or as what it wants.
func named(f rule.Finding, shouldBe string) bool {
	right, bad := convert.Parse(shouldBe, anyDimension, convert.Point)
	same := func(text string) bool {
		q, p := convert.Parse(text, anyDimension, convert.Point)
		return text == shouldBe || p == nil && bad == nil && q.String() == right.String()
	}
	return same(f.Want) || strings.Contains(f.Message, "about "+right.String()+" there") || slices.ContainsFunc(f.Slips, func(s rule.Slip) bool { return same(s.Reads) })
}

// TestNotAnError: figures in print that only look wrong, conversions by 1.36 and
// torques that fall where the strength of a grade steps down, are not spoken of.
func TestNotAnError(t *testing.T) {
	found, records := book(t, []string{filepath.Join("..", "specs", "corpus", "misprints", "not-an-error.yaml")})
	for _, f := range found {
		if f.Verdict >= rule.Query {
			t.Errorf("%s:%s: %s: %s [%s]", f.Place.File, f.Place.Span.Start, f.Verdict, f.Message, f.Check)
		}
	}
	if records < 60 {
		t.Errorf("%d records, want 60 or more", records)
	}
}
