package joint_test

import (
	"math"
	"strings"
	"testing"

	"snapgauge/reference"
	"snapgauge/verify/internal/tabletest"
	"snapgauge/verify/joint"
)

func mustThread(t testing.TB, text string) reference.Thread {
	t.Helper()
	th, problem := reference.ParseThread(text)
	if problem != nil {
		t.Fatalf("%s: %v", text, problem)
	}
	return th
}

// TestStripAreas: Bickford, Design and Behavior of Bolted Joints, 4th ed., strip
// area tables: areas over one diameter of engagement at least material, within
// 0.5 % or half a unit of the last printed digit. The limits of size come from
// ISO 965-1 and ASME B1.1.
func TestStripAreas(t *testing.T) {
	n := 0
	for _, r := range tabletest.Rows(t, "testdata/check-strip-areas.csv") {
		text := r["thread"]
		if r["unit"] == "mm" {
			text += "x" + r["pitch"]
		}
		thread := mustThread(t, text)
		unit := 1.0
		if r["unit"] == "in" {
			unit = 25.4 * 25.4
		}
		external, internal, _ := strings.Cut(r["tolerance"], "/")
		if r["unit"] == "mm" {
			external, internal = internal, external // 6H/6g names the nut first
		}
		tightExternal, tightInternal, _ := strings.Cut(r["tolerance_tight"], "/")
		if r["unit"] == "mm" {
			tightExternal, tightInternal = tightInternal, tightExternal
		}
		for _, c := range []struct {
			column, external, internal string
			area                       func(joint.StripLimits, float64) (float64, error)
		}{
			{"bolt_area", external, internal, joint.ExternalStripAreaMM2},
			{"nut_area", external, internal, joint.InternalStripAreaMM2},
			{"bolt_area_tight", tightExternal, tightInternal, joint.ExternalStripAreaMM2},
			{"nut_area_tight", tightExternal, tightInternal, joint.InternalStripAreaMM2},
		} {
			printed := r[c.column]
			if printed == "" {
				continue
			}
			l, err := joint.StripLimitsOf(thread, c.external, c.internal)
			if err != nil {
				t.Fatalf("%s %s/%s: %v", text, c.external, c.internal, err)
			}
			got, err := c.area(l, thread.D)
			if err != nil {
				t.Fatal(err)
			}
			n++
			what := text + " " + c.column
			if misprinted[what] != "" {
				if want := number(t, printed); math.Abs(got/unit-want) <= max(0.005*want, 0.005) {
					t.Errorf("%s: %v as printed, no longer a misprint", what, want)
				}
				continue
			}
			near(t, what, got/unit, printed, 0.005)
		}
	}
	if n < 120 {
		t.Errorf("%d areas compared", n)
	}
}

// misprinted figures of the strip area table, and why.
var misprinted = map[string]string{
	"1-1/8-8 bolt_area":       "a tenth below the series on either side: about 2.12 in² is expected",
	"1-1/8-8 bolt_area_tight": "the same",
	"7/8-9 bolt_area":         "1.25 in² by the limits of ASME B1.1 (pitch 0.7946, minor 0.778 in); its tight area 1.38 fits",
}

// m10 are the least-material limits of M10, 6g and 6H, as they stand beside the
// strip area table.
var m10 = joint.StripLimits{PitchMM: 1.5, ExternalMajorMinMM: 9.732, ExternalPitchMinMM: 8.862, InternalPitchMaxMM: 9.206, InternalMinorMaxMM: 8.676}

// TestStripM10: 155.80 and 214.77 mm² over 10 mm (Bickford), and the limits of
// ISO 965-1 are those that give it.
func TestStripM10(t *testing.T) {
	got, err := joint.StripLimitsOf(mustThread(t, "M10x1.5"), "", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ got, want float64 }{
		{got.ExternalMajorMinMM, m10.ExternalMajorMinMM}, {got.ExternalPitchMinMM, m10.ExternalPitchMinMM},
		{got.InternalPitchMaxMM, m10.InternalPitchMaxMM}, {got.InternalMinorMaxMM, m10.InternalMinorMaxMM},
	} {
		if math.Abs(c.got-c.want) > 0.0006 {
			t.Errorf("limits %+v, want %+v", got, m10)
		}
	}
	ex, _ := joint.ExternalStripAreaMM2(m10, 10)
	in, _ := joint.InternalStripAreaMM2(m10, 10)
	near(t, "bolt, mm²", ex, "155.80", 0)
	near(t, "nut, mm²", in, "214.77", 0)
}

// TestEngagementTrap: Handbook of Bolts and Bolted Joints works out the
// engagement of an M10x1.5 screw of 10.9 in aluminium of 130 MPa shear strength for
// 1200 MPa times 58 mm², 69 600 N, and finds 21.6 mm. It enters 9.968 as the least
// major diameter, which is the largest of 6g; with 9.732 the same formula asks
// 24.9 mm. The printed value is not to be reproduced with the right limits.
func TestEngagementTrap(t *testing.T) {
	right, err := joint.EngagementForLoadMM(m10, 69_600, 130)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "engagement, mm", right, "24.9", 0)
	wrong := m10
	wrong.ExternalMajorMinMM = 9.968
	got, err := joint.EngagementForLoadMM(wrong, 69_600, 130)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "as printed, mm", got, "21.6", 0)
}

// TestNeededEngagement: a screw and a nut of one strength need less than a
// diameter, as nuts of 0.8 d show (ISO 4032); a tapped part of a third of the
// strength needs three times the ratio of the areas.
func TestNeededEngagement(t *testing.T) {
	s := joint.ScrewOf(mustThread(t, "M10x1.5"))
	equal, err := joint.NeededEngagementMM(s, m10, 1000, 1000)
	if err != nil || equal < 0.6*10 || equal > 0.8*10 {
		t.Errorf("equal strengths: %v mm, %v", equal, err)
	}
	ratio, err := joint.StrengthRatio(m10, 900, 300)
	if err != nil || math.Abs(ratio-3*155.80/214.77) > 0.001 {
		t.Errorf("strength ratio %v, %v", ratio, err)
	}
	soft, err := joint.NeededEngagementMM(s, m10, 900, 300)
	if err != nil || math.Abs(soft-equal*ratio) > 1e-9 {
		t.Errorf("softer nut: %v mm, want %v", soft, equal*ratio)
	}
}

// TestPullOut: the quick formula has 1/3 of the cylinder at the pitch diameter,
// the areas of FED-STD-H28 some 0.7 of that at the major one: the quick one is
// safer by half.
func TestPullOut(t *testing.T) {
	quick, err := joint.PullOutLoadN(9.026, 10, 130)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pi · 9.026 · 130 · 10 / 3, N", quick, "12288", 1e-4)
	area, _ := joint.InternalStripAreaMM2(m10, 10)
	exact, err := joint.StripLoadN(area, 130)
	if err != nil || quick > exact || quick < 0.4*exact {
		t.Errorf("quick %v N, by areas %v N, %v", quick, exact, err)
	}
}

func TestInsert(t *testing.T) {
	outer, err := joint.InsertOuterMM(8, 1.25)
	if err != nil || math.Abs(outer.Lo-9.624) > 0.001 || outer.Hi < 12 {
		t.Errorf("insert for M8: %+v, %v; a wire insert sits in 9.624 mm (NASM33537, from memory), bushes in up to M12", outer, err)
	}
	plain, _ := joint.InternalStripAreaMM2(m10, 10)
	with, err := joint.InsertStripAreaMM2(10, 1.5, 10)
	if err != nil || with.Lo <= plain || with.Hi <= with.Lo {
		t.Errorf("insert area %+v, %v; without %v", with, err, plain)
	}
}

// TestStripErrors: threads that do not meet, and numbers that are none.
func TestStripErrors(t *testing.T) {
	apart := m10
	apart.InternalMinorMaxMM, apart.InternalPitchMaxMM = 11, 11.5
	for name, call := range map[string]func() (float64, error){
		"threads do not meet": func() (float64, error) { return joint.InternalStripAreaMM2(apart, 10) },
		"screw loose in nut":  func() (float64, error) { return joint.ExternalStripAreaMM2(apart, 10) },
		"no engagement":       func() (float64, error) { return joint.ExternalStripAreaMM2(m10, 0) },
		"no limits":           func() (float64, error) { return joint.InternalStripAreaMM2(joint.StripLimits{}, 10) },
		"no strength":         func() (float64, error) { return joint.StrengthRatio(m10, 0, 100) },
		"ratio apart":         func() (float64, error) { return joint.StrengthRatio(apart, 100, 100) },
		"no screw":            func() (float64, error) { return joint.NeededEngagementMM(joint.Screw{}, m10, 1, 1) },
		"needed apart": func() (float64, error) {
			return joint.NeededEngagementMM(joint.ScrewOf(mustThread(t, "M10")), apart, 1, 1)
		},
		"no load":  func() (float64, error) { return joint.EngagementForLoadMM(m10, 0, 100) },
		"no shear": func() (float64, error) { return joint.PullOutLoadN(9, 10, math.NaN()) },
	} {
		if x, err := call(); err == nil {
			t.Errorf("%s: got %v, want an error", name, x)
		}
	}
	if _, err := joint.StripLimitsOf(mustThread(t, "G 1/2"), "", ""); err == nil {
		t.Error("limits of a pipe thread")
	}
	if _, err := joint.InsertOuterMM(0, 1); err == nil {
		t.Error("insert of no screw")
	}
	if _, err := joint.InsertStripAreaMM2(8, 1.25, -1); err == nil {
		t.Error("insert of no length")
	}
}
