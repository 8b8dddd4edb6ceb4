package reference

import (
	"fmt"
	"math"
	"strings"
)

// The tolerances of ASME B1.1 below are its formulas, from memory, in inches
// (section 5 and its tables of limits; P in inches). Limits are rounded as its
// tables are: to four decimals, the minor diameter of classes 1B and 2B to
// three from No. 6 up.

// pitchTolerance2A is the tolerance of the pitch diameter of class 2A:
// 0.0015·∛D + 0.0015·√LE + 0.015·∛P². The length of engagement LE is one
// diameter for UNC, UNF and the series 4-UN, 6-UN and 8-UN, nine pitches for
// the others.
func pitchTolerance2A(d, p float64, series string) float64 {
	le := 9 * p
	tpi := 1 / p
	if series == "UNC" || series == "UNF" || series == "UN" && (same(tpi, 4) || same(tpi, 6) || same(tpi, 8)) {
		le = d
	}
	return 0.0015*math.Cbrt(d) + 0.0015*math.Sqrt(le) + 0.015*math.Cbrt(p*p)
}

// The pitch diameter tolerance of a class is that of 2A times this factor.
var unifiedFactor = map[string]float64{"1A": 1.5, "2A": 1, "3A": 0.75, "1B": 1.95, "2B": 1.3, "3B": 0.975}

func unifiedExternal(t Thread, class string) (ExternalLimits, error) {
	class = strings.ToUpper(strings.TrimSpace(class))
	factor, ok := unifiedFactor[class]
	if !ok || !strings.HasSuffix(class, "A") {
		return ExternalLimits{}, fmt.Errorf("“%s” is no class of external unified threads; they are 1A, 2A and 3A", short(class))
	}
	d, p := t.D/inch, t.Pitch/inch
	td2 := pitchTolerance2A(d, p, t.Series)
	allowance, crest := roundTo(0.3*td2, 4), 0.06
	switch class {
	case "1A":
		crest = 0.09
	case "3A":
		allowance = 0
	}
	out := ExternalLimits{Class: class}
	out.MajorMax = (d - allowance) * inch
	out.MajorMin = (d - allowance - roundTo(crest*math.Cbrt(p*p), 4)) * inch
	pitch := roundTo(d-toPitchDiameter*p, 4) - allowance
	out.PitchMax = pitch * inch
	out.PitchMin = (pitch - roundTo(factor*td2, 4)) * inch
	return out, nil
}

func unifiedInternal(t Thread, class string) (InternalLimits, error) {
	class = strings.ToUpper(strings.TrimSpace(class))
	factor, ok := unifiedFactor[class]
	if !ok || !strings.HasSuffix(class, "B") {
		return InternalLimits{}, fmt.Errorf("“%s” is no class of internal unified threads; they are 1B, 2B and 3B", short(class))
	}
	d, p := t.D/inch, t.Pitch/inch
	out := InternalLimits{Class: class}
	minor := roundTo(d-toMinorDiameter*p, 4)
	decimals := 3
	if class == "3B" || d < 0.138 {
		decimals = 4
	}
	out.MinorMin = roundTo(minor, decimals) * inch
	out.MinorMax = roundTo(minor+roundTo(minorTolerance(d, p, class == "3B"), 4), decimals) * inch
	pitch := roundTo(d-toPitchDiameter*p, 4)
	out.PitchMin = pitch * inch
	out.PitchMax = (pitch + roundTo(factor*pitchTolerance2A(d, p, t.Series), 4)) * inch
	return out, nil
}

// minorTolerance is the tolerance of the internal minor diameter.
func minorTolerance(d, p float64, class3 bool) float64 {
	short := min(0.05*math.Cbrt(p*p)+0.03*p/d-0.002, 0.394*p)
	n := 1 / p
	switch {
	case class3 && n > 12.5:
		return max(short, 0.23*p-1.5*p*p)
	case class3:
		return max(short, 0.12*p)
	case d < 0.25-1e-9:
		return max(short, 0.25*p-0.4*p*p)
	case n >= 4-1e-9:
		return 0.25*p - 0.4*p*p
	}
	return 0.15 * p
}
