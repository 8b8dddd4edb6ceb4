package sheet

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// What stands beside a figure. Converted values: NIST SP 811 Appendix B.8 gives
// 1 lbf·ft = 1.355 818 N·m, 1 lbf·in = 0.112 984 8 N·m, 1 kgf·m = 9.806 65 N·m, 1 in =
// 25.4 mm, 1 US qt = 0.946 352 9 L, 1 psi = 6.894 757 kPa, °F = 1.8 °C + 32; ranges
// and limits are rounded inwards.
func TestTorqueFigures(t *testing.T) {
	tests := []struct {
		to   string
		want []string
	}{
		{"[71 lbf·in, 8 N·m]", []string{"printed 71 lbf·in", "printed 8 N·m"}},
		{"20 to 25 N·m", []string{"printed 20 to 25 N·m", "converted 14.8 to 18.4 lbf·ft"}}, // 14.751, 18.439
		{"8 N·m", []string{"printed 8 N·m", "converted 71 lbf·in"}},                         // 70.8
		{"33 lbf·ft", []string{"printed 33 lbf·ft", "converted 45 N·m"}},                    // 44.742, to two digits
		{"4.6 kgf·m", []string{"printed 4.6 kgf·m", "converted 45.1 N·m", "converted 33.3 lbf·ft"}},
		{"[25 N·m, 18 lbf·ft, 2.5 kgf·m]", []string{"printed 25 N·m", "printed 18 lbf·ft", "printed 2.5 kgf·m"}},
		{"[26 lb-ft, 35 N·m]", []string{"printed 26 lb-ft", "printed 35 N·m"}},
	}
	for _, x := range tests {
		e := records(t, "  - {id: a, kind: torque, where: x, tighten: [{to: "+x.to+"}], source: {ref: manual, at: page 1}}\n")
		c := cardOf(t, made(t, Input{Records: e}), "a")
		if diff := cmp.Diff(x.want, parts(c.Torque.Steps[0].Figure)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", x.to, diff)
		}
	}
}

func TestOtherFigures(t *testing.T) {
	e := records(t, `
  - {id: bore, kind: tolerance, where: a, of: bore, new: 80.00 to 80.02 mm, wear-limit: 80.15 mm, source: {ref: manual, at: page 1}}
  - {id: plate, kind: tolerance, where: b, of: thickness, wear-limit: 2.20 mm, source: {ref: manual, at: page 1}}
  - {id: coil, kind: tolerance, where: c, of: coil resistance, new: 22 to 26 Ω, source: {ref: manual, at: page 1}}
  - id: oil
    kind: fill
    where: d
    amounts: [{when: dry fill, volume: 4.7 L}]
    level: {by: dipstick, engine: idling, points: [{at: 20 °C, low: 30 mm, high: 48 mm}]}
    source: {ref: manual, at: page 1}
`)
	s := made(t, Input{Records: e})
	oil := cardOf(t, s, "oil").Fill
	for _, x := range []struct {
		name string
		got  Figure
		want []string
	}{
		{"worn bore", cardOf(t, s, "bore").Tolerance.Rows[0].Worn, []string{"printed 80.15 mm", "converted 3.1555 in"}},  // 3.15551 down
		{"worn plate", cardOf(t, s, "plate").Tolerance.Rows[0].Worn, []string{"printed 2.20 mm", "converted 0.0867 in"}}, // 0.086614 up
		{"coil", cardOf(t, s, "coil").Tolerance.Rows[0].Must, []string{"printed 22 to 26 Ω"}},                            // nothing to convert to
		{"volume", oil.Amounts[0].Volume, []string{"printed 4.7 L", "converted 5.0 US qt"}},                              // 4.966
		{"engine", oil.Level.Engine, []string{"printed idling"}},                                                         // a word
		{"temperature", oil.Level.Points[0].At, []string{"printed 20 °C", "converted 68 °F"}},                            // 68
		{"low", oil.Level.Points[0].Low, []string{"printed 30 mm", "converted 1.19 in"}},                                 // 1.1811 up
		{"high", oil.Level.Points[0].High, []string{"printed 48 mm", "converted 1.88 in"}},                               // 1.8898 down
	} {
		if diff := cmp.Diff(x.want, parts(x.got)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", x.name, diff)
		}
	}
}

func TestMisprint(t *testing.T) {
	record := func(to string) string {
		return "  - {id: a, kind: torque, where: x, tighten: [{to: " + to + "}], source: {ref: manual, at: page 1}, " +
			"misprint: {printed: 54 N·m, use: 45 N·m, because: digits turned round, source: {ref: bulletin, at: sheet 5}, by: KE, date: 2026-03-09}}\n"
	}
	for _, x := range []struct {
		to   string
		want []string
		main string
	}{
		{"[33 lbf·ft, 54 N·m]", []string{"printed 33 lbf·ft", "use 45 N·m", "wrong 54 N·m"}, "33 lbf·ft"},
		{"[54 N·m, 33 lbf·ft]", []string{"use 45 N·m", "printed 33 lbf·ft", "wrong 54 N·m"}, "45 N·m"},
		{"54 N·m", []string{"use 45 N·m", "wrong 54 N·m", "converted 33.2 lbf·ft"}, "45 N·m"}, // 33.190
	} {
		s := made(t, Input{Records: records(t, record(x.to))})
		c := cardOf(t, s, "a")
		f := c.Torque.Steps[0].Figure
		if diff := cmp.Diff(x.want, parts(f)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", x.to, diff)
		}
		if f.Main().Text != x.main {
			t.Errorf("%s: works by %s, want %s", x.to, f.Main().Text, x.main)
		}
		if n := len(f.Beside()); n != len(f.Parts)-1 {
			t.Errorf("%s: %d texts beside, want the others", x.to, n)
		}
		want := &Misprint{"54 N·m", "45 N·m", "digits turned round", "Bulletin 7, 2021, sheet 5", "KE, 2026-03-09"}
		if diff := cmp.Diff(want, c.Misprint); diff != "" {
			t.Errorf("-want +got:\n%s", diff)
		}
		page := html(t, s)
		for _, want := range []string{"<b>Misprint.</b>", "digits turned round", "Bulletin 7, 2021, sheet 5", "misprint, do not use", "1 misprint"} {
			if !strings.Contains(page, want) {
				t.Errorf("%q is not on the page", want)
			}
		}
	}
}

// How a doubtful spelling was read is told beside it.
func TestReadAs(t *testing.T) {
	e := records(t, "  - {id: a, kind: fill, where: x, amounts: [{when: dry fill, volume: [5 qt, 4.7 L]}], source: {ref: manual, at: page 1}}\n")
	c := cardOf(t, made(t, Input{Records: e}), "a")
	if diff := cmp.Diff([]string{"printed 5 qt", "read 5 US qt", "printed 4.7 L"}, parts(c.Fill.Amounts[0].Volume)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
