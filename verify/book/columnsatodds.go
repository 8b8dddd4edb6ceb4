package book

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/rule"
)

// ColumnsAtOdds queries a torque that does not go with those beside it in the
// other columns of its table.
var ColumnsAtOdds = &rule.Check{
	ID: "columns-at-odds", Layer: rule.Book, Title: "torque that does not go with the other columns",
	Doc: doc("columns-at-odds.md"), Source: reference.Cite("shigley"), Since: "v0.1.0",
	Verdict: rule.Query,
	Book:    &rule.BookCheck{Emit: emitCells, Judge: judgeColumns},
}

// What two columns must have in common, and how far a row may leave what the rest
// stand at. The numbers are set on the published torque tables of the tests.
const (
	pairFactor  = 1.07 // rows of two columns that were worked out with one factor
	pairSpread  = 1.2  // a pair that scatters more was not
	mostColumns = 12   // of one table are looked at
	classFactor = 1.15 // by which the stronger screw bears more, where it may not be given less or the same
	mostOrder   = 5    // one pair of classes in so many may stand in the wrong order, for it to be an error
)

// votes of the columns beside it on one cell.
type votes struct {
	asked, against int
	off            float64 // the least of those against
	end            int     // 0 the lower end, 1 the upper
	by             *cell
}

func judgeColumns(rows []rule.Row, report func(rule.Finding)) {
	var names []string
	columns := map[string][]*cell{}
	for i := range rows {
		c, ok := decodeCell(&rows[i])
		if !ok {
			continue
		}
		if columns[c.column] == nil {
			names = append(names, c.column)
		}
		columns[c.column] = append(columns[c.column], &c)
	}
	names = slices.DeleteFunc(names, func(n string) bool { return len(columns[n]) < leastColumn || len(columns[n]) > longest })
	names = names[:min(len(names), mostColumns)]
	told := map[*cell]bool{}
	tell := func(c *cell, f rule.Finding) {
		if !told[c] {
			told[c] = true
			f.Verdict, f.Place, f.Read = rule.Query, c.place, c.read
			report(f)
		}
	}
	said := map[*cell]*votes{}
	for i, a := range names {
		for _, b := range names[:i] {
			votePair(columns[a], columns[b], said)
			judgeClasses(columns[a], columns[b], tell)
		}
	}
	for _, n := range names {
		for _, c := range columns[n] {
			v := said[c]
			if v == nil || v.against == 0 || 3*v.against < 2*v.asked {
				continue
			}
			if w := said[v.by]; w.against > 0 && 3*w.against >= 2*w.asked && odder(columns, v.by, c, w, v) {
				continue // of two columns that are at odds the other row is the odd one
			}
			tell(c, oddCell(c, v))
		}
	}
}

// pairs lists the rows of two columns that are on one thread, in the order of
// size. A thread that stands twice in a column is left out.
func pairs(a, b []*cell) (out [][2]*cell) {
	of := map[string]*cell{}
	twice := map[string]bool{}
	for _, c := range b {
		twice[c.thread] = twice[c.thread] || of[c.thread] != nil
		of[c.thread] = c
	}
	seen := map[string]int{}
	for _, c := range a {
		seen[c.thread]++
	}
	for _, c := range a {
		if o := of[c.thread]; o != nil && !twice[c.thread] && seen[c.thread] == 1 {
			out = append(out, [2]*cell{c, o})
		}
	}
	return out
}

// votePair holds two columns against each other: by the factor between their
// rows, for the lower and the upper end.
func votePair(a, b []*cell, said map[*cell]*votes) {
	both := pairs(a, b)
	if len(both) < leastRows {
		return
	}
	vote := func(c *cell) *votes {
		if said[c] == nil {
			said[c] = &votes{}
		}
		return said[c]
	}
	var ends [2]*line
	for e := range ends {
		rows := make([]sibling, len(both))
		for i, p := range both {
			x := [2]float64{p[0].lo / p[1].lo, p[0].hi / p[1].hi}[e]
			rows[i] = sibling{d: p[0].d, nm: x, norm: p[0].norm / p[1].norm, slack: p[0].slacks[e] + p[1].slacks[e]}
		}
		ends[e] = lineOf(rows, pairFactor, false)
		if ends[e].spread > math.Log(pairSpread) {
			return
		}
	}
	for i, p := range both {
		va, vb := vote(p[0]), vote(p[1])
		va.asked++
		vb.asked++
		for e, l := range ends {
			if math.Abs(l.off[i]) <= l.most[i] {
				continue
			}
			for _, x := range []struct {
				v   *votes
				off float64
				by  *cell
			}{{va, l.off[i], p[1]}, {vb, -l.off[i], p[0]}} {
				if x.v.against == 0 || math.Abs(x.off) < math.Abs(x.v.off) {
					x.v.off, x.v.end, x.v.by = x.off, e, x.by
				}
				x.v.against++
			}
			break
		}
	}
}

// fromLine is how far an end of a cell, changed by a factor that is given as its
// logarithm, is from those of the rows of its own column.
func fromLine(column []*cell, c *cell, end int, by float64) float64 {
	at := func(c *cell) sibling {
		s := c.sibling
		s.nm = [2]float64{c.lo, c.hi}[end]
		return s
	}
	rows := make([]sibling, 0, len(column))
	for _, o := range column {
		if o != c {
			rows = append(rows, at(o))
		}
	}
	i := sort.Search(len(rows), func(i int) bool { return rows[i].d > c.d })
	s := at(c)
	s.nm *= math.Exp(by)
	_, raw := deviate(s.ratio(), rows[:i], rows[i:])
	return raw
}

// odder reports that of two rows, each of which may be the odd one, it is the
// first: because no range is left where the other is changed; else because it comes
// nearer to the rows of its own column when it is changed than the other does, in
// height, where these do not scatter themselves, and in the width of the range.
func odder(columns map[string][]*cell, a, b *cell, va, vb *votes) bool {
	fitsA, fitsB := a.fits(va.end, -va.off), b.fits(vb.end, -vb.off)
	if fitsA != fitsB {
		return fitsA
	}
	nearer := func(c *cell, v *votes) float64 {
		column := columns[c.column]
		x := fromWidth(column, c, v.end, 0) - fromWidth(column, c, v.end, -v.off)
		if scatter(column, v.end) < math.Abs(v.off)/2 {
			x += fromLine(column, c, v.end, 0) - fromLine(column, c, v.end, -v.off)
		}
		return x
	}
	x, y := nearer(a, va), nearer(b, vb)
	if math.Abs(x-y) < 1e-9 {
		return fromLine(columns[a.column], a, va.end, 0) > fromLine(columns[b.column], b, vb.end, 0)
	}
	return x > y
}

// fromWidth is how far the width of a range, one end of which is changed by a
// factor, is from the widths of the rows beside it.
func fromWidth(column []*cell, c *cell, end int, by float64) float64 {
	if c.lo == c.hi {
		return 0
	}
	i := slices.Index(column, c)
	var beside []float64
	for k := max(0, i-reach); k < min(len(column), i+reach+1); k++ {
		if k != i {
			beside = append(beside, math.Log(column[k].hi/column[k].lo))
		}
	}
	if len(beside) == 0 {
		return 0
	}
	lo, hi, _ := c.changed(end, by)
	return math.Abs(math.Log(hi/lo) - median(beside))
}

// scatter is how far the rows of a column are from each other.
func scatter(column []*cell, end int) float64 {
	raw := make([]float64, len(column))
	for i, c := range column {
		raw[i] = fromLine(column, c, end, 0)
	}
	return median(raw)
}

func oddCell(c *cell, v *votes) rule.Finding {
	want, other := c.with(v.end, -v.off), v.by.with(v.end, v.off)
	return rule.Finding{
		Want: "about " + want, Also: c.others(),
		Message: fmt.Sprintf("%s for %s does not stand to the %s of another column as the other rows do, by which about %s would go here, or about %s there; look at both in the source, or answer why it differs",
			c.read, c.thread, v.by.read, want, other),
		Related: []rule.Related{{Place: v.by.place, Message: v.by.read + " for " + v.by.thread}},
	}
}

// changed are the ends of a cell with one of them changed by a factor, given as its
// logarithm; ok where they are still a range.
func (c *cell) changed(end int, by float64) (lo, hi float64, ok bool) {
	ends := [2]float64{c.lo, c.hi}
	ends[end] *= math.Exp(by)
	return ends[0], ends[1], ends[0] < ends[1]
}

// fits reports that one end of a cell may be changed by a factor.
func (c *cell) fits(end int, by float64) bool {
	_, _, ok := c.changed(end, by)
	return ok || c.lo == c.hi
}

// with is the figure of a cell with one end changed by a factor, and the other too
// where that leaves no range.
func (c *cell) with(end int, by float64) string {
	if c.lo == c.hi {
		return convert.FromFloat(c.lo*math.Exp(by), c.unit, 2).String()
	}
	lo, hi, ok := c.changed(end, by)
	if !ok {
		lo, hi = c.lo*math.Exp(by), c.hi*math.Exp(by)
	}
	a, b := convert.FromFloat(lo, c.unit, 3), convert.FromFloat(hi, c.unit, 3)
	if a.First.Cmp(b.First) >= 0 {
		return b.String()
	}
	return a.First.String() + " to " + b.First.String() + " " + c.unit.Symbol()
}

// judgeClasses looks at two columns that differ in the class of the screw only:
// the stronger is given more.
func judgeClasses(a, b []*cell, tell func(*cell, rule.Finding)) {
	if a[0].table != b[0].table || a[0].class == b[0].class {
		return
	}
	var wrong [][2]*cell // stronger first
	n := 0
	for _, p := range pairs(a, b) {
		if p[0].norm < p[1].norm {
			p[0], p[1] = p[1], p[0]
		}
		if !p[0].named || !p[1].named || p[0].norm < classFactor*p[1].norm {
			continue
		}
		n++
		same := p[0].read == p[1].read && p[0].also == p[1].also
		if same || p[0].nm*math.Exp(p[0].slack) < p[1].nm*math.Exp(-p[1].slack) {
			wrong = append(wrong, p)
		}
	}
	if n < leastColumn || len(wrong)*mostOrder > n && len(wrong) > 1 {
		return // it is the custom of this table
	}
	for _, p := range wrong {
		odd, other := p[0], p[1]
		own := func(c *cell) []*cell {
			if c.column == a[0].column {
				return a
			}
			return b
		}
		if fromLine(own(other), other, 0, 0) > fromLine(own(odd), odd, 0, 0) {
			odd, other = other, odd
		}
		how := "less than"
		if p[0].read == p[1].read {
			how = "the same as"
		}
		tell(odd, rule.Finding{
			Message: fmt.Sprintf("%s for %s of class %s is %s %s for the weaker class %s; one of the two is wrong, so look at both in the source, or answer why it differs",
				p[0].read, p[0].thread, p[0].class, how, p[1].read, p[1].class),
			Related: []rule.Related{{Place: other.place, Message: other.read + " for class " + other.class}},
		})
	}
}
