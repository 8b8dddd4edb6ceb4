package convert

import "math/big"

// String is the normal form, digits kept.
func (q Quantity) String() string { return "" }

// Bounds are the ends in the SI unit, as printed, lo <= hi.
func (q Quantity) Bounds() (lo, hi float64) { return 0, 0 }

// Widened are the bounds widened by half a unit of the last printed digit.
func (q Quantity) Widened() (lo, hi float64) { return 0, 0 }

// Nominal is the middle value in the SI unit.
func (q Quantity) Nominal() float64 { return 0 }

// Ordered reports that a range is printed in rising order.
func (q Quantity) Ordered() bool { return true }

// Float is the nearest float64.
func (d Decimal) Float() float64 { return 0 }

// Rat is the exact value.
func (d Decimal) Rat() *big.Rat { return new(big.Rat) }

// String prints the digits as they were.
func (d Decimal) String() string { return "" }

// Cmp compares by value.
func (d Decimal) Cmp(e Decimal) int { return 0 }

// Digits counts the significant digits printed.
func (d Decimal) Digits() int { return 0 }

// Step is one unit of the last printed digit, 1/Den for a fraction.
func (d Decimal) Step() *big.Rat { return new(big.Rat) }
