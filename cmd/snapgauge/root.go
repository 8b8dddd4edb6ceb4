package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// version is that of the program; a release sets it.
const version = "0.1.0"

// Exit codes.
const (
	exitGoes       = 0 // it goes
	exitRejected   = 1 // something is rejected, or queried where that fails
	exitUnreadable = 2 // the program was misused, or something could not be read
)

// Errors that say how a run ended and have been told already.
var (
	errRejected   = errors.New("something is rejected")
	errUnreadable = errors.New("something could not be read")
)

// usageError is an error of flags, after which the usage is shown.
type usageError struct {
	cmd *cobra.Command
	err error
}

func (e *usageError) Error() string { return e.err.Error() }
func (e *usageError) Unwrap() error { return e.err }

// rejectedError refuses to work with something that does not go.
type rejectedError struct{ message string }

func (e *rejectedError) Error() string { return e.message }

// streams are where a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// run runs the program and returns its exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	root := newRoot(streams{stdin, stdout, stderr})
	root.SetArgs(figures(args))
	help := &outcome{w: stdout} // cobra prints help and does not look back
	root.SetOut(help)
	err := root.ExecuteContext(ctx)
	if err == nil {
		err = help.err
	}
	var usage *usageError
	var rejected *rejectedError
	switch {
	case err == nil:
		return exitGoes
	case errors.Is(err, errRejected):
		return exitRejected
	case errors.As(err, &rejected):
		fmt.Fprintf(stderr, "snapgauge: %v\n", err)
		return exitRejected
	case errors.Is(err, errUnreadable):
	case errors.As(err, &usage):
		fmt.Fprintf(stderr, "snapgauge: %v\n\n%s", err, usage.cmd.UsageString())
	default:
		fmt.Fprintf(stderr, "snapgauge: %s\n", strings.TrimSpace(err.Error()))
	}
	return exitUnreadable
}

// figures lets a negative figure be written as it is: of the arguments of
// convert, -5 °C is a figure and no flag. It gets a minus sign in place of the
// hyphen.
func figures(args []string) []string {
	if len(args) == 0 || args[0] != "convert" {
		return args
	}
	out := slices.Clone(args)
	for i, a := range out {
		if len(a) > 1 && a[0] == '-' && strings.ContainsRune("0123456789.,", rune(a[1])) {
			out[i] = "\u2212" + a[1:]
		}
	}
	return out
}

func newRoot(s streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "snapgauge",
		Short: "say which figures of a spec file do not go",
		Long: `Snapgauge goes over spec files (torques, fills, tolerances) before anybody picks
up a wrench, and says which figure does not go, where it stands, why, and what
was most likely meant.

Exit codes: 0 it goes; 1 something is rejected; 2 the program was misused or
something could not be read.`,
		Version:       version,
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.SetVersionTemplate("snapgauge {{.Version}}\n")
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return &usageError{cmd, err} })
	root.AddCommand(newCheck(s), newMerge(s), newConvert(s), newReference(s), newExplain(s), newBand(s), newLevel(s), newTrial(s), newCountersign(s),
		newChanges(s), newRelease(s), newAudit(s), newSheet(s))
	mendHelp(root)
	return root
}

// mendHelp makes help on a command that does not exist an error.
func mendHelp(root *cobra.Command) {
	root.InitDefaultHelpCmd()
	for _, c := range root.Commands() {
		if c.Name() != "help" {
			continue
		}
		show := c.Run
		c.Run = nil
		c.RunE = func(cmd *cobra.Command, args []string) error {
			if _, _, err := root.Find(args); err != nil {
				return err
			}
			show(cmd, args)
			return nil
		}
	}
}

// outcome remembers whether writing failed.
type outcome struct {
	w   io.Writer
	err error
}

func (o *outcome) Write(b []byte) (int, error) {
	n, err := o.w.Write(b)
	if err != nil {
		o.err = err
	}
	return n, err
}

// needs returns a check of the number of arguments that says what is missing.
func needs(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return fmt.Errorf("%s needs %s; see %s --help", cmd.Name(), what, cmd.CommandPath())
		case most >= 0 && len(args) > most:
			return fmt.Errorf("%s takes %s, no more: %q is too much; see %s --help",
				cmd.Name(), what, args[most], cmd.CommandPath())
		}
		return nil
	}
}
