package reference

import (
	"math"
	"slices"
	"strings"
	"sync"
)

// FluidProperty is one printed property of a fluid.
type FluidProperty struct {
	Quantity string  // density, kinematic viscosity, dynamic viscosity, volume coefficient, boiling point, dry, …
	AtC      float64 // the temperature it holds at, °C; NaN where it holds for none in particular
	Lo, Hi   float64 // in Unit; an open end is NaN
	Unit     string
	Note     string
	Source   Citation
}

// Fluid is what is known of a fluid by its grade or class. A zero interval is
// not known; the upper end of a viscosity is +Inf where the grade leaves it open.
// None of it is a specification for any machine.
type Fluid struct {
	Class      string   // engine oil, gear oil, hydraulic oil, automatic transmission fluid, brake fluid, coolant, mineral oil
	Grade      string   // normal form: "SAE 15W-40", "ISO VG 46", "DOT 4", "50 % ethylene glycol"; empty for a whole class
	Lubricant  bool     // an oil: the Table 54D relation holds for it
	Density15  Interval // kg/m³ at 15 °C, typical; both ends equal where one value is printed
	Alpha15    Interval // volume coefficient, per K; of lubricants by Table 54D from the density
	KV40       Interval // mm²/s at 40 °C
	KV100      Interval // mm²/s at 100 °C
	Properties []FluidProperty
}

// Table54D returns the constant K0 of the relation alpha15 = K0/rho15 for
// lubricating oils (alpha15 per K, rho15 in kg/m³ at 15 °C), and the densities
// that it holds for: ASTM D1250 / API MPMS 11.1, Table 54D.
func Table54D() (k0 float64, density15 Interval) {
	c := Cite("astm-d1250")
	return 0.6278, Interval{Lo: 800, Hi: 1164, Source: c}
}

type fluidTable struct {
	rows   map[string][]FluidProperty // by class and grade: "gear oil|SAE 90", "gear oil|"
	grades map[string]string          // class by grade
	order  []string                   // grades in table order
}

const (
	engineOil    = "engine oil"
	gearOil      = "gear oil"
	hydraulicOil = "hydraulic oil"
	atf          = "automatic transmission fluid"
	mineralOil   = "mineral oil"
	coolant      = "coolant"
	glycol50     = "50 % ethylene glycol"
)

var fluids = sync.OnceValue(func() fluidTable {
	tab := fluidTable{rows: make(map[string][]FluidProperty), grades: make(map[string]string)}
	for _, r := range mustTable("fluids.csv") {
		open := func(column string) float64 {
			if r.text(column) == "" {
				return math.NaN()
			}
			return r.number(column)
		}
		class, grade := r.text("class"), r.text("grade")
		key := class + "|" + grade
		tab.rows[key] = append(tab.rows[key], FluidProperty{
			Quantity: r.text("quantity"), AtC: open("at_C"), Lo: open("lo"), Hi: open("hi"), Unit: r.text("unit"),
			Note: r.text("note"), Source: r.cite(),
		})
		if _, ok := tab.grades[grade]; !ok && grade != "" {
			tab.grades[grade] = class
			tab.order = append(tab.order, grade)
		}
	}
	return tab
})

// FluidGrades lists the grades of the table, in its order.
func FluidGrades() []string { return slices.Clone(fluids().order) }

// fluidOf gathers what the rows of some grades say: of 15W and 40 for 15W-40.
func fluidOf(class, grade string, of ...string) Fluid {
	f := Fluid{Class: class, Grade: grade}
	f.Lubricant = strings.HasSuffix(class, "oil") || class == atf
	tab := fluids()
	for _, g := range of {
		f.Properties = append(f.Properties, tab.rows[class+"|"+g]...)
	}
	for _, p := range f.Properties {
		switch {
		case p.Quantity == "density" && p.AtC == 15:
			f.Density15 = Interval{p.Lo, p.Hi, p.Source}
		case p.Quantity == "volume coefficient":
			f.Alpha15 = Interval{p.Lo, p.Hi, p.Source}
		case p.Quantity == "kinematic viscosity" && p.AtC == 40:
			f.KV40 = narrow(f.KV40, p)
		case p.Quantity == "kinematic viscosity" && p.AtC == 100:
			f.KV100 = narrow(f.KV100, p)
		}
	}
	if f.Density15.Hi == 0 { // typical of the class
		for _, p := range tab.rows[class+"|"] {
			if p.Quantity == "density" {
				f.Density15 = Interval{p.Lo, p.Hi, p.Source}
				f.Properties = append(f.Properties, p)
			}
		}
	}
	if f.Lubricant && f.Alpha15.Hi == 0 && f.Density15.Hi > 0 {
		k0, _ := Table54D()
		c := Cite("astm-d1250")
		c.Seen = Computed
		f.Alpha15 = Interval{k0 / f.Density15.Hi, k0 / f.Density15.Lo, c}
	}
	return f
}

// narrow takes one more limit into account: 15W-40 must meet both 15W and 40.
func narrow(i Interval, p FluidProperty) Interval {
	lo, hi := p.Lo, p.Hi
	if math.IsNaN(lo) {
		lo = 0
	}
	if math.IsNaN(hi) {
		hi = math.Inf(1)
	}
	if i.Hi == 0 {
		return Interval{lo, hi, p.Source}
	}
	source := i.Source
	if lo > i.Lo || hi < i.Hi {
		source = p.Source
	}
	return Interval{max(lo, i.Lo), min(hi, i.Hi), source}
}
