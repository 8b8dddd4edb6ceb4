package physics_test

import (
	"fmt"
	"regexp"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
)

var (
	usualAre  = regexp.MustCompile(`usual are (\S+) to (\S+ \S+?)[,;]`)
	itBreaks  = regexp.MustCompile(`at (\S+ \S+) it breaks`)
	torqueOf  = convert.Of(convert.Torque)
	boundedBy = []*rule.Check{physics.TorqueOutsideBand, physics.TorqueAboveYield}
)

// TestBoundsHold: what is printed beside a figure is true of it: 120 N·m is not
// unusually low where 120 to 380 N·m are usual. Figures of three digits lie close
// to either bound.
func TestBoundsHold(t *testing.T) {
	said := 0
	for _, f := range []schema.Fastener{
		{Type: "screw", Thread: "M14x1.5", Class: "10.9"}, {Type: "screw", Thread: "M8x1.25", Class: "8.8"}, {Type: "nut", Thread: "M10x1.5", Class: "8"},
		{Type: "screw", Thread: "3/8-16 UNC", Class: "SAE 5"}, {Type: "stud", Thread: "M12x1.25", Class: "12.9"},
	} {
		for _, unit := range []string{"N·m", "lbf·ft", "lbf·in"} {
			for i := range 600 {
				x := 1 + float64(i)*0.5
				if i > 300 {
					x = 150 + float64(i-300)*7
				}
				text := fmt.Sprintf("%g %s", x, unit)
				r := &schema.Record{ID: "r", Kind: schema.KindTorque}
				r.Fasteners.Items = []schema.Fastener{f}
				r.Tighten = []schema.Step{{To: schema.Figure{Values: []convert.Value{{Text: text}}}}}
				r.ReadFigures("")
				nm := r.Tighten[0].To.Values[0].Quantity.Nominal()
				read := func(s string) float64 {
					q, problem := convert.Parse(s, torqueOf, convert.Point)
					if problem != nil {
						t.Fatal(s, problem)
					}
					return q.Nominal()
				}
				e := &schema.Entry{Record: r, Head: &schema.Head{}}
				for _, c := range boundedBy {
					c.Record(rule.NewPass(c, e, func(f rule.Finding) {
						said++
						if m := usualAre.FindStringSubmatch(f.Message + ";"); m != nil {
							lo, hi := read(m[1]+" "+unit), read(m[2])
							if lo <= nm && nm <= hi {
								t.Errorf("%s", f.Message)
							}
						}
						if m := itBreaks.FindStringSubmatch(f.Message); m != nil && read(m[1]) >= nm {
							t.Errorf("%s", f.Message)
						}
					}))
				}
			}
		}
	}
	if said < 1000 {
		t.Errorf("only %d findings were looked at", said)
	}
}
