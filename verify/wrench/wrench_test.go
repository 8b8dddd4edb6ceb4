package wrench_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify/wrench"
)

// read reads one torque record with the members given, in a file that lists
// wrenches.
func read(t testing.TB, wrenches, members string) (*schema.Head, *schema.Record) {
	t.Helper()
	text := "format: snapgauge/1.0\nmachine: {id: m}\nsources: {s: {title: t}}\nwrenches:\n" + wrenches +
		"records:\n  - {id: a, kind: torque, where: w, source: {ref: s, at: p}, " + members + "}\n"
	var head *schema.Head
	for e, err := range specs.Read("a.yaml", strings.NewReader(text)) {
		switch {
		case err != nil:
			t.Fatal(err)
		case e.HeadOnly:
			head = e.Head
		default:
			if len(e.Problems) > 0 {
				t.Fatal(e.Problems)
			}
			return head, e.Record
		}
	}
	t.Fatal("no record")
	return nil, nil
}

const (
	small  = "  - {id: tw-25, range: 5 to 25 N·m, resolution: 0.2 N·m, class: II A, length: 260 mm}\n"
	medium = "  - {id: tw-110, range: [20 to 110 N·m, 15 to 80 lbf·ft], resolution: [0.5 N·m, 0.5 lbf·ft], class: II A, length: 400 mm}\n"
	// Ranges of government-issue wrenches: US Army TM 55-1520-240-23-1.
	issue = "  - {id: gi-150, range: 30 to 150 lbf·in}\n  - {id: gi-750, range: 100 to 750 lbf·in, length: 10 in}\n"
)

func TestChoose(t *testing.T) {
	tests := []struct {
		name, wrenches, members string
		want                    string // wrench: setting (how)
	}{
		// NIST SP 811: 1 lbf·in = 0.112 984 8 N·m, 1 lbf·ft = 1.355 818 N·m.
		{"the source's unit", small, "tighten: [{to: [71 lbf·in, 8 N·m]}]", "tw-25: 8 N·m"},
		{"digits as printed", small, "tighten: [{to: 8.0 N·m}]", "tw-25: 8.0 N·m"},
		{"converted to the nearest step", small, "tighten: [{to: 71 lbf·in}]", "tw-25: 8.0 N·m (71 lbf·in, converted)"},
		{"beside the steps", small, "tighten: [{to: 8.1 N·m}]", "tw-25: 8.0 N·m (8.1 N·m)"},
		{"two scales", medium, "tighten: [{to: 33 lbf·ft}]", "tw-110: 33 lbf·ft"},
		{"the middle of a range", medium, "tighten: [{to: 45 to 50 N·m}]", "tw-110: 47.5 N·m (within 45 to 50 N·m)"},
		{"the nominal where it goes", medium, "tighten: [{to: 45 ±4 N·m}]", "tw-110: 45.0 N·m"},
		{"the middle where the nominal stands at an end", small, "tighten: [{to: 9 +1/-0 N·m}]", "tw-25: 9.4 N·m (within 9 +1/-0 N·m)"},
		{"the lesser wrench", medium + small, "tighten: [{to: 23 N·m}]", "tw-25: 23 N·m; tw-110: 23 N·m"},
		{"the wrench in the printed unit", small + medium, "tighten: [{to: 17 lbf·ft}]", "tw-110: 17 lbf·ft; tw-25: 23.0 N·m (17 lbf·ft, converted)"},
		// FAA AC 43.13-1B 7-40: the running torque is added to the torque of the table.
		{"a running torque", medium, "prevailing: {torque: 3 N·m, included: false}, tighten: [{to: 45 N·m}]", "tw-110: 48.0 N·m (45 N·m and a running torque of 3 N·m)"},
		{"a running torque that is measured", medium, "prevailing: {torque: 3 to 9 N·m, included: false}, tighten: [{to: 45 N·m}]", "tw-110: 48.0 to 54.0 N·m (45 N·m and a running torque of 3 to 9 N·m)"},
		{"a limit of the running torque", medium, "prevailing: {torque: max 9 N·m, included: false}, tighten: [{to: 45 N·m}]", "tw-110: 45.0 to 54.0 N·m (45 N·m and a running torque of max 9 N·m)"},
		{"included", medium, "prevailing: {torque: 3 N·m, included: true}, tighten: [{to: 45 N·m}]", "tw-110: 45 N·m"},
		{"not said", medium, "prevailing: {torque: 3 N·m}, tighten: [{to: 45 N·m}]", "tw-110: 45 N·m"},
		{"nothing turns", medium, "prevailing: {torque: 3 N·m, included: false}, tighten: [{check: 45 N·m}]", "tw-110: 45 N·m"},
		// US Army TM 1-1500-204-23-9, paragraph 8: 300 lb-in, wrench 10 in, adapter 4 in: set 214 lb-in.
		{"an adapter", issue, "tighten: [{to: 300 lbf·in, adapter: 4 in}]", "gi-750: 214 lbf·in (300 lbf·in, by an adapter of 4 in on a wrench of 10 in)"},
		{"no torque", small, "tighten: [{turn: 90°}]", "-"},
		{"no setting", small, "tighten: [{to: max 10 N·m}]", "-"},
		{"no wrench that can be read", "  - {id: x, range: 5 to 25}\n", "tighten: [{to: 10 N·m}]", "-"},
		{"no wrench", "  []\n", "tighten: [{to: 10 N·m}]", "-"},
		// The certificate says ±2 %, so that ±2.5 % can be kept.
		{"a better wrench", "  - {id: el-100, range: 10 to 100 N·m, usable: 10 to 100 N·m, resolution: 0.1 N·m, class: ±2 %}\n",
			"tighten: [{to: 12 N·m, tolerance: ±2.5 %}]", "el-100: 12 N·m"},
	}
	for _, tt := range tests {
		h, r := read(t, tt.wrenches, tt.members)
		c, ok := wrench.Choose(h, r, 0)
		got := "-"
		if ok {
			var list []string
			for _, s := range c.Settings {
				text := s.Wrench.ID + ": " + s.Text
				how := s.How
				if s.Converted {
					how += ", converted"
				}
				if how != "" {
					text += " (" + how + ")"
				}
				if s.Printed == (how != "") {
					t.Errorf("%s: printed %v, how %q", tt.name, s.Printed, how)
				}
				list = append(list, text)
			}
			got = strings.Join(list, "; ")
		}
		if got != tt.want {
			t.Errorf("%s: got %s, want %s", tt.name, got, tt.want)
		}
	}
}

func TestMisses(t *testing.T) {
	h, r := read(t, small+medium+"  - {id: tw-800, range: 150 to 800 N·m}\n", "tighten: [{to: 130 N·m}, {to: 45 N·m, tolerance: ±1 N·m}]")
	var got []string
	for step := range 2 {
		c, ok := wrench.Choose(h, r, step)
		if !ok || len(c.Settings) > 0 {
			t.Fatalf("%v, %v", ok, c.Settings)
		}
		for _, m := range c.Misses {
			got = append(got, h.Wrenches[m.Place].ID+" "+m.Why)
		}
	}
	want := []string{
		"tw-110 ends at 110 N·m",
		"tw-800 is to be used from 160 N·m, a fifth of its 800 N·m", // ISO 6789:2003: 20, 60 and 100 %
		"tw-25 ends at 25 N·m",
		"tw-110 may be off by 4 %, which is 1.8 N·m at 45 N·m and more than the source allows",
		"tw-25 ends at 25 N·m",
		"tw-800 is to be used from 160 N·m, a fifth of its 800 N·m",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	// 17 N·m and 3 % of it: 16.49 to 17.51; 16.6 N·m and 5 % of it: 15.77 to 17.43. Alone
	// 3 % of 16.6 N·m, 0.498, would do. Likewise where the middle of the range is the
	// nearest that has a step, and where an adapter of 1/3 of the length of the wrench
	// lowers the setting.
	for _, tt := range []struct{ wrench, step, want string }{
		{"range: 5 to 25 N·m, resolution: 1 N·m, class: ±3 %", "{to: 16.6 N·m, tolerance: ±5 %}",
			"is set to 17 N·m at the nearest, by steps of 1 N·m, and may be off by 3 % there: 16.49 to 17.51 N·m, where 15.77 to 17.43 N·m are allowed"},
		{"range: 5 to 25 N·m, resolution: 2 N·m, class: ±4 %", "{to: 8.9 +1.4/-0 N·m}",
			"is set to 10 N·m at the nearest, by steps of 2 N·m, and may be off by 4 % there: 9.6 to 10.4 N·m, where 8.9 to 10.3 N·m are allowed"},
		{"range: 5 to 25 N·m, resolution: 1 N·m, class: ±3 %, length: 300 mm", "{to: 16.8 N·m, tolerance: ±5 %, adapter: 100 mm}",
			"is set to 13 N·m at the nearest, by steps of 1 N·m, and may be off by 3 % there: 12.61 to 13.39 N·m, where 11.97 to 13.23 N·m are allowed"},
		{"range: 5 to 25 N·m, resolution: 0.2 N·m", "{to: 16.6 N·m, tolerance: ±1 %}",
			"may be off by 4 % (its class is not listed; II A is taken), which is 0.664 N·m at 16.6 N·m and more than the source allows"},
		// The middle, 26 N·m, lies beyond the scale.
		{"range: 5 to 25 N·m, class: II A", "{to: 24 +4/-0 N·m}", "may be off by 4 %, which is 0.96 N·m at 24 N·m and more than the source allows"},
	} {
		h, r := read(t, "  - {id: w0, "+tt.wrench+"}\n", "tighten: ["+tt.step+"]")
		c, ok := wrench.Choose(h, r, 0)
		if !ok || len(c.Misses) != 1 || c.Misses[0].Why != tt.want {
			t.Errorf("%s, %s: (-want +got)\n-%s\n+%v %+v", tt.wrench, tt.step, tt.want, ok, c)
		}
	}
	if c, ok := wrench.Choose(h, r, 7); ok {
		t.Errorf("a step that is not there: %v", c)
	}
	if _, ok := wrench.Choose(nil, r, 0); ok {
		t.Error("without a head")
	}
}

// The deviations of ISO 6789:2003, as reproduced in a torque wrench manual: type II,
// class A, 4 % above 10 N·m and 6 % up to it. The other rows are from memory.
func TestOffOf(t *testing.T) {
	for _, tt := range []struct {
		class    string
		greatest float64
		want     float64 // 0: none
	}{
		{"II A", 25, 0.04}, {"II A", 10, 0.06}, {"type II class A", 110, 0.04}, {"iia", 110, 0.04}, {"2 A", 110, 0.04},
		{"ISO 6789-1:2017 type II class A", 110, 0.04}, {"II D", 25, 0.06}, {"I A", 110, 0.06}, {"", 110, 0.04}, {"", 5, 0.06},
		{"±3 %", 110, 0.03}, {"±2.5%", 5, 0.025}, {"+2/-3 %", 110, 0.03},
		{"III A", 110, 0}, {"A", 110, 0}, {"I G", 110, 0}, {"3 %", 110, 0}, {"±0 %", 110, 0}, {"±200 %", 110, 0}, {"good", 110, 0},
	} {
		off, ok := wrench.OffOf(tt.class, tt.greatest)
		if off.Part != tt.want && ok || ok != (tt.want > 0) {
			t.Errorf("%q to %g N·m: got %g, %v, want %g", tt.class, tt.greatest, off.Part, ok, tt.want)
		}
	}
}

// Whatever is chosen lies on the scale, and what is set gives the torque at the
// fastener within what was asked.
func FuzzChoose(f *testing.F) {
	f.Add("5 to 25 N·m", "0.2 N·m", "II A", "260 mm", "8 N·m", "±10 %", "50 mm", "1 to 3 N·m")
	f.Add("15 to 80 lbf·ft", "0.5 N·m", "±3 %", "1 m", "45 to 50 N·m", "", "", "max 9 N·m")
	f.Fuzz(func(t *testing.T, scale, step, class, length, to, tolerance, adapter, running string) {
		figure := func(text string) (f schema.Figure) {
			if text != "" {
				f.Values = []convert.Value{{Text: text}}
			}
			return f
		}
		no := false
		h := &schema.Head{Wrenches: []schema.Wrench{{
			ID: "w", Range: figure(scale), Resolution: figure(step), Class: class, Length: figure(length),
		}}}
		h.ReadFigures()
		r := &schema.Record{Torque: schema.Torque{
			Tighten:    []schema.Step{{To: figure(to), Tolerance: figure(tolerance), Adapter: figure(adapter)}},
			Prevailing: schema.Prevailing{Torque: figure(running), Included: &no},
		}}
		r.ReadFigures("")
		wrench.Problems(h)
		c, ok := wrench.Choose(h, r, 0)
		if !ok {
			return
		}
		if len(c.Settings)+len(c.Misses) != 1 {
			t.Fatalf("%+v", c)
		}
		for _, s := range c.Settings {
			lo, hi := h.Wrenches[0].Range.Values[0].Quantity.Bounds()
			low, high := s.Unit.ToSI(s.Low), s.Unit.ToSI(s.High)
			if !(low <= high*(1+1e-9) && low >= lo*(1-1e-6) && high <= hi*(1+1e-6)) || s.Text == "" {
				t.Errorf("%s to %g: %+v", scale, high, s)
			}
		}
	})
}

func BenchmarkChoose(b *testing.B) {
	h, r := read(b, small+medium, "tighten: [{to: [71 lbf·in, 8 N·m], tolerance: ±10 %}]")
	for b.Loop() {
		wrench.Choose(h, r, 0)
	}
}
