package fluid

// Span is what lies between the low and the high mark of a level: the height on
// the dipstick or glass, and the volume that brings the level from one to the
// other. Both are above zero.
type Span struct {
	HeightMM Interval
	VolumeL  Interval
}

// PerLitreMM is how far a litre lifts the level (mm/L) between the marks: the
// height over the volume.
func (s Span) PerLitreMM() (Interval, error) {
	if !s.HeightMM.positive() || !s.VolumeL.positive() {
		return Interval{}, outOfRange("a span of %g to %g mm and %g to %g L", s.HeightMM.Lo, s.HeightMM.Hi, s.VolumeL.Lo, s.VolumeL.Hi)
	}
	return corners(s.HeightMM, s.VolumeL, func(h, v float64) float64 { return h / v })
}

// RiseMM is how far the level rises (mm) as a fill (L) grows by a part of
// itself, as [Growth] gives it, in a sump that is as wide beside the level as it
// is between the marks.
func (s Span) RiseMM(fillL, growth Interval) (Interval, error) {
	per, err := s.PerLitreMM()
	if err != nil {
		return Interval{}, err
	}
	if !fillL.positive() || !growth.Known() {
		return Interval{}, outOfRange("a fill of %g to %g L that grows by %g to %g", fillL.Lo, fillL.Hi, growth.Lo, growth.Hi)
	}
	litres, err := corners(fillL, growth, func(v, g float64) float64 { return v * g })
	if err != nil {
		return Interval{}, err
	}
	return corners(per, litres, func(p, v float64) float64 { return p * v })
}

// DepthMM is how deep a fill (L) would stand (mm) in a sump with straight walls,
// as wide as it is between the marks: the capacity against the level span.
func (s Span) DepthMM(fillL Interval) (Interval, error) {
	return s.RiseMM(fillL, Exactly(1))
}

// AtLowL is what is in the sump (L) when the level stands at the low mark, for a
// fill (L) that reaches the high one. A span that holds more than the whole fill
// is an error.
func (s Span) AtLowL(fillL Interval) (Interval, error) {
	if !s.VolumeL.positive() || !fillL.positive() {
		return Interval{}, outOfRange("%g to %g L between the marks of a fill of %g to %g L", s.VolumeL.Lo, s.VolumeL.Hi, fillL.Lo, fillL.Hi)
	}
	if s.VolumeL.Lo > fillL.Hi {
		return Interval{}, outOfRange("%g L between the marks is more than the fill of %g L", s.VolumeL.Lo, fillL.Hi)
	}
	return Interval{max(0, fillL.Lo-s.VolumeL.Hi), fillL.Hi - s.VolumeL.Lo}, nil
}
