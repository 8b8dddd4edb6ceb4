package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/reference"
)

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

// An output that cannot be written is not a success.
func TestOutputFails(t *testing.T) {
	for _, args := range [][]string{
		{"check", "missing.yaml"},
		{"check", "--format", "sarif", "testdata/good.yaml"},
		{"explain"},
		{"explain", "unreadable"},
		{"convert", "36 ft"},
		{"convert", "36 ft", "m"},
		{"reference", "M8x1.25"},
		{"help"},
		{"--help"},
		{"check", "--help"},
		{"--version"},
		{"completion", "bash"},
		{"band", "M8x1.25"},
		{"release", "../../specs/demo/kedge-5.yaml", "-o", "not-written"},
		{"audit", "../../specs/release/testdata/wrackline-40.zip"},
		{"audit", "--format", "json", "../../specs/release/testdata/wrackline-40.zip"},
		{"level", "../../specs/demo/wrackline-40.yaml", "gearcase-oil", "--at", "52°C"},
		{"sheet", "../../specs/demo/kedge-5.yaml"},
	} {
		var stderr bytes.Buffer
		if code := run(args, strings.NewReader(""), full{}, &stderr); code != exitUnreadable {
			t.Errorf("%v: exit code %d, want %d", args, code, exitUnreadable)
		}
		if !strings.Contains(stderr.String(), "disk full") {
			t.Errorf("%v: nothing said of it: %q", args, stderr.String())
		}
	}
}

// A run that is interrupted says so and leaves no file behind.
func TestInterrupted(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	book, err := os.ReadFile(writeBook(t, 50, 0))
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var stdout, stderr bytes.Buffer
	err = check(ctx, streams{bytes.NewReader(book), &stdout, &stderr},
		checkOptions{paths: []string{"-"}, format: "text", failOn: "reject", color: "auto", as: "ndjson"})
	if err == nil || err.Error() != "interrupted" {
		t.Errorf("got %v, want interrupted", err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "snapgauge-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	if stderr.Len() > 0 {
		t.Errorf("a summary of half a run: %s", stderr.String())
	}
}

// The copy of standard input is removed.
func TestCopyRemoved(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	var stdout, stderr bytes.Buffer
	code := run([]string{"check", "-"}, strings.NewReader("format: snapgauge/1.0\nmachine: ["), &stdout, &stderr)
	if code != exitUnreadable || !strings.Contains(stdout.String(), "| machine: [\n") {
		t.Errorf("exit code %d, output\n%s%s", code, stdout.String(), stderr.String())
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "snapgauge-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// The lines of a pipe are not asked for again, nor those of a folder.
func TestReopen(t *testing.T) {
	var f files
	for _, name := range []string{t.TempDir(), os.DevNull, "no such file"} {
		if file, err := f.reopen(name); err == nil {
			file.Close()
			t.Errorf("%s was opened", name)
		}
	}
}

func TestColour(t *testing.T) {
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	regular, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer regular.Close()
	tests := []struct {
		when, noColour, term string
		out                  any
		want                 bool
	}{
		{"auto", "", "xterm", null, true}, // a character device, as a terminal is
		{"auto", "1", "xterm", null, false},
		{"auto", "", "dumb", null, false},
		{"auto", "", "xterm", regular, false},
		{"auto", "", "xterm", &bytes.Buffer{}, false},
		{"never", "", "xterm", null, false},
		{"always", "1", "dumb", &bytes.Buffer{}, true},
	}
	for _, c := range tests {
		t.Setenv("NO_COLOR", c.noColour)
		t.Setenv("TERM", c.term)
		if got := colour(c.when, c.out.(interface{ Write([]byte) (int, error) })); got != c.want {
			t.Errorf("%+v: got %v", c, got)
		}
	}
}

// Every counterpart is a unit of its dimension, and every dimension that has
// two units shows one.
func TestCounterparts(t *testing.T) {
	units := map[convert.Dimension]int{}
	for u := range convert.Units() {
		units[u.Dimension()]++
	}
	for d, all := range counterparts {
		for _, symbol := range all {
			if _, ok := unitOf(symbol, d); !ok {
				t.Errorf("%s: no unit %s", d, symbol)
			}
		}
	}
	for d, n := range units {
		if n > 1 && len(counterparts[d]) == 0 {
			t.Errorf("%s has %d units and no counterparts", d, n)
		}
	}
}

func TestSeen(t *testing.T) {
	words := map[string]bool{}
	for _, s := range []reference.Seen{reference.SeenTwice, reference.SeenOnce, reference.Memory, reference.Computed, reference.Practice} {
		words[seen(s)] = true
	}
	if len(words) != 5 {
		t.Errorf("not every way has words of its own: %v", words)
	}
}

// Names of checks are unique, and each has a text.
func TestChecks(t *testing.T) {
	met := map[string]bool{}
	for _, c := range checks() {
		if met[c.ID] || c.Doc == "" || c.Title == "" || c.Since == "" {
			t.Errorf("%s: doubled, or without text, title or version", c.ID)
		}
		met[c.ID] = true
	}
}
