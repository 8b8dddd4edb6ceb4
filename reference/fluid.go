package reference

// FluidProperty is one printed property of a fluid.
type FluidProperty struct {
	Quantity string  // density, kinematic viscosity, dynamic viscosity, volume coefficient, boiling point, …
	AtC      float64 // temperature in °C it holds at; NaN where it holds for none in particular
	Lo, Hi   float64 // in Unit; NaN where that end is open
	Unit     string
	Note     string
	Source   Citation
}

// Fluid is what is known of a fluid by its grade. An interval that is zero is
// not known; an open upper end of a viscosity is +Inf.
type Fluid struct {
	Class      string   // engine oil, gear oil, hydraulic oil, automatic transmission fluid, brake fluid, coolant, mineral oil
	Grade      string   // normal form: "SAE 15W-40", "ISO VG 46", "DOT 4", "50 % ethylene glycol"
	Density15  Interval // kg/m³ at 15 °C, typical
	Alpha15    Interval // volume coefficient per K at 15 °C
	KV40       Interval // mm²/s at 40 °C
	KV100      Interval // mm²/s at 100 °C
	Lubricant  bool     // an oil, to which the Table 54D relation applies
	Properties []FluidProperty
	Source     Citation // of the grade
}

// FluidByGrade reads a grade as printed: SAE 15W-40, 80W-90, ISO VG 46, VG46,
// ATF, DOT 4, 50 % ethylene glycol. What it does not know is not known.
func FluidByGrade(text string) (f Fluid, known bool) { return Fluid{}, false }

// Table54D is the constant K0 of alpha15 = K0/rho15 for lubricating oils, with
// the densities at 15 °C (kg/m³) that the relation holds for.
func Table54D() (k0 float64, density15 Interval) {
	c := Cite("astm-d1250")
	return 0.6278, Interval{Lo: 800, Hi: 1164, Source: c}
}
