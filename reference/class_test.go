package reference

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

func TestReadClass(t *testing.T) {
	const (
		m8      = 8.0
		m20     = 20.0
		quarter = 6.35
	)
	type want struct {
		exists, known, tables, fits, foreign bool
		rows                                 string // designations
	}
	ok := func(rows string) want { return want{true, true, true, true, false, rows} }
	named := want{true, true, false, true, false, ""} // exists, no rows here
	foreign := func(rows string) want { return want{true, true, rows != "", true, true, rows} }
	tooBig := func(rows string) want { return want{true, true, true, false, false, rows} }
	impossible := want{known: true}
	unknown := want{exists: true, fits: true}
	for _, c := range []struct {
		text   string
		d      float64
		metric bool
		want   want
	}{
		{"8.8", m8, true, ok("8.8")},
		{"8,8", m8, true, ok("8.8")},
		{" 8.8 ", m8, true, ok("8.8")},
		{"8.8", 14, true, ok("8.8 8.8")}, // structural bolting: the larger values from M12
		{"08.8", m8, true, ok("8.8")},    // reduced loadability, ISO 898-1
		{"8.8S", m20, true, ok("8.8")},
		{"10.9 zinc flake", m8, true, ok("10.9")},
		{"property class 10.9", m8, true, ok("10.9")},
		{"class 10.9", m8, true, ok("10.9")},
		{"grade 8.8", m8, true, ok("8.8")},
		{"ISO 898-1 12.9", m8, true, ok("12.9")},
		{"socket head cap 12.9 (DIN 912)", m8, true, ok("12.9")},
		{"5.6 (4.8)", m8, true, ok("5.6 4.8")},
		{"8.8 or 10.9", m8, true, ok("8.8 10.9")},
		{"8.8/10.9", m8, true, ok("8.8 10.9")},
		{"12.9", 0, true, ok("12.9")},
		{"8.8", 0, true, ok("8.8 8.8")},
		{"9.8", m20, true, tooBig("9.8")},
		{"12.9", 42, true, ok("12.9")}, // by the name of the class
		{"9.8", 42, true, tooBig("9.8")},
		{"12.9", 200, true, tooBig("12.9")},
		{"10", 48, true, ok("10")},
		{"8.8", quarter, false, foreign("8.8")},
		{"3.6", m8, true, named},
		{"6.9", m8, true, named},
		{"14.9", m8, true, named},
		{"16.9", m8, true, named},

		{"8.7", m8, true, impossible},
		{"13.9", m8, true, impossible},
		{"12.8", m8, true, impossible},
		{"9.10", m8, true, impossible},
		{"10.90", m8, true, impossible},
		{"88", m8, true, impossible},
		{"109", m8, true, impossible},
		{"129", m8, true, impossible},

		{"A2-70", m8, true, ok("A2-70")},
		{"A2 – 70", m8, true, ok("A2-70")},
		{"A4-80", m8, true, ok("A4-80")},
		{"A270", m8, true, ok("A2-70")},
		{"A2", m8, true, ok("A2-50 A2-70 A2-80")},
		{"A2/A4-70", m8, true, ok("A2-70 A4-70")},
		{"A1/A2/A4-50", m8, true, ok("A1-50 A2-50 A4-50")}, // a preload table heads its column so
		{"A5-100", m8, true, ok("A5-100")},
		{"A2-100", m8, true, named},
		{"C1-110", m8, true, named},
		{"F1-45", m8, true, named},
		{"D6-80", m8, true, named},
		{"A4-21H", m8, true, named},
		{"A2-75", m8, true, impossible},
		{"A2-07", m8, true, impossible},
		{"A6-70", m8, true, impossible},
		{"C1-75", m8, true, impossible},

		{"SAE 5", quarter, false, ok("SAE 5")},
		{"SAE J429 grade 8", quarter, false, ok("SAE 8")},
		{"SAE J429 Gr. 5", quarter, false, ok("SAE 5")},
		{"grade 5", quarter, false, ok("SAE 5")},
		{"Gr.8", quarter, false, ok("SAE 8")},
		{"5", quarter, false, ok("SAE 5")},
		{"SAE 8.2", quarter, false, ok("SAE 8.2")},
		{"8.2", quarter, false, ok("SAE 8.2")},
		{"class 8 (150 ksi)", 12.7, false, ok("SAE 8")},
		{"SAE 1 or 2", quarter, false, ok("SAE 1 SAE 2")},
		{"SAE 6 or 7", quarter, false, want{true, true, false, true, false, "SAE 5 SAE 7"}},
		{"SAE 6", 12.7, false, want{true, true, false, true, false, "SAE 5 SAE 7"}},
		{"SAE 6", 4, false, named},
		{"SAE 5.1", quarter, false, named},
		{"SAE 3", quarter, false, named},
		{"SAE 5", m8, true, foreign("SAE 5")},
		{"grade 8", m8, true, foreign("SAE 8")},
		{"8.2", m8, true, foreign("SAE 8.2")},
		{"SAE 6", m8, true, foreign("")},
		{"SAE 5.2", 30, false, tooBig("SAE 5.2")},
		{"SAE 5", 4.826, false, tooBig("SAE 5")},
		{"SAE 9", quarter, false, impossible},
		{"SAE 12", quarter, false, impossible},
		{"grade 9", quarter, false, unknown}, // makers' own name

		{"ASTM A574", quarter, false, ok("ASTM A574")},
		{"A574", m20, false, ok("ASTM A574")},
		{"A574M", m20, true, named},
		{"A307", quarter, false, ok("ASTM A307 A")},
		{"A307 A", quarter, false, ok("ASTM A307 A")},
		{"ASTM A307 grade B", quarter, false, named},
		{"A307", 44.45, false, ok("ASTM A307 A")}, // a bolt maker's chart
		{"A449", 50.8, false, ok("ASTM A449")},
		{"A449 type 1", quarter, false, ok("ASTM A449")},
		{"A325", m20, false, named},
		{"ASTM A490", m20, false, named},
		{"ASTM F3125 A325", m20, false, named},
		{"A354 BD", m20, false, named},
		{"ASTM A193 B7", m20, false, named},
		{"B7", m20, false, named},
		{"ASTM A574", m8, true, foreign("ASTM A574")},

		{"class 8", m8, true, ok("8")}, // nuts
		{"8", m8, true, ok("8")},
		{"12", m20, true, ok("12 style 2")},
		{"12", m8, true, ok("12 style 1 12 style 2")},
		{"04", m8, true, named},
		{"9", m8, true, named},
		{"45H", m8, true, named},
		{"socket set screw 45H (proof torque)", m8, true, named},
		{"8T", m8, true, named},
		{"10K", m8, true, named},
		{"AN4", quarter, false, named},
		{"NAS6606", quarter, false, named},
		{"AN steel bolt, fine thread series", quarter, false, named},

		{"", m8, true, unknown},
		{"hardened", m8, true, unknown},
		{"316 stainless", m8, true, unknown},
		{"1.4401", m8, true, unknown},
		{"ASTM A999", m8, true, unknown},
		{"bus connection bolt, head 7/16 in", m8, false, unknown},
		{"B.8", m8, true, unknown},
		{"l0.9", m8, true, unknown},
	} {
		r := ReadClass(c.text, c.d, c.metric)
		var rows []string
		for _, s := range r.Rows {
			rows = append(rows, s.Designation)
		}
		got := want{r.Exists, r.Known, r.InTables, r.SizeFits, r.Foreign, strings.Join(rows, " ")}
		if got != c.want {
			t.Errorf("%q at %v: got %+v, want %+v (%s)", c.text, c.d, got, c.want, r.Message)
		}
		if (!r.Exists || !r.SizeFits || r.Foreign) == (r.Message == "") && r.Known {
			t.Errorf("%q: message %q", c.text, r.Message)
		}
		if r.Text != c.text {
			t.Errorf("%q: Text is %q", c.text, r.Text)
		}
	}
}

func TestWhatWasMeant(t *testing.T) {
	for _, c := range []struct {
		text   string
		metric bool
		near   string // the first offered
	}{
		{"8.7", true, "8.8"},
		{"88", true, "8.8"},
		{"109", true, "10.9"},
		{"12.8", true, "12.9"},
		{"13.9", true, "10.9"},
		{"A2-75", true, "A2-70"},
		{"A2-07", true, "A2-70"},
		{"A6-70", true, "A2-70"},
		{"SAE 9", false, "SAE 8"},
		{"B.8", true, "8.8"},
		{"l0.9", true, "10.9"},
		{"8", true, "8.8"},
		{"12", true, "12.9"},
	} {
		r := ReadClass(c.text, 8, c.metric)
		if len(r.Near) == 0 || r.Near[0] != c.near {
			t.Errorf("%q: near %v, want %s", c.text, r.Near, c.near)
		}
	}
}

// Every class of the tables and every one known by name is read as existing,
// whatever the thread.
func TestNoRealClassIsImpossible(t *testing.T) {
	var all []string
	for _, s := range Strengths() {
		if !strings.Contains(s.Designation, "style") {
			all = append(all, s.Designation)
		}
	}
	all = append(all, otherISOClasses...)
	for _, g := range slices.Concat(saeGrades, otherSAE) {
		all = append(all, "SAE "+g, "SAE J429 grade "+g)
	}
	for steel, numbers := range otherStainless {
		for _, n := range numbers {
			if steel == "a" {
				all = append(all, "A1-"+n, "A2-"+n, "A5-"+n)
			} else {
				all = append(all, strings.ToUpper(steel)+"-"+n)
			}
		}
	}
	for _, a := range astmStandards {
		all = append(all, "ASTM "+strings.ToUpper(a))
	}
	for _, text := range all {
		for _, metric := range []bool{true, false} {
			for _, d := range []float64{0, 3, 8, 25.4, 64} {
				if r := ReadClass(text, d, metric); !r.Exists || !r.Known && r.Message != "" {
					t.Errorf("%q at %v (metric %v): %s", text, d, metric, r.Message)
				}
			}
		}
	}
}

func FuzzReadClass(f *testing.F) {
	for _, s := range []string{
		"8.8", "A2-70", "A1/A2/A4-50", "SAE 1 or 2", "SAE J429 grade 8", "class 8 (150 ksi)", "8.7", "88", "45H", "ASTM A193 B7",
		"socket head cap 12.9 (DIN 912)", "l0.9", "04", "grade", "/", "A-", "\xff8.8", "8.8 or", "iso 898-1",
	} {
		f.Add(s, 8.0, true)
		f.Add(s, 6.35, false)
	}
	f.Fuzz(func(t *testing.T, text string, d float64, metric bool) {
		if d != d || d < 0 || d > 1e6 {
			d = 0
		}
		r := readClass(text, d, metric)
		switch {
		case r.Text != text:
			t.Fatalf("Text is %q, not %q", r.Text, text)
		case !r.Exists && (len(r.Rows) > 0 || r.Message == "" || !r.Known):
			t.Fatalf("%q does not exist: %+v", text, r)
		case r.InTables && (len(r.Rows) == 0 || !r.Exists):
			t.Fatalf("%q is in the tables without rows: %+v", text, r)
		case !r.Known && (len(r.Rows) > 0 || !r.Exists):
			t.Fatalf("%q is not known, yet %+v", text, r)
		}
	})
}

func BenchmarkReadClass(b *testing.B) {
	for _, text := range []string{"8.8", "A2-70", "SAE 5", "8.7", "socket head cap 12.9"} {
		b.Run("first "+text, func(b *testing.B) {
			for b.Loop() {
				readClass(text, 8, true)
			}
		})
		b.Run("again "+text, func(b *testing.B) {
			for b.Loop() {
				ReadClass(text, 8, true)
			}
		})
	}
}

func ExampleReadClass() {
	r := ReadClass("8.8", 20, true)
	fmt.Println(r.Rows[0].Proof, "MPa,", r.Rows[0].Source)
	r = ReadClass("A2-75", 8, true)
	fmt.Println(r.Exists, r.Near, r.Message)
	// Output:
	// 600 MPa, ISO 898-1:2013 Table 3 (and 1999 edition Table 3)
	// false [A2-70] there is no class A2-75: the number is a tenth of the tensile strength in MPa; ISO 3506-1 has A2-50, A2-70, A2-80 or A2-100
}

// TestBetween: only a grade that is bounded by its neighbours is taken by them.
func TestBetween(t *testing.T) {
	for text, want := range map[string]bool{"SAE 6": true, "SAE 6 or 7": true, "SAE 7": false, "SAE 3": false, "SAE 6 or 3": false, "SAE 6 or nylon": true} {
		if r := ReadClass(text, 12.7, false); r.Between != want {
			t.Errorf("%s: %+v", text, r)
		}
	}
}

// TestBeyondM39: the strength by the name of a class says so.
func TestBeyondM39(t *testing.T) {
	for class, yield := range map[string]float64{"4.6": 240, "5.6": 300, "8.8": 660, "10.9": 940, "12.9": 1100} {
		r := ReadClass(class, 64, true)
		if len(r.Rows) != 1 || !r.Rows[0].ByName || r.Rows[0].Yield != yield || r.Rows[0].Source.Seen != Memory {
			t.Errorf("%s: %+v", class, r)
		}
	}
	if r := ReadClass("10.9", 200, true); !strings.Contains(r.Message, "for M1.6 to M39 only") {
		t.Errorf("M200: %q", r.Message)
	}
}

func TestNotSteel(t *testing.T) {
	for _, class := range []string{"nylon", "Nylon 66", "PA6", "plastic", "brass", "naval brass", "aluminum", "titanium grade 5", "CU2", "AL3"} {
		if !NotSteel(class) {
			t.Errorf("%q is taken for steel", class)
		}
	}
	for _, class := range []string{"", "8.8", "A2-70", "AN4", "steel", "316 stainless", "alloy steel", "1", "SAE 5"} {
		if NotSteel(class) {
			t.Errorf("%q is not taken for steel", class)
		}
	}
}
