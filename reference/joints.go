package reference

import (
	"slices"
	"strings"
	"sync"
)

// JointRow is one printed tightening of what is no plain screw: a plug, a port
// stud, a flare or cutting-ring fitting, a taper pipe thread, a hose clamp, a
// set screw, a wheel nut, a filter, a bearing nut. It is no specification for
// any machine.
type JointRow struct {
	Kind, Thread, Detail, Into string // as printed
	// Min, Max and Typical are in Unit; 0 where the source prints none.
	Min, Max, Typical float64
	Unit              string // N·m, turn, flat (a sixth of a turn), deg, % or x (a ratio); empty where nothing is published
	Printed           string // with the unit of the source: "50 to 65 lb-in"
	Note              string
	Source            Citation

	sizes rowSizes
}

// newtonMetres is a printed unit of torque in N·m, 0 for other units. The
// factors are exact (NIST SP 811 B.8): 0.45359237 · 9.80665 · 0.3048.
func newtonMetres(unit string) float64 {
	const foot = 0.3048
	switch unit {
	case "N·m":
		return 1
	case "lb-ft":
		return 0.45359237 * 9.80665 * foot
	case "lb-in":
		return 0.45359237 * 9.80665 * foot / 12
	}
	return 0
}

var jointRows = sync.OnceValue(func() []JointRow {
	var out []JointRow
	for _, r := range mustTable("joints.csv") {
		j := JointRow{
			Kind: r.text("kind"), Thread: r.text("thread"), Detail: r.text("detail"), Into: r.text("into"),
			Min: r.number("min"), Max: r.number("max"), Typical: r.number("typical"), Unit: r.text("unit"),
			Printed: r.printed("min", "max", "typical"), Note: r.text("note"), Source: r.cite(),
		}
		if f := newtonMetres(j.Unit); f != 0 {
			j.Min, j.Max, j.Typical, j.Unit = j.Min*f, j.Max*f, j.Typical*f, "N·m"
		}
		j.sizes = sizesOf(j.Kind, j.Thread, j.Detail)
		out = append(out, j)
	}
	return out
})

// printed is the figure of a row as its source has it: "50 to 65 lb-in", "max
// 1.6 N·m", "22 N·m".
func (r row) printed(lo, hi, single string) string {
	a, b, unit := r.text(lo), r.text(hi), " "+r.text("unit")
	switch {
	case a != "" && b != "" && a != b:
		return a + " to " + b + unit
	case a != "" && b != "":
		return a + unit
	case a != "":
		return "min " + a + unit
	case b != "":
		return "max " + b + unit
	case single != "" && r.text(single) != "":
		return r.text(single) + unit
	}
	return ""
}

// typeKinds are the kinds of row for the types of a spec file, whose words are
// not those of the table.
var typeKinds = map[string][]string{
	"plug":           {"drain plug", "screw plug", "glow plug"},
	"banjo":          {"banjo bolt"},
	"pipe fitting":   {"pipe thread fitting", "taper pipe NPT", "hydraulic or air port stud", "brass fitting"},
	"tube nut":       {"flare nut 37 deg", "flare nut 45 deg", "cutting ring DIN 2353", "compression sleeve fitting", "wrench arc"},
	"clamp":          {"hose clamp, worm drive"},
	"adjusting nut":  {"bearing adjusting nut", "bearing lock nut"},
	"set screw":      {"set screw", "set screw, hexagon socket"},
	"nut":            {"stud nut", "wheel nut"},
	"stud":           {"stud"},
	"screw":          {"wheel bolt", "self-tapping screw", "thread-forming screw in plastic", "screw holding a rubber part"},
	"prevailing nut": {}, // see Prevailing
	"oil filter":     {"spin-on oil filter"},
	"filter":         {"spin-on oil filter"},
}

// JointRows returns the rows that fit, in table order. An empty argument fits
// all.
//
// kind is a type of a spec file (plug, tube nut, clamp) or words of the kind of
// row ("flare nut 37"). thread is a designation (M14x1.25, 7/16-20, G 1/4, dash -4)
// or, where the table has sizes of something else, that text (band 13.5 mm); rows
// whose document does not state the thread are left out where one is asked for.
// detail are words that stand in the detail. into is a material; a row that
// names none, or any, fits.
func JointRows(kind, thread, detail, into string) []JointRow {
	w := sizeWanted(thread)
	var out []JointRow
	for _, j := range jointRows() {
		if j.hasKind(kind) && j.sizes.fits(w, j.Thread) && hasWords(j.Detail, detail) && j.goesInto(into) {
			out = append(out, j)
		}
	}
	return out
}

func (j JointRow) hasKind(kind string) bool {
	kind = strings.ToLower(strings.TrimSpace(kind))
	if list, ok := typeKinds[kind]; ok {
		return slices.Contains(list, j.Kind)
	}
	return hasWords(j.Kind, kind)
}

// hasWords reports that every word stands in a text, in any order.
func hasWords(text, words string) bool {
	text = strings.ToLower(text)
	for w := range strings.FieldsSeq(strings.ToLower(words)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

func (j JointRow) goesInto(into string) bool {
	into = strings.ToLower(strings.TrimSpace(into))
	if full, ok := materialWords[into]; ok {
		into = full
	}
	switch row := strings.ToLower(j.Into); row {
	case "", "any", "not stated":
		return true
	case "metal":
		return into != "plastic"
	default:
		// "aluminium" is cast or wrought; "steel or cast iron" holds both.
		return into == "" || strings.Contains(into, row) && !strings.Contains(into, "stainless") || strings.Contains(row, into)
	}
}
