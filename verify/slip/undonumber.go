package slip

import (
	"strconv"
	"strings"

	"snapgauge/convert"
)

func formatFloat(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// pointShare is how likely a decimal point moves by so many places: judgement,
// no source; of the nine slips of the point counted in print seven are by one
// place, two by three.
var pointShare = map[int]float64{-4: 0.02, -3: 0.05, -2: 0.05, -1: 0.38, 1: 0.38, 2: 0.05, 3: 0.05, 4: 0.02}

const farthestPoint = 4

func points(s string, mark byte) []variant {
	var out []variant
	for k := -farthestPoint; k <= farthestPoint; k++ {
		share, ok := pointShare[k]
		if !ok {
			continue
		}
		// 250 was 25.0, or 25.
		x := shifted(s, k, mark)
		if paddedWithZero(s, mark) && len(digits(x)) != len(digits(s)) {
			continue // 045 was 0.45, but not 4.5
		}
		out = append(out, variant{x, share * pointed(s, x, mark)})
		if t := trimmed(x, mark); t != x {
			out = append(out, variant{t, share * pointed(s, t, mark)})
		}
	}
	return out
}

// pointed is lower where there was no point to be lost or moved: a point or a
// zero is added less often. Judgement, no source.
func pointed(now, was string, mark byte) float64 {
	switch {
	case strings.IndexByte(was, mark) >= 0:
		return 1
	case strings.IndexByte(now, mark) >= 0:
		return 0.5
	}
	return 0.3
}

func undoPoint(u *undoing) {
	u.numbers(func(s string) []variant { return points(s, u.mark) })
	if len(u.parts.numbers) < 2 {
		return
	}
	for k := -farthestPoint; k <= farthestPoint; k++ { // in both ends alike
		if k == 0 {
			continue
		}
		var all []string
		for _, at := range u.parts.numbers {
			s := u.v.Text[at.Start:at.End]
			if !isNumber(s, u.mark) {
				return
			}
			all = append(all, shifted(s, k, u.mark))
		}
		u.add(withAll(u.v.Text, u.parts.numbers, all), pointShare[k]/2)
	}
}

// undoLeadingPoint gives whole numbers the point that a scan loses before them:
// 50 in for .50 in.
func undoLeadingPoint(u *undoing) {
	weight := 1.0
	if !u.f.Want.Has(convert.Length) {
		weight = 0.05 // all that were counted are lengths
	}
	for zeros, share := range []float64{0.7, 0.2, 0.1} { // 50 for .50, 5 for .05
		all := make([]string, 0, len(u.parts.numbers))
		for _, at := range u.parts.numbers {
			s := u.v.Text[at.Start:at.End]
			if s == "" || strings.ContainsAny(s, ".,") {
				return
			}
			s = string(u.mark) + strings.Repeat("0", zeros) + s
			all = append(all, s)
			if len(u.parts.numbers) > 1 {
				u.add(with(u.v.Text, at, s), 0.3*share*weight)
			}
		}
		if len(all) > 0 {
			u.add(withAll(u.v.Text, u.parts.numbers, all), share*weight)
		}
	}
}

func undoTransposed(u *undoing) {
	u.numbers(func(s string) []variant { return evenly(transposed(s), len(digits(s))-1) })
}

func undoDigit(u *undoing) { u.numbers(mistyped) }

func undoLost(u *undoing) {
	u.numbers(func(s string) []variant { return evenly(longer(s, false), len(digits(s))+1) })
}

func undoDoubled(u *undoing) {
	u.numbers(func(s string) []variant { return evenly(shorter(s, true), len(digits(s))-1) })
}

// evenly gives each text one of n equal shares.
func evenly(texts []string, n int) []variant {
	out := make([]variant, len(texts))
	for i, t := range texts {
		out[i] = variant{t, 1 / float64(max(n, 1))}
	}
	return out
}

func undoEnds(u *undoing) {
	q := u.v.Quantity
	if !u.v.Read() || q.Form != convert.Range || q.Ordered() || q.FirstAt.End == 0 {
		return
	}
	u.add(endsExchanged(u.v), 1)
}

// endsExchanged is a range with its ends exchanged, signs and all.
func endsExchanged(v *convert.Value) string {
	a, b := v.Quantity.FirstAt, v.Quantity.SecondAt
	return withAll(v.Text, []convert.Place{a, b}, []string{v.Text[b.Start:b.End], v.Text[a.Start:a.End]})
}

// undoDash parts a number that was two: 6071 for 60 to 71.
func undoDash(u *undoing) {
	if len(u.parts.numbers) != 1 {
		return
	}
	at := u.parts.numbers[0]
	s := u.v.Text[at.Start:at.End]
	for p := 1; p < len(s); p++ {
		lo, hi := s[:p], s[p:]
		if !isNumber(lo, u.mark) && strings.Trim(lo, "0"+string(u.mark)) != "" || !isNumber(hi, u.mark) || strings.HasSuffix(lo, string(u.mark)) {
			continue
		}
		a, _ := strconv.ParseFloat(strings.ReplaceAll(lo, ",", "."), 64)
		b, _ := strconv.ParseFloat(strings.ReplaceAll(hi, ",", "."), 64)
		twoPoints := strings.Count(s, string(u.mark)) > 1
		if 3*b < a && u.besideDeviation() { // 809 for 80 ±9
			u.add(with(u.v.Text, at, lo+" ±"+hi), 0.5)
		}
		switch {
		case u.f.Want.Has(convert.Temperature):
		case a == 0 && u.v.Read(): // 0.5 is no range
			continue
		case a == 0:
		case a >= b, b > 5*a && !twoPoints, !twoPoints && decimals(lo, u.mark) != decimals(hi, u.mark):
			continue
		}
		share := 1.0
		switch {
		case a == 0 && s[0] == '0' && !u.v.Read(): // 0170 cannot be one number
		case len(lo) < 2: // 46 is rather 46 than 4 to 6
			share = 0.02
		}
		u.add(with(u.v.Text, at, lo+" to "+hi), share)
	}
}

// besideDeviation reports that another value of the figure is given with ±.
func (u *undoing) besideDeviation() bool {
	for i := range u.f.Values {
		if v := &u.f.Values[i]; i != u.i && v.Read() && v.Quantity.Form == convert.Deviation {
			return true
		}
	}
	return false
}

func decimals(s string, mark byte) int {
	if i := strings.IndexByte(s, mark); i >= 0 {
		return len(s) - i - 1
	}
	return 0
}

// undoSign gives back a minus sign, or ±.
func undoSign(u *undoing) {
	n := len(u.parts.numbers)
	if n == 0 {
		return
	}
	first := u.parts.numbers[0]
	switch name, _ := u.path.Step(u.path.Len() - 1); {
	case name == "tolerance" && n == 1 && first.Start == 0:
		u.add("±"+u.v.Text, 1)
		return
	case u.f.Want.Has(convert.Temperature):
		for _, at := range u.parts.numbers {
			if !strings.HasSuffix(u.v.Text[:at.Start], "-") {
				u.add(u.v.Text[:at.Start]+"-"+u.v.Text[at.Start:], 0.05) // few are below zero
			}
		}
	}
	if n != 2 {
		return
	}
	switch second := u.parts.numbers[1]; strings.TrimSpace(u.v.Text[first.End:second.Start]) {
	case "", "+", "-", "to", "–":
		// 9 1 N·m, 9 +1 N·m, 9 to 1 N·m for 9 ±1 N·m; 8 10 N·m for 8 to 10 N·m.
		share := 0.5
		if u.v.Read() {
			share = 0.02 // a mark that is misread is rarer than one that is lost
		}
		gap := convert.Place{Start: first.End, End: second.Start}
		if q := u.v.Quantity; !u.v.Read() || q.Form == convert.Range && 3*q.Second.Float() < q.First.Float() {
			u.add(with(u.v.Text, gap, " ±"), share)
		}
		u.add(with(u.v.Text, gap, " to "), share)
	}
}
