package trial

import (
	"slices"

	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// book holds what the untouched records tell the checks of the book, so that
// only the groups of a planted record are judged again.
type book struct {
	checks []*rule.Check // of the book
	groups map[group]*bookGroup
	own    map[int][]rule.Row // rows of a record
	seq    uint64
}

type group struct {
	check int
	name  string
}

type bookGroup struct {
	rows   []memberRow
	known  map[findingKey]bool
	judged []rule.Finding
}

type memberRow struct {
	record int
	row    rule.Row
}

func newBook(checks []*rule.Check) *book {
	b := &book{groups: map[group]*bookGroup{}, own: map[int][]rule.Row{}}
	for _, c := range checks {
		if c.Book != nil {
			b.checks = append(b.checks, c)
		}
	}
	return b
}

// emit collects the rows of one entry.
func (b *book) emit(e *schema.Entry) []rule.Row {
	var out []rule.Row
	for i, c := range b.checks {
		p := rule.NewPass(c, e, func(rule.Finding) {})
		c.Book.Emit(p, func(r rule.Row) {
			r.Check = i
			out = append(out, r)
		})
	}
	return out
}

func (b *book) add(record int, e *schema.Entry) {
	rows := b.emit(e)
	for i := range rows {
		rows[i].Seq = b.seq
		b.seq++
		g := group{rows[i].Check, rows[i].Group}
		if b.groups[g] == nil {
			b.groups[g] = &bookGroup{}
		}
		b.groups[g].rows = append(b.groups[g].rows, memberRow{record, rows[i]})
	}
	if record >= 0 {
		b.own[record] = rows
	}
}

// judge judges every group of the untouched book.
func (b *book) judge() {
	for g, x := range b.groups {
		x.known = map[findingKey]bool{}
		x.judged = b.judgeRows(g.check, x.rows)
		for _, f := range x.judged {
			x.known[keyOf(f)] = true
		}
	}
}

func (b *book) judgeRows(check int, members []memberRow) []rule.Finding {
	rows := make([]rule.Row, len(members))
	for i, m := range members {
		rows[i] = m.row
	}
	slices.SortFunc(rows, rule.CompareRows)
	c := b.checks[check]
	var out []rule.Finding
	if len(rows) > 0 {
		c.Book.Judge(rows, func(f rule.Finding) {
			if f.Check == "" {
				f.Check = c.ID
			}
			if f.Verdict > rule.Note {
				out = append(out, f)
			}
		})
	}
	return out
}

// worst is the most severe that the untouched book says of a record and that is
// not answered.
func (b *book) worst(record int, answered func(rule.Finding) bool) rule.Verdict {
	worst := rule.Note
	for _, own := range b.own[record] {
		for _, f := range b.groups[group{own.Check, own.Group}].judged {
			if f.Place.File == own.Place.File && f.Place.Record == own.Place.Record && !answered(f) {
				worst = max(worst, f.Verdict)
			}
		}
	}
	return worst
}

// with judges the groups again whose rows are others when a record reads as the
// entry, and gives what is new.
func (b *book) with(record int, e *schema.Entry) []rule.Finding {
	if len(b.checks) == 0 {
		return nil
	}
	now, was := b.emit(e), b.own[record]
	if len(now) == len(was) {
		same := true
		for i := range now {
			now[i].Seq = was[i].Seq
			same = same && now[i] == was[i]
		}
		if same {
			return nil
		}
	}
	changed := map[group]bool{}
	var order []group
	mark := func(rows, others []rule.Row) {
		for _, r := range rows {
			g := group{r.Check, r.Group}
			if !slices.Contains(others, r) && !changed[g] {
				changed[g] = true
				order = append(order, g)
			}
		}
	}
	mark(now, was)
	mark(was, now)
	var out []rule.Finding
	for _, g := range order {
		var members []memberRow
		known := map[findingKey]bool{}
		if x := b.groups[g]; x != nil {
			known = x.known
			for _, m := range x.rows {
				if m.record != record {
					members = append(members, m)
				}
			}
		}
		for _, r := range now {
			if r.Check == g.check && r.Group == g.name {
				members = append(members, memberRow{record, r})
			}
		}
		for _, f := range b.judgeRows(g.check, members) {
			if !known[keyOf(f)] {
				verify.ExplainSibling(&f)
				out = append(out, f)
			}
		}
	}
	return out
}
