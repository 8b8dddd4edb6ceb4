package schema

// Without returns a part of b that no box of cut applies to; ok is false when
// there is none. Where b names no variant it means every variant there may be.
func Without(b Box, cut []Box) (left Box, ok bool) {
	axes := axesOf(nil, append([]Box{b}, cut...))
	cell, ok := cellOf(b, axes)
	if !ok {
		return Box{}, false
	}
	for _, v := range variantsOf(b.Variants, cut) {
		rest := subtract(cell, cellsOf(cut, v, axes))
		if len(rest) == 0 {
			continue
		}
		left = Box{Variants: b.Variants, Serials: rest[0].ranges(axes)}
		if v != "" {
			left.Variants = []string{v}
		}
		return left, true
	}
	return Box{}, false
}
