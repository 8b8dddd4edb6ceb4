package book

import (
	"math"
	"slices"
)

// What the line asks of its siblings, and how far a row may be from it. The
// numbers are set on the published torque tables of the tests.
const (
	leastRows = 6 // a row and five siblings
	leastLike = 4 // a row and three siblings on the same thread

	reach = 3 // so many rows on either side are its neighbours

	// Least factors between a row and its line.
	columnFactor = 1.25 // rows of a table, which say the same but for the size
	jointFactor  = 1.6  // joints of a machine with a class
	openFactor   = 2.0  // joints of whatever class
	likeFactor   = 1.6  // joints on one thread with a class
	endFactor    = 1.25 // times that for the first and the last rows, which have neighbours on one side only

	few     = 40 // above it one row does not move the middle
	spreads = 3  // so many standard deviations of the neighbours, where that is more
)

// expected finds what the neighbours of each row lead to: off is how far it is
// off (a difference of logarithms, 0 where it belongs to those on either side),
// and most how far it may be. The rows are in the order of their size.
func expected(rows []sibling, factor float64) (off, most []float64) {
	off, most = make([]float64, len(rows)), make([]float64, len(rows))
	raw := make([]float64, len(rows))
	for i := range rows {
		below, above := max(0, i-reach), min(len(rows), i+1+reach)
		y := rows[i].ratio()
		left, right := rows[below:i], rows[i+1:above]
		most[i] = math.Log(factor)
		if len(left) < 2 || len(right) < 2 {
			// Too near an end: the rows on both sides as one.
			most[i] += math.Log(endFactor)
			if i < reach {
				right = rows[i+1 : min(len(rows), i+1+2*reach-len(left))]
			} else {
				left = rows[max(0, i-2*reach+len(right)):i]
			}
			off[i] = y - middle(left, right)
			raw[i] = math.Abs(off[i])
			continue
		}
		a, b := y-middle(left, nil), y-middle(right, nil)
		raw[i] = math.Abs(a+b) / 2
		if (a > 0) == (b > 0) {
			off[i] = math.Copysign(min(math.Abs(a), math.Abs(b)), a)
		}
	}
	spread := spreads * 1.4826 * median(raw)
	for i := range rows {
		most[i] = max(most[i], spread) + rows[i].slack
	}
	return off, most
}

// alike is [expected] for joints on one thread: each against the middle of the
// others.
func alike(rows []sibling, factor float64) (off, most []float64) {
	off, most = make([]float64, len(rows)), make([]float64, len(rows))
	raw := make([]float64, len(rows))
	all := middle(rows, nil)
	for i := range rows {
		if len(rows) <= few {
			all = middle(rows[:i], rows[i+1:])
		}
		off[i] = rows[i].ratio() - all
		raw[i] = math.Abs(off[i])
	}
	spread := spreads * 1.4826 * median(raw)
	for i := range rows {
		most[i] = max(math.Log(factor), spread) + rows[i].slack
	}
	return off, most
}

// middle is the median ratio of rows.
func middle(a, b []sibling) float64 {
	x := make([]float64, 0, len(a)+len(b))
	for i := range a {
		x = append(x, a[i].ratio())
	}
	for i := range b {
		x = append(x, b[i].ratio())
	}
	return median(x)
}

// median of values, which it does not change; 0 of none.
func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	x := slices.Sorted(slices.Values(values))
	n := len(x)
	return (x[(n-1)/2] + x[n/2]) / 2
}
