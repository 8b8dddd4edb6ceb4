package physics_test

import (
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/internal/tabletest"
	"snapgauge/verify/rule"
)

// BenchmarkLayer runs every check of the layer over a screw, a plug and a lock
// nut, as a book has them.
func BenchmarkLayer(b *testing.B) {
	records := map[string]*schema.Record{"screw": {}, "plug": {}, "lock nut": {}}
	fill := func(name, kind, thread, class, torque string) {
		r := records[name]
		r.Fasteners.Items = []schema.Fastener{{Type: kind, Thread: thread, Class: class, Head: "hex", Count: 4}}
		r.Joint = schema.Joint{Into: "cast aluminium", Engagement: tabletest.Figure(b, convert.Length, "18 mm"), Threads: "dry", Seal: "gasket"}
		r.Renew = []string{"gasket", "self-locking nuts"}
		r.Tighten = []schema.Step{step(b, "to", torque)}
	}
	fill("screw", "screw", "M8x1.25", "8.8", "22 N·m")
	fill("plug", "plug", "M18x1.5", "", "35 N·m")
	fill("lock nut", "prevailing nut", "7/16-20 UNF", "SAE 5", "50 lbf·ft")
	var checks []*rule.Check
	for _, c := range verify.All() {
		if c.Layer == rule.Physics && c.Record != nil {
			checks = append(checks, c)
		}
	}
	for name, r := range records {
		e := &schema.Entry{Record: r, Head: &schema.Head{}}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				for _, c := range checks {
					c.Record(rule.NewPass(c, e, func(f rule.Finding) {
						if f.Verdict > rule.Note {
							b.Fatal(f.Message)
						}
					}))
				}
			}
		})
	}
}
