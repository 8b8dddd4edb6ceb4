package cited_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/cited"
	"snapgauge/verify/rule"
)

func figure(t testing.TB, dims convert.Dimensions, text string) schema.Figure {
	t.Helper()
	q, problem := convert.Parse(text, dims, convert.Point)
	return schema.Figure{Want: dims, Values: []convert.Value{{Text: text, Quantity: q, Problem: problem}}}
}

func length(t testing.TB, text string) schema.Figure {
	return figure(t, convert.Of(convert.Length), text)
}

func findings(c *rule.Check, r *schema.Record) []rule.Finding {
	var out []rule.Finding
	c.Record(rule.NewPass(c, &schema.Entry{Record: r}, func(f rule.Finding) { out = append(out, f) }))
	return out
}

var checks = []*rule.Check{
	cited.FluidGradeUnknown, cited.LevelTooHot, cited.MarkAgainstTemperature, cited.BearingClearance, cited.RingGap,
	cited.CrankEndFloat, cited.GeneralTolerance, cited.ToleranceOfWrench,
}

// TestSources: each finding names the document of its own rule, not the list of
// rules, and no rule of practice rejects.
func TestSources(t *testing.T) {
	temperature := convert.Of(convert.Temperature)
	records := map[string]struct {
		check  *rule.Check
		record schema.Record
		source string
	}{
		"bearing": {cited.BearingClearance, schema.Record{Where: "main bearings", Tolerance: schema.Tolerance{Of: "clearance", New: length(t, "0.3 to 0.7 mm"), Size: length(t, "50 mm")}}, "two engine-trade magazines"},
		"ring":    {cited.RingGap, schema.Record{Where: "top ring", Tolerance: schema.Tolerance{Of: "gap", New: length(t, "4.5 mm"), Size: length(t, "80 mm")}}, "two pages"},
		"crank":   {cited.CrankEndFloat, schema.Record{Where: "crankshaft", Tolerance: schema.Tolerance{Of: "end float", New: length(t, "2.8 mm")}}, "crankshaft maker table (10 engines)"},
		"general": {cited.GeneralTolerance, schema.Record{Tolerance: schema.Tolerance{Of: "length", New: length(t, "40 ±0.03 mm"), How: "ISO 2768-m"}}, "ISO 2768-1:1989 Table 1"},
		"grade":   {cited.FluidGradeUnknown, schema.Record{Fill: schema.Fill{Fluid: schema.Fluid{Grade: "SAE 10W-35"}}}, "SAE J300"},
		"class":   {cited.FluidGradeUnknown, schema.Record{Fill: schema.Fill{Fluid: schema.Fluid{Grade: "ISO VG 45"}}}, "ISO 3448"},
		"hot":     {cited.LevelTooHot, schema.Record{Fill: schema.Fill{Level: schema.Level{By: "dipstick", At: figure(t, temperature, "170 °C")}}}, "US Army TM 9-2320-386-10"},
		"mark":    {cited.MarkAgainstTemperature, schema.Record{Fill: schema.Fill{Level: schema.Level{Marks: []schema.LevelMark{{At: figure(t, temperature, "90 °C"), Mark: "COLD"}}}}}, "US Army TM 9-2320-386-10"},
	}
	for name, tt := range records {
		found := findings(tt.check, &tt.record)
		if len(found) != 1 {
			t.Errorf("%s: %d findings, want 1", name, len(found))
			continue
		}
		f := found[0]
		if !strings.HasPrefix(f.Source.Text, tt.source) {
			t.Errorf("%s: source %q, want %q", name, f.Source.Text, tt.source)
		}
		if f.Verdict == rule.Reject || f.Read == "" {
			t.Errorf("%s: %s, read %q", name, f.Verdict, f.Read)
		}
	}
	if len(checks) < len(records)-1 {
		t.Error("a check is missing from the list")
	}
}

// TestFinding: place, text, what would go and the related place of one finding.
func TestFinding(t *testing.T) {
	r := schema.Record{Where: "main bearings", Tolerance: schema.Tolerance{Of: "clearance", New: length(t, "0.30 to 0.70 mm"), Size: length(t, "50 mm")}}
	found := findings(cited.BearingClearance, &r)
	if len(found) != 1 {
		t.Fatalf("%d findings", len(found))
	}
	f := found[0]
	got := []string{f.At.Path.String(), f.Read, f.Want, f.Related[0].At.Path.String()}
	// 0.000125 and 0.006 of 50 mm.
	if diff := cmp.Diff([]string{"/new", "0.30 to 0.70 mm", "0.0063 to 0.30 mm", "/size"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if f.At.From != 0 || f.At.To != len("0.30 to 0.70") {
		t.Errorf("stands at %d to %d", f.At.From, f.At.To)
	}
}

// TestNothingToSay: broken and foreign records are passed over.
func TestNothingToSay(t *testing.T) {
	bad := schema.Figure{Values: []convert.Value{{Text: "71 lb", Problem: &convert.Problem{Kind: convert.UnknownUnit}}}}
	records := []*schema.Record{
		nil,
		{},
		{Where: "main bearings", Tolerance: schema.Tolerance{Of: "clearance", New: bad, Size: bad, How: "ISO 2768-m"}},
		{Where: "top ring", Tolerance: schema.Tolerance{Of: "gap", New: length(t, "4.5 mm"), Size: bad}},
		{Where: "crankshaft", Tolerance: schema.Tolerance{Of: "end float", New: bad}},
		{Tolerance: schema.Tolerance{Of: "length", New: bad, How: "ISO 2768-m"}},
		{Fill: schema.Fill{Level: schema.Level{By: "dipstick", At: bad, Points: []schema.LevelPoint{{}}, Marks: []schema.LevelMark{{Mark: "COLD"}}}}},
		{Torque: schema.Torque{Tighten: []schema.Step{{}, {To: bad, Tolerance: bad}}}},
	}
	for i, r := range records {
		for _, c := range checks {
			for _, f := range findings(c, r) {
				t.Errorf("record %d: %s says %s", i, c.ID, f.Message)
			}
		}
	}
}

// TestRingGap: bounds at the ends of the band, 0.000875 and 0.026 of 100 mm.
func TestRingGap(t *testing.T) {
	for _, tt := range []struct {
		gap  string
		want int
	}{
		{"0.088 mm", 0}, {"0.086 mm", 1}, {"2.60 mm", 0}, {"2.62 mm", 1}, {"0 to 0.5 mm", 0},
	} {
		r := schema.Record{Where: "piston rings", Tolerance: schema.Tolerance{Of: "gap", New: length(t, tt.gap), Size: length(t, "100 mm")}}
		if found := findings(cited.RingGap, &r); len(found) != tt.want {
			t.Errorf("%s: %v, want %d", tt.gap, found, tt.want)
		}
	}
}

func BenchmarkCited(b *testing.B) {
	r := schema.Record{Where: "main bearings", Tolerance: schema.Tolerance{Of: "clearance", New: length(b, "0.03 to 0.07 mm"), Size: length(b, "50 mm")}}
	for b.Loop() {
		for _, c := range checks {
			if len(findings(c, &r)) > 0 {
				b.Fatal("a good record is flagged")
			}
		}
	}
}
