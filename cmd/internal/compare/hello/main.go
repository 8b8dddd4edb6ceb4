// Hello is the least that a program of cobra is, to hold our start against.
package main

import (
	"os"

	"github.com/spf13/cobra"
)

func main() {
	root := &cobra.Command{Use: "hello", Version: "0", Run: func(*cobra.Command, []string) {}}
	if root.Execute() != nil {
		os.Exit(1)
	}
}
