package schema

import (
	"fmt"
	"regexp/syntax"
	"strings"
)

// runsOf writes a pattern as runs of classes, where it is no more than that.
func runsOf(text string) string {
	re, err := syntax.Parse(text, syntax.Perl)
	if err != nil || re.Op != syntax.OpConcat {
		return ""
	}
	parts := re.Sub
	if n := len(parts); n < 3 || parts[0].Op != syntax.OpBeginText || parts[n-1].Op != syntax.OpEndText {
		return ""
	}
	var runs []run
	for _, p := range parts[1 : len(parts)-1] {
		r, ok := runsIn(p)
		if !ok {
			return ""
		}
		runs = append(runs, r...)
	}
	var b strings.Builder
	b.WriteString(", runs: []run{")
	for i, r := range runs {
		if i+1 < len(runs) && r.min != r.max {
			if next := runs[i+1]; next.min == 0 || r.class[0]&next.class[0]|r.class[1]&next.class[1] != 0 {
				return ""
			}
		}
		fmt.Fprintf(&b, "{[2]uint64{%#x, %#x}, %d, %d},", r.class[0], r.class[1], r.min, r.max)
	}
	return b.String() + "}"
}

func runsIn(p *syntax.Regexp) (runs []run, ok bool) {
	if p.Flags&syntax.FoldCase != 0 {
		return nil, false
	}
	class := func(from, to rune) (c [2]uint64) {
		for r := from; r <= to; r++ {
			c[r>>6] |= 1 << (r & 63)
		}
		return c
	}
	switch p.Op {
	case syntax.OpLiteral:
		for _, r := range p.Rune {
			if r > 127 {
				return nil, false
			}
			runs = append(runs, run{class(r, r), 1, 1})
		}
		return runs, true
	case syntax.OpCharClass:
		r := run{min: 1, max: 1}
		for i := 0; i < len(p.Rune); i += 2 {
			if p.Rune[i+1] > 127 {
				return nil, false
			}
			c := class(p.Rune[i], p.Rune[i+1])
			r.class[0] |= c[0]
			r.class[1] |= c[1]
		}
		return []run{r}, true
	case syntax.OpStar, syntax.OpPlus:
		r, ok := runsIn(p.Sub[0])
		if !ok || len(r) != 1 || r[0].min != 1 || r[0].max != 1 {
			return nil, false
		}
		r[0].min, r[0].max = 0, -1
		if p.Op == syntax.OpPlus {
			r[0].min = 1
		}
		return r, true
	}
	return nil, false
}
