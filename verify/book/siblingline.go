package book

import (
	"math"
	"slices"
	"sort"
)

// What the line asks of its siblings, and how far a row may be from it. The
// numbers are set on the published torque tables of the tests.
const (
	leastRows = 6 // a row and five siblings
	leastLike = 4 // a row and three siblings on the same thread
	leastKin  = 3 // siblings of a row that a check of its record speaks of

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

// line is what the rows of one column, or the joints of one machine, lead to.
type line struct {
	rows   []sibling // in the order of their size
	alike  bool      // all are on one thread: each is held against the middle of the others
	all    float64   // then the middle of all
	factor float64   // least between a row and its line
	spread float64   // what is usual among them, a difference of logarithms
	off    []float64 // how far each row is off; 0 where it belongs to those on either side
	most   []float64 // and how far it may be

	told map[*sibling]bool // rows that a finding stands at
}

func lineOf(rows []sibling, factor float64, alike bool) *line {
	l := &line{rows: rows, alike: alike, factor: factor, off: make([]float64, len(rows)), most: make([]float64, len(rows)), told: map[*sibling]bool{}}
	raw := make([]float64, len(rows))
	if alike {
		l.all = middle(rows, nil)
	}
	for i := range rows {
		switch {
		case !alike:
			l.off[i], raw[i] = deviate(rows[i].ratio(), rows[:i], rows[i+1:])
			continue
		case len(rows) > few:
			l.off[i] = rows[i].ratio() - l.all
		default:
			l.off[i] = rows[i].ratio() - middle(rows[:i], rows[i+1:])
		}
		raw[i] = math.Abs(l.off[i])
	}
	l.spread = spreads * 1.4826 * median(raw)
	for i := range rows {
		l.most[i] = l.may(&rows[i], rows[:i], rows[i+1:])
	}
	return l
}

// stray is how far a row is off that is not one of the line's own, and how far it
// may be.
func (l *line) stray(s *sibling) (off, most float64) {
	i := sort.Search(len(l.rows), func(i int) bool { return l.rows[i].d > s.d })
	below, above := l.rows[:i], l.rows[i:]
	if l.alike {
		off = s.ratio() - l.all
	} else {
		off, _ = deviate(s.ratio(), below, above)
	}
	return off, l.may(s, below, above)
}

// may is how far a row with those below it and above may be off.
func (l *line) may(s *sibling, below, above []sibling) float64 {
	most := math.Log(l.factor)
	if !l.alike && atEnd(below, above) {
		most += math.Log(endFactor)
	}
	return max(most, l.spread) + s.slack
}

// atEnd reports a row that has neighbours on one side only.
func atEnd(below, above []sibling) bool { return len(below) < 2 || len(above) < 2 }

// deviate is how far a ratio is off those of the rows below it and above: raw is
// that from all, off that from both sides.
func deviate(y float64, below, above []sibling) (off, raw float64) {
	left, right := below[max(0, len(below)-reach):], above[:min(len(above), reach)]
	if atEnd(below, above) { // the rows on both sides as one
		if len(below) < reach {
			right = above[:min(len(above), 2*reach-len(left))]
		} else {
			left = below[max(0, len(below)-2*reach+len(right)):]
		}
		off = y - middle(left, right)
		return off, math.Abs(off)
	}
	a, b := y-middle(left, nil), y-middle(right, nil)
	if (a > 0) == (b > 0) {
		off = math.Copysign(min(math.Abs(a), math.Abs(b)), a)
	}
	return off, math.Abs(a+b) / 2
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
