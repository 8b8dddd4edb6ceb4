// Package book holds the checks that look at records together: of one file, or
// of one machine in one run.
package book

import (
	"embed"

	"snapgauge/verify/rule"
)

//go:embed *.md
var texts embed.FS

func doc(name string) string { return rule.Doc(texts, name) }
