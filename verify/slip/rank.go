package slip

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"snapgauge/convert"
)

// makesWay is how likely another kind of slip must be, beside a third restoration
// of one kind, to be shown in its stead.
const makesWay = 0.3

// shown are the best of those found, at most three, and the score below which no
// other can come among them. What a check would ask about is offered only where
// nothing else is. A kind with many restorations leaves a place for
// what is little less likely and of another kind.
func shown(found map[string]Restored) (out []Restored, enough float64) {
	all := make([]Restored, 0, len(found))
	for _, r := range found {
		all = append(all, r)
	}
	slices.SortFunc(all, rank)
	if len(all) == 0 {
		return all, 0
	}
	least := all[0].Score * leastOf
	all = slices.DeleteFunc(all, func(r Restored) bool { return r.Score < least || r.queried && !all[0].queried })
	if !all[0].queried {
		enough = least
	}
	if len(all) < most {
		return all, enough
	}
	last := all[most-1]
	if last.queried {
		return all[:most], enough
	}
	enough = last.Score
	if last.Kind == all[0].Kind && last.Kind == all[1].Kind {
		enough *= makesWay
		other := slices.IndexFunc(all, func(r Restored) bool { return r.Kind != last.Kind && r.Score >= enough })
		if other > 0 {
			all[most-1] = all[other]
		}
	}
	return all[:most], enough
}

// rounded is a score to an eighth of a power of two.
func rounded(score float64) float64 { return math.Exp2(math.Round(math.Log2(score)*8) / 8) }

// rank puts first what nothing is asked about, then orders by falling score, then
// in a fixed order.
func rank(a, b Restored) int {
	asked := func(r Restored) int {
		if r.queried {
			return 1
		}
		return 0
	}
	return cmp.Or(
		cmp.Compare(asked(a), asked(b)),
		cmp.Compare(b.Score, a.Score),
		cmp.Compare(slices.Index(kinds, a.Kind), slices.Index(kinds, b.Kind)),
		cmp.Compare(len(a.Reads), len(b.Reads)),
		strings.Compare(a.Reads, b.Reads),
	)
}

// key is equal for candidates that lead to the same figure.
func (c *Candidate) key(b *Bench) string {
	var k strings.Builder
	for _, e := range c.Edits {
		k.WriteString(e.Path.String())
		if f := b.Figure(e.Path); f != nil && e.Value >= 0 {
			k.WriteByte(byte('0' + e.Value))
			if q, p := b.parse(e.Text, f.Want); p == nil {
				k.WriteString(Canonical(q))
				continue
			}
		}
		k.WriteString(e.Text)
	}
	return k.String()
}

// Canonical is equal for quantities that print alike but for trailing zeros.
func Canonical(q convert.Quantity) string {
	for _, d := range []*convert.Decimal{&q.First, &q.Second, &q.Plus, &q.Minus} {
		for d.Den <= 1 && d.Mant != 0 && d.Mant%10 == 0 {
			d.Mant /= 10
			d.Exp++
		}
		if d.Mant == 0 {
			*d = convert.Decimal{}
		}
	}
	if q.Form == convert.Deviation && q.Plus == q.Minus && q.Plus == (convert.Decimal{}) {
		q.Form = convert.Single
	}
	q.FirstAt, q.SecondAt, q.UnitAt = convert.Place{}, convert.Place{}, convert.Place{}
	// Exponents are written as such, so that 1300 and 1.3e3 are one.
	d := func(x convert.Decimal) string {
		s, _ := x.Rat().Float64()
		return " " + strings.TrimSuffix(formatFloat(s), ".0")
	}
	return string(rune('a'+q.Form)) + d(q.First) + d(q.Second) + d(q.Plus) + d(q.Minus) + " " + q.Unit.Symbol()
}
