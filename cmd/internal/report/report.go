// Package report writes findings in the forms that the program offers.
package report

import (
	"fmt"
	"io"

	"snapgauge/verify/rule"
)

// Writer takes findings one by one and writes them as they come.
type Writer interface {
	Finding(rule.Finding) error
	// Close writes what must stand behind the last finding. Readable tells
	// whether every file could be read.
	Close(readable bool) error
}

// Options for [New].
type Options struct {
	Colour  bool          // text: colour the verdicts
	Lines   *Lines        // text: where source lines come from; nil shows none
	Checks  []*rule.Check // sarif: the checks that were run
	Version string        // sarif: of the program
}

// Form is one form of output.
type Form struct {
	Name  string
	Title string
	make  func(io.Writer, Options) Writer
}

// Forms lists the forms of output, the usual one first.
func Forms() []Form {
	return []Form{
		{"text", "for people: place, verdict, message, the line it is about", newText},
		{"json", "for programs: one finding a line", newJSON},
		{"sarif", "SARIF 2.1.0 (OASIS), for tools that show results of checks", newSARIF},
		{"annotations", "W3C Web Annotations, for tools that mark up documents", newAnnotations},
	}
}

// New returns a writer of the named form.
func New(form string, w io.Writer, opt Options) (Writer, error) {
	for _, f := range Forms() {
		if f.Name == form {
			return f.make(w, opt), nil
		}
	}
	return nil, fmt.Errorf("no such form of output: %s", form)
}
