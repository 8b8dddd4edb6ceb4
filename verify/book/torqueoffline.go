package book

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

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
	Book:    &rule.BookCheck{Emit: emitSiblings, Judge: judgeSiblings, Least: leastLike},
}

func judgeSiblings(rows []rule.Row, report func(rule.Finding)) {
	if len(rows) < leastLike {
		return
	}
	var joints, doubts []sibling // joints are of no column
	columns := map[string][]sibling{}
	lines := map[string]*line{}
	for i := range rows {
		s, ok := decodeSibling(&rows[i])
		switch {
		case !ok:
		case s.doubt:
			doubts = append(doubts, s)
		default:
			joints = append(joints, s)
			columns[s.column] = append(columns[s.column], s)
		}
	}
	known := map[string]bool{} // columns with a row in doubt
	for _, s := range doubts {
		known[s.column] = true
	}
	for i := range joints {
		column := joints[i].column
		n := len(columns[column])
		if lines[column] != nil || n < leastColumn && (n < leastKin || !known[column]) {
			continue
		}
		l := lineOf(columns[column], columnFactor, false)
		lines[column] = l
		if n >= leastColumn {
			judgePitches(l, report)
		}
		if n >= leastRows {
			tell(l, "the line of its %d siblings", nil, report)
		}
		if n >= leastColumn {
			judgeOrder(l, report)
		}
	}
	joints = slices.DeleteFunc(joints, func(s sibling) bool { return len(columns[s.column]) >= leastRows })
	doubts = slices.DeleteFunc(doubts, func(s sibling) bool {
		l := lines[s.column]
		if l != nil {
			tellDoubt(l, &s, "the line of its %d siblings", report)
		}
		return l != nil
	})
	judgeJoints(joints, doubts, report)
}

// judgeJoints looks at joints of one machine: those on one thread against each
// other where there are enough, the rest by the line of all.
func judgeJoints(rows, doubts []sibling, report func(rule.Finding)) {
	if len(rows) < leastKin {
		return
	}
	like, factor := likeFactor, jointFactor
	if !rows[0].named {
		like, factor = openFactor, openFactor
	}
	threads := map[string][]sibling{}
	for _, s := range rows {
		threads[s.thread] = append(threads[s.thread], s)
	}
	lines := map[string]*line{}
	for thread, same := range threads {
		if len(same) >= leastKin {
			lines[thread] = lineOf(same, like, true)
		}
	}
	judged := map[string]bool{}
	for _, s := range rows {
		if l := lines[s.thread]; l != nil && len(l.rows) >= leastLike && !judged[s.thread] {
			tell(l, "its %d like joints", nil, report)
			judged[s.thread] = true
		}
	}
	var all *line
	if len(rows) >= leastKin {
		all = lineOf(rows, factor, false)
	}
	if len(rows) >= leastRows {
		tell(all, "the line of its %d siblings", judged, report)
	}
	for i := range doubts {
		s := &doubts[i]
		if l := lines[s.thread]; l != nil {
			tellDoubt(l, s, "its %d like joints", report)
		} else if all != nil {
			tellDoubt(all, s, "the line of its %d siblings", report)
		}
	}
}

// tell reports the rows that are further off than may be, but for those on
// threads that are judged; others says from how many of what.
func tell(l *line, others string, judged map[string]bool, report func(rule.Finding)) {
	for i := range l.rows {
		if s := &l.rows[i]; math.Abs(l.off[i]) > l.most[i] && !judged[s.thread] && !l.told[s] {
			say(s, l.off[i], fmt.Sprintf(others, len(l.rows)-1), beside(l.rows[:i], l.rows[i+1:]), report)
		}
	}
}

// tellDoubt reports what a line expects in place of a figure that a check of its
// record speaks of.
func tellDoubt(l *line, s *sibling, others string, report func(rule.Finding)) {
	if off, most := l.stray(s); math.Abs(off) > most {
		i := sort.Search(len(l.rows), func(i int) bool { return l.rows[i].d > s.d })
		say(s, off, fmt.Sprintf(others, len(l.rows)), beside(l.rows[:i], l.rows[i:]), report)
	}
}

// say reports a row that is off what its siblings lead to.
func say(s *sibling, off float64, siblings string, neighbours []rule.Related, report func(rule.Finding)) {
	want := convert.FromFloat(s.nm/math.Exp(off), s.unit, 2).String()
	side := "above"
	if off < 0 {
		side = "below"
	}
	f := rule.Finding{
		Verdict: rule.Query, Place: s.place, Read: s.read, Want: "about " + want,
		Message: fmt.Sprintf("%s for %s lies %s %s, by which about %s would go; look at the source, or answer why it differs",
			s.read, s.thread, side, siblings, want),
		Related: neighbours,
	}
	f.Also = s.others()
	report(f)
}

// others are the values of the figure beside the one that is read.
func (s *sibling) others() []string {
	if s.also == "" {
		return nil
	}
	return strings.Split(s.also, alsoMark)
}

// beside are the nearest of the siblings below a row and above it.
func beside(below, above []sibling) (out []rule.Related) {
	add := func(s *sibling) {
		out = append(out, rule.Related{Place: s.place, Message: fmt.Sprintf("%s for %s", s.read, s.thread)})
	}
	if n := len(below); n > 0 {
		add(&below[n-1])
	}
	if len(above) > 0 {
		add(&above[0])
	}
	return out
}
