package sheet

import (
	"math"

	"snapgauge/convert"
)

// system is the metric or the inch units.
type system uint8

const (
	neither system = iota // resistance, time, angle: nothing to convert to
	metric
	inch
	formerly // kgf·m and the like, which no wrench of today shows
)

// systems tells the system of the units of the dimensions that both have.
var systems = map[convert.Dimension]map[string]system{
	convert.Torque: {
		"N·m": metric, "N·cm": metric, "N·mm": metric, "cN·m": metric, "daN·m": metric, "kN·m": metric, "mN·m": metric,
		"lbf·ft": inch, "lbf·in": inch, "ozf·ft": inch, "ozf·in": inch,
	},
	convert.Length: {
		"mm": metric, "cm": metric, "m": metric, "km": metric, "µm": metric,
		"in": inch, "in/64": inch, "ft": inch, "yd": inch, "thou": inch, "µin": inch, "mi": inch,
	},
	convert.Volume: {
		"L": metric, "mL": metric, "cL": metric, "dL": metric, "mm³": metric, "m³": metric,
		"US qt": inch, "US gal": inch, "US pt": inch, "US fl oz": inch, "US cup": inch,
		"imp qt": inch, "imp gal": inch, "imp pt": inch, "imp fl oz": inch, "imp cup": inch, "ft³": inch, "in³": inch, "bbl": inch,
	},
	convert.Temperature: {"°C": metric, "K": metric, "°F": inch},
	convert.Pressure: {
		"bar": metric, "mbar": metric, "kPa": metric, "MPa": metric, "hPa": metric, "Pa": metric,
		"psi": inch, "ksi": inch, "inHg": inch, "inH2O": inch, "ftH2O": inch,
	},
	convert.Force: {"N": metric, "kN": metric, "daN": metric, "lbf": inch, "ozf": inch},
	convert.Flow:  {"L/min": metric, "mL/min": metric, "m³/s": metric, "US gpm": inch, "imp gpm": inch, "cfm": inch},
	convert.Mass:  {"kg": metric, "g": metric, "mg": metric, "t": metric, "lb": inch, "oz": inch, "grain": inch, "short ton": inch, "long ton": inch},
}

func systemOf(u convert.Unit) system {
	units, both := systems[u.Dimension()]
	if !both {
		return neither
	}
	if s, ok := units[u.Symbol()]; ok {
		return s
	}
	return formerly
}

// unitIn is the unit of a system in which the trade prints a figure of that
// size.
func unitIn(s system, q convert.Quantity) (convert.Unit, bool) {
	size := math.Abs(q.Nominal()) // in SI
	if math.IsInf(size, 0) || math.IsNaN(size) {
		lo, hi := q.Bounds()
		if size = math.Abs(hi); math.IsInf(size, 0) {
			size = math.Abs(lo)
		}
	}
	pick := func(metricUnit, inchUnit string) (convert.Unit, bool) {
		if s == metric {
			return convert.UnitBySymbol(metricUnit)
		}
		return convert.UnitBySymbol(inchUnit)
	}
	switch q.Unit.Dimension() {
	case convert.Torque:
		if size < 20.5 { // up to 15 lbf·ft a wrench is marked in lbf·in
			return pick("N·m", "lbf·in")
		}
		return pick("N·m", "lbf·ft")
	case convert.Length:
		return pick("mm", "in")
	case convert.Volume:
		if size < 0.1e-3 {
			return pick("mL", "US fl oz")
		}
		return pick("L", "US qt")
	case convert.Temperature:
		return pick("°C", "°F")
	case convert.Pressure:
		if size < 1e3 {
			return pick("Pa", "inH2O")
		}
		if size < 20e3 {
			return pick("kPa", "psi")
		}
		return pick("bar", "psi")
	case convert.Force:
		return pick("N", "lbf")
	case convert.Flow:
		return pick("L/min", "US gpm")
	case convert.Mass:
		if size < 0.5 {
			return pick("g", "oz")
		}
		return pick("kg", "lb")
	}
	return 0, false
}
