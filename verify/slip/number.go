package slip

import (
	"strings"
)

// A number here is its text without sign: digits with at most one decimal mark.

// digits are the places of the digits of a number.
func digits(s string) []int {
	var at []int
	for i := range len(s) {
		if '0' <= s[i] && s[i] <= '9' {
			at = append(at, i)
		}
	}
	return at
}

// isNumber reports digits with at most one mark, without a needless leading
// zero, and not nothing.
func isNumber(s string, mark byte) bool { return mayBeNumber(s, mark) && !paddedWithZero(s, mark) }

// mayBeNumber is isNumber, but for the leading zero that a slip may have put
// there: 06 for 60.
func mayBeNumber(s string, mark byte) bool {
	marks, some := 0, false
	for i := range len(s) {
		switch c := s[i]; {
		case c == mark:
			marks++
		case '1' <= c && c <= '9':
			some = true
		case c == '0':
		default:
			return false
		}
	}
	return some && marks <= 1 && s[len(s)-1] != mark
}

func paddedWithZero(s string, mark byte) bool { return len(s) > 1 && s[0] == '0' && s[1] != mark }

// shifted moves the decimal mark k places to the right (to the left where k is
// negative). Zeros are added as needed, and every digit is kept.
func shifted(s string, k int, mark byte) string {
	whole, frac, _ := strings.Cut(s, string(mark))
	all := whole + frac
	at := len(whole) + k
	for ; at < 0; at++ {
		all = "0" + all
	}
	for at > len(all) {
		all += "0"
	}
	left, right := strings.TrimLeft(all[:at], "0"), all[at:]
	if left == "" && !(strings.HasPrefix(s, string(mark)) && right != "") {
		left = "0"
	}
	if right == "" {
		return left
	}
	return left + string(mark) + right
}

// trimmed is a number without the zeros at the end of its decimals.
func trimmed(s string, mark byte) string {
	if strings.IndexByte(s, mark) < 0 {
		return s
	}
	return strings.TrimRight(strings.TrimRight(s, "0"), string(mark))
}

// transposed exchanges two neighbouring digits, across the mark too.
func transposed(s string) []string {
	var out []string
	at := digits(s)
	for i := 1; i < len(at); i++ {
		a, b := at[i-1], at[i]
		if s[a] != s[b] {
			x := []byte(s)
			x[a], x[b] = x[b], x[a]
			out = append(out, string(x))
		}
	}
	return out
}

// shorter drops one digit; of two equal neighbours the first. Doubled asks for
// these alone.
func shorter(s string, doubled bool) []string {
	var out []string
	at := digits(s)
	for i, p := range at {
		twin := i+1 < len(at) && s[at[i+1]] == s[p]
		if len(at) > 1 && twin == doubled && (doubled || i == 0 || s[at[i-1]] != s[p]) {
			out = append(out, s[:p]+s[p+1:])
		}
	}
	return out
}

// longer adds one digit, or only doubles one.
func longer(s string, doubled bool) []string {
	var out []string
	at := digits(s)
	if doubled {
		for _, p := range at {
			out = append(out, s[:p+1]+s[p:])
		}
		return out
	}
	for p := 0; p <= len(s); p++ {
		for d := byte('0'); d <= '9'; d++ {
			if p > 0 && s[p-1] == d {
				continue // the same text as one place before
			}
			out = append(out, s[:p]+string(d)+s[p:])
		}
	}
	return out
}

// The digits beside each other in the row and on the pad of a keyboard.
var (
	besideInRow = [10]string{"9", "2", "13", "24", "35", "46", "57", "68", "79", "80"}
	besideOnPad = [10]string{"12", "24", "135", "26", "157", "2468", "359", "48", "579", "68"}
)

// How often a digit is mistyped for one beside it in the row, beside it on the
// pad only, and for any other: judgement, no source.
const rowShare, padShare, otherShare = 0.5, 0.3, 0.2

// variant is another text of a number, and how likely the slip made this one.
type variant struct {
	text  string
	share float64
}

// mistyped replaces one digit by another.
func mistyped(s string) []variant {
	var out []variant
	at := digits(s)
	for _, p := range at {
		row, pad := besideInRow[s[p]-'0'], besideOnPad[s[p]-'0']
		for d := byte('0'); d <= '9'; d++ {
			if d == s[p] {
				continue
			}
			share := otherShare / 6
			switch {
			case strings.IndexByte(row, d) >= 0:
				share = rowShare / float64(len(row))
			case strings.IndexByte(pad, d) >= 0:
				share = padShare / float64(len(pad))
			}
			out = append(out, variant{s[:p] + string(d) + s[p+1:], share / float64(len(at))})
		}
	}
	return out
}
