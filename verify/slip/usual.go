package slip

import (
	"math"

	"snapgauge/convert"
)

// The shares of the ways in which two values of one figure come about: of the
// call-outs counted in data/error-frequencies.csv that agree, 770 have the first
// as the original, 88 the second; 46 were made with a short factor, 33 rounded
// coarsely.
const (
	firstIsOriginal  = 0.82
	secondIsOriginal = 0.09
	otherwiseRounded = 0.02 // by steps, truncated, inward
	looselyMade      = 0.01
)

// printedSo is how likely it is that two values are printed beside each other:
// one of them is the original, mostly a round number, and the other is it
// converted and rounded.
func printedSo(a, b convert.Quantity) float64 {
	var floor float64
	switch habit(convert.Agree(a, b).Outcome) {
	case 0:
		return 0
	case 1, 0.1:
		floor = otherwiseRounded
	default:
		floor = looselyMade
	}
	w := 0.0
	if roundsTo(a, b) {
		w += firstIsOriginal * roundness(a)
	}
	if roundsTo(b, a) {
		w += secondIsOriginal * roundness(b)
	}
	return max(w, floor*max(roundness(a), roundness(b)))
}

// roundsTo reports whether b is a converted and rounded to the last digit of b.
func roundsTo(a, b convert.Quantity) bool {
	if a.Form != b.Form {
		return false
	}
	lo, hi := a.Bounds()
	wlo, whi := b.Widened()
	const slack = 1e-9
	within := func(x, from, to float64) bool {
		return math.IsInf(x, 0) || x >= from-slack*math.Abs(from) && x <= to+slack*math.Abs(to)
	}
	return within(lo, wlo, whi) && within(hi, wlo, whi) &&
		(math.IsInf(lo, 0) || math.Abs(lo-boundsLo(b)) <= boundsLo(b)-wlo+slack*math.Abs(lo)) &&
		(math.IsInf(hi, 0) || math.Abs(hi-boundsHi(b)) <= whi-boundsHi(b)+slack*math.Abs(hi))
}

func boundsLo(q convert.Quantity) float64 { lo, _ := q.Bounds(); return lo }

func boundsHi(q convert.Quantity) float64 { _, hi := q.Bounds(); return hi }

// roundness is how likely a number is the original figure of a source, beside
// another: fewer digits, and a 5 at the end, are likelier.
func roundness(q convert.Quantity) float64 {
	lengths := q.Unit.Dimension() == convert.Length
	switch q.Form {
	case convert.Range:
		w := roundNumber(q.First, lengths) * roundNumber(q.Second, lengths)
		if decimalsOf(q.First) != decimalsOf(q.Second) && q.Unit.Dimension() != convert.Angle {
			w *= otherDecimals
		}
		return w
	case convert.AtMost:
		return roundNumber(q.Second, lengths)
	case convert.Tolerance:
		return roundSides(q, lengths)
	case convert.Deviation:
		w := roundNumber(q.First, lengths) * roundSides(q, lengths)
		// The sides of a fit are another matter: 25 +0.021/-0 mm.
		like := q.Plus.Cmp(q.Minus) == 0 || q.Unit.Dimension() == convert.Torque
		if side := max(decimalsOf(q.Plus), decimalsOf(q.Minus)); side != decimalsOf(q.First) && like && !q.Percent {
			w *= otherDecimals
		}
		return w
	}
	return roundNumber(q.First, lengths)
}

func roundSides(q convert.Quantity, lengths bool) float64 {
	if q.Plus.Cmp(q.Minus) == 0 {
		return roundNumber(q.Plus, lengths)
	}
	return roundNumber(q.Plus, lengths) * roundNumber(q.Minus, lengths)
}

// otherDecimals is the weight of a range whose ends have not as many decimals, and
// of a value that has not as many as its ±. Counted: 5 of 470 ranges, besides flats
// (1 to 1.25), and none of 23 with ±. The limits of a fit are another matter.
const otherDecimals = 0.02

func decimalsOf(d convert.Decimal) int32 { return max(-d.Exp, 0) }

// How often one number of so many significant digits is met, beside one of a
// single digit; the second of each pair for those that end in 5. Counted: 561
// torques of call-outs and charts, of which 24 % have one digit, 49 % two, 26 %
// three and 1 % four; there are nine numbers of one digit, 90 of two, 900 of
// three. And 439 lengths: 33, 39, 12, 8 and 7 %.
var (
	metTorques = [][2]float64{{1, 1}, {0.19, 0.55}, {0.008, 0.04}, {0.00006, 0.0002}, {0.000001, 0.000001}}
	metLengths = [][2]float64{{1, 1}, {0.09, 0.4}, {0.0025, 0.017}, {0.0002, 0.0006}, {0.000025, 0.000025}}
)

func roundNumber(d convert.Decimal, lengths bool) float64 {
	m := d.Mant
	if m < 0 {
		m = -m
	}
	if d.Den > 1 || m == 0 {
		return 0.5
	}
	for m%10 == 0 {
		m /= 10
	}
	five := 0
	if m%5 == 0 {
		five = 1
	}
	met := metTorques
	if lengths {
		met = metLengths
	}
	n := 0
	for ; m >= 10; m /= 10 {
		n++
	}
	if n < len(met) {
		return met[n][five]
	}
	return met[len(met)-1][five] / 10
}

// The shares of numbers of one, two, three … significant digits that lie behind
// metTorques and metLengths.
var (
	sharesOfTorques = []float64{0.24, 0.49, 0.26, 0.01, 0.001}
	sharesOfLengths = []float64{0.33, 0.39, 0.12, 0.08, 0.07}
)

// asMany is how many figures of a book count as much as what is usual elsewhere.
const asMany = 12

// digits is how much oftener the book has figures of so many digits than is usual:
// in a table worked out to three digits a number of two is a rare one.
func (b *Bench) digits(q convert.Quantity) float64 {
	shares := sharesOfTorques
	switch q.Unit.Dimension() {
	case convert.Torque:
	case convert.Length:
		shares = sharesOfLengths
	default:
		return 1
	}
	n := Digits(q)
	if b.Digits == nil || n == 0 {
		return 1
	}
	k, all := b.Digits(q.Unit.Dimension(), n)
	if all < leastMet {
		return 1
	}
	usual := shares[min(n, len(shares))-1]
	return (float64(k) + asMany*usual) / (float64(all+asMany) * usual)
}

// Digits is how many significant digits the first number of a quantity has; 0
// for fractions and nothing.
func Digits(q convert.Quantity) int {
	d := q.First
	switch q.Form {
	case convert.AtMost:
		d = q.Second
	case convert.Tolerance:
		d = q.Plus
	}
	m := d.Mant
	if m < 0 {
		m = -m
	}
	if d.Den > 1 || m == 0 {
		return 0
	}
	for m%10 == 0 {
		m /= 10
	}
	n := 0
	for ; m > 0; m /= 10 {
		n++
	}
	return n
}

// breadth is a stretch of ratios of the ends of a range, and how usual one is.
type breadth struct{ below, share float64 }

// Counted: the ends of 245 ranges of torque in call-outs, charts and manuals,
// per equal stretch of the logarithm of their ratio; and of 146 ranges of length,
// where clearances are wide and diameters narrow.
var (
	breadthsOfTorque = []breadth{{1.05, 0.3}, {1.1, 0.6}, {1.2, 1}, {1.3, 0.6}, {1.5, 0.4}, {2, 0.06}, {3, 0.01}, {5, 0.004}, {math.Inf(1), 0.0003}}
	breadthsOfLength = []breadth{{3, 1}, {5, 0.4}, {10, 0.02}, {math.Inf(1), 0.003}}
)

// deviations are the shares of the value that a deviation is: of 43 counted all
// are below 0.3.
var deviations = []breadth{{0.35, 1}, {0.6, 0.1}, {math.Inf(1), 0.003}}

// width is how usual the width of a range is, or of a deviation.
func width(q convert.Quantity) float64 {
	if q.Form == convert.Deviation && !q.Percent && q.First.Mant > 0 && q.Unit.Dimension() != convert.Temperature {
		r := max(q.Plus.Float(), q.Minus.Float()) / q.First.Float()
		for _, b := range deviations {
			if r <= b.below {
				return b.share
			}
		}
	}
	if q.Form == convert.Range && q.First.Cmp(q.Second) == 0 {
		return 0.002 // 30 to 30
	}
	if q.Form != convert.Range || q.Unit.Dimension() == convert.Temperature || q.First.Mant <= 0 {
		return 1
	}
	met := breadthsOfTorque
	switch q.Unit.Dimension() {
	case convert.Length, convert.Volume, convert.Time:
		met = breadthsOfLength
	}
	r := q.Second.Float() / q.First.Float()
	for _, b := range met {
		if r <= b.below {
			return b.share
		}
	}
	return met[len(met)-1].share
}

// habit is how well two values of one figure agree: 1 by rounding, less by a
// looser habit, 0 when they do not.
func habit(o convert.Outcome) float64 {
	switch o {
	case convert.Exact, convert.Rounded, convert.RoundedFromSecond:
		return 1
	case convert.Truncated, convert.Inward:
		return 0.1
	case convert.Loose, convert.Coarse:
		return 0.05
	}
	return 0
}
