package physics_test

import (
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/internal/tabletest"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
)

// otherGrade runs the check of charts on a screw.
func otherGrade(t testing.TB, thread, class string, torque ...string) []rule.Finding {
	t.Helper()
	r := &schema.Record{}
	r.Fasteners.Items = []schema.Fastener{screw("", thread, class)}
	r.Tighten = []schema.Step{{To: tabletest.Figure(t, convert.Torque, torque...)}}
	var found []rule.Finding
	physics.OtherGradeTable.Record(rule.NewPass(physics.OtherGradeTable, &schema.Entry{Record: r}, func(f rule.Finding) { found = append(found, f) }))
	return found
}

// TestCharts: rows typed from the documents are found for a weaker class and
// pass for their own.
func TestCharts(t *testing.T) {
	tests := []struct {
		thread, weaker, own, torque, source string
	}{
		{"1/2-13", "SAE 5", "SAE 8", "105 lbf·ft", "US Army TM 10-6640-238-13 Table G-1"},
		{"1/2-13", "SAE 5", "SAE 8", "142 N·m", "the same, second unit"},
		{"3/4-10", "SAE 5", "SAE 8", "375 lbf·ft", "the same"},
		{"3/8-16", "SAE 5", "SAE 8", "37 lbf·ft", "US Army TM 9-2320-362-14&P Table F-1, fine and coarse"},
		{"M10", "8.8", "10.9", "68 N·m", "Dubbel 18th ed. p. G175"},
		{"M10x1.5", "5.8", "8.8", "46 N·m", "the same"},
		{"M16", "8.8", "12.9", "365 N·m", "machine manual, mu 0.14"},
	}
	for _, tt := range tests {
		found := otherGrade(t, tt.thread, tt.weaker, tt.torque)
		if len(found) != 1 || found[0].Verdict != rule.Query || found[0].Source.IsZero() {
			t.Errorf("%s of %s at %s (%s): %v", tt.thread, tt.weaker, tt.torque, tt.source, said(found))
		}
		if found := otherGrade(t, tt.thread, tt.own, tt.torque); len(found) > 0 {
			t.Errorf("%s of its own class %s at %s: %v", tt.thread, tt.own, tt.torque, said(found))
		}
	}
	// No chart has the class or the thread.
	for _, class := range []string{"A2-70", "6.8", "10"} {
		if found := otherGrade(t, "M10", class, "68 N·m"); len(found) > 0 {
			t.Errorf("class %s: %v", class, said(found))
		}
	}
	if found := otherGrade(t, "M11", "8.8", "68 N·m"); len(found) > 0 {
		t.Errorf("M11: %v", said(found))
	}
}
