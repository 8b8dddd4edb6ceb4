package schema

import (
	"maps"
	"slices"

	"snapgauge/convert"
)

// vocabulary holds the words of the format by the name of their field. The
// JSON Schemas hold them too; a test proves that both say the same.
var vocabulary = map[string][]string{
	"kind":        {KindTorque, KindFill, KindTolerance},
	"type":        {"screw", "stud", "nut", "prevailing nut", "plug", "banjo", "pipe fitting", "tube nut", "spark plug", "set screw", "adjusting nut", "clamp"},
	"threads":     {"dry", "oiled", "moly", "anti-seize", "waxed", "threadlocker", "sealant", "plated", "as received"},
	"into":        {"steel", "stainless steel", "cast iron", "ductile iron", "cast aluminium", "wrought aluminium", "magnesium", "brass", "plastic"},
	"head":        {"hex", "hex flange", "socket cap", "button", "countersunk", "pan", "hexalobular"},
	"seal":        {"gasket", "sealant", "O-ring", "crush washer", "bonded seal", "taper"},
	"pattern":     {"criss-cross", "circular", "spiral", "centre outwards", "in order"},
	"when":        {"dry fill", "after overhaul", "drain and refill", "filter change", "top up"},
	"by":          {"dipstick", "plug", "sight glass"},
	"engine":      {"off", "idling"},
	"source-kind": {"maker", "supplier", "standard", "handbook", "government", "shop", "measured"},
	"serials":     {"number", "date"},
	"decimal":     {"point", "comma"},
	"of":          measureNames(),
}

// Vocabulary returns the words of a field as the schema lists them: of kind,
// type, threads, into, head, seal, pattern, when, by, engine, of, serials,
// decimal, and source-kind for the kind of a source. It is nil for another
// name. Type, by, of, kind, serials and decimal are closed; the others are open
// to "other: …", and engine to a speed.
func Vocabulary(name string) []string { return slices.Clone(vocabulary[name]) }

// Vocabularies returns the names that [Vocabulary] knows, sorted.
func Vocabularies() []string { return slices.Sorted(maps.Keys(vocabulary)) }

// Wear tells which way wear drives a measure.
type Wear uint8

// The directions of wear.
const (
	NoWear  Wear = iota // wear does not show, or may drive it either way
	Grows               // a clearance: worn means greater
	Shrinks             // a thickness: worn means smaller
)

func (w Wear) String() string {
	switch w {
	case Grows:
		return "grows"
	case Shrinks:
		return "shrinks"
	}
	return "no direction"
}

type measure struct {
	name string
	dims convert.Dimensions
	wear Wear
}

// measures is what `of` may say: the dimensions of its figures and the
// direction of wear. Common practice, no source: the words are the trade's.
var measures = []measure{
	{"clearance", convert.Of(convert.Length), Grows},
	{"end float", convert.Of(convert.Length), Grows},
	{"side float", convert.Of(convert.Length, convert.Angle), Grows},
	{"backlash", convert.Of(convert.Length, convert.Angle), Grows},
	{"play", convert.Of(convert.Length, convert.Angle), Grows},
	{"runout", convert.Of(convert.Length), Grows},
	{"flatness", convert.Of(convert.Length), Grows},
	{"taper", convert.Of(convert.Length), Grows},
	{"out-of-round", convert.Of(convert.Length), Grows},
	{"diameter", convert.Of(convert.Length), Shrinks},
	{"bore", convert.Of(convert.Length), Grows},
	{"thickness", convert.Of(convert.Length), Shrinks},
	{"width", convert.Of(convert.Length), NoWear},
	{"height", convert.Of(convert.Length), NoWear},
	{"depth", convert.Of(convert.Length), NoWear},
	{"length", convert.Of(convert.Length), NoWear},
	{"free length", convert.Of(convert.Length), Shrinks},
	{"protrusion", convert.Of(convert.Length), NoWear},
	{"travel", convert.Of(convert.Length), NoWear},
	{"stroke", convert.Of(convert.Length), NoWear},
	{"gap", convert.Of(convert.Length), Grows},
	{"fit", convert.Of(convert.Length), NoWear},
	{"spring load", convert.Of(convert.Force), Shrinks},
	{"rolling torque", convert.Of(convert.Torque, convert.Force), Shrinks},
	{"preload", convert.Of(convert.Force, convert.Torque, convert.Length), NoWear}, // a length: the crush of a bearing carrier
	{"pressure", convert.Of(convert.Pressure), NoWear},
	{"flow", convert.Of(convert.Flow), NoWear},
	{"temperature", convert.Of(convert.Temperature), NoWear},
	{"speed", convert.Of(convert.RotationalSpeed, convert.Speed), NoWear},
	{"coil resistance", convert.Of(convert.Resistance), NoWear},
	{"sensor resistance", convert.Of(convert.Resistance), NoWear},
	{"insulation resistance", convert.Of(convert.Resistance), Shrinks},
	{"voltage", convert.Of(convert.Voltage), NoWear},
	{"current", convert.Of(convert.Current), NoWear},
	{"angle", convert.Of(convert.Angle), NoWear},
	{"mass", convert.Of(convert.Mass), NoWear},
	{"time", convert.Of(convert.Time), NoWear},
	{"force", convert.Of(convert.Force), NoWear},
	{"density", convert.Of(convert.Density), NoWear},
	{"volume", convert.Of(convert.Volume), NoWear},
}

func measureNames() []string {
	names := make([]string, len(measures))
	for i, m := range measures {
		names[i] = m.name
	}
	return names
}

// anyMeasure is every dimension that a tolerance may have; it serves where
// `of` is absent or unknown.
var anyMeasure = func() (all convert.Dimensions) {
	for _, m := range measures {
		all |= m.dims
	}
	return all
}()

// MeasureOf returns the dimensions of what a tolerance record is of, and
// whether wear makes it grow or shrink. For an unknown word it returns every
// dimension that a tolerance may have, and ok is false.
func MeasureOf(of string) (dims convert.Dimensions, wear Wear, ok bool) {
	for i := range measures {
		if measures[i].name == of {
			return measures[i].dims, measures[i].wear, true
		}
	}
	return anyMeasure, NoWear, false
}
