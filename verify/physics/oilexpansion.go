package physics

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/fluid"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

const (
	// expansionMargin is the factor that a level may rise more or less than the fill
	// grows: a sump is not as wide everywhere, oil drains into it or hangs back as it
	// warms, and coefficients printed for motor oils reach 1.6 times Table 54D.
	expansionMargin = 2.5

	// leastServiceShare of the whole fill runs out at a drain: 30 to 60 % in an
	// automatic transmission (common practice, no source).
	leastServiceShare = 0.3
)

// OilExpansion queries a level table that rises much more or less than the fill
// grows.
var OilExpansion = &rule.Check{
	ID: "oil-expansion", Layer: rule.Physics, Title: "a level that does not rise as the oil grows",
	Doc: doc("oil-expansion.md"), Source: reference.Cite("astm-d1250"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  oilExpansion,
}

// levelRow is a point of a level table with both its levels.
type levelRow struct {
	at, low, high measure.Reading
	cold, warm    float64 // the temperature, as its digits allow, °C
}

func (r levelRow) side(high bool) measure.Reading {
	if high {
		return r.high
	}
	return r.low
}

func oilExpansion(p *rule.Pass) {
	r := p.Record
	if r == nil || r.Level.By == "plug" || r.Level.BetweenMarks.IsZero() {
		return
	}
	alpha, ok := lubricant(r.Fluid)
	between, okBetween := measure.Read(&r.Level.BetweenMarks, schema.At("level", "between-marks"), convert.Volume)
	fill, amount, okFill := wholeFill(r)
	rows := levelRows(r)
	if !ok || !okBetween || !between.Closed() || !okFill || len(rows) < 2 {
		return
	}
	lo, hi := between.Widened()
	span := fluid.Span{HeightMM: heights(rows), VolumeL: fluid.Interval{Lo: 1000 * lo, Hi: 1000 * hi}}
	for k := 1; k < len(rows); k++ {
		cold, warm := rows[k-1], rows[k]
		growth, err := fluid.Growth(alpha, fluid.Interval{Lo: cold.cold, Hi: cold.warm}, fluid.Interval{Lo: warm.cold, Hi: warm.warm})
		if err != nil {
			continue
		}
		want, err := span.RiseMM(fill, growth)
		if err != nil || want.Hi <= 0 {
			continue
		}
		odd := [2]bool{wrongRise(cold, warm, false, want), wrongRise(cold, warm, true, want)}
		if odd[0] || odd[1] {
			tellRise(p, cold, warm, odd, want, between, amount)
			return
		}
	}
}

// wrongRise reports that one side rises by much more or less than wanted, whatever
// the rounding.
func wrongRise(cold, warm levelRow, high bool, want fluid.Interval) bool {
	rise := risen(cold.side(high), warm.side(high))
	return rise.Lo > max(want.Hi, 0)*expansionMargin || rise.Hi < want.Lo/expansionMargin
}

// risen is how far a level rises between two points (mm), as the digits allow.
func risen(cold, warm measure.Reading) fluid.Interval {
	coldLo, coldHi := cold.Widened()
	warmLo, warmHi := warm.Widened()
	return fluid.Interval{Lo: 1000 * (warmLo - coldHi), Hi: 1000 * (warmHi - coldLo)}
}

func tellRise(p *rule.Pass, cold, warm levelRow, odd [2]bool, want fluid.Interval, between, amount measure.Reading) {
	high := !odd[0]
	rise := risen(cold.side(high), warm.side(high))
	side := map[bool]string{false: "low", true: "high"}[high]
	f := rule.Finding{
		Verdict: rule.Query, At: warm.side(high).At, Read: warm.side(high).Text,
		Message: fmt.Sprintf("%s rises by %s from %s to %s, but a fill of %s grows by about %s there, with %s between the marks",
			side, roundMM(rise.Mid()), cold.at.Text, warm.at.Text, amount.Text, roundMM(want.Mid()), between.Text),
	}
	if odd[0] && odd[1] {
		// Both sides: what they are judged by is as likely wrong.
		f.At, f.Read = between.At, between.Text
		f.Message = strings.Replace(f.Message, "low rises", "the level rises", 1)
		f.Related = append(f.Related, rule.Related{At: warm.low.At, Message: "low stands here"}, rule.Related{At: warm.high.At, Message: "and high"})
	} else {
		f.Related = append(f.Related, rule.Related{At: between.At, Message: fmt.Sprintf("%s between the marks", between.Text)})
	}
	f.Related = append(f.Related,
		rule.Related{At: cold.side(high).At, Message: fmt.Sprintf("%s at %s is here", side, cold.at.Text)},
		rule.Related{At: cold.at.At, Message: "the colder temperature"},
		rule.Related{At: warm.at.At, Message: "the warmer temperature"},
		rule.Related{At: amount.At, Message: fmt.Sprintf("the fill of %s", amount.Text)},
	)
	p.Report(f)
}

// roundMM prints a length to the millimetre, a short one to a tenth.
func roundMM(mm float64) string {
	digits := 0
	if math.Abs(mm) < 9.95 {
		digits = 1
	}
	return strings.TrimSuffix(strconv.FormatFloat(mm, 'f', digits, 64), ".0") + " mm"
}

// lubricant is the span of the coefficient of a fill that is surely an oil.
func lubricant(f schema.Fluid) (fluid.Interval, bool) {
	if known, ok := reference.FluidByGrade(f.Grade); ok {
		return fluid.LubricantAlpha15(), known.Lubricant
	}
	name := " " + strings.ToLower(f.Name+" "+f.Grade) + " "
	for _, word := range []string{" oil ", " atf ", " transmission fluid "} {
		if strings.Contains(name, word) {
			return fluid.LubricantAlpha15(), true
		}
	}
	return fluid.None, false
}

// wholeFill is the span of what may be in the machine (L), from its greatest
// amount, and that amount. Where only service amounts are given, the whole may be
// more.
func wholeFill(r *schema.Record) (fill fluid.Interval, greatest measure.Reading, ok bool) {
	whole := false
	for i := range r.Amounts {
		a := &r.Amounts[i]
		v, read := measure.Read(&a.Volume, schema.At("amounts", i, "volume"), convert.Volume)
		if !read || !v.Closed() || a.When == "top up" {
			continue
		}
		whole = whole || a.When == "dry fill" || a.When == "after overhaul"
		if !ok || v.Nominal() > greatest.Nominal() {
			greatest, ok = v, true
		}
	}
	if !ok {
		return fill, greatest, false
	}
	lo, hi := greatest.Widened()
	if !whole {
		hi /= leastServiceShare
	}
	return fluid.Interval{Lo: 1000 * lo, Hi: 1000 * hi}, greatest, lo > 0
}

// levelRows are the points that have both levels as lengths, the coldest first.
func levelRows(r *schema.Record) []levelRow {
	var rows []levelRow
	for i := range r.Level.Points {
		pt, path := &r.Level.Points[i], schema.At("level", "points", i)
		var row levelRow
		var ok [3]bool
		row.at, ok[0] = measure.Read(&pt.At, path.Field("at"), convert.Temperature)
		row.low, ok[1] = measure.Read(&pt.Low, path.Field("low"), convert.Length)
		row.high, ok[2] = measure.Read(&pt.High, path.Field("high"), convert.Length)
		if ok != [3]bool{true, true, true} || !row.at.Closed() || !row.low.Closed() || !row.high.Closed() {
			continue
		}
		row.cold, row.warm = row.at.Widened()
		row.cold, row.warm = row.cold-273.15, row.warm-273.15
		rows = append(rows, row)
	}
	slices.SortStableFunc(rows, func(a, b levelRow) int { return cmp.Compare(a.at.Nominal(), b.at.Nominal()) })
	return rows
}

// heights is the span of the distances between low and high (mm).
func heights(rows []levelRow) fluid.Interval {
	var out fluid.Interval
	for i, r := range rows {
		h := risen(r.low, r.high)
		if i == 0 {
			out = h
		}
		out.Lo, out.Hi = min(out.Lo, h.Lo), max(out.Hi, h.Hi)
	}
	return out
}
