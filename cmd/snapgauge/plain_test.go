package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestPlain: what is found does not depend on whether sound records went through
// the validator.
func TestPlain(t *testing.T) {
	book := writeBook(t, 300, 0.1)
	for _, args := range [][]string{
		{"--format", "json", "../../specs/demo"},
		{"--format", "json", "../../specs/faulty"},
		{"--format", "text", "../../specs/faulty"},
		{"--format", "sarif", "../../specs/corpus/misprints"},
		{"--format", "json", book},
	} {
		outcome := func(more ...string) []string {
			var stdout, stderr bytes.Buffer
			code := run(append(append([]string{"check"}, more...), args...), strings.NewReader(""), &stdout, &stderr)
			return []string{string(rune('0' + code)), stdout.String(), stderr.String()}
		}
		quick, plain := outcome(), outcome("--plain")
		if d := cmp.Diff(plain, quick); d != "" {
			t.Errorf("%v: (-plain +quick)\n%s", args, d)
		}
		if strings.Count(quick[1], "\n") < 5 && args[2] != "../../specs/demo" {
			t.Errorf("%v: hardly a finding, so that nothing is shown:\n%s", args, quick[1])
		}
	}
}
