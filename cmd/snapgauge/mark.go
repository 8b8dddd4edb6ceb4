package main

import (
	"github.com/spf13/cobra"

	"snapgauge/convert"
)

// commaFlag lets the comma be the decimal mark of the figures of a command.
func commaFlag(cmd *cobra.Command, comma *bool) {
	cmd.Flags().BoolVar(comma, "comma", false, "the comma is the decimal mark: 6,5 is six and a half")
}

// decimalMark is the mark that figures are read with.
func decimalMark(comma bool) convert.Mark {
	if comma {
		return convert.Comma
	}
	return convert.Point
}
