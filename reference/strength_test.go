package reference

import (
	"math"
	"testing"
)

func TestClassRows(t *testing.T) {
	for _, c := range []struct {
		class                 string
		d                     float64
		metric                bool
		tensile, yield, proof float64 // MPa for metric, ksi for inch
		source                string
	}{
		{"4.6", 8, true, 400, 240, 225, "ISO 898-1:2013 Table 3"},
		{"5.8", 8, true, 520, 420, 380, "ISO 898-1:2013 Table 3"},
		{"8.8", 8, true, 800, 640, 580, "ISO 898-1:2013 Table 3, d to 16"},
		{"8.8", 20, true, 830, 660, 600, "ISO 898-1:2013 Table 3, d over 16"},
		{"9.8", 16, true, 900, 720, 650, "ISO 898-1:2013 Table 3"},
		{"10.9", 10, true, 1040, 940, 830, "ISO 898-1:2013 Table 3; BS 3692 tables print the nominal 1000"},
		{"12.9", 24, true, 1220, 1100, 970, "ISO 898-1:2013 Table 3"},
		{"A2-70", 10, true, 700, 450, 0, "ISO 3506-1:2020 Table 2"},
		{"A4-80", 10, true, 800, 600, 0, "ISO 3506-1:2020 Table 2"},
		{"A4-100", 10, true, 1000, 800, 0, "ISO 3506-1:2020 Table 2"},
		{"class 8", 8, true, 0, 0, 870, "ISO 898-2:1992"},
		{"class 10", 20, true, 0, 0, 1060, "ISO 898-2:1992"},
		{"SAE 1", 12.7, false, 60, 36, 33, "SAE J429"},
		{"SAE 2", 19.05, false, 74, 57, 55, "SAE J429, 1/4 to 3/4"},
		{"SAE 2", 22.225, false, 60, 36, 33, "SAE J429, over 3/4"},
		{"SAE 5", 25.4, false, 120, 92, 85, "SAE J429, 1/4 to 1"},
		{"SAE 5", 28.575, false, 105, 81, 74, "SAE J429, over 1"},
		{"SAE 8", 12.7, false, 150, 130, 120, "SAE J429"},
		{"A574", 12.7, false, 180, 153, 140, "ASTM A574, to 1/2 in; one sheet mislabels the ranges"},
		{"A574", 15.875, false, 170, 153, 135, "ASTM A574, over 1/2 in"},
		{"A449", 25.4, false, 120, 92, 85, "Shigley, ASTM bolt table"},
		{"A307", 12.7, false, 60, 36, 33, "Shigley, ASTM bolt table"},
	} {
		r := ReadClass(c.class, c.d, c.metric)
		if len(r.Rows) != 1 || !r.SizeFits || !r.InTables {
			t.Errorf("%s at %v: %+v", c.class, c.d, r)
			continue
		}
		unit := 1.0
		if !c.metric {
			unit = 6.894757293168 // MPa per ksi, NIST SP 811 B.8
		}
		got := r.Rows[0]
		for _, v := range [][2]float64{{got.Tensile, c.tensile}, {got.Yield, c.yield}, {got.Proof, c.proof}} {
			if math.Abs(v[0]-v[1]*unit) > 1e-6*v[1]*unit {
				t.Errorf("%s at %v mm: got %v, want %v (%s)", c.class, c.d, v[0], v[1]*unit, c.source)
			}
		}
	}
}

// Loads printed in the load tables of ISO 898-1 are stress area times stress.
func TestLoadsInPrint(t *testing.T) {
	for _, c := range []struct {
		thread, class string
		load          string // proof or ultimate
		n             float64
		source        string
	}{
		{"M4", "10.9", "ultimate", 9130, "ISO 898-1; a copy misprints 91 130"},
		{"M20", "10.9", "ultimate", 255000, "ISO 898-1; a copy misprints 250 000"},
		{"M12", "9.8", "ultimate", 75900, "ISO 898-1; a copy misprints 75 200"},
		{"M4", "4.6", "proof", 1980, "ISO 898-1; a copy misprints 1530"},
		{"M8", "8.8", "proof", 21200, "ISO 898-1 proof loads, from memory"},
		{"M10", "10.9", "proof", 48100, "ISO 898-1 proof loads, from memory"},
		{"M20", "8.8", "proof", 147000, "ISO 898-1 proof loads, from memory"},
	} {
		th, _ := ParseThread(c.thread)
		s := ReadClass(c.class, th.D, true).Rows[0]
		stress := s.Proof
		if c.load == "ultimate" {
			stress = s.Tensile
		}
		if got := th.StressArea * stress; math.Abs(got/c.n-1) > 0.006 {
			t.Errorf("%s %s: %s load %.0f N, printed %.0f (%s)", c.thread, c.class, c.load, got, c.n, c.source)
		}
	}
}

// The VDI 2230 fine-thread table gives for M10x1.25, 8.8, mu 0.12 a preload of
// 31.6 kN and 51 N·m (printed to whole N·m); thread, class and head together
// must give it.
func TestTheTablesReproduceVDI2230(t *testing.T) {
	th, _ := ParseThread("M10x1.25")
	s := ReadClass("8.8", th.D, true).Rows[0]
	var dkm float64
	for _, b := range BearingOf("hex", th) {
		if b.Kind == "hex, ISO 4014 / ISO 4017 grade A" {
			dkm = (b.Dw + b.Hole) / 2
		}
	}
	const mu = 0.12
	d0 := (th.PitchDiameter + th.MinorDiameter) / 2
	twist := 1.5 * th.PitchDiameter / d0 * (th.Pitch/(math.Pi*th.PitchDiameter) + 1.155*mu)
	force := 0.9 * s.Yield * math.Pi / 4 * d0 * d0 / math.Sqrt(1+3*twist*twist)
	torque := force * (0.16*th.Pitch + 0.58*th.PitchDiameter*mu + dkm/2*mu) / 1000
	if math.Abs(force-31600) > 50 || math.Abs(torque-51) > 0.5 {
		t.Errorf("got %.0f N and %.1f N·m, want 31.6 kN and 51 N·m", force, torque)
	}
}

// Shigley Example 8-3: 25 kip on a 3/4-16 is 67.02 ksi.
func TestShigleyExample(t *testing.T) {
	th, _ := ParseThread("3/4-16 UNF")
	if got := 25 / (th.StressArea / 645.16); math.Abs(got-67.02) > 0.005 {
		t.Errorf("got %.3f ksi, want 67.02", got)
	}
}

func TestStrongestAndWeakest(t *testing.T) {
	for _, c := range []struct {
		metric    bool
		d         float64
		strongest string
		tensile   float64
		weakest   string
	}{
		{true, 8, "12.9", 1220, "4.6"},
		{true, 48, "12.9", 1220, "4.6"}, // beyond the standard, still the most forgiving
		{true, 0, "12.9", 1220, "4.6"},
		{false, 6.35, "ASTM A574", 180 * 6.894757293168, "SAE 1"},
		{false, 1.5, "ASTM A574", 180 * 6.894757293168, "SAE 1"},
		{false, 25.4, "ASTM A574", 170 * 6.894757293168, "SAE 1"},
	} {
		s, w := StrongestClass(c.metric, c.d), WeakestClass(c.metric, c.d)
		if s.Designation != c.strongest || math.Abs(s.Tensile-c.tensile) > 0.001 || w.Designation != c.weakest {
			t.Errorf("%v %v: %s %.1f, %s", c.metric, c.d, s.Designation, s.Tensile, w.Designation)
		}
	}
	// Nothing in the tables is stronger than the class taken where none is given.
	for _, s := range Strengths() {
		metric := s.Standard[:3] == "ISO"
		if top := StrongestClass(metric, s.MaxD); s.Tensile > top.Tensile || s.Yield > top.Yield {
			t.Errorf("%s is stronger than %s", s.Designation, top.Designation)
		}
	}
}

func TestStrengthRowsAreWhole(t *testing.T) {
	for _, s := range Strengths() {
		if s.MinD <= 0 || s.MaxD < s.MinD || s.Source.IsZero() || s.Part == "" {
			t.Errorf("%s is not whole: %+v", s.Designation, s)
		}
		if s.Part == "nut" {
			continue
		}
		// Proof below yield below tensile, in every row.
		if s.Yield >= s.Tensile || s.Proof >= s.Yield {
			t.Errorf("%s: proof %v, yield %v, tensile %v", s.Designation, s.Proof, s.Yield, s.Tensile)
		}
	}
}
