package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/trial"
)

// The figures of the README stand between these comments.
const trialFrom, trialTo = "<!-- trial -->\n", "<!-- /trial -->"

// trialGroups are the books that the trial is made with, each apart.
var trialGroups = []struct{ name, folder string }{
	{"shop books (`specs/demo`)", "specs/demo"},
	{"call-outs in government manuals", "specs/corpus/callouts"},
	{"general charts and tables", "specs/corpus/charts"},
	{"joints, fittings and locking nuts in print", "specs/corpus/joints"},
	{"figures of standards", "specs/corpus/standards"},
}

// TestReadmeTrial holds the tables of the README, to the letter, against a trial
// with seed 1, in which every sixteenth slip of each kind is planted: the trial is
// the same for the same seed, so whatever differs has changed, for the better or
// the worse. SNAPGAUGE_UPDATE=1 writes them anew; read the difference before you
// commit it. SNAPGAUGE_WHOLE=1 plants all slips, and only shows.
func TestReadmeTrial(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("takes ten seconds")
	}
	every := 16
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		every = 1
	}
	got := trialTable(t, every)
	if every == 1 {
		t.Log("\n" + got)
		return
	}
	const name = "../../README.md"
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(data), trialFrom)
	want, after, ok2 := strings.Cut(rest, trialTo)
	if !ok || !ok2 {
		t.Fatalf("README.md has no %q", trialFrom)
	}
	if os.Getenv("SNAPGAUGE_UPDATE") != "" {
		if err := os.WriteFile(name, []byte(before+trialFrom+got+trialTo+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(strings.Split(want, "\n"), strings.Split(got, "\n")); d != "" {
		t.Errorf("README.md is not what the trial gives now; look why, then renew it with SNAPGAUGE_UPDATE=1 (-README +now)\n%s", d)
	}
}

// trialTable makes the tables of the README.
func trialTable(t *testing.T, every int) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("\n| records, one planted slip each | records | untouched: rejected, queried | slips | caught in two units | rejected | caught in one unit | named first | among three |\n")
	b.WriteString("|---|---|---|---|---|---|---|---|---|\n")
	sums := map[string]*trial.Count{}
	var twos trial.Count
	for _, g := range trialGroups {
		r := trial.Run(folder(t, g.folder), trial.Options{Seed: 1, Every: every, NoHoles: true})
		var two, one, all trial.Count
		for _, c := range r.Counts {
			add(&all, c)
			if c.Units > 1 {
				add(&two, c)
				add(&twos, c)
			} else {
				add(&one, c)
			}
			key := fmt.Sprint(c.Kind, c.Units)
			if sums[key] == nil {
				sums[key] = &trial.Count{Kind: c.Kind, Name: c.Name, Units: c.Units}
			}
			add(sums[key], c)
		}
		fmt.Fprintf(&b, "| %s | %d | %d, %d | %d | %s | %s | %s | %s | %s |\n", g.name, r.Records, r.Rejected, r.Queried, all.Planted,
			within(two.Caught, two.Planted), share(two.Rejected, two.Planted), within(one.Caught, one.Planted),
			share(all.First, all.Caught), share(all.Named, all.Caught))
	}
	b.WriteString(trialBars(t, every, twos))
	b.WriteString("| slip | caught in two units | rejected | named first | among three | caught in one unit | rejected | named first | among three |\n")
	b.WriteString("|---|---|---|---|---|---|---|---|---|\n")
	for _, k := range slipKinds() {
		two, one := sums[k+"2"], sums[k+"1"]
		name := ""
		cells := func(c *trial.Count) string {
			if c == nil || c.Planted == 0 {
				return "- | - | - | -"
			}
			name = c.Name
			return fmt.Sprintf("%s | %s | %s | %s", within(c.Caught, c.Planted), share(c.Rejected, c.Planted), share(c.First, c.Caught), share(c.Named, c.Caught))
		}
		left, right := cells(two), cells(one)
		if name != "" {
			fmt.Fprintf(&b, "| %s | %s | %s |\n", name, left, right)
		}
	}
	b.WriteByte('\n')
	return b.String()
}

// within is a share with the interval in which it lies with 95 %.
func within(k, n int) string {
	if n == 0 {
		return "-"
	}
	lo, hi := trial.Interval(k, n)
	return fmt.Sprintf("%s (%.0f to %.0f)", share(k, n), 100*lo, 100*hi)
}

func add(sum *trial.Count, c trial.Count) {
	sum.Planted += c.Planted
	sum.Caught += c.Caught
	sum.Rejected += c.Rejected
	sum.Named += c.Named
	sum.First += c.First
	sum.Disagree += c.Disagree
	sum.DisagreeCaught += c.DisagreeCaught
	sum.DisagreeRejected += c.DisagreeRejected
}

// folder yields the records of the spec files in a folder of the repository.
func folder(t *testing.T, path string) func(func(schema.Entry) bool) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("../..", path, "*"))
	if err != nil || len(files) == 0 {
		t.Fatal(path, err)
	}
	return func(yield func(schema.Entry) bool) {
		for _, file := range files {
			f, err := os.Open(file)
			if err != nil {
				t.Fatal(err)
			}
			for e, err := range specs.Read(file, f) {
				if err != nil {
					t.Fatal(err)
				}
				if !yield(e) {
					f.Close()
					return
				}
			}
			f.Close()
		}
	}
}
