package trial_test

import (
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/trial"
)

func one(records ...*schema.Record) func(func(schema.Entry) bool) {
	return func(yield func(schema.Entry) bool) {
		if !yield(schema.Entry{File: "gear.yaml", Head: &schema.Head{}, HeadOnly: true}) {
			return
		}
		for i, r := range records {
			r.ReadFigures("")
			if !yield(schema.Entry{File: "gear.yaml", Pointer: "/records/" + string(rune('0'+i)), Head: &schema.Head{}, Record: r}) {
				return
			}
		}
	}
}

func torque(id string, f schema.Fastener, texts ...string) *schema.Record {
	r := &schema.Record{ID: id, Kind: schema.KindTorque, Where: id}
	r.Fasteners.Items = []schema.Fastener{f}
	figure := schema.Figure{List: len(texts) > 1}
	for _, t := range texts {
		figure.Values = append(figure.Values, convert.Value{Text: t})
	}
	r.Tighten = []schema.Step{{To: figure}}
	return r
}

// TestHoles: what is left out is what would have closed the hole, and what is
// there is not asked for.
func TestHoles(t *testing.T) {
	for _, tt := range []struct {
		name     string
		record   *schema.Record
		add, not string
	}{
		{"one unit", torque("a", schema.Fastener{Type: "screw", Thread: "M8x1.25", Class: "8.8"}, "25 N·m"), "in a second unit", "class"},
		{"no class", torque("b", schema.Fastener{Type: "screw", Thread: "M8x1.25"}, "25 N·m"), "the class (tried with 8.8)", "thread"},
		{"no inch class", torque("c", schema.Fastener{Thread: "1/4-20"}, "8 lbf·ft"), "the class (tried with", "the thread"},
		{"no thread", torque("d", schema.Fastener{Type: "screw"}, "25 N·m"), "the thread and class", "engagement"},
		{"nothing of the hole", torque("e", schema.Fastener{Type: "screw", Thread: "M10x1.5", Class: "12.9"}, "80 N·m"), "what it is screwed into, and the engagement", "class"},
	} {
		r := trial.Run(one(tt.record), trial.Options{Seed: 1, Draws: 20})
		if len(r.Holes) != 1 {
			t.Errorf("%s: %d holes", tt.name, len(r.Holes))
			continue
		}
		h := r.Holes[0]
		var all []string
		for i, a := range h.Add {
			all = append(all, a.What)
			if a.Closes < 1 || a.Closes > h.Passed || i > 0 && a.Closes > h.Add[i-1].Closes {
				t.Errorf("%s: %q closes %d of %d", tt.name, a.What, a.Closes, h.Passed)
			}
		}
		got := strings.Join(all, "; ")
		if !strings.Contains(got, tt.add) || strings.Contains(got, tt.not) {
			t.Errorf("%s: add %q, want %q and not %q", tt.name, got, tt.add, tt.not)
		}
		if h.Passed == 0 || h.Passed > h.Planted || h.Record != tt.record.ID || h.Example.Was == "" || h.Example.Reads == h.Example.Was {
			t.Errorf("%s: %+v", tt.name, h)
		}
		if now := tt.record.Tighten[0].To.Text(); strings.Contains(now, "to") || len(tt.record.Tighten[0].To.Values) != 1 {
			t.Errorf("%s: the record has changed: %q", tt.name, now)
		}
	}
}

// TestHolesCoil: nobody prints ohms in two units; what is tried is the temperature,
// and the resistance at another.
func TestHolesCoil(t *testing.T) {
	coil := func(of string) *schema.Record {
		r := &schema.Record{ID: of, Kind: schema.KindTolerance, Where: of}
		r.Of = of
		row := schema.Row{Figure: schema.Figure{Values: []convert.Value{{Text: "22 to 26 Ω"}}}}
		row.At.Temperature = schema.Figure{Values: []convert.Value{{Text: "20 °C"}}}
		r.Rows = []schema.Row{row}
		return r
	}
	for _, tt := range []struct {
		record *schema.Record
		want   string
	}{
		{coil("coil resistance"), "the resistance at a second temperature, if the source prints one (tried with copper 60 K warmer); the temperature in a second unit, if the source prints one"},
		{coil("sensor resistance"), "the temperature in a second unit, if the source prints one"},
	} {
		r := trial.Run(one(tt.record), trial.Options{Seed: 1, Draws: 4})
		var all []string
		for _, a := range r.Holes[0].Add {
			all = append(all, a.What)
		}
		if got := strings.Join(all, "; "); got != tt.want {
			t.Errorf("%s: add %q, want %q", tt.record.Of, got, tt.want)
		}
		if len(tt.record.Rows) != 1 {
			t.Errorf("%s: the record has changed", tt.record.Of)
		}
	}
}

// Of two records the one that lets more through stands first.
func TestHolesOrder(t *testing.T) {
	good := torque("good", schema.Fastener{Type: "screw", Thread: "M8x1.25", Class: "8.8"}, "25 N·m", "18 lbf·ft")
	bad := torque("bad", schema.Fastener{}, "25 N·m")
	r := trial.Run(one(good, bad), trial.Options{Seed: 1})
	if len(r.Holes) == 0 || r.Holes[0].Record != "bad" {
		t.Errorf("holes: %+v", r.Holes)
	}
	if r.Records != 2 || r.Figures != 2 {
		t.Errorf("%d records, %d figures", r.Records, r.Figures)
	}
}

// A record that is queried or rejected as it is, is no ground to plant in.
func TestBadRecord(t *testing.T) {
	r := trial.Run(one(torque("a", schema.Fastener{}, "71 lbf·ft", "8 N·m"), torque("b", schema.Fastener{}, "25 lb")), trial.Options{Seed: 1})
	if r.Rejected != 1 || r.Queried != 1 || len(r.Counts) > 0 || len(r.Holes) > 0 {
		t.Errorf("%+v", r)
	}
}

// An answered query is no query.
func TestAnswered(t *testing.T) {
	rec := torque("b", schema.Fastener{}, "25 lb")
	rec.Answers = []schema.Answer{{Check: "unit-wrong-form", Figure: "/tighten/0/to", Read: "25 lb", Because: "so printed", By: "JT", Date: "2026-03-03"}}
	if r := trial.Run(one(rec), trial.Options{Seed: 1}); r.Queried != 0 {
		t.Errorf("%+v", r)
	}
}

func TestStopAndProgress(t *testing.T) {
	seen := 0
	r := trial.Run(demo(t), trial.Options{
		Kinds: []string{"ends-swapped"}, NoHoles: true,
		Progress: func(done, total int) { seen++ }, Stop: func() bool { return seen > 3 },
	})
	if seen != 5 || len(r.Counts) > 2 {
		t.Errorf("%d times told, %v", seen, r.Counts)
	}
}

// TestFigures: slips are planted only in the figures that are asked for.
func TestFigures(t *testing.T) {
	rec := torque("a", schema.Fastener{Type: "screw", Thread: "M8x1.25", Class: "8.8"}, "25 N·m")
	rec.Fasteners.Items[0].Length = schema.Figure{Values: []convert.Value{{Text: "45 mm"}}}
	all := trial.Run(one(rec), trial.Options{Seed: 1, NoHoles: true})
	some := trial.Run(one(rec), trial.Options{Seed: 1, NoHoles: true, Figures: func(p schema.Path) bool {
		first, _ := p.Step(0)
		return first == "tighten"
	}})
	if all.Figures != 2 || some.Figures != 1 {
		t.Errorf("%d figures of all, %d of the torque, want 2 and 1", all.Figures, some.Figures)
	}
}

// Siblings: in a column of a table a figure copied from its neighbour leaves the
// line, and the group alone is judged again.
func TestSiblings(t *testing.T) {
	var rows []*schema.Record
	for _, x := range []struct{ thread, nm string }{{"M6", "10 N·m"}, {"M8", "25 N·m"}, {"M10", "49 N·m"}, {"M12", "86 N·m"}, {"M14", "135 N·m"}, {"M16", "210 N·m"}, {"M20", "425 N·m"}} {
		r := torque(x.thread, schema.Fastener{Type: "screw", Thread: x.thread, Class: "8.8"}, x.nm)
		r.Where = "table 2: " + x.thread
		rows = append(rows, r)
	}
	r := trial.Run(one(rows...), trial.Options{Seed: 1, NoHoles: true, Kinds: []string{"row-copied"}})
	if r.Queried+r.Rejected > 0 || len(r.Counts) != 1 || r.Counts[0].Planted < 6 || r.Counts[0].Caught < r.Counts[0].Planted-2 {
		t.Errorf("%+v", r)
	}
}
