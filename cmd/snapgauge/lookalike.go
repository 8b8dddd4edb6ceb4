package main

import (
	"fmt"
	"regexp"
	"strings"
)

var (
	oilGrade = regexp.MustCompile(`(?i)^(?:sae )?(\d{1,3}) ?w ?[-–/]? ?(\d{2,3})$`)
	ratio    = regexp.MustCompile(`\d ?: ?\d`)
)

// noFigure refuses what could be read as a figure with a unit and is none.
func noFigure(text string) error {
	text = strings.Join(strings.Fields(text), " ")
	if m := oilGrade.FindStringSubmatch(text); m != nil {
		return fmt.Errorf("%q looks like a grade of oil, not a figure; see snapgauge reference %sW-%s", text, m[1], m[2])
	}
	if ratio.MatchString(text) {
		return fmt.Errorf("%q is a ratio; it has no unit, and none to convert to", text)
	}
	return nil
}
