package measure

import (
	"fmt"

	"snapgauge/reference"
)

// Limits are what a printed pair of limits may be of, when the record names a
// fit and a nominal size.
type Limits struct {
	Of     string  // "clearance of H7/g6", "deviations of H7", "limits of H7"
	Lo, Hi float64 // mm; a clearance below zero is interference
	Kind   LimitKind
	Source reference.Citation
}

// LimitKind tells what limits are of.
type LimitKind uint8

// What limits may be of.
const (
	OfClearance LimitKind = iota // between hole and shaft
	OfDeviation                  // from the nominal size
	OfSize                       // of the part itself
)

const umPerMM = 1000

// FitLimits lists what the limits of a fit (H7/g6, H7, g6) at a nominal size
// (mm) may be printed as: the clearance where it names hole and shaft, then the
// deviations and the sizes of each part. The error is that of the reference
// tables. Source: ISO 286-1.
func FitLimits(nominalMM float64, fit string) ([]Limits, error) {
	hole, shaft, err := reference.ParseFit(fit)
	if err != nil {
		return nil, err
	}
	var out []Limits
	if hole != "" && shaft != "" {
		f, err := reference.Fit(nominalMM, fit)
		if err != nil {
			return nil, err
		}
		out = append(out, Limits{
			Of: fmt.Sprintf("clearance of %s/%s", hole, shaft), Kind: OfClearance,
			Lo: f.MinClearance / umPerMM, Hi: f.MaxClearance / umPerMM, Source: f.Source,
		})
	}
	for _, class := range []string{hole, shaft} {
		if class == "" {
			continue
		}
		upper, lower, source, err := reference.LimitDeviation(nominalMM, class)
		if err != nil {
			return nil, err
		}
		lo, hi := lower/umPerMM, upper/umPerMM
		out = append(out,
			Limits{Of: "deviations of " + class, Kind: OfDeviation, Lo: lo, Hi: hi, Source: source},
			Limits{Of: "limits of " + class, Kind: OfSize, Lo: nominalMM + lo, Hi: nominalMM + hi, Source: source})
	}
	return out, nil
}
