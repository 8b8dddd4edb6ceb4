package trial

import (
	"math"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// outcome is what became of one planted slip.
type outcome struct {
	caught, rejected bool
	rank             int // of the slip that restores the value: 1 to 3, 0 when none does
	check            string
}

// try plants a slip, judges the record, and takes the slip out again.
func (t *trial) try(s *subject, p plant) outcome {
	s.bench.Set(p.edits)
	defer s.bench.Reset()
	return t.judgePlanted(s, s.bench, p)
}

func (t *trial) judgePlanted(s *subject, b *slip.Bench, p plant) outcome {
	e := s.entry
	e.Record = b.Record
	var found []rule.Finding
	for _, f := range t.judge(&e) {
		if !s.known[keyOf(f)] {
			found = append(found, f)
		}
	}
	for _, f := range t.book.with(s.index, &e) {
		found = joined(e.Record, e.Pointer, found, f)
	}
	var o outcome
	for _, f := range found {
		if !touches(f, s.entry.File, s.entry.Pointer, p.path) {
			continue
		}
		o.caught = true
		o.rejected = o.rejected || f.Verdict == rule.Reject
		if o.check == "" {
			o.check = f.Check
		}
		for i, x := range f.Slips {
			if restores(b, p, x.Reads) && (o.rank == 0 || i+1 < o.rank) {
				o.rank = i + 1
			}
		}
	}
	return o
}

// joined adds a finding of the book to those of a record, as a run does: on one
// figure they are one.
func joined(r *schema.Record, pointer string, found []rule.Finding, f rule.Finding) []rule.Finding {
	for p := range r.Figures() {
		figure := pointer + p.String()
		in := func(at string) bool { return at == figure || strings.HasPrefix(at, figure+"/") }
		if !in(f.Place.Pointer) {
			continue
		}
		for i := range found {
			if in(found[i].Place.Pointer) && found[i].Place.File == f.Place.File {
				verify.Join(&found[i], f)
				return found
			}
		}
	}
	return append(found, f)
}

// touches reports whether the place of a finding or a related place is a figure,
// or a field that it is judged by.
func touches(f rule.Finding, file, record string, path schema.Path) bool {
	near := func(p rule.Place) bool {
		if p.File != file {
			return false
		}
		at, ok := strings.CutPrefix(p.Pointer, record)
		if !ok {
			return false
		}
		first, _ := path.Step(0)
		for _, field := range judgedBy(first) {
			if at == "/"+field || strings.HasPrefix(at, "/"+field+"/") {
				return true
			}
		}
		return false
	}
	if near(f.Place) {
		return true
	}
	for _, r := range f.Related {
		if near(r.Place) {
			return true
		}
	}
	return false
}

// judgedBy lists the members of a record whose figures are judged together.
func judgedBy(field string) []string {
	for _, family := range [][]string{
		{"tighten", "fastener", "joint", "prevailing", "renew", "yield", "class", "thread"},
		{"amounts", "level", "steps", "fluid"},
		{"new", "wear-limit", "rows", "size", "fit", "select", "of"},
	} {
		for _, f := range family {
			if f == field {
				return family
			}
		}
	}
	return []string{field}
}

// restores reports whether a text is what was there, or prints alike.
func restores(b *slip.Bench, p plant, reads string) bool {
	for _, text := range p.was {
		if reads == text {
			return true
		}
		was, problem := b.Parse(p.path, text)
		is, problem2 := b.Parse(p.path, reads)
		if p.value >= 0 && problem == nil && problem2 == nil && alike(was, is) {
			return true
		}
	}
	return false
}

// alike reports two quantities of one unit that are equal to the digits of the
// coarser. The last zero of a whole number may stand for any digit: 169 prints
// as 170.
func alike(a, b convert.Quantity) bool {
	if a.Unit != b.Unit || a.Form != b.Form {
		return false
	}
	lo, hi := a.Bounds()
	lo2, hi2 := b.Bounds()
	wlo, whi := a.Widened()
	wlo2, whi2 := b.Widened()
	half := max(lo-wlo, lo2-wlo2, whi-hi, whi2-hi2)
	near := func(x, y float64, d convert.Decimal) bool {
		slack := half
		if d.Exp == 0 && d.Mant != 0 && d.Mant%10 == 0 {
			const open = 0.01 // of the value
			slack = max(half, min(10*half, open*math.Abs(x)))
		}
		return x == y || math.Abs(x-y) <= slack*(1+1e-9)
	}
	low, high := a.First, a.First
	if a.Form == convert.Range || a.Form == convert.AtMost {
		high = a.Second
	}
	return near(lo, lo2, low) && near(hi, hi2, high)
}
