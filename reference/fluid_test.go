package reference

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestFluidByGrade(t *testing.T) {
	for _, c := range []struct{ text, class, grade string }{
		{"SAE 15W-40", engineOil, "SAE 15W-40"},
		{"15W40", engineOil, "SAE 15W-40"},
		{"SAE 15W/40 API CI-4", engineOil, "SAE 15W-40"},
		{"10w 30", engineOil, "SAE 10W-30"},
		{"SAE 10W", engineOil, "SAE 10W"},
		{"SAE 30", engineOil, "SAE 30"},
		{"engine oil 40", engineOil, "SAE 40"},
		{"engine oil, SAE 5W–30", engineOil, "SAE 5W-30"},
		{"SAE J300 0W-8", engineOil, "SAE 0W-8"},
		{"SAE 90", gearOil, "SAE 90"},
		{"SAE 80W-90 GL-5", gearOil, "SAE 80W-90"},
		{"75W-90", gearOil, "SAE 75W-90"},
		{"85w140", gearOil, "SAE 85W-140"},
		{"gear oil 250", gearOil, "SAE 250"},
		{"ISO VG 46", hydraulicOil, "ISO VG 46"},
		{"VG46", hydraulicOil, "ISO VG 46"},
		{"ISO VG46", hydraulicOil, "ISO VG 46"},
		{"ISO 46", hydraulicOil, "ISO VG 46"},
		{"ISO 3448 VG 46", hydraulicOil, "ISO VG 46"},
		{"HLP 68", hydraulicOil, "ISO VG 68"},
		{"DIN 51524 HVLP-32", hydraulicOil, "ISO VG 32"},
		{"hydraulic oil 22", hydraulicOil, "ISO VG 22"},
		{"ISO VG 3200", hydraulicOil, "ISO VG 3200"},
		{"ATF", atf, "ATF"},
		{"automatic transmission fluid", atf, "ATF"},
		{"Dexron III", atf, "ATF conventional"},
		{"ATF Dexron VI", atf, "ATF low viscosity"},
		{"Dexron III ATF", atf, "ATF conventional"},
		{"ATF ULV", atf, "ATF ultra low viscosity"},
		{"ATF, low viscosity", atf, "ATF low viscosity"},
		{"CVT fluid", atf, "ATF for CVT"},
		{"DOT 4", "brake fluid", "DOT 4"},
		{"dot5.1", "brake fluid", "DOT 5.1"},
		{"DOT-3 brake fluid", "brake fluid", "DOT 3"},
		{"50 % ethylene glycol", coolant, "50 % ethylene glycol"},
		{"ethylene glycol 50 %", coolant, "50 % ethylene glycol"},
		{"50% antifreeze", coolant, "50 % ethylene glycol"},
		{"50/50 coolant", coolant, "50 % ethylene glycol"},
		{"40 % ethylene glycol in water", coolant, "40 % ethylene glycol"},
		{"engine oil", engineOil, ""},
		{"Hydraulic Oil", hydraulicOil, ""},
		{"mineral oil", mineralOil, ""},
	} {
		f, known := FluidByGrade(c.text)
		if !known || f.Class != c.class || f.Grade != c.grade {
			t.Errorf("%q: got %q %q %v, want %q %q", c.text, f.Class, f.Grade, known, c.class, c.grade)
		}
	}
	for _, text := range []string{
		"", "water", "NLGI 2", "SAE 15W-45", "SAE 45", "SAE 15W-90", "SAE 80W-40", "SAE 25W-20", "SAE 17W", "ISO VG 45", "ISO VG 0", "DOT 6", "DOT 5.2",
		"SAE 30 or SAE 40", "ISO VG 32 or 46", "SAE 30, ISO VG 100", "50 % propylene glycol", "0 % glycol", "120 % glycol", "grease ISO VG 100", "SAE",
		"15W-40W-90W-" + string(make([]byte, 200)),
	} {
		if f, known := FluidByGrade(text); known {
			t.Errorf("%q is read as %s %s", text, f.Class, f.Grade)
		}
	}
}

func TestFluidFigures(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		grade          string
		kv40, kv100    [2]float64
		density, alpha [2]float64 // alpha in 1e-4 per K
	}{
		// SAE J300 (2015), limits of 15W and 40; density chart; 0.6278/885.
		{"SAE 15W-40", [2]float64{}, [2]float64{12.5, 16.3}, [2]float64{885, 885}, [2]float64{7.094, 7.094}},
		{"SAE 10W", [2]float64{}, [2]float64{4.1, inf}, [2]float64{840, 895}, [2]float64{7.015, 7.474}},
		{"SAE 5W-20", [2]float64{}, [2]float64{6.9, 9.3}, [2]float64{840, 895}, [2]float64{7.015, 7.474}},
		// SAE J306 (2019), limits of 80W and 90; densities from memory.
		{"SAE 80W-90", [2]float64{}, [2]float64{13.5, 18.5}, [2]float64{890, 910}, [2]float64{6.899, 7.054}},
		{"SAE 250", [2]float64{}, [2]float64{41, inf}, [2]float64{890, 910}, [2]float64{6.899, 7.054}},
		// ISO 3448: 46 ±10 %.
		{"ISO VG 46", [2]float64{41.4, 50.6}, [2]float64{}, [2]float64{865, 865}, [2]float64{7.258, 7.258}},
		{"ISO VG 100", [2]float64{90, 110}, [2]float64{}, [2]float64{860, 980}, [2]float64{6.406, 7.300}},
		{"ISO VG 2", [2]float64{1.98, 2.42}, [2]float64{}, [2]float64{860, 980}, [2]float64{6.406, 7.300}},
		// Spread of the classes of ATF.
		{"ATF", [2]float64{17, 38}, [2]float64{4, 7.7}, [2]float64{830, 870}, [2]float64{7.216, 7.564}},
		// FMVSS 116: 1.5 mm²/s at least at 100 °C; no coefficient was found.
		{"DOT 4", [2]float64{}, [2]float64{1.5, inf}, [2]float64{1030, 1080}, [2]float64{}},
		// Supplier table, 1090 and 1079 kg/m³ at 0 and 20 °C.
		{"50 % ethylene glycol", [2]float64{}, [2]float64{}, [2]float64{1081.75, 1081.75}, [2]float64{5.07, 6.2}},
		{"40 % ethylene glycol", [2]float64{}, [2]float64{}, [2]float64{}, [2]float64{}},
		// Engineering tables page: 0.00070 per °C.
		{"mineral oil", [2]float64{}, [2]float64{}, [2]float64{860, 980}, [2]float64{7, 7}},
	} {
		f, known := FluidByGrade(c.grade)
		if !known {
			t.Errorf("%s is not known", c.grade)
			continue
		}
		ends := func(i Interval) [2]float64 { return [2]float64{i.Lo, i.Hi} }
		round := func(i Interval) [2]float64 { return [2]float64{math.Round(i.Lo*1e7) / 1e3, math.Round(i.Hi*1e7) / 1e3} }
		got := [4][2]float64{ends(f.KV40), ends(f.KV100), ends(f.Density15), round(f.Alpha15)}
		if diff := cmp.Diff([4][2]float64{c.kv40, c.kv100, c.density, c.alpha}, got); diff != "" {
			t.Errorf("%s: kv40, kv100, density, alpha (-want +got):\n%s", c.grade, diff)
		}
		for _, i := range []Interval{f.KV40, f.KV100, f.Density15, f.Alpha15} {
			if i.Hi != 0 && i.Source.IsZero() {
				t.Errorf("%s: %v has no source", c.grade, i)
			}
		}
	}
}

// The supplier's densities of 50 % ethylene glycol, kg/m³ at 0 to 100 °C, and the
// coefficients that lie between neighbours.
func TestCoolantCoefficient(t *testing.T) {
	f, _ := FluidByGrade("50 % ethylene glycol")
	at := map[float64]float64{}
	for _, p := range f.Properties {
		if p.Quantity == "density" && p.Source.Seen == SeenOnce && p.Note == "" {
			at[p.AtC] = p.Lo
		}
	}
	want := map[float64]float64{0: 1090, 20: 1079, 40: 1067, 60: 1055, 80: 1042, 100: 1030}
	if diff := cmp.Diff(want, at); diff != "" {
		t.Errorf("densities (-want +got):\n%s", diff)
	}
	lo, hi := math.Inf(1), 0.0
	for c := 0.0; c < 100; c += 20 {
		a := math.Log(want[c]/want[c+20]) / 20
		lo, hi = min(lo, a), max(hi, a)
	}
	if math.Abs(f.Alpha15.Lo-lo) > 5e-7 || math.Abs(f.Alpha15.Hi-hi) > 5e-7 {
		t.Errorf("coefficient %v to %v, the densities give %v to %v", f.Alpha15.Lo, f.Alpha15.Hi, lo, hi)
	}
}

func TestTable54D(t *testing.T) {
	k0, rho := Table54D()
	// Two public code bases: 0.6278; a formulator's page: 0.34878 per °F.
	if math.Abs(k0-0.34878*1.8) > 1e-5 || rho.Lo != 800 || rho.Hi != 1164 || rho.Source.ID != "astm-d1250" {
		t.Errorf("%v, %+v", k0, rho)
	}
}

func TestFluidGrades(t *testing.T) {
	grades := FluidGrades()
	if len(grades) < 50 {
		t.Errorf("%d grades", len(grades))
	}
	for _, g := range grades {
		f, known := FluidByGrade(g)
		if !known || f.Grade != g {
			t.Errorf("%q reads as %q, %v", g, f.Grade, known)
		}
		for _, p := range f.Properties {
			if p.Unit == "" || p.Source.IsZero() || p.Source.ID == "" || math.IsNaN(p.Lo) && math.IsNaN(p.Hi) || p.Lo > p.Hi {
				t.Errorf("%s: %+v", g, p)
			}
		}
	}
}

func FuzzFluidByGrade(f *testing.F) {
	for _, s := range []string{"SAE 15W-40", "ISO VG 46", "VG46", "ATF", "DOT 4", "50 % ethylene glycol", "50/50", "Dexron VI", "SAE 30 or SAE 40", "gear oil", "80w90", "25W-20"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		fl, known := FluidByGrade(s)
		if !known {
			if fl.Class != "" || fl.Grade != "" {
				t.Fatalf("%q: not known, but %+v", s, fl)
			}
			return
		}
		name := fl.Grade
		if name == "" {
			name = fl.Class
		}
		again, ok := FluidByGrade(name)
		if !ok || again.Grade != fl.Grade || again.Class != fl.Class {
			t.Fatalf("%q reads as %q, which reads as %q %v", s, name, again.Grade, ok)
		}
		for _, i := range []Interval{fl.Density15, fl.Alpha15, fl.KV40, fl.KV100} {
			if !(i.Lo <= i.Hi) || i.Lo < 0 {
				t.Fatalf("%q: interval %v", s, i)
			}
		}
	})
}

func BenchmarkFluidByGrade(b *testing.B) {
	for b.Loop() {
		FluidByGrade("SAE 15W-40")
	}
}

func ExampleFluidByGrade() {
	f, known := FluidByGrade("VG46")
	fmt.Println(f.Class, f.Grade, known)
	fmt.Printf("%v to %v mm²/s at 40 °C (%s)\n", f.KV40.Lo, f.KV40.Hi, f.KV40.Source)
	// Output:
	// hydraulic oil ISO VG 46 true
	// 41.4 to 50.6 mm²/s at 40 °C (ISO 3448 limits (midpoint ±10 %) as reproduced by three pages)
}
