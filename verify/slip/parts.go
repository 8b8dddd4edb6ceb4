package slip

import (
	"strings"

	"snapgauge/convert"
)

// parts are the numbers and the unit of a figure's text, in bytes.
type parts struct {
	numbers []convert.Place // without their signs; none where there are fractions
	unit    convert.Place
	// fraction are the whole number, the numerator and the denominator, where one
	// is printed with a bar.
	fraction []convert.Place
}

// partsOf takes a value apart, also one that could not be read.
func partsOf(v *convert.Value) parts {
	p := parts{unit: convert.Place{Start: len(v.Text), End: len(v.Text)}}
	switch {
	case v.Quantity.UnitAt.End > 0:
		p.unit = v.Quantity.UnitAt
	case v.Problem != nil && unitTrouble(v.Problem.Kind) && v.Problem.At.End <= len(v.Text) && v.Problem.At.Start < v.Problem.At.End:
		p.unit = v.Problem.At
	default:
		p.unit.Start = lastDigit(v.Text)
		for p.unit.Start < len(v.Text) && v.Text[p.unit.Start] == ' ' {
			p.unit.Start++
		}
	}
	if fractionIn(v.Text[:p.unit.Start]) || strings.ContainsAny(v.Text, "½¼¾⅛⅜⅝⅞") {
		for i := 0; i < p.unit.Start; i++ {
			from := i
			for i < p.unit.Start && digit(v.Text[i]) {
				i++
			}
			if i > from {
				p.fraction = append(p.fraction, convert.Place{Start: from, End: i})
			}
		}
		return p
	}
	for i := 0; i < len(v.Text); {
		if i >= p.unit.Start && i < p.unit.End {
			i = p.unit.End
			continue
		}
		if !numeral(v.Text[i]) {
			i++
			continue
		}
		from := i
		for i < len(v.Text) && numeral(v.Text[i]) && (i < p.unit.Start || i >= p.unit.End) {
			i++
		}
		to := i
		for to > from && !digit(v.Text[to-1]) {
			to--
		}
		if len(digits(v.Text[from:to])) > 0 {
			p.numbers = append(p.numbers, convert.Place{Start: from, End: to})
		}
	}
	return p
}

// fractionIn reports a fraction bar: a slash between digits, and not the one
// between two deviations, +10/-0.
func fractionIn(s string) bool {
	for i := 1; i < len(s); i++ {
		if s[i] == '/' && i+1 < len(s) && digit(s[i-1]) && digit(s[i+1]) {
			return true
		}
	}
	return strings.ContainsAny(s, "⁄∕")
}

func unitTrouble(k convert.Kind) bool {
	switch k {
	case convert.UnknownUnit, convert.CutShort, convert.WrongForm, convert.WrongDimension:
		return true
	}
	return false
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

func numeral(c byte) bool { return digit(c) || c == '.' || c == ',' }

// lastDigit is the end of the last run of digits.
func lastDigit(s string) int {
	for i := len(s); i > 0; i-- {
		if digit(s[i-1]) {
			return i
		}
	}
	return 0
}

// with puts another text at a place.
func with(text string, at convert.Place, s string) string { return text[:at.Start] + s + text[at.End:] }

// withAll puts other texts at several places, given from left to right.
func withAll(text string, at []convert.Place, s []string) string {
	for i := len(at) - 1; i >= 0; i-- {
		text = with(text, at[i], s[i])
	}
	return text
}
