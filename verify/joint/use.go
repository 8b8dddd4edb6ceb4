package joint

import "math"

// Use is what a screw gives when its thread is brought to a share of its yield:
// the preload and the torque for it, as wide as the facts leave them.
type Use struct {
	PreloadN, TorqueNm Span
}

// UseAt works out preload and torque at a share of the minimum yield of the
// class: 0.9 is the use of VDI 2230's tables, 1 is yield. Friction is taken as
// usual for the condition, or as stated. Source: VDI 2230-1, as
// [PreloadAtStressN] and [TorqueNm]. It is an error if the share is not positive
// or above 2.
func UseAt(f Facts, share float64) (Use, error) {
	if !positive(share) || share > 2 {
		return Use{}, ErrRange
	}
	mu := f.frictions()
	lo, hi := mu.usualLo, mu.usualHi
	if f.statesFriction() {
		lo, hi = f.MuLo, f.MuHi
	}
	u := Use{Span{math.Inf(1), 0}, Span{math.Inf(1), 0}}
	for _, t := range f.Threads {
		s := ScrewOf(t)
		if !s.valid() {
			continue
		}
		dLo, dHi, _ := f.bearings(t)
		weak, strong, _ := f.strengths(t)
		u.PreloadN.Lo = min(u.PreloadN.Lo, preloadN(s, weak*share, hi))
		u.PreloadN.Hi = max(u.PreloadN.Hi, preloadN(s, strong*share, lo))
		u.TorqueNm.Lo = min(u.TorqueNm.Lo, torqueAtStressNm(s, dLo, weak*share, lo))
		u.TorqueNm.Hi = max(u.TorqueNm.Hi, torqueAtStressNm(s, dHi, strong*share, hi))
	}
	if !u.PreloadN.rises() || !u.TorqueNm.rises() {
		return Use{}, ErrRange
	}
	return u, nil
}

// rises reports a span of positive, ordered ends.
func (s Span) rises() bool { return positive(s.Lo) && positive(s.Hi) && s.Lo <= s.Hi }
