package reference

import (
	"math"
	"strings"
	"testing"
)

// halfDigit is half a unit of the last digit of a printed number.
func halfDigit(printed string) float64 {
	_, decimals, _ := strings.Cut(printed, ".")
	return 0.5 * math.Pow10(-len(decimals))
}

// Every metric stress area is π/4·((d2+d3)/2)² to its printed digits (ISO 898-1),
// d2 and d3 are those of the ISO 68-1 profile.
func TestMetricTableIsTheFormula(t *testing.T) {
	for _, r := range mustTable("metric-threads.csv") {
		d, p := r.number("nominal_mm"), r.number("pitch_mm")
		c := metricOf(d, p)
		printed := r.text("stress_area_mm2")
		tolerance := halfDigit(printed)
		if c.StressArea >= 1000 {
			tolerance = 5 // three significant digits
		}
		if diff := math.Abs(c.StressArea - r.number("stress_area_mm2")); diff > tolerance*1.0001 {
			t.Errorf("%s: area %s printed, %.4f by formula", r.text("designation"), printed, c.StressArea)
		}
		for _, v := range []struct {
			column string
			got    float64
		}{{"pitch_diameter_d2_mm", c.PitchDiameter}, {"minor_diameter_d3_mm", c.MinorDiameter}} {
			if diff := math.Abs(v.got - r.number(v.column)); diff > 0.00051 {
				t.Errorf("%s: %s %s printed, %.4f by formula", r.text("designation"), v.column, r.text(v.column), v.got)
			}
		}
	}
}

// Ten unified areas come out of the formula only when the pitch diameter is
// rounded to four decimals first: π·(E/2 − 3H/16)² (FED-STD-H28).
func TestUnifiedTableIsTheFormula(t *testing.T) {
	rounded := map[string]bool{
		"No. 1-64 UNC": true, "No. 3-48 UNC": true, "No. 4-40 UNC": true, "No. 2-64 UNF": true, "No. 4-48 UNF": true,
		"No. 5-44 UNF": true, "No. 6-40 UNF": true, "No. 8-36 UNF": true, "5/16-24 UNF": true, "1/2-20 UNF": true,
	}
	for _, r := range mustTable("unified-threads.csv") {
		d, n := r.number("nominal_in"), r.number("tpi")
		area := math.Pi / 4 * math.Pow(d-0.9743/n, 2)
		if rounded[r.text("designation")] {
			e := math.Round((d-0.64951905/n)*1e4) / 1e4
			h := 0.8660254 / n
			area = math.Pi * math.Pow(e/2-3*h/16, 2)
		}
		printed := r.text("stress_area_in2")
		// A hair more than half a digit: the formula's own constants are rounded.
		if math.Abs(area-r.number("stress_area_in2")) > halfDigit(printed)*1.03 {
			t.Errorf("%s: area %s printed, %.6f by formula", r.text("designation"), printed, area)
		}
	}
}

func TestListedThreads(t *testing.T) {
	seen := make(map[string]bool)
	for _, c := range Threads() {
		if seen[c.Designation] {
			t.Errorf("%s is listed twice", c.Designation)
		}
		seen[c.Designation] = true
		if !c.Listed || !c.PitchGiven || c.Source.IsZero() || c.Series == "" {
			t.Errorf("%s is not whole: %+v", c.Designation, c)
		}
		// The two diameters and the area hang together (within print).
		if diff := math.Abs(areaOf(c)/c.StressArea - 1); diff > 0.005 {
			t.Errorf("%s: area %.4g, %.4g by its diameters", c.Designation, c.StressArea, areaOf(c))
		}
		back, p := ParseThread(c.Designation)
		if p != nil || back.Designation != c.Designation || back.StressArea != c.StressArea || !back.Listed {
			t.Errorf("%s reads back as %+v, %v", c.Designation, back, p)
		}
	}
}

// Values typed from print.
func TestThreadsInPrint(t *testing.T) {
	for _, c := range []struct {
		thread       string
		d2, d3, area float64
		source       string
	}{
		{"M8", 7.188, 6.466, 36.6, "ISO 724; ISO 898-1 stress area table"},
		{"M10x1.25", 9.188, 8.466, 61.2, "ISO 898-1, fine pitch"},
		{"M3", 2.675, 2.387, 5.03, "ISO 898-1"},
		{"M12", 10.863, 9.853, 84.3, "ISO 898-1"},
		{"M16", 14.701, 13.546, 157, "ISO 898-1"},
		{"M39", 36.402, 34.093, 976, "ISO 898-1; a university table prints 36.00"},
		{"M64", 60.103, 56.639, 2680, "Bickford, 4th ed."},
	} {
		got, p := ParseThread(c.thread)
		if p != nil || got.PitchDiameter != c.d2 || got.MinorDiameter != c.d3 || got.StressArea != c.area {
			t.Errorf("%s: got %v %v %v (%v), want %v %v %v (%s)", c.thread, got.PitchDiameter, got.MinorDiameter, got.StressArea, p, c.d2, c.d3, c.area, c.source)
		}
	}
	for _, c := range []struct {
		thread string
		in2    float64
		source string
	}{
		{"1/4-20", 0.0318, "Machinery's Handbook 31st ed. Table 4a"},
		{"7/16-14", 0.1063, "Machinery's Handbook 31st ed. Table 4a; a web table prints 0.0163"},
		{"10-32", 0.0200, "Machinery's Handbook 31st ed. Table 4b"},
		{"1-8", 0.606, "Machinery's Handbook 31st ed. Table 4a"},
		{"1-1/2-12", 1.581, "Machinery's Handbook 31st ed. Table 4b"},
		{"1-3/8-8", 1.233, "Machinery's Handbook 31st ed. Table 5c"},
		{"1-14", 0.680, "distributor thread chart"},
		{"3/4-16", 0.373, "Shigley Example 8-3"},
	} {
		got, p := ParseThread(c.thread)
		if p != nil || math.Abs(got.StressArea/645.16-c.in2) > 1e-9 {
			t.Errorf("%s: got %.5f in² (%v), want %v (%s)", c.thread, got.StressArea/645.16, p, c.in2, c.source)
		}
	}
}

func TestThreadsOfSize(t *testing.T) {
	for _, c := range []struct{ thread, want string }{
		{"M8", "M8x1.25 M8x1 M8x0.75"}, // ISO 261
		{"M10", "M10x1.5 M10x1.25 M10x1 M10x0.75"},
		{"M10 fine", "M10x1.25 M10x1 M10x0.75"},
		{"M25", "M25x2 M25x1.5 M25x1"},
		{"1/4", "1/4-20 UNC|1/4-28 UNF|1/4-32 UNEF"}, // ASME B1.1
		{"1/4 fine", "1/4-28 UNF|1/4-20 UNC|1/4-32 UNEF"},
		{"No. 10", "No. 10-24 UNC|No. 10-32 UNF"},
		{"1", "1-8 UNC|1-12 UNF|1-14 UNS|1-16 UN|1-20 UNEF|1-28 UN|1-32 UN"},
		{"G 1/2", ""},
	} {
		th, _ := ParseThread(c.thread)
		var got []string
		for _, s := range ThreadsOfSize(th) {
			got = append(got, s.Designation)
		}
		sep := " "
		if strings.Contains(c.want, "|") {
			sep = "|"
		}
		joined := strings.Join(got, sep)
		if c.thread == "1/4 fine" { // the series gives the pitch; the size keeps its candidates
			if th.Designation != "1/4-28 UNF" || th.PitchGiven || len(got) != 3 {
				t.Errorf("%s is %s with %d candidates", c.thread, th.Designation, len(got))
			}
			continue
		}
		if joined != c.want {
			t.Errorf("%s: got %q, want %q", c.thread, joined, c.want)
		}
	}
}
