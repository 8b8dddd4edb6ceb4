//go:build linux

package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A pipe can be read only once; its lines are shown all the same.
func TestPipe(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	fmt.Fprint(w, "format: snapgauge/1.0\nmachine: [")
	w.Close()
	name := fmt.Sprintf("/proc/self/fd/%d", r.Fd())
	var stdout, stderr bytes.Buffer
	code := run([]string{"check", name}, nil, &stdout, &stderr)
	want := name + ":2:"
	if code != exitUnreadable || !strings.HasPrefix(stdout.String(), want) || !strings.Contains(stdout.String(), "| machine: [\n") {
		t.Errorf("exit code %d, output\n%s%s", code, stdout.String(), stderr.String())
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "snapgauge-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// A file in a folder whose name is no text is told, and the others are read.
func TestFolderWithBadName(t *testing.T) {
	dir := t.TempDir()
	good, err := os.ReadFile("testdata/good.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"a\xff.yaml", "b.yaml"} {
		if err := os.WriteFile(filepath.Join(dir, name), good, 0o644); err != nil {
			t.Skip("the file system takes no such name:", err)
		}
	}
	var stdout, stderr bytes.Buffer
	code := run([]string{"check", dir}, nil, &stdout, &stderr)
	if code != exitUnreadable || strings.Count(stdout.String(), "[unreadable]") != 1 {
		t.Errorf("exit code %d, output\n%s", code, stdout.String())
	}
	if !strings.HasPrefix(stderr.String(), "1 record in 1 file: ") {
		t.Errorf("summary:\n%s", stderr.String())
	}
}

// A folder that cannot be listed, and a file that is none, are told.
func TestNoFolder(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if code := run([]string{"check", "testdata/good.yaml/x.yaml"}, nil, &stdout, &stderr); code != exitUnreadable ||
		!strings.Contains(stdout.String(), "could not be read: not a directory [unreadable]") {
		t.Errorf("exit code %d, output\n%s", code, stdout.String())
	}
}
