package schema

import "slices"

// Without returns a part of b that no box of cut applies to; ok is false when
// there is none. Where b names no variant it means every variant there may be.
func Without(b Box, cut []Box) (left Box, ok bool) {
	axes := axesOf(nil, append([]Box{b}, cut...))
	all, ok := cellOf(b, axes)
	if !ok {
		return Box{}, false
	}
	var first cell
	of := variantsOf(b.Variants, cut)
	for _, v := range of {
		rest := subtract(all, cellsOf(cut, v, axes))
		switch {
		case len(rest) == 0:
		case first == nil:
			first = rest[0]
			left = Box{Variants: []string{v}, Serials: first.ranges(axes)}
		case slices.ContainsFunc(rest, func(c cell) bool { return slices.Equal(c, first) }):
			left.Variants = append(left.Variants, v)
		}
	}
	if len(b.Variants) == 0 && slices.Contains(left.Variants, "") {
		left.Variants = nil // any that cut does not name, and more
	}
	return left, first != nil
}
