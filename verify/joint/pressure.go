package joint

import (
	"math"

	"snapgauge/reference"
)

// HeadPressureMPa is the pressure (MPa) under a head with a bearing ring from
// hole to outer diameter (mm) at a preload (N): p = F / (pi/4 (dw² - dh²)).
// Source: VDI 2230-1, surface pressure. It is an error if the ring is empty.
func HeadPressureMPa(preloadN, outerMM, holeMM float64) (float64, error) {
	area := ringMM2(outerMM, holeMM)
	if !positive(preloadN) || !positive(area) {
		return 0, ErrRange
	}
	return finite(preloadN / area)
}

// HeadLoadN is the inverse of [HeadPressureMPa]: the preload (N) that a limiting
// pressure (MPa) allows.
func HeadLoadN(limitMPa, outerMM, holeMM float64) (float64, error) {
	area := ringMM2(outerMM, holeMM)
	if !positive(limitMPa) || !positive(area) {
		return 0, ErrRange
	}
	return finite(limitMPa * area)
}

func ringMM2(outer, hole float64) float64 {
	if !positive(outer) || hole < 0 || !(hole < outer) {
		return 0
	}
	return math.Pi / 4 * (outer*outer - hole*hole)
}

// Limiting pressure as a share of the tensile strength. VDI 2230-1 Table A9
// lists pG of 0.7 times the tensile strength for soft steel in its edition of
// 1986, about 1.4 times in that of 2003; about 1 to 1.5 times for light alloys and
// 3.4 times for grey iron, which bears three to four times as much pressed as
// drawn (EN 1561, informative). All from memory.
const (
	pressureLeast    = 0.7
	pressureMost     = 1.5
	pressureMostIron = 3.5
)

// LimitPressureMPa is the pressure (MPa) under a head at which a material creeps
// away, as wide as its name leaves it open. ok is false for plastic and for a
// word of which nothing is known. From memory, VDI 2230-1 Table A9. The source
// is that of the tensile strength.
func LimitPressureMPa(material string) (limit Span, source reference.Citation, ok bool) {
	_, tensile, ok := reference.Tapped(material)
	if !ok {
		return Span{}, reference.Citation{}, false
	}
	most := pressureMost
	switch material {
	case "cast iron", "grey iron", "gray iron":
		most = pressureMostIron
	}
	return Span{pressureLeast * tensile.Lo, most * tensile.Hi}, tensile.Source, true
}
