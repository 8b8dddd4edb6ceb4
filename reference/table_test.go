package reference

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// Tables whose rows carry their source in columns source and seen.
var sourced = []string{
	"metric-threads.csv", "iso-261-plan.csv", "unified-threads.csv", "unified-series.csv", "metric-classes.csv",
	"inch-grades.csv", "head-bearing.csv", "friction.csv", "female-strength.csv", "tapped.csv", "cautions.csv", "rules.csv",
	"iso286-it.csv", "iso286-deviations.csv", "iso2768.csv", "iso965-pitch.csv", "iso965-pitch-tolerance.csv",
	"joints.csv", "prevailing.csv", "drag-rules.csv", "wrenches.csv", "patterns.csv", "oneuse.csv", "fluids.csv", "electrical.csv",
}

func TestEveryRowHasItsSource(t *testing.T) {
	marks := []string{"seen-2", "seen-1", "memory", "computed", "practice"}
	for _, name := range sourced {
		rows := mustTable(name)
		if len(rows) == 0 {
			t.Errorf("%s has no rows", name)
		}
		for _, r := range rows {
			if strings.TrimSpace(r.text("source")) == "" {
				t.Errorf("%s row %d has no source", name, r.line)
			}
			if !slices.Contains(marks, r.text("seen")) {
				t.Errorf("%s row %d: seen is %q", name, r.line, r.text("seen"))
			}
			if _, ok := r.index["cite"]; ok && Cite(r.text("cite")).IsZero() {
				t.Errorf("%s row %d cites %q, which citations.csv lacks", name, r.line, r.text("cite"))
			}
		}
	}
}

// Every embedded table is read by a test: a new one must be added here.
func TestEveryTableIsNamed(t *testing.T) {
	entries, err := files.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	named := append(slices.Clone(sourced), "citations.csv", "friction-words.csv", "oneuse-words.csv")
	for _, e := range entries {
		if !slices.Contains(named, e.Name()) {
			t.Errorf("data/%s stands in no test", e.Name())
		}
		text, err := os.ReadFile("data/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(string(text), "# ") {
			t.Errorf("data/%s does not begin with a line that says what it is", e.Name())
		}
	}
}

func TestFaultsOfATablePanic(t *testing.T) {
	for name, f := range map[string]func(){
		"no file":   func() { mustTable("none.csv") },
		"no column": func() { mustTable("rules.csv")[0].text("none") },
		"no number": func() { mustTable("rules.csv")[0].number("area") },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: no panic", name)
				}
			}()
			f()
		}()
	}
}

func TestPlain(t *testing.T) {
	for v, want := range map[float64]string{1.25: "1.25", 8: "8", 0.75: "0.75", 100: "100", 4.5: "4.5", 0.1 + 0.2: "0.3"} {
		if got := plain(v); got != want {
			t.Errorf("plain(%v) = %q, want %q", v, got, want)
		}
	}
}
