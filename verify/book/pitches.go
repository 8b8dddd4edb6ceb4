package book

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"snapgauge/convert"
	"snapgauge/verify/rule"
)

// How far the torque of a fine thread may be from that of the coarse one of its
// size, each over its stress area. In 130 pairs of published tables that say a class
// it is 0.915 to 1.092, of which the greatest is 10 beside 8 lbf·ft.
const (
	pitchFactor = 1.15 // where two or more other sizes of the column stand so
	oneFactor   = 1.25 // where one other size does
	loneFactor  = 1.4  // where there is none
	leastPitch  = 3    // other sizes that make a custom, where no class is given
)

// pitches is a coarse thread with the next finer one of its size in a column.
type pitches struct {
	coarse, fine *sibling
	x            float64 // logarithm of the ratio of the fine torque to the coarse, each over its stress area
	slack        float64
}

// judgePitches looks at the fine and the coarse threads of one size in a column.
// Rows that it speaks of are marked as told: the line, which knows them only by
// their neighbours, says no more of them.
func judgePitches(l *line, report func(rule.Finding)) {
	if l.rows[0].column == "" {
		return // nothing says that they are of one table
	}
	all := pitchesOf(l.rows)
	for i, p := range all {
		x := make([]float64, 0, len(all))
		for k, o := range all {
			if k != i {
				x = append(x, o.x)
			}
		}
		custom := median(x)
		for k := range x {
			x[k] = math.Abs(x[k] - custom)
		}
		most := spreads * 1.4826 * median(x)
		named := p.coarse.named && p.fine.named
		switch n := len(x); {
		case !named && n < leastPitch:
			continue
		case n == 0:
			most = math.Log(loneFactor)
		case n == 1:
			most = math.Log(oneFactor)
		default:
			most = max(most, math.Log(pitchFactor))
		}
		apart := math.Abs(p.x-custom) > most+p.slack && math.Abs(p.x) > math.Log(pitchFactor)+p.slack
		less := len(l.rows) >= leastRows && p.fine.nm*math.Exp(p.fine.slack) < p.coarse.nm*math.Exp(-p.coarse.slack)
		if apart || less && l.belongs(p.fine) && l.belongs(p.coarse) {
			l.oddPitch(p, custom, report)
		}
	}
}

// pitchesOf lists the pairs of a column, which is sorted by size. A thread that
// stands there twice is left out.
func pitchesOf(rows []sibling) (out []pitches) {
	for from := 0; from < len(rows); {
		to := from + 1
		for to < len(rows) && rows[to].d == rows[from].d {
			to++
		}
		var size []*sibling
		for i := from; i < to; i++ {
			same := func(o sibling) bool { return o.p == rows[i].p }
			if !slices.ContainsFunc(rows[from:i], same) && !slices.ContainsFunc(rows[i+1:to], same) {
				size = append(size, &rows[i])
			}
		}
		slices.SortStableFunc(size, func(a, b *sibling) int { return cmp.Compare(b.p, a.p) })
		for i := 1; i < len(size); i++ {
			a, b := size[i-1], size[i]
			out = append(out, pitches{a, b, b.ratio() - a.ratio(), a.slack + b.slack})
		}
		from = to
	}
	return out
}

// oddPitch reports two threads of one size that do not go together, at the one
// that is further from the other sizes.
func (l *line) oddPitch(p pitches, custom float64, report func(rule.Finding)) {
	odd, other, by := p.fine, p.coarse, custom
	if l.further(p.coarse, p.fine) {
		odd, other, by = p.coarse, p.fine, -custom
	}
	if l.told[odd] {
		return
	}
	l.told[odd] = true
	goes := func(s, beside *sibling, by float64) string {
		return convert.FromFloat(beside.nm*s.norm/beside.norm*math.Exp(by), s.unit, 2).String()
	}
	here, there := goes(odd, other, by), goes(other, odd, -by)
	how := fmt.Sprintf("is %.2g times %s for %s, where about %.2g would go by their stress areas",
		p.fine.nm/p.coarse.nm, p.coarse.read, p.coarse.thread, p.fine.norm/p.coarse.norm*math.Exp(custom))
	if p.fine.nm < p.coarse.nm {
		how = fmt.Sprintf("is less than %s for %s, and fine threads are given no less", p.coarse.read, p.coarse.thread)
	}
	report(rule.Finding{
		Verdict: rule.Query, Place: odd.place, Read: odd.read, Want: "about " + here, Also: odd.others(),
		Message: fmt.Sprintf("%s for the finer thread %s %s; one of the two is wrong: about %s would go for %s, or about %s for %s; look at both in the source, or answer why it differs",
			p.fine.read, p.fine.thread, how, here, odd.thread, there, other.thread),
		Related: []rule.Related{{Place: other.place, Message: other.read + " for " + other.thread}},
	})
}

// further reports that of two rows the first is further from the other sizes: from
// those on both sides, else from all.
func (l *line) further(a, b *sibling) bool {
	others := make([]sibling, 0, len(l.rows))
	for i := range l.rows {
		if s := &l.rows[i]; s != a && s != b && s.d != a.d && !l.told[s] {
			others = append(others, *s)
		}
	}
	from := func(s *sibling) (off, raw float64) {
		i := sort.Search(len(others), func(i int) bool { return others[i].d > s.d })
		off, raw = deviate(s.ratio(), others[:i], others[i:])
		return math.Abs(off), raw
	}
	offA, rawA := from(a)
	offB, rawB := from(b)
	return offA > offB || offA == offB && rawA > rawB
}

// belongs reports a row that the line does not speak of.
func (l *line) belongs(s *sibling) bool {
	for i := range l.rows {
		if s == &l.rows[i] {
			return math.Abs(l.off[i]) <= l.most[i]
		}
	}
	return false
}
