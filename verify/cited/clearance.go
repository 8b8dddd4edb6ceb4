package cited

import (
	"math"
	"strconv"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/measure"
)

// outside is the end of a figure that lies outside a band (SI unit), as its digits
// allow, and on which side. An end at zero is no figure of its own: 0 to 0.10 mm.
func outside(r measure.Reading, least, most float64) (side string) {
	lo, hi := r.Bounds()
	half := r.Step() / 2
	for _, x := range [...]float64{lo, hi} {
		switch {
		case math.IsInf(x, 0) || x == 0:
		case x+half < least:
			return "small"
		case x-half > most:
			return "great"
		}
	}
	return ""
}

// bandText prints a band of lengths (SI unit) in a unit, to two digits.
func bandText(least, most float64, u convert.Unit) string {
	show := func(si float64) string {
		x := u.FromSI(si)
		decimals := max(0, 1-int(math.Floor(math.Log10(x))))
		return strconv.FormatFloat(x, 'f', decimals, 64)
	}
	return show(least) + " to " + show(most) + " " + u.String()
}

// perSize reads a new clearance and the nominal size beside it.
func perSize(r *schema.Record) (clearance, size measure.Reading, ok bool) {
	clearance, okNew := measure.Read(&r.New, schema.At("new"), convert.Length)
	size, okSize := measure.Read(&r.Size, schema.At("size"), convert.Length)
	return clearance, size, okNew && okSize && size.Closed() && size.Nominal() > 0
}
