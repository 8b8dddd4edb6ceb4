package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// choice is the value of a flag that takes one of a few words.
type choice struct {
	value string
	of    []string
}

func (c *choice) String() string { return c.value }
func (c *choice) Type() string   { return strings.Join(c.of, "|") }

func (c *choice) Set(s string) error {
	if !slices.Contains(c.of, s) {
		return fmt.Errorf("must be one of %s", strings.Join(c.of, ", "))
	}
	c.value = s
	return nil
}

// choose adds a flag that takes one of a few words. The first is the usual one.
func choose(cmd *cobra.Command, name, usage string, of ...string) *choice {
	c := &choice{value: of[0], of: of}
	cmd.Flags().Var(c, name, usage)
	complete(cmd, name, of)
	return c
}

// complete gives the words that the shell offers for a flag.
func complete(cmd *cobra.Command, name string, words []string) {
	// It fails only for a flag that does not exist or is named twice.
	_ = cmd.RegisterFlagCompletionFunc(name,
		func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return words, cobra.ShellCompDirectiveNoFileComp
		})
}

var _ pflag.Value = (*choice)(nil)
