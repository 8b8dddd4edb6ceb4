//go:build linux

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
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

// TestClosedOutput: findings that go nowhere are not lost without a word. What
// is thrown away on purpose by a shell or a program is.
func TestClosedOutput(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	// The test binary is the program when it is called by its name.
	program := filepath.Join(t.TempDir(), "snapgauge")
	if err := os.Symlink(self, program); err != nil {
		t.Skip(err)
	}
	const sentence = "standard output is closed"
	for _, c := range []struct {
		command string
		says    bool
		code    int
	}{
		{`"$1" check none.yaml >&-`, true, exitUnreadable},
		{`"$1" explain unreadable >&-`, true, exitGoes},
		{`"$1" check testdata/good.yaml >&-`, false, exitGoes}, // nothing to print
		{`"$1" check none.yaml >/dev/null`, false, exitUnreadable},
		{`"$1" check none.yaml >&2`, false, exitUnreadable},
	} {
		var stderr bytes.Buffer
		cmd := exec.Command(sh, "-c", c.command, "sh", program)
		cmd.Stderr = &stderr
		err := cmd.Run()
		if code := cmd.ProcessState.ExitCode(); code != c.code {
			t.Errorf("%s: exit code %d (%v), want %d", c.command, code, err, c.code)
		}
		if says := strings.Contains(stderr.String(), sentence); says != c.says {
			t.Errorf("%s: says that the output is closed: %v, want %v\n%s", c.command, says, c.says, stderr.String())
		}
	}
}
