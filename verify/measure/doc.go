// Package measure holds the mechanics of what a tolerance record measures: the
// limits that a fit comes to, the resistance of a winding against its
// temperature, springs, and a force on a lever. It also reads a printed figure
// the way checks want it ([Read]).
//
// The relations are pure functions of numbers, with the units in their names.
// What is outside their domain is an error that wraps [ErrRange].
package measure

import (
	"errors"
	"fmt"
	"math"
)

// ErrRange is the error for an argument outside the domain of a relation.
var ErrRange = errors.New("outside the range of the relation")

func outOfRange(format string, args ...any) error {
	return fmt.Errorf("%s: %w", fmt.Sprintf(format, args...), ErrRange)
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

// result passes a number on if it is one.
func result(x float64) (float64, error) {
	if !finite(x) {
		return 0, outOfRange("the result is no finite number")
	}
	return x, nil
}
