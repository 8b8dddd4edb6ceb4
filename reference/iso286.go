package reference

// LimitDeviation is the upper and lower limit deviation in µm.
func LimitDeviation(nominalMM float64, class string) (upperUm, lowerUm float64, c Citation, err error) {
	return 0, 0, Citation{}, nil
}

// ParseFit reads a fit; either part may stand alone.
func ParseFit(text string) (hole, shaft string, err error) { return "", "", nil }

// FitLimits is what a fit comes to at a size.
type FitLimits struct {
	Nominal                    float64 // mm
	Hole, Shaft                string
	HoleUpper, HoleLower       float64 // µm
	ShaftUpper, ShaftLower     float64 // µm
	MaxClearance, MinClearance float64 // µm, negative is interference
	Kind                       string  // clearance, transition, interference
	Source                     Citation
}

// Fit works out a fit such as H7/g6 at a nominal size in mm.
func Fit(nominalMM float64, fit string) (FitLimits, error) { return FitLimits{}, nil }

// GeneralTolerance is the general tolerance of ISO 2768-1.
func GeneralTolerance(kind, class string, sizeMM float64) (plusMinus float64, c Citation, err error) {
	return 0, Citation{}, nil
}
