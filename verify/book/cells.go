package book

import (
	"math"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// cell is one torque of a table with several columns.
type cell struct {
	sibling
	table  string // what is said of its column but for the class
	class  string
	lo, hi float64 // ends, N·m
	slacks [2]float64
}

// emitCells emits the final torque of each fastener, grouped by the document that
// it stands in.
func emitCells(p *rule.Pass, emit func(rule.Row)) {
	r := p.Record
	if r == nil || p.Entry.Lost || r.Kind != schema.KindTorque {
		return
	}
	for k := range r.Tighten {
		fastener, ok := fastenerOf(r, k)
		if !ok {
			continue
		}
		figure, at := &r.Tighten[k].To, schema.At("tighten", k, "to")
		v, n, ok := figure.First()
		if !ok || disagree(figure) || answeredFor(r, at) {
			continue
		}
		w := joint.WordsOf(r, fastener)
		known, ok := joint.Known(w)
		if !ok {
			continue
		}
		s, ok := siblingOf(known, v)
		if !ok {
			continue
		}
		s.also = alsoOf(figure, n)
		c := cell{sibling: s, class: strings.ToLower(strings.TrimSpace(w.Class))}
		c.lo, c.hi = v.Quantity.Bounds()
		switch v.Quantity.Form {
		case convert.AtMost:
			c.lo = c.hi
		case convert.AtLeast:
			c.hi = c.lo
		}
		lo, hi, ok := joint.Ends(v)
		where := columnOf(r.Where, w.Thread)
		if !ok || c.lo <= 0 || lo <= 0 || !v.Quantity.Ordered() || where == "" {
			continue
		}
		c.slacks = [2]float64{max(0, math.Log(c.lo/lo)), max(0, math.Log(hi/c.hi))}
		condition := conditionOf(r, &w, &v.Quantity)
		c.column = where + fieldMark + c.class + fieldMark + condition
		c.table = strings.TrimSpace(strings.ReplaceAll(where, c.class, "")) + fieldMark + condition
		source, _ := p.Head.SourceOf(r.Source)
		emit(rule.Row{
			Group:   strings.Join([]string{p.Head.Machine.ID, source.Title, source.Edition, r.Source.Ref, w.Type}, fieldMark),
			Order:   strconv.Itoa(firstOrder + int(math.Round(s.d*1000))),
			Place:   p.Place(rule.NumberAt(figure, at, n)),
			Payload: c.encode(),
		})
	}
}

// cellMark parts the members of a cell; a column has marks of its own.
const cellMark = "\x1d"

func (c *cell) encode() string {
	b := make([]byte, 0, 320)
	for _, text := range []string{c.column, c.table, c.class} {
		b = append(append(b, text...), cellMark...)
	}
	for _, x := range []float64{c.lo, c.hi, c.slacks[0], c.slacks[1]} {
		b = append(strconv.AppendFloat(b, x, 'g', -1, 64), cellMark...)
	}
	s := c.sibling
	s.column = ""
	return string(b) + s.encode()
}

func decodeCell(row *rule.Row) (c cell, ok bool) {
	parts := strings.SplitN(row.Payload, cellMark, 8)
	if len(parts) != 8 {
		return cell{}, false
	}
	if c.sibling, ok = decodeSibling(&rule.Row{Place: row.Place, Payload: parts[7]}); !ok {
		return cell{}, false
	}
	c.column, c.table, c.class = parts[0], parts[1], parts[2]
	for i, to := range []*float64{&c.lo, &c.hi, &c.slacks[0], &c.slacks[1]} {
		x, err := strconv.ParseFloat(parts[3+i], 64)
		if err != nil {
			return cell{}, false
		}
		*to = x
	}
	return c, true
}
