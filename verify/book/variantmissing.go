package book

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// VariantMissing flags an item of which some variant has no record, and notes
// the stretches of serial numbers that none applies to.
var VariantMissing = &rule.Check{
	ID: "variant-missing", Layer: rule.Book, Title: "variant without a record of an item",
	Doc: doc("variant-missing.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Query,
	Book:    &rule.BookCheck{Emit: emitReach, Judge: judgeReach},
}

// extent is what a record applies to, and what its head declares.
type extent struct {
	Unclear  bool
	Boxes    []schema.Box
	Variants []string
	Serials  []schema.Serial
}

// emitReach emits a row for every record. One that applies everywhere has no
// payload, and no place.
func emitReach(p *rule.Pass, emit func(rule.Row)) {
	r := p.Record
	if r == nil || r.ID == "" && r.Item == "" {
		return
	}
	row := rule.Row{Group: machineAnd(p, r.ItemName())}
	if p.Entry.Lost || len(r.Applies) > 0 {
		x := extent{Unclear: p.Entry.Lost, Variants: p.Head.Variants, Serials: p.Head.Serials}
		if !p.Entry.Lost {
			x.Boxes, x.Unclear = boxesOf(p)
			x.Unclear = x.Unclear || p.Head.Broken
			row.Place = p.Place(schema.Spot{Path: schema.At("applies")})
		}
		row.Payload = x.encode()
	}
	emit(row)
}

func (x *extent) encode() string {
	w := payload{}
	w.flags(x.Unclear)
	w.boxes(x.Boxes)
	w.texts(x.Variants)
	w.int(int64(len(x.Serials)))
	for _, s := range x.Serials {
		w.text(s.Name)
		w.text(s.Form)
	}
	return string(w.b)
}

func decodeExtent(text string) (x extent, ok bool) {
	r := payloadReader{rest: text}
	r.flags(&x.Unclear)
	x.Boxes, x.Variants = r.boxes(), r.texts()
	for range r.count() {
		x.Serials = append(x.Serials, schema.Serial{Name: r.text(), Form: r.text()})
	}
	return x, !r.bad
}

func judgeReach(rows []rule.Row, report func(rule.Finding)) {
	h := &schema.Head{}
	var boxes []schema.Box
	for i := range rows {
		x, ok := decodeExtent(rows[i].Payload)
		if !ok || x.Unclear {
			return // it applies to all, or to what cannot be told
		}
		boxes = append(boxes, x.Boxes...)
		for _, v := range x.Variants {
			if !slices.Contains(h.Variants, v) {
				h.Variants = append(h.Variants, v)
			}
		}
		for _, s := range x.Serials {
			if _, known := h.SerialForm(s.Name); !known {
				h.Serials = append(h.Serials, s)
			}
		}
	}
	if len(h.Variants) == 0 && slices.ContainsFunc(boxes, func(b schema.Box) bool { return len(b.Variants) > 0 }) {
		return // which variants there are is not known
	}
	var missing []string
	var gaps []string
	for _, gap := range schema.Uncovered(h, boxes) {
		switch {
		case len(gap.Serials) == 0:
			missing = append(missing, gap.Variants...)
		case slices.ContainsFunc(gap.Serials, func(s schema.SerialRange) bool { return undeclared(h, s) }):
		case slices.ContainsFunc(gap.Serials, beyondAll):
		default:
			gaps = append(gaps, gap.String())
		}
	}
	first := rows[0].Place
	_, item, _ := strings.Cut(rows[0].Group, fieldMark)
	if len(missing) > 0 {
		var has []string
		for _, v := range h.Variants {
			if !slices.Contains(missing, v) {
				has = append(has, v)
			}
		}
		f := rule.Finding{
			Verdict: rule.Query, Place: first, Want: "a record for " + join(missing, "and"),
			Read:    fmt.Sprintf("for %s, not for %s", join(has, "and"), join(missing, "and")),
			Message: fmt.Sprintf("%s is told for variant %s and not for %s; add the record, or answer why there is none", item, join(has, "and"), join(missing, "and")),
		}
		if len(has) == 0 {
			f.Read = "for none of " + join(missing, "and")
			f.Message = fmt.Sprintf("%s is told for none of the variants %s; put what it applies to right", item, join(missing, "and"))
		}
		f.Related = others(rows)
		report(f)
	}
	if len(gaps) > 0 {
		report(rule.Finding{
			Verdict: rule.Note, Place: first, Read: strings.Join(foremost(gaps), "; "),
			Message: fmt.Sprintf("no record of %s applies to %s", item, strings.Join(foremost(gaps), "; nor to ")),
			Related: others(rows),
		})
	}
}

// undeclared reports a numbering that no head declares: on a line of NDJSON it
// may be anything.
func undeclared(h *schema.Head, s schema.SerialRange) bool {
	_, known := h.SerialForm(s.Name)
	return !known
}

// beyondAll reports a stretch above a number of nines alone, which in print
// stands for the end of a numbering. Common practice, no source.
func beyondAll(s schema.SerialRange) bool {
	return s.Form != schema.FormDate && s.HasFrom && !s.HasTo && s.From > 9 &&
		strings.Trim(strconv.FormatInt(s.From-1, 10), "9") == ""
}

// others are the further records of the item.
func others(rows []rule.Row) (related []rule.Related) {
	for _, row := range rows[1:min(len(rows), 1+mostRelated)] {
		related = append(related, rule.Related{Place: row.Place, Message: "another record of the item"})
	}
	return related
}

// foremost are the first of a list, and how many there are more.
func foremost(list []string) []string {
	if len(list) > 4 {
		return append(slices.Clone(list[:4]), fmt.Sprintf("%d stretches more", len(list)-4))
	}
	return list
}

// join puts words in a row as in speech.
func join(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}
