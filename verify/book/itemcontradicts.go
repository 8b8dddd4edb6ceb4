package book

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// ItemContradicts flags two records of one item that apply to one machine and
// give it different figures.
var ItemContradicts = &rule.Check{
	ID: "item-contradicts", Layer: rule.Book, Title: "two records give one machine different figures",
	Doc: doc("item-contradicts.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Book: &rule.BookCheck{
		Least: 2,
		Emit: func(p *rule.Pass, emit func(rule.Row)) {
			if p.Record == nil || p.Entry.Lost || p.Record.ID == "" {
				return
			}
			c := claimOf(p)
			row := rule.Row{
				Group: machineAnd(p, p.Record.ItemName()), Payload: c.encode(),
				Place: rule.Place{File: p.Entry.File, Pointer: p.Entry.Pointer, Record: p.Record.ID},
			}
			if len(c.Facts) == 0 {
				row.Place.Span = p.Place(schema.Spot{Path: schema.At("id")}).Span
			}
			emit(row)
		},
		Judge: judgeClaims,
	},
}

// mostRelated bounds how many records one finding names beside its own.
const mostRelated = 8

func judgeClaims(rows []rule.Row, report func(rule.Finding)) {
	if len(rows) < 2 {
		return
	}
	item := &item{}
	for i := range rows {
		if c, ok := decodeClaim(&rows[i]); ok {
			item.claims = append(item.claims, c)
		}
	}
	for later, met := range item.meetings() {
		item.tell(later, met, report)
	}
}

// item holds the records of one item.
type item struct {
	claims []*claim
	over   map[int][]int // the records that replace one, directly or in a chain
	class  []int         // equal where two records say the same in the same words
	made   map[[2]int]contrast
}

// meeting is an earlier record that differs from a later one on some machine,
// or says the very same.
type meeting struct {
	other int
	what  contrast
	on    schema.Box
}

// meetings finds for each record the earlier ones that it contradicts, and one
// that says the very same.
func (it *item) meetings() [][]meeting {
	met := make([][]meeting, len(it.claims))
	it.replaced()
	it.classes()
	twin := make([]int, len(it.claims)) // how often one was looked for
	for _, list := range it.stretches() {
		sweep(list, it.class, func(a, b int) next {
			i, k := min(a, b), max(a, b)
			alike := it.class[i] == it.class[k]
			switch {
			case len(met[k]) >= mostRelated && k == b:
				return nextStretch
			case len(met[k]) >= mostRelated:
				return nextRecord
			case alike && (twin[k] > mostRelated || len(it.claims[i].Facts) == 0), !alike && it.contrast(i, k).how == same:
				return nextClass
			case it.claims[i].sameID(it.claims[k]), slices.ContainsFunc(met[k], func(m meeting) bool { return m.other == i }):
				return nextRecord
			}
			what := it.contrast(i, k)
			on, ok := it.inForce(i, k)
			if alike {
				twin[k]++
			}
			if !ok {
				return nextRecord
			}
			if alike {
				twin[k] = mostRelated + 1
			}
			if what.how == apart && (it.leadsOut(i) || it.leadsOut(k)) {
				what.how = near // another item may stand in the chain
			}
			met[k] = append(met[k], meeting{i, what, on})
			return nextRecord
		})
	}
	return met
}

// classes numbers the records by what they say.
func (it *item) classes() {
	it.made = map[[2]int]contrast{}
	numbers := map[string]int{}
	for _, c := range it.claims {
		s := c.signature()
		n, known := numbers[s]
		if !known {
			n = len(numbers)
			numbers[s] = n
		}
		it.class = append(it.class, n)
	}
}

// contrast compares two records, once for each pair of classes.
func (it *item) contrast(i, k int) contrast {
	of := [2]int{it.class[i], it.class[k]}
	if of[0] == of[1] {
		return contrast{}
	}
	c, ok := it.made[of]
	if !ok {
		c = compare(it.claims[i], it.claims[k])
		if len(it.made) < 1<<20 {
			it.made[of] = c
		}
	}
	return c
}

// stretch is a box on the numbering that most boxes use.
type stretch struct {
	r  schema.SerialRange
	of int
}

// stretches are the boxes of all records, for each variant apart: of those that
// name one, and of all others.
func (it *item) stretches() map[string][]stretch {
	uses, axis := map[string]int{}, ""
	variants := map[string][]stretch{"": nil}
	for _, c := range it.claims {
		for _, b := range c.Boxes {
			for _, s := range b.Serials {
				if uses[s.Name]++; uses[s.Name] > uses[axis] {
					axis = s.Name
				}
			}
			for _, v := range b.Variants {
				variants[v] = nil
			}
		}
	}
	for i, c := range it.claims {
		if c.Unclear {
			continue
		}
		for _, b := range c.Boxes {
			x := stretch{of: i}
			for _, s := range b.Serials {
				if s.Name == axis {
					x.r = s
				}
			}
			for v := range variants {
				if len(b.Variants) == 0 || slices.Contains(b.Variants, v) {
					variants[v] = append(variants[v], x)
				}
			}
		}
	}
	return variants
}

// next says how a sweep goes on.
type next uint8

const (
	nextRecord  next = iota
	nextClass        // no more of the class of a
	nextStretch      // no more for b
)

// sweep goes along a numbering and calls visit for the records a and b of two
// stretches that meet, b the one that is reached, class by class.
func sweep(list []stretch, class []int, visit func(a, b int) next) {
	slices.SortStableFunc(list, func(a, b stretch) int {
		if !a.r.HasFrom || !b.r.HasFrom {
			return cmp.Compare(hasFrom(a.r), hasFrom(b.r))
		}
		return cmp.Compare(a.r.From, b.r.From)
	})
	active := map[int][]stretch{}
	var order []int // of the classes
	for _, x := range list {
		how := nextRecord
		for _, n := range order {
			active[n] = slices.DeleteFunc(active[n], func(a stretch) bool { return a.r.HasTo && x.r.HasFrom && a.r.To < x.r.From })
			how = nextRecord
			for _, a := range active[n] {
				if a.of == x.of {
					continue
				}
				if how = visit(a.of, x.of); how != nextRecord {
					break
				}
			}
			if how == nextStretch {
				break
			}
		}
		n := class[x.of]
		if _, known := active[n]; !known {
			order = append(order, n)
		}
		active[n] = append(active[n], x)
	}
}

func hasFrom(r schema.SerialRange) int {
	if r.HasFrom {
		return 1
	}
	return 0
}

// inForce returns a machine, or several, that both records apply to where
// neither has been replaced.
func (it *item) inForce(i, k int) (on schema.Box, ok bool) {
	a, b := it.claims[i], it.claims[k]
	var cut []schema.Box
	for _, over := range append(slices.Clone(it.over[i]), it.over[k]...) {
		if it.claims[over].Unclear {
			return schema.Box{}, false // it may replace one of them there
		}
		cut = append(cut, it.claims[over].Boxes...)
	}
	for _, x := range a.Boxes {
		for _, y := range b.Boxes {
			both, ok := schema.Intersect(x, y)
			if !ok || !comparable(x, y) {
				continue
			}
			if left, ok := schema.Without(both, cut); ok {
				return left, true
			}
		}
	}
	return schema.Box{}, false
}

// comparable reports that no numbering is of numbers in one box and of dates in
// the other.
func comparable(x, y schema.Box) bool {
	for _, r := range x.Serials {
		for _, s := range y.Serials {
			if r.Name == s.Name && r.Form != s.Form {
				return false
			}
		}
	}
	return true
}

// replaced finds for each record those that replace it.
func (it *item) replaced() {
	it.over = map[int][]int{}
	named := map[string][]int{}
	for i, c := range it.claims {
		named[c.ID] = append(named[c.ID], i)
	}
	for i, c := range it.claims {
		seen := map[string]bool{}
		for old := c.Supersedes; old != "" && !seen[old]; {
			seen[old] = true
			next := ""
			for _, k := range named[old] {
				if k != i {
					it.over[k] = append(it.over[k], i)
				}
				next = it.claims[k].Supersedes
			}
			old = next
		}
	}
}

// leadsOut reports that a record replaces one that is not of the item.
func (it *item) leadsOut(i int) bool {
	old := it.claims[i].Supersedes
	return old != "" && !slices.ContainsFunc(it.claims, func(c *claim) bool { return c.ID == old })
}

// sameID reports two records that bear one id and no item: it is the id that is
// wrong, and another check speaks of it.
func (c *claim) sameID(d *claim) bool { return c.ID == d.ID && !c.Named && !d.Named }

// signature is equal where two claims say the same in the same words.
func (c *claim) signature() string {
	var b strings.Builder
	b.WriteString(c.Kind + fieldMark + c.Steps)
	if c.None {
		b.WriteString(fieldMark + "none")
	}
	if c.Comma {
		b.WriteString(fieldMark + ",")
	}
	for i := range c.Facts {
		f := &c.Facts[i]
		b.WriteString(fieldMark + f.Key + fieldMark + strings.Join(f.Texts, fieldMark))
	}
	return b.String()
}

// tell reports what a record contradicts, in one finding of the gravest kind.
func (it *item) tell(later int, met []meeting, report func(rule.Finding)) {
	if len(met) == 0 {
		return
	}
	slices.SortStableFunc(met, func(a, b meeting) int {
		return cmp.Or(cmp.Compare(b.what.how, a.what.how), cmp.Compare(a.other, b.other))
	})
	worst := met[0]
	a, b := it.claims[worst.other], it.claims[later]
	if worst.what.how == same {
		report(rule.Finding{
			Verdict: rule.Note, Place: b.at(0), Read: b.text(0),
			Message: fmt.Sprintf("%s gives the same figures for the same machine: %s; one record would do", a.ID, worst.on),
			Related: []rule.Related{{Place: a.at(0), Message: "the same of " + a.ID}},
		})
		return
	}
	mine, other, here, there := worst.what.b, worst.what.a, b, a
	if !b.exact() && a.exact() {
		mine, other, here, there = other, mine, a, b
	}
	f := rule.Finding{Verdict: rule.Query, Place: here.at(mine), Read: here.text(mine), Want: there.text(other)}
	switch {
	case worst.what.about != "":
		f.Want = ""
		f.Message = fmt.Sprintf("%s and %s apply to the same machine (%s) and %s; part what they apply to, or say which supersedes the other",
			here.ID, there.ID, worst.on, worst.what.about)
	case worst.what.how == near:
		f.Message = fmt.Sprintf("%s here, and %s in %s, for the same machine: %s; both may be right, so say which supersedes the other, or answer why they differ",
			f.Read, f.Want, there.ID, worst.on)
	default:
		f.Verdict = rule.Reject
		f.Message = fmt.Sprintf("%s here, and %s in %s, for the same machine: %s; part what they apply to, or say which supersedes the other",
			f.Read, f.Want, there.ID, worst.on)
	}
	f.Related = append(f.Related, rule.Related{Place: there.at(other), Message: fmt.Sprintf("%s of %s", there.text(other), there.ID)})
	for _, m := range met[1:] {
		if m.what.how != same {
			o := it.claims[m.other]
			f.Related = append(f.Related, rule.Related{Place: o.at(m.what.a), Message: fmt.Sprintf("%s of %s too, for %s", o.text(m.what.a), o.ID, m.on)})
		}
	}
	report(f)
}
