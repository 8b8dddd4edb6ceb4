package main

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// example is one command of a console block and what it must print.
type example struct {
	line    int
	command string
	want    string
}

// Every console block of the README is run in the root of the repository. A
// line "$ snapgauge …" is a command, what follows is exactly what it prints
// to both outputs; "$ echo $?" prints the exit code of the command before.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks, err := consoleBlocks(string(text))
	if err != nil {
		t.Fatal(err)
	}
	if len(blocks) == 0 {
		t.Error("README.md shows no example")
	}
	for _, block := range blocks {
		t.Run(fmt.Sprint("line ", block[0].line), func(t *testing.T) {
			code := 0
			for _, ex := range block {
				got := ""
				if ex.command == "echo $?" {
					got = fmt.Sprintln(code)
				} else {
					got, code = runExample(t, ex)
				}
				if diff := cmp.Diff(ex.want, got); diff != "" {
					t.Errorf("README.md:%d: $ %s (-want +got):\n%s", ex.line, ex.command, diff)
				}
			}
		})
	}
}

// consoleBlocks finds the examples of a Markdown text, block by block. A block
// begins with three or more backticks and ends with as many, so that output
// which holds a fence of three stands within a fence of four.
func consoleBlocks(text string) ([][]example, error) {
	var blocks [][]example
	fence, n := "", 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSuffix(line, "\n")
		switch {
		case fence == "":
			if before, ok := strings.CutSuffix(line, "console"); ok && strings.HasPrefix(line, "```") && strings.Trim(before, "`") == "" {
				fence = before
				blocks = append(blocks, nil)
			}
		case line == fence:
			if fence = ""; len(blocks[len(blocks)-1]) == 0 {
				return nil, fmt.Errorf("line %d: a console block without a command", n)
			}
		default:
			last := &blocks[len(blocks)-1]
			if command, ok := strings.CutPrefix(line, "$ "); ok {
				*last = append(*last, example{line: n, command: command})
			} else if len(*last) == 0 {
				return nil, fmt.Errorf("line %d: a console block begins with a command: $ …", n)
			} else {
				(*last)[len(*last)-1].want += line + "\n"
			}
		}
	}
	if fence != "" {
		return nil, fmt.Errorf("a console block does not end")
	}
	return blocks, nil
}

// runExample runs a command line in the root of the repository.
func runExample(t *testing.T, ex example) (output string, code int) {
	t.Helper()
	line := ex.command
	if rest, ok := strings.CutPrefix(line, "go run ./cmd/snapgauge "); ok {
		line = "snapgauge " + rest
	}
	if !strings.HasPrefix(line, "snapgauge ") {
		t.Fatalf("README.md:%d: $ %s: only snapgauge is run in a console block; show it in another", ex.line, ex.command)
	}
	cmd := exec.Command("sh", "-c", line)
	cmd.Dir = "../.."
	out, err := cmd.CombinedOutput()
	if cmd.ProcessState == nil {
		t.Fatalf("README.md:%d: $ %s: %v", ex.line, ex.command, err)
	}
	return string(out), cmd.ProcessState.ExitCode()
}

func TestConsoleBlocks(t *testing.T) {
	got, err := consoleBlocks("a\n```sh\n$ no\n```\n```console\n$ snapgauge a\nx\n\ny\n$ snapgauge b\n```\n" +
		"````console\n$ snapgauge c\n```\n````\n")
	if err != nil {
		t.Fatal(err)
	}
	want := [][]example{{{6, "snapgauge a", "x\n\ny\n"}, {10, "snapgauge b", ""}}, {{13, "snapgauge c", "```\n"}}}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(example{})); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	for _, bad := range []string{"```console\nx\n```\n", "```console\n$ a\n", "```console\n```\n"} {
		if _, err := consoleBlocks(bad); err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
}
