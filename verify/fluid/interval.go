package fluid

import (
	"errors"
	"fmt"
	"math"
)

// ErrRange is the error for an argument outside the domain of a relation. Errors
// that wrap it say which and why.
var ErrRange = errors.New("outside the range of the relation")

func outOfRange(format string, args ...any) error {
	return fmt.Errorf("%s: %w", fmt.Sprintf(format, args...), ErrRange)
}

// Interval is a number that lies between two ends, both included.
type Interval struct{ Lo, Hi float64 }

// None is the interval of what is not given.
var None = Interval{math.NaN(), math.NaN()}

// Exactly is the interval of one number.
func Exactly(x float64) Interval { return Interval{x, x} }

// Known reports that the interval is given: both ends finite and in order.
func (i Interval) Known() bool {
	return finite(i.Lo) && finite(i.Hi) && i.Lo <= i.Hi
}

// Mid is the middle.
func (i Interval) Mid() float64 { return i.Lo + (i.Hi-i.Lo)/2 }

func (i Interval) positive() bool { return i.Known() && i.Lo > 0 }

// absent reports an interval of which neither end is a number, as [None].
func (i Interval) absent() bool { return math.IsNaN(i.Lo) && math.IsNaN(i.Hi) }

// corners are the least and the greatest value of f over the ends of two
// intervals, which are those over the whole when f is monotone in each.
func corners(a, b Interval, f func(a, b float64) float64) (Interval, error) {
	v := [...]float64{f(a.Lo, b.Lo), f(a.Lo, b.Hi), f(a.Hi, b.Lo), f(a.Hi, b.Hi)}
	out := Interval{v[0], v[0]}
	for _, x := range v {
		out.Lo, out.Hi = min(out.Lo, x), max(out.Hi, x)
	}
	if !out.Known() {
		return Interval{}, outOfRange("the result is no finite number")
	}
	return out, nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
