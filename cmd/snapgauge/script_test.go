package main

import (
	"errors"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets this test binary be run as the program itself, by the name
// snapgauge.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"snapgauge": main})
}

// TestScripts runs testdata/script. With SNAPGAUGE_UPDATE=1 it rewrites the
// wanted output.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       os.Getenv("SNAPGAUGE_UPDATE") != "",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
			"write": write,
		},
		Setup: func(env *testscript.Env) error {
			env.Setenv("NO_COLOR", "")
			env.Setenv("TERM", "xterm")
			return nil
		},
	})
}

// exits runs a program and wants an exit code: exits 2 snapgauge check.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM ARG…")
	}
	code := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var failed *exec.ExitError
		if !errors.As(err, &failed) {
			ts.Fatalf("%v", err)
		}
		code = failed.ExitCode()
	}
	if want := args[0]; strconv.Itoa(code) != want {
		ts.Fatalf("exit code %d, want %s\n%s%s", code, want, ts.ReadFile("stdout"), ts.ReadFile("stderr"))
	}
}

// write appends text to a file, as often as asked for: write FILE TEXT [TIMES].
// The text is that of a Go string: "\xff" is a byte.
func write(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: write FILE TEXT [TIMES]")
	}
	text, err := strconv.Unquote(`"` + args[1] + `"`)
	ts.Check(err)
	times := 1
	if len(args) > 2 {
		times, err = strconv.Atoi(args[2])
		ts.Check(err)
	}
	f, err := os.OpenFile(ts.MkAbs(args[0]), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	ts.Check(err)
	_, err = f.WriteString(strings.Repeat(text, times))
	ts.Check(err)
	ts.Check(f.Close())
}
