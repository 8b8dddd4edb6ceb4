package edition

import (
	"math"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
)

// Means says what it means that a figure moved: "+50 %", "12 times", "lower end -5 %,
// upper end +10 %", "+5 °C", "half as wide". It is "" where that cannot be said in a few
// words: a word, another dimension, a limit in place of a value.
func Means(was, now *schema.Figure) string {
	a, b, ok := comparable(was, now)
	if !ok {
		return ""
	}
	alo, ahi := a.Bounds()
	blo, bhi := b.Bounds()
	switch {
	case a.Form == convert.Tolerance && b.Form == convert.Tolerance:
		return width(ahi-alo, bhi-blo)
	case a.Form == convert.Tolerance || b.Form == convert.Tolerance || open(alo, ahi) != open(blo, bhi):
		return ""
	}
	change := share
	if b.Unit.Dimension() == convert.Temperature {
		change = func(x, y float64) string { return degrees(x, y, b.Unit) }
	}
	lower, upper := "", ""
	if !math.IsInf(alo, 0) {
		lower = change(alo, blo)
	}
	if !math.IsInf(ahi, 0) {
		upper = change(ahi, bhi)
	}
	same := a.Nominal() == b.Nominal()
	switch {
	case lower == upper || upper == "" && math.IsInf(ahi, 0):
		return lower
	case lower == "" && math.IsInf(alo, 0):
		return upper
	case same && ahi-alo > 0 && bhi-blo > 0:
		return width(ahi-alo, bhi-blo)
	}
	return ends(lower, upper)
}

// ends tells what became of both ends.
func ends(lower, upper string) string {
	var parts []string
	if lower != "" {
		parts = append(parts, "lower end "+lower)
	}
	if upper != "" {
		parts = append(parts, "upper end "+upper)
	}
	return strings.Join(parts, ", ")
}

// open tells which side of a figure is open.
func open(lo, hi float64) [2]bool { return [2]bool{math.IsInf(lo, 0), math.IsInf(hi, 0)} }

// comparable picks a value of each figure: two in one unit that differ, else two that
// differ, else two in one unit.
func comparable(was, now *schema.Figure) (a, b convert.Quantity, ok bool) {
	if was.Word || now.Word {
		return a, b, false
	}
	best := 0
	for i := range now.Values {
		for k := range was.Values {
			x, y := &was.Values[k], &now.Values[i]
			if !x.Read() || !y.Read() || x.Quantity.Unit.Dimension() != y.Quantity.Unit.Dimension() {
				continue
			}
			rank := 1
			if x.Quantity.Unit == y.Quantity.Unit {
				rank++
			}
			if schema.SameFigure(of(x), of(y)) == schema.Moved {
				rank += 2
			}
			if rank > best {
				best, a, b, ok = rank, x.Quantity, y.Quantity, true
			}
		}
	}
	return a, b, ok
}

// of is a figure of one value.
func of(v *convert.Value) *schema.Figure { return &schema.Figure{Values: []convert.Value{*v}} }

// many: from this factor on a change is told as a factor.
const many = 3

// share is the change from one number to another as a share, "" where there is none.
func share(x, y float64) string {
	switch {
	case x == y, x == 0, y == 0, (x < 0) != (y < 0):
		return ""
	}
	ratio := y / x
	switch {
	case ratio >= many:
		return short(ratio) + " times"
	case ratio <= 1.0/many:
		return "1/" + short(1/ratio) + " of it"
	}
	p := (ratio - 1) * 100
	decimals := 0
	if math.Abs(p) < 10 {
		decimals = 1
	}
	text := strconv.FormatFloat(p, 'f', decimals, 64)
	if math.Abs(p) < 0.05 {
		text = "0.05"
		if p < 0 {
			text = "-0.05"
		}
		return sign(text) + " % or less"
	}
	return sign(strings.TrimSuffix(text, ".0")) + " %"
}

func sign(s string) string {
	if strings.HasPrefix(s, "-") {
		return "−" + s[1:]
	}
	return "+" + s
}

// short is a number in three digits.
func short(x float64) string {
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// degrees is the change of a temperature.
func degrees(x, y float64, u convert.Unit) string {
	if x == y {
		return ""
	}
	d := u.FromSI(y) - u.FromSI(x)
	return sign(strconv.FormatFloat(math.Round(d*10)/10, 'f', -1, 64)) + " " + u.Symbol()
}

// width is the change of the width of a tolerance.
func width(x, y float64) string {
	switch {
	case !(x > 0) || !(y > 0) || x == y:
		return ""
	case y > x:
		return short(y/x) + " times as wide"
	}
	return "1/" + short(x/y) + " as wide"
}
