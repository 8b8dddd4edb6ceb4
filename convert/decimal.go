package convert

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
