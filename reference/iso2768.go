package reference

import (
	"math"
	"strings"
	"sync"
)

// generalTolerance is a row of ISO 2768-1.
type generalTolerance struct {
	kind, class string
	sizeRange
	plusMinus float64 // mm or degrees
	source    Citation
}

var generalTolerances = sync.OnceValue(func() []generalTolerance {
	var out []generalTolerance
	for _, r := range mustTable("iso2768.csv") {
		g := generalTolerance{
			kind: r.text("kind"), class: r.text("class"), sizeRange: r.sizes(), plusMinus: r.number("plus_minus"), source: r.cite(),
		}
		if r.text("unit") == "'" {
			g.plusMinus /= 60
		}
		out = append(out, g)
	}
	return out
})

var toleranceKinds = map[string]string{
	"linear": "linear", "length": "linear", "radius": "radius", "chamfer": "radius", "angular": "angular", "angle": "angular",
}

// GeneralTolerance is the general tolerance of ISO 2768-1, to both sides, for
// a class f, m, c or v: in mm for the kinds linear and radius (external radii and
// heights of chamfers), in degrees for the kind angular, where sizeMM is the
// shorter leg. It holds only where a drawing calls for it. The error is a
// [FitError].
func GeneralTolerance(kind, class string, sizeMM float64) (plusMinus float64, c Citation, err error) {
	k, ok := toleranceKinds[strings.ToLower(strings.TrimSpace(kind))]
	if !ok {
		return 0, Citation{}, fitError(FitUnreadable, "ISO 2768-1 has linear, radius and angular tolerances, not “%s”", short(kind))
	}
	class = strings.ToLower(strings.TrimSpace(class))
	if len(class) != 1 || !strings.Contains("fmcv", class) {
		return 0, Citation{}, fitError(FitImpossible, "ISO 2768-1 has the classes f, m, c and v, not “%s”", short(class))
	}
	lo, hi := math.Inf(1), 0.0
	for _, g := range generalTolerances() {
		if g.kind != k || g.class != class {
			continue
		}
		// The first range of lengths and radii begins with its lower end: 0.5 up to 3 mm.
		if g.holds(sizeMM) || sizeMM == 0.5 && g.over == 0.5 {
			return g.plusMinus, g.source, nil
		}
		lo, hi = min(lo, g.over), max(hi, g.upTo)
	}
	upTo := "up"
	if !math.IsInf(hi, 1) {
		upTo = "up to " + plain(hi) + " mm"
	}
	return 0, Citation{}, fitError(FitOutsideSizes, "ISO 2768-1 class %s gives %s tolerances from %s mm %s, not for %s mm", class, k, plain(lo), upTo, plain(sizeMM))
}
