// Package physics holds the checks of mechanics: whether a thread and a class
// can exist, and whether a torque is one that the screw can bear and that is
// usual for it.
package physics

import (
	"embed"

	"snapgauge/verify/rule"
)

//go:embed *.md
var texts embed.FS

func doc(name string) string { return rule.Doc(texts, name) }
