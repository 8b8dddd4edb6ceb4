package reference

import (
	"fmt"
	"math"
)

// ExternalLimits are the limits of size of an external thread, mm.
type ExternalLimits struct {
	Class              string // 6g, 4g6g, 2A
	MajorMin, MajorMax float64
	PitchMin, PitchMax float64
}

// InternalLimits are the limits of size of an internal thread, mm.
type InternalLimits struct {
	Class              string // 6H, 2B
	MinorMin, MinorMax float64
	PitchMin, PitchMax float64
}

// ThreadLimits are the limits of size of a screw and of the nut or tapped hole
// it goes into. Least material, which strips first, is MajorMin and PitchMin of
// the screw, MinorMax and PitchMax of the nut.
type ThreadLimits struct {
	External ExternalLimits
	Internal InternalLimits
	Source   Citation
}

// Limits works out limits of size: by ISO 965-1 for metric threads, with the
// tables of grade 6 where they hold the pitch and its formulas where they do
// not; by the formulas of ASME B1.1 for unified ones. Classes: 6g, 4g6g, 6h, 8g
// and the like with the deviations e, f, g, h; 6H, 5H6H, 6G; 1A to 3A, 1B to
// 3B. An empty class is the usual one: 6g and 6H, 2A and 2B. An error says
// which class, size or family is not known.
func Limits(t Thread, external, internal string) (ThreadLimits, error) {
	switch {
	case t.Family != Metric && t.Family != Unified:
		return ThreadLimits{}, fmt.Errorf("limits of size are known of metric and unified threads, not of a %s", t.Family)
	case !(t.D > 0) || !(t.Pitch > 0) || t.Pitch >= t.D/2:
		return ThreadLimits{}, fmt.Errorf("limits of size need a diameter and a pitch; “%s” has not both", short(t.Designation))
	}
	var out ThreadLimits
	var err error
	if t.Family == Metric {
		if out.External, err = metricExternal(t, or(external, "6g")); err != nil {
			return ThreadLimits{}, err
		}
		if out.Internal, err = metricInternal(t, or(internal, "6H")); err != nil {
			return ThreadLimits{}, err
		}
		out.Source = Citation{ID: "iso-965-1", Seen: Computed, Text: fmt.Sprintf(
			"ISO 965-1, %s and %s, from its tolerances (most of them from memory) and the profile of ISO 68-1", out.External.Class, out.Internal.Class)}
		return out, nil
	}
	if out.External, err = unifiedExternal(t, or(external, "2A")); err != nil {
		return ThreadLimits{}, err
	}
	if out.Internal, err = unifiedInternal(t, or(internal, "2B")); err != nil {
		return ThreadLimits{}, err
	}
	out.Source = Citation{ID: "asme-b1.1", Seen: Computed, Text: fmt.Sprintf(
		"ASME B1.1, %s and %s, from its formulas (from memory)", out.External.Class, out.Internal.Class)}
	return out, nil
}

func or(s, usual string) string {
	if s == "" {
		return usual
	}
	return s
}

// roundTo rounds to a number of decimals, halves up, as the standards do.
func roundTo(v float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Floor(v*p+0.5+1e-9) / p
}

// The profile of ISO 68-1 and ASME B1.1: what the basic pitch diameter and the
// basic minor diameter of the internal thread are below the major one, in
// pitches: 3/8·√3 and 5/8·√3.
const (
	toPitchDiameter = 0.64951905
	toMinorDiameter = 1.08253175
)
