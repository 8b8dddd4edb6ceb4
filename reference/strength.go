package reference

import (
	"strings"
	"sync"
)

// Strength is one row of a table of classes or grades: the least strength of
// fasteners of that class in a range of sizes.
type Strength struct {
	Designation, Standard string  // "8.8", "ISO 898-1"; "SAE 5", "SAE J429"
	Part                  string  // bolt (screws and bolts), stud, nut
	Tensile, Yield, Proof float64 // MPa; 0 where the standard gives none. A nut has Proof only
	MinD, MaxD            float64 // mm, the sizes it holds for
	Source                Citation
	ByName                bool // larger than its standard has: the strength is that of the name of the class

	minOpen bool // MinD itself is left out
}

// Fits reports whether the row holds for a diameter in mm; 0 is any that the
// standard has.
func (s Strength) Fits(d float64) bool {
	if d == 0 {
		return !s.ByName
	}
	const slack = 0.005 // sizes are printed to a hundredth
	if s.minOpen {
		return d > s.MinD+slack && d < s.MaxD+slack
	}
	return d > s.MinD-slack && d < s.MaxD+slack
}

// mpaPerPSI is exact: 0.45359237·9.80665/0.0254² Pa (NIST SP 811 B.8), in MPa.
const mpaPerPSI = 0.45359237 * 9.80665 / (0.0254 * 0.0254) / 1e6

var strengths = sync.OnceValue(func() []Strength {
	var out []Strength
	for _, r := range mustTable("metric-classes.csv") {
		class := r.text("class")
		out = append(out, Strength{
			Designation: class, Standard: r.text("standard"), Part: r.text("part"),
			Tensile: r.number("tensile_min_MPa"), Yield: r.number("yield_min_MPa"), Proof: r.number("proof_MPa"),
			MinD: r.number("min_mm"), MaxD: r.number("max_mm"), minOpen: r.text("min_open") != "",
			Source: r.cite(), ByName: strings.HasPrefix(r.text("size_range"), "beyond"),
		})
	}
	for _, r := range mustTable("inch-grades.csv") {
		name := strings.TrimSpace(r.text("standard") + " " + r.text("grade"))
		out = append(out, Strength{
			Designation: strings.Replace(name, "SAE J429", "SAE", 1), Standard: r.text("standard"), Part: r.text("part"),
			Tensile: r.number("tensile_min_psi") * mpaPerPSI, Yield: r.number("yield_min_psi") * mpaPerPSI,
			Proof: r.number("proof_psi") * mpaPerPSI,
			MinD:  r.number("min_dia_in") * inch, MaxD: r.number("max_dia_in") * inch, minOpen: r.text("min_open") != "",
			Source: r.cite(),
		})
	}
	return out
})

// Strengths returns all rows, in table order.
func Strengths() []Strength { return append([]Strength(nil), strengths()...) }

// strengthsOf lists the rows of a designation; "12" finds "12 style 1" too.
func strengthsOf(designation string) []Strength {
	var out []Strength
	for _, s := range strengths() {
		if s.Designation == designation || strings.HasPrefix(s.Designation, designation+" style ") {
			out = append(out, s)
		}
	}
	return out
}

// rowsFor picks the rows that hold for a diameter. Where none does, fits is
// false and the row of the nearest sizes is returned.
func rowsFor(all []Strength, d float64) (rows []Strength, fits bool) {
	for _, s := range all {
		if s.Fits(d) {
			rows = append(rows, s)
		}
	}
	if len(rows) > 0 || len(all) == 0 {
		return rows, true
	}
	nearest := all[0]
	for _, s := range all[1:] {
		if away(s, d) < away(nearest, d) {
			nearest = s
		}
	}
	return []Strength{nearest}, false
}

func away(s Strength, d float64) float64 { return max(s.MinD-d, d-s.MaxD, 0) }

// StrongestClass is the most forgiving class where none is given: 12.9 of
// ISO 898-1 for metric threads, ASTM A574 for unified ones. Rarer and stronger
// screws exist; who rejects by it leaves room above.
func StrongestClass(metric bool, dMM float64) Strength {
	if metric {
		rows, _ := rowsFor(strengthsOf("12.9"), dMM)
		return rows[0]
	}
	rows, _ := rowsFor(strengthsOf("ASTM A574"), dMM)
	return rows[0]
}

// WeakestClass is the weakest class of steel screws: 4.6 of ISO 898-1 for metric
// threads, grade 1 of SAE J429 for unified ones. (Soft stainless steel, A2-50,
// yields lower still: 210 MPa.)
func WeakestClass(metric bool, dMM float64) Strength {
	name := "SAE 1"
	if metric {
		name = "4.6"
	}
	rows, _ := rowsFor(strengthsOf(name), dMM)
	return rows[0]
}
