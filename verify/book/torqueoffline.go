package book

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// TorqueOffLine queries a torque that stands out from its siblings: rows of one
// table, or joints of one machine that say the same of their fastener.
var TorqueOffLine = &rule.Check{
	ID: "torque-off-line", Layer: rule.Book, Title: "torque off the line of its siblings",
	Doc: doc("torque-off-line.md"), Source: reference.Cite("shigley"), Since: "v0.1.0",
	Verdict: rule.Query,
	Book:    &rule.BookCheck{Emit: emitSiblings, Judge: judgeSiblings},
}

func judgeSiblings(rows []rule.Row, report func(rule.Finding)) {
	if len(rows) < leastLike {
		return
	}
	siblings := make([]sibling, 0, len(rows))
	columns := map[string][]sibling{}
	for i := range rows {
		if s, ok := decodeSibling(&rows[i]); ok {
			siblings = append(siblings, s)
			columns[s.column] = append(columns[s.column], s)
		}
	}
	var joints []sibling // of no column
	for _, s := range siblings {
		switch column := columns[s.column]; {
		case column == nil: // judged
		case len(column) < leastRows:
			joints = append(joints, s)
		default:
			off, most := expected(column, columnFactor)
			tell(column, "the line of its %d siblings", off, most, report)
			judgePitches(column, off, most, report)
			columns[s.column] = nil
		}
	}
	judgeJoints(joints, report)
}

// judgeJoints looks at joints of one machine: those on one thread against each
// other where there are enough, the rest by the line of all.
func judgeJoints(rows []sibling, report func(rule.Finding)) {
	if len(rows) < leastLike {
		return
	}
	like, line := likeFactor, jointFactor
	if !rows[0].named {
		like, line = openFactor, openFactor
	}
	threads := map[string][]sibling{}
	for _, s := range rows {
		threads[s.thread] = append(threads[s.thread], s)
	}
	for _, s := range rows {
		if same := threads[s.thread]; len(same) >= leastLike {
			off, most := alike(same, like)
			tell(same, "its %d like joints", off, most, report)
			threads[s.thread] = nil
		}
	}
	if len(rows) < leastRows {
		return
	}
	off, most := expected(rows, line)
	for i, s := range rows {
		if threads[s.thread] == nil {
			off[i] = 0 // judged
		}
	}
	tell(rows, "the line of its %d siblings", off, most, report)
}

// tell reports the rows that are further off than may be; others says from how
// many of what.
func tell(rows []sibling, others string, off, most []float64, report func(rule.Finding)) {
	for i := range rows {
		if math.Abs(off[i]) <= most[i] {
			continue
		}
		s := &rows[i]
		want := convert.FromFloat(s.nm/math.Exp(off[i]), s.unit, 2).String()
		side := "above"
		if off[i] < 0 {
			side = "below"
		}
		f := rule.Finding{
			Verdict: rule.Query, Place: s.place, Read: s.read, Want: "about " + want,
			Message: fmt.Sprintf("%s for %s lies %s %s, by which about %s would go; look at the source, or answer why it differs",
				s.read, s.thread, side, fmt.Sprintf(others, len(rows)-1), want),
		}
		f.Related = append(f.Related, beside(rows, i)...)
		report(f)
	}
}

// beside are the nearest siblings on either side of a row.
func beside(rows []sibling, i int) (out []rule.Related) {
	for _, k := range []int{i - 1, i + 1} {
		if k >= 0 && k < len(rows) {
			out = append(out, rule.Related{Place: rows[k].place, Message: fmt.Sprintf("%s for %s", rows[k].read, rows[k].thread)})
		}
	}
	return out
}

// judgePitches looks at the fine and the coarse threads of one size in a column,
// which is sorted by size: a fine one, with the larger stress area, is given no
// less. Of several coarser threads the one that leaves it the furthest behind is
// named.
func judgePitches(rows []sibling, off, most []float64, report func(rule.Finding)) {
	for from := 0; from < len(rows); {
		to := from + 1
		for to < len(rows) && rows[to].d == rows[from].d {
			to++
		}
		var size []*sibling
		for i := from; i < to; i++ {
			if math.Abs(off[i]) <= most[i] {
				size = append(size, &rows[i])
			}
		}
		judgeSize(size, report)
		from = to
	}
}

func judgeSize(size []*sibling, report func(rule.Finding)) {
	slices.SortStableFunc(size, func(a, b *sibling) int { return cmp.Compare(b.p, a.p) }) // coarse first
	least := func(s *sibling) float64 { return math.Log(s.nm) - s.slack }
	var best, next *sibling // of the coarser threads, and with those of this pitch
	for i, fine := range size {
		if i > 0 && fine.p < size[i-1].p {
			best = next
		}
		if next == nil || least(fine) > least(next) {
			next = fine
		}
		if best == nil || least(best) <= math.Log(fine.nm)+fine.slack {
			continue
		}
		report(rule.Finding{
			Verdict: rule.Query, Place: fine.place, Read: fine.read, Want: "no less than " + best.read,
			Message: fmt.Sprintf("%s for the finer thread %s is less than %s for %s; fine threads are given no less, so one of the two is wrong",
				fine.read, fine.thread, best.read, best.thread),
			Related: []rule.Related{{Place: best.place, Message: best.read + " for " + best.thread}},
		})
	}
}
