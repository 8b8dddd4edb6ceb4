package reference

import (
	"math/big"
	"strings"

	"snapgauge/convert"
)

// lookUnit finds a unit under any spelling, in every dimension it is read in.
func lookUnit(term string) []Entry {
	var out []Entry
	tried := make(map[convert.Dimension]bool)
	for u := range convert.Units() {
		d := u.Dimension()
		if tried[d] {
			continue
		}
		tried[d] = true
		found, problem := convert.ReadUnit(term, convert.Of(d))
		if problem == nil {
			if found != 0 && found.Dimension() == d {
				out = append(out, unitEntry(found))
			}
			continue
		}
		// A spelling with several readings (qt) shows them all.
		for _, q := range problem.Readings {
			if q.Unit != 0 && q.Unit.Dimension() == d {
				out = append(out, unitEntry(q.Unit))
			}
		}
	}
	return out
}

func unitEntry(u convert.Unit) Entry {
	e := Entry{Title: u.Symbol(), Source: Cite("nist-sp-811")}
	e.Lines = append(e.Lines, [2]string{"measures", u.Dimension().String()})
	factor, pi := u.Factor()
	if factor != nil {
		text := "1 " + u.Symbol() + " = " + exact(factor) + strings.Repeat("·π", max(pi, 0))
		if pi < 0 {
			text += "/π"
		}
		e.Lines = append(e.Lines, [2]string{"factor", text + " " + u.Dimension().SI().Symbol()})
	}
	if off := u.Offset(); off != nil && off.Sign() != 0 {
		e.Lines = append(e.Lines, [2]string{"absolute zero", exact(new(big.Rat).Neg(off)) + " " + u.Symbol()})
	}
	if code := u.UCUM(); code != "" {
		e.Lines = append(e.Lines, [2]string{"UCUM", code})
	}
	return e
}

// exact prints a rational number in full, as a fraction where its decimals do
// not end.
func exact(r *big.Rat) string {
	if n, ends := r.FloatPrec(); ends && n <= 40 {
		return r.FloatString(n)
	}
	return r.RatString()
}
