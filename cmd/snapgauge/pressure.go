package main

import (
	"fmt"
	"regexp"
	"strings"

	"snapgauge/convert"
)

// pressure is what a pressure is measured from.
type pressure string

const (
	noKind   pressure = "" // not said
	gauge    pressure = "gauge"
	absolute pressure = "absolute"
)

// kindSpelt matches a unit of pressure with what it is measured from. The
// technical atmosphere has letters of its own: ata, and atü or atg.
var kindSpelt = regexp.MustCompile(`(?i)^(?:psi|m?bar|[khm]?pa|at)[ .-]*(?:(g|gauge|gage|\(g\)|ü|\(ü\))|(a|abs|absolute|\(a\)|\(abs\)))\.?$`)

// pressureKind tells by the spelling of a unit what it is measured from.
func pressureKind(spelling string) pressure {
	m := kindSpelt.FindStringSubmatch(strings.TrimSpace(spelling))
	switch {
	case m == nil:
		return noKind
	case m[1] != "":
		return gauge
	}
	return absolute
}

// of puts the kind behind the unit that ends a figure.
func (p pressure) of(figure string) string {
	if p == noKind {
		return figure
	}
	return figure + " " + string(p)
}

// otherKind refuses to convert from gauge to absolute or back, and tells how.
func otherKind(opt convertOptions, from, to pressure, unit convert.Unit) error {
	act := "add"
	if from == absolute {
		act = "take off"
	}
	about := ""
	if air, p := convert.Parse("101.3 kPa", convert.Of(convert.Pressure), convert.Point); p == nil {
		if c, err := air.To(unit, false); err == nil {
			about = fmt.Sprintf(" (about %s at sea level)", c.Quantity)
		}
	}
	return fmt.Errorf("%q is %s and %q %s: the air pressure of the day lies between them; convert it to %s %s, then %s what the barometer shows%s",
		opt.figure, from, opt.unit, to, from, unit.Symbol(), act, about)
}
