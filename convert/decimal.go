package convert

import (
	"cmp"
	"math/big"
	"strconv"
)

// Decimal is a number as printed: Mant × 10^Exp / Den. The digits are kept, so
// 6 is {6, 0} and 6.0 is {60, -1}. Den is 0 (or 1) for a decimal number and
// the denominator for a printed fraction: 4 1/2 is {9, 0, 2}.
//
// The zero value is the number 0 printed as "0".
type Decimal struct {
	Mant int64
	Exp  int32
	Den  int32
}

// The powers of ten that a float64 holds exactly.
var pow10 = [...]float64{
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

// Float is the float64 nearest to the number.
func (d Decimal) Float() float64 {
	// Two exact operands and one operation: the result is rounded once.
	if m := float64(d.Mant); d.Mant < 1<<53 && d.Mant > -1<<53 {
		switch {
		case d.Den > 1 && d.Exp == 0:
			return m / float64(d.Den)
		case d.Den > 1:
		case d.Exp >= 0 && d.Exp < int32(len(pow10)):
			return m * pow10[d.Exp]
		case d.Exp < 0 && -d.Exp < int32(len(pow10)):
			return m / pow10[-d.Exp]
		}
	}
	f, _ := d.Rat().Float64()
	return f
}

// Rat is the exact value.
func (d Decimal) Rat() *big.Rat {
	r := new(big.Rat).SetInt64(d.Mant)
	r.Mul(r, ratPow10(d.Exp))
	if d.Den > 1 {
		r.Quo(r, new(big.Rat).SetInt64(int64(d.Den)))
	}
	return r
}

// ratPow10 is 10^exp.
func ratPow10(exp int32) *big.Rat {
	n := int64(exp)
	if n < 0 {
		n = -n
	}
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(n), nil)
	r := new(big.Rat).SetInt(p)
	if exp < 0 {
		r.Inv(r)
	}
	return r
}

// String prints the digits as they were: "6.0", "0.50", "4 1/2". A power of
// ten that the digits do not reach is written as an exponent: "12e3".
func (d Decimal) String() string { return string(d.appendTo(nil)) }

func (d Decimal) appendTo(b []byte) []byte {
	m := d.Mant
	if m < 0 {
		b = append(b, '-')
		m = -m
	}
	if d.Den > 1 {
		den := int64(d.Den)
		if whole, rest := m/den, m%den; whole > 0 && rest > 0 {
			b = strconv.AppendInt(b, whole, 10)
			b = append(b, ' ')
			m = rest
		}
		b = strconv.AppendInt(b, m, 10)
		b = append(b, '/')
		return strconv.AppendInt(b, den, 10)
	}
	if d.Exp >= 0 {
		b = strconv.AppendInt(b, m, 10)
		if d.Exp > 0 {
			b = append(b, 'e')
			b = strconv.AppendInt(b, int64(d.Exp), 10)
		}
		return b
	}
	var digits [20]byte
	ds := strconv.AppendInt(digits[:0], m, 10)
	point := len(ds) + int(d.Exp) // digits before the decimal mark
	if point <= 0 {
		b = append(b, '0', '.')
		for ; point < 0; point++ {
			b = append(b, '0')
		}
		return append(b, ds...)
	}
	b = append(b, ds[:point]...)
	b = append(b, '.')
	return append(b, ds[point:]...)
}

// Cmp compares by value: -1, 0 or 1. 6 and 6.0 are equal.
func (d Decimal) Cmp(e Decimal) int {
	if d.Exp == e.Exp && d.Den <= 1 && e.Den <= 1 {
		return cmp.Compare(d.Mant, e.Mant)
	}
	f, g := d.Float(), e.Float()
	if diff := f - g; diff > 1e-12*(abs(f)+abs(g)) || -diff > 1e-12*(abs(f)+abs(g)) {
		return cmp.Compare(f, g)
	}
	return d.Rat().Cmp(e.Rat())
}

// Digits counts the significant digits printed: 2 for 0.050, 3 for 300, 1 for
// 0. Whether trailing zeros of an integer were meant cannot be seen in print.
func (d Decimal) Digits() int {
	n := 1
	for m := d.Mant / 10; m != 0; m /= 10 {
		n++
	}
	return n
}

// Step is one unit of the last printed digit, 1/Den for a fraction.
func (d Decimal) Step() *big.Rat {
	if d.Den > 1 {
		return big.NewRat(1, int64(d.Den))
	}
	return ratPow10(d.Exp)
}

// step is Step as a float64.
func (d Decimal) step() float64 {
	if d.Den > 1 {
		return 1 / float64(d.Den)
	}
	return Decimal{Mant: 1, Exp: d.Exp}.Float()
}

// openZeros counts the trailing zeros of an integer, which may or may not be
// significant.
func (d Decimal) openZeros() int {
	n := 0
	if d.Exp != 0 || d.Den > 1 {
		return 0
	}
	for m := d.Mant; m != 0 && m%10 == 0; m /= 10 {
		n++
	}
	return n
}

func (d Decimal) neg() Decimal {
	d.Mant = -d.Mant
	return d
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
