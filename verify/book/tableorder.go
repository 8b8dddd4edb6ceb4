package book

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"snapgauge/verify/rule"
)

// What rows of one column must leave between them before their order is looked
// at. The numbers are set on the published torque tables of the tests.
const (
	leastColumn = 4    // rows, three of them of other sizes
	longest     = 300  // no table has a longer column
	orderFactor = 1.15 // by which the larger screw bears more, where it may not be given less
	sameFactor  = 1.3  // where it may not be given the same
	mixedFactor = 1.6  // a column that scatters more is of two kinds of screws
)

// judgeOrder looks at the rows of a column that its line does not speak of: a
// larger screw is given no less than a smaller one, and, where it bears clearly
// more, not exactly the same.
func judgeOrder(l *line, report func(rule.Finding)) {
	var rows []*sibling
	sizes := map[float64]bool{}
	if l.rows[0].column == "" || len(l.rows) > longest || len(l.rows) >= leastRows && l.spread > math.Log(mixedFactor) {
		return // nothing says that they are of one table, or two are mixed
	}
	for i := range l.rows {
		if !l.told[&l.rows[i]] && (len(l.rows) < leastRows || math.Abs(l.off[i]) <= l.most[i]) {
			rows = append(rows, &l.rows[i])
			sizes[l.rows[i].d] = true
		}
	}
	if len(rows) < leastColumn || len(sizes) < leastColumn-1 {
		return
	}
	slices.SortStableFunc(rows, func(a, b *sibling) int { return cmp.Compare(a.norm, b.norm) })
	twins := grouped(rows)
	var top *sibling // of the smaller screws the one given most
	for i, s := range rows {
		if top != nil && s.d > top.d && s.norm > orderFactor*top.norm && sameSeries(top, s) && s.nm*math.Exp(s.slack) < top.nm*math.Exp(-top.slack) {
			oddOf(rows, top, s, fmt.Sprintf("%s for %s is less than %s for the smaller %s", s.read, s.thread, top.read, top.thread), report)
		}
		if i > 0 && twins == 1 && twin(rows[i-1], s) {
			oddOf(rows, rows[i-1], s, fmt.Sprintf("%s for %s is exactly what stands at the smaller %s", s.figures(), s.thread, rows[i-1].thread), report)
		}
		if top == nil || s.nm*math.Exp(-s.slack) > top.nm*math.Exp(-top.slack) {
			top = s
		}
	}
}

// sameSeries reports two coarse threads, or two fine ones: at one stress a coarse
// screw may be given less than a smaller fine one. The pitches of a series go
// nearly with the diameter to the power of 0.75.
func sameSeries(a, b *sibling) bool {
	x := b.p / a.p * math.Pow(a.d/b.d, 0.75)
	return x > 0.8 && x < 1.25
}

// twin reports the figures of one row that stand at a much larger size too.
func twin(a, b *sibling) bool {
	return b.d > a.d && b.norm > sameFactor*a.norm && a.read == b.read && a.also == b.also
}

// grouped counts the sizes that share their figures with the one before: a
// column in which that is the custom gives sizes in groups.
func grouped(rows []*sibling) (n int) {
	for i := 1; i < len(rows); i++ {
		if rows[i].d > rows[i-1].d && rows[i].nm == rows[i-1].nm {
			n++
		}
	}
	return n
}

// oddOf reports two rows of which one must be wrong, at the one that is further
// from the others; these must lie on a line.
func oddOf(rows []*sibling, a, b *sibling, message string, report func(rule.Finding)) {
	var others []sibling
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, s := range rows {
		if s != a && s != b {
			others = append(others, *s)
			lo, hi = min(lo, s.ratio()), max(hi, s.ratio())
		}
	}
	if len(rows) < leastRows && hi-lo > math.Log(mixedFactor) {
		return
	}
	slices.SortStableFunc(others, func(a, b sibling) int { return cmp.Compare(a.d, b.d) })
	off := func(s *sibling) float64 {
		i, _ := slices.BinarySearchFunc(others, s.d, func(x sibling, d float64) int { return cmp.Compare(x.d, d) })
		_, raw := deviate(s.ratio(), others[:i], others[i:])
		return raw
	}
	odd, other := b, a
	if off(a) > off(b) {
		odd, other = a, b
	}
	report(rule.Finding{
		Verdict: rule.Query, Place: odd.place, Read: odd.read,
		Message: message + "; one of the two is wrong, so look at both in the source, or answer why it differs",
		Related: []rule.Related{{Place: other.place, Message: other.read + " for " + other.thread}},
	})
}

// figures are all values of a row as authored.
func (s *sibling) figures() string {
	out := s.read
	for _, x := range s.others() {
		out += ", " + x
	}
	return out
}
