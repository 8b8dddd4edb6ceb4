package convert

import (
	"math/big"
	"strconv"
	"strings"
)

// rounding is a direction of rounding.
type rounding uint8

const (
	even rounding = iota // a tie goes to the even digit: NIST SP 811 B.7.1, ISO 80000-1 Annex B rule A
	up                   // towards +∞
	down                 // towards -∞
)

// roundRat rounds to a whole multiple of 10^exp, in one step.
func roundRat(r *big.Rat, exp int32, how rounding) *big.Int {
	q := new(big.Rat).Quo(r, ratPow10(exp))
	floor, rest := new(big.Int).DivMod(q.Num(), q.Denom(), new(big.Int))
	if rest.Sign() == 0 || how == down {
		return floor
	}
	if how == even {
		switch rest.Lsh(rest, 1).Cmp(q.Denom()) {
		case -1:
			return floor
		case 0:
			if floor.Bit(0) == 0 {
				return floor
			}
		}
	}
	return floor.Add(floor, big.NewInt(1))
}

// magnitude is the place of the first digit: 2 for 406.7, -2 for 0.0381.
func magnitude(r *big.Rat) int32 {
	if r.Sign() == 0 {
		return 0
	}
	a := new(big.Rat).Abs(r)
	f, _ := a.Float64()
	exp := int32(0)
	if s := strconv.FormatFloat(f, 'e', 16, 64); f > 0 {
		_, e, _ := strings.Cut(s, "e")
		n, _ := strconv.Atoi(e)
		exp = int32(n)
	}
	for a.Cmp(ratPow10(exp)) < 0 {
		exp--
	}
	for a.Cmp(ratPow10(exp+1)) >= 0 {
		exp++
	}
	return exp
}

// decimalOf makes a printed number of m × 10^exp. Zeros are written out, not
// left to an exponent.
func decimalOf(m *big.Int, exp int32) (Decimal, bool) {
	if exp > 0 {
		m = new(big.Int).Mul(m, new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(exp)), nil))
		exp = 0
	}
	if !m.IsInt64() || exp < -maxExponent || m.CmpAbs(big.NewInt(1e18)) >= 0 {
		return Decimal{}, false
	}
	return Decimal{Mant: m.Int64(), Exp: exp}, true
}

// roundFloat shows a float at so many significant digits, 0 as 0.
func roundFloat(x float64, digits int) Decimal {
	digits = max(1, min(digits, maxDigits))
	r := new(big.Rat)
	if r.SetFloat64(x) == nil || r.Sign() == 0 {
		return Decimal{}
	}
	exp := magnitude(r) - int32(digits) + 1
	m := roundRat(r, exp, even)
	if q, rest := new(big.Int).QuoRem(m, big.NewInt(10), new(big.Int)); rest.Sign() == 0 && magnitude(new(big.Rat).SetInt(m)) >= int32(digits) {
		m, exp = q, exp+1 // 9.97 at two digits is 10, not 10.0
	}
	if d, ok := decimalOf(m, exp); ok {
		return d
	}
	return Decimal{Mant: m.Int64(), Exp: exp}
}

// exactText writes a value out: all its decimals if they end within forty
// places, else twenty significant digits and an ellipsis.
func exactText(r *big.Rat) string {
	if n, exact := r.FloatPrec(); exact && n <= 40 {
		return r.FloatString(n)
	}
	digits := 19 - int(magnitude(r))
	return r.FloatString(max(digits, 0)) + "…"
}
