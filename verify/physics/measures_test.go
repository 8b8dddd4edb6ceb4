package physics_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
)

var measureChecks = []*rule.Check{
	physics.FitLimits, physics.FitNotInTables, physics.OilExpansion, physics.BetweenMarksAboveFill, physics.ResistanceTemperature,
}

func measured(c *rule.Check, r *schema.Record) []rule.Finding {
	var out []rule.Finding
	c.Record(rule.NewPass(c, &schema.Entry{Record: r}, func(f rule.Finding) { out = append(out, f) }))
	return out
}

func one(t testing.TB, dim convert.Dimension, text string) schema.Figure {
	t.Helper()
	q, problem := convert.Parse(text, convert.Of(dim), convert.Point)
	if problem != nil {
		t.Fatalf("%s: %v", text, problem)
	}
	return schema.Figure{Want: convert.Of(dim), Values: []convert.Value{{Text: text, Quantity: q}}}
}

// publishedLimits are limits as published, in mm. Sources: A a JIS B 0401 (1999)
// hole and shaft table of a tool maker; B an ISO hole table of a mould-base maker;
// C a JIS B 0401 hole table of a coupling maker; D a cutting-tool catalogue; E
// ISO 286-2:1988/Cor.1:2006; F a textbook's note on M6.
var publishedLimits = []struct {
	size, class, of, lower, upper, source string
}{
	{"25", "H7", "bore", "25.000", "25.021", "A, B"},
	{"25", "g6", "diameter", "24.980", "24.993", "A"},
	{"40", "H7", "bore", "40.000", "40.025", "C"},
	{"40", "k6", "diameter", "40.002", "40.018", "A"},
	{"20", "p6", "diameter", "20.022", "20.035", "A"},
	{"8", "f7", "diameter", "7.972", "7.987", "A"},
	{"50", "s6", "diameter", "50.043", "50.059", "A"},
	{"12", "n6", "diameter", "12.012", "12.023", "A"},
	{"28", "js6", "diameter", "27.9935", "28.0065", "A"},
	{"35", "K7", "bore", "34.982", "35.007", "B"},
	{"22", "M7", "bore", "21.979", "22.000", "B"},
	{"15", "P7", "bore", "14.971", "14.989", "A"},
	{"27", "R7", "bore", "26.959", "26.980", "A, B"},
	{"9", "S7", "bore", "8.968", "8.983", "A"},
	{"70", "h9", "diameter", "69.926", "70.000", "D"},
	{"35", "F8", "bore", "35.025", "35.064", "C"},
	{"25", "G7", "bore", "25.007", "25.028", "C"},
	{"100", "E8", "bore", "100.072", "100.126", "E"},
	{"280", "M6", "bore", "279.959", "279.991", "F"},
	{"170", "K8", "bore", "169.957", "170.020", "B"},
}

// TestPublishedLimits: published limits are silent, as they are and cut to a
// hundredth; the same limits with two digits exchanged or a decimal off are told.
func TestPublishedLimits(t *testing.T) {
	for _, l := range publishedLimits {
		record := func(text string) *schema.Record {
			return &schema.Record{Tolerance: schema.Tolerance{
				Of: l.of, Fit: l.class, Size: one(t, convert.Length, l.size+" mm"), New: one(t, convert.Length, text),
			}}
		}
		cut := func(s string) string { return s[:strings.Index(s, ".")+3] }
		for _, good := range []string{
			fmt.Sprintf("%s to %s mm", l.lower, l.upper),
			fmt.Sprintf("%s to %s mm", cut(l.lower), cut(l.upper)),
			fmt.Sprintf("min %s mm", l.lower),
			fmt.Sprintf("max %s mm", l.upper),
		} {
			for _, f := range measured(physics.FitLimits, record(good)) {
				t.Errorf("%s %s, %s: %s", l.size, l.class, good, f.Message)
			}
		}
		bad := fmt.Sprintf("%s to %s mm", l.lower, strings.Replace(l.upper, ".", ".1", 1)) // a digit too many
		if found := measured(physics.FitLimits, record(bad)); len(found) != 1 || found[0].Verdict != rule.Query {
			t.Errorf("%s %s, %s: %v, want a query", l.size, l.class, bad, found)
		}
		far := fmt.Sprintf("1%s to 1%s mm", l.lower, l.upper)
		if found := measured(physics.FitLimits, record(far)); len(found) != 1 || found[0].Verdict != rule.Reject {
			t.Errorf("%s %s, %s: %v, want a reject", l.size, l.class, far, found)
		}
	}
}

// TestFitFinding: what a finding on a fit says, in the unit as written.
func TestFitFinding(t *testing.T) {
	r := &schema.Record{Tolerance: schema.Tolerance{Of: "fit", Fit: "H7/f7", Size: one(t, convert.Length, "25 mm"), New: one(t, convert.Length, "0.0008 to 0.0042 in")}}
	found := measured(physics.FitLimits, r)
	if len(found) != 1 {
		t.Fatalf("%d findings", len(found))
	}
	f := found[0]
	got := []string{f.At.Path.String(), f.Read, f.Want, f.Related[0].At.Path.String(), f.Related[1].At.Path.String()}
	if diff := cmp.Diff([]string{"/new", "0.0008 to 0.0042 in", "0.0008 to 0.0024 in", "/fit", "/size"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if !strings.HasPrefix(f.Source.Text, "ISO 286-1") {
		t.Errorf("source %q", f.Source.Text)
	}
}

// TestCoilPublished: a coil at two temperatures by the published multiplying
// factors of copper wire (25 °C to 40, 75 and 150 °C: 1.058, 1.193, 1.482) is
// silent; with the warm figure off by a third it is told.
func TestCoilPublished(t *testing.T) {
	for _, tt := range []struct{ at, ohm, high, low string }{
		{"40 °C", "105.8 Ω", "141 Ω", "70.5 Ω"}, {"75 °C", "119.3 Ω", "159 Ω", "79.5 Ω"}, {"150 °C", "148.2 Ω", "198 Ω", "98.8 Ω"},
	} {
		for i, ohm := range []string{tt.ohm, tt.high, tt.low} {
			r := &schema.Record{Tolerance: schema.Tolerance{Of: "coil resistance", Rows: []schema.Row{
				{Figure: one(t, convert.Resistance, "100 Ω"), At: schema.Conditions{Temperature: one(t, convert.Temperature, "25 °C")}},
				{Figure: one(t, convert.Resistance, ohm), At: schema.Conditions{Temperature: one(t, convert.Temperature, tt.at)}},
			}}}
			if found := measured(physics.ResistanceTemperature, r); len(found) != min(i, 1) {
				t.Errorf("%s at %s: %v", ohm, tt.at, found)
			}
		}
	}
}

// TestLevelFinding: place and related places of a level that does not rise with
// the oil: the volume between the marks first, then what it is judged by.
func TestLevelFinding(t *testing.T) {
	temperature, length, volume := convert.Temperature, convert.Length, convert.Volume
	r := &schema.Record{Fill: schema.Fill{
		Fluid:   schema.Fluid{Name: "hydraulic oil", Grade: "ISO VG 46"},
		Amounts: []schema.Amount{{When: "dry fill", Volume: one(t, volume, "6.2 L")}},
		Level: schema.Level{By: "dipstick", BetweenMarks: one(t, volume, "3.5 L"), Points: []schema.LevelPoint{
			{At: one(t, temperature, "20 °C"), Low: one(t, length, "30 mm"), High: one(t, length, "48 mm")},
			{At: one(t, temperature, "70 °C"), Low: one(t, length, "41 mm"), High: one(t, length, "59 mm")},
		}},
	}}
	found := measured(physics.OilExpansion, r)
	if len(found) != 1 {
		t.Fatalf("%d findings", len(found))
	}
	got := []string{found[0].At.Path.String()}
	for _, re := range found[0].Related {
		got = append(got, re.At.Path.String())
	}
	want := []string{
		"/level/between-marks", "/level/points/1/low", "/level/points/1/high", "/level/points/0/low",
		"/level/points/0/at", "/level/points/1/at", "/amounts/0/volume",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestMeasuresNothingToSay: broken records are passed over.
func TestMeasuresNothingToSay(t *testing.T) {
	bad := schema.Figure{Values: []convert.Value{{Text: "71 lb", Problem: &convert.Problem{Kind: convert.UnknownUnit}}}}
	records := []*schema.Record{
		nil,
		{},
		{Tolerance: schema.Tolerance{Of: "fit", Fit: "H7/g6", Size: bad, New: bad}},
		{Tolerance: schema.Tolerance{Of: "coil resistance", Rows: []schema.Row{{}, {Figure: bad, At: schema.Conditions{Temperature: bad}}}}},
		{Fill: schema.Fill{Amounts: []schema.Amount{{}, {Volume: bad}}, Level: schema.Level{BetweenMarks: bad, Points: []schema.LevelPoint{{}, {At: bad, Low: bad, High: bad}}}}},
		{Fill: schema.Fill{Fluid: schema.Fluid{Name: "oil"}, Amounts: []schema.Amount{{Volume: bad}}, Level: schema.Level{BetweenMarks: one(t, convert.Volume, "1 L")}}},
	}
	for i, r := range records {
		for _, c := range measureChecks {
			for _, f := range measured(c, r) {
				t.Errorf("record %d: %s says %s", i, c.ID, f.Message)
			}
		}
	}
}
