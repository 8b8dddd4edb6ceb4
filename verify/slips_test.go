package verify_test

import (
	"fmt"
	"strings"
	"testing"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// slipsOf runs every check over records and returns the first finding of one.
func slipsOf(t *testing.T, check, data string) rule.Finding {
	t.Helper()
	for _, f := range run(t, verify.All(), "gear.yaml", head+data) {
		if f.Check == check {
			return f
		}
	}
	t.Fatalf("no finding of %s", check)
	return rule.Finding{}
}

const screw = `  - id: cover
    kind: torque
    where: cover
    fastener: {type: screw, thread: %s, class: %q}
    joint: {threads: dry, into: steel}
    tighten: [{to: %s}]
    source: {ref: manual, at: page 3}
`

// TestSlips: what was meant stands beside the finding, with why it is believed.
func TestSlips(t *testing.T) {
	for _, tt := range []struct{ name, check, record, slips string }{
		{"the second unit and the screw", "values-disagree", fmt.Sprintf(screw, "M6x1", "8.8", "[71 lbf·ft, 8 N·m]"),
			"71 lbf·in (unit swapped): agrees with 8 N·m; is what an M6x1 of class 8.8 takes"},
		{"the screw alone", "torque-above-yield", fmt.Sprintf(screw, "M10x1.5", "8.8", "46 kgf·m"),
			"4.6 kgf·m (decimal point moved): is what an M10x1.5 of class 8.8 takes"},
		{"a nut", "torque-outside-band", fmt.Sprintf(strings.Replace(screw, "type: screw", "type: nut", 1), "M10x1.5", "8", "4.5 N·m"),
			"45 N·m (decimal point moved): is what a nut M10x1.5 of class 8 takes"},
		{"an inch thread", "torque-above-yield", fmt.Sprintf(screw, "1/4-20", "SAE 5", "75 lbf·ft"),
			"75 lbf·in (unit swapped): is what a 1/4-20 UNC of class SAE 5 takes"},
		{"a fitting", "fitting-outside-table", strings.Replace(fmt.Sprintf(screw, "9/16-18 37° flare", "8.8", "285 lbf·ft"), "type: screw", "type: tube nut", 1),
			"28.5 lbf·ft (decimal point moved): is what a tube nut 9/16-18 37° flare takes"},
		{"a thread of no table", "thread-unknown", fmt.Sprintf(screw, "M8x1.52", "8.8", "22 N·m"),
			"M8x1.25 (digits transposed): is in the tables; 22 N·m is what an M8x1.25 of class 8.8 takes"},
		{"newtons go with a metric thread", "torque-outside-band", fmt.Sprintf(screw, "M8x1.25", "8.8", "25 lbf·in"),
			"1. 25 N·m (unit swapped): is what an M8x1.25 of class 8.8 takes"},
		{"a range keeps its width", "torque-outside-band", fmt.Sprintf(screw, "M8x1.25", "8.8", "22 to 26 lbf·in"),
			"1. 22 to 26 N·m (unit swapped): is what an M8x1.25 of class 8.8 takes"},
		{"what was turned round", "ends-swapped", fmt.Sprintf(screw, "M10x1.5", "8.8", "50 to 45 N·m"),
			"1. 45 to 50 N·m (ends of the range swapped): is what an M10x1.5 of class 8.8 takes"},
		{"a class that its size is not made in", "class-not-in-size", fmt.Sprintf(screw, "M24x3", "9.8", "660 N·m"),
			"1. 8.8 (digit mistyped): is in the tables; 660 N·m is what an M24x3 of class 8.8 takes"},
		{"of two classes the one that is met oftener", "class-not-in-size", fmt.Sprintf(screw, "M22x1.5", "9.8", "500 N·m"),
			"1. 8.8 (digit mistyped): is in the tables; 500 N·m is what an M22x1.5 of class 8.8 takes"},
		{"nothing of a class that is none", "torque-above-yield", fmt.Sprintf(screw, "M10x1.5", "3.6", "450 N·m"),
			"45 N·m (decimal point moved): is what an M10x1.5 takes"},
		{"friction by what is measured", "friction-implausible", strings.Replace(fmt.Sprintf(screw, "M10x1.5", "8.8", "45 N·m"), "threads: dry", "threads: dry, friction: 12", 1),
			"1. 0.12 (decimal point moved): then nothing speaks against it"},
		{"an engagement by its thread", "light-alloy-engagement", strings.Replace(fmt.Sprintf(screw, "M6x1", "8.8", "8 N·m"), "into: steel", "into: aluminium, engagement: 12 in", 1),
			"1. 12 mm (unit swapped): then nothing speaks against it"},
		{"another figure than the finding is about", "wear-limit-inside", `  - id: runout
    kind: tolerance
    where: crankshaft
    of: runout
    new: max 0.02 mm
    wear-limit: 0.005 mm
    source: {ref: manual, at: page 3}
`, "max 0.002 mm (decimal point moved): in place of max 0.02 mm at /new; then nothing speaks against it"},
		{"a range", "ends-swapped", fmt.Sprintf(screw, "M6x1", "8.8", "[10 to 8 N·m, 89 to 71 lbf·in]"), ""},
		{"levels by those beside them", "low-above-high", `  - id: oil
    kind: fill
    where: gearcase
    fluid: {name: gear oil}
    amounts: [{when: dry fill, volume: 6.2 L}]
    level: {by: dipstick, engine: "off", points: [{at: 20 °C, low: 48 mm, high: 30 mm}]}
    source: {ref: manual, at: page 3}
`, "48 mm (figures of two rows exchanged): its text stands at /level/points/0/low, and its own fits there"},
	} {
		f := slipsOf(t, tt.check, tt.record)
		got := ""
		for i, s := range f.Slips {
			got += fmt.Sprintf("%d. %s (%s): %s\n", i+1, s.Reads, s.Slip, s.Because)
		}
		if tt.slips == "" {
			if got != "" || !strings.HasSuffix(f.Message, "; no single slip explains it") {
				t.Errorf("%s: got %q, %q", tt.name, f.Message, got)
			}
			continue
		}
		if !strings.Contains(got, tt.slips+"\n") {
			t.Errorf("%s: want %s, got\n%s", tt.name, tt.slips, got)
		}
		if strings.Contains(f.Message, "no single slip") {
			t.Errorf("%s: %s", tt.name, f.Message)
		}
	}
}

// TestSiblingSlips: a torque that leaves its siblings, by what their line expects.
func TestSiblingSlips(t *testing.T) {
	for _, tt := range []struct{ read, want, slip string }{
		{"310 N·m", "about 130 N·m", "130 N·m (digits transposed): lies on the line of its siblings"},
		{"13 N·m", "about 131 N·m", "130 N·m (digit lost): lies on the line of its siblings"},
		{"130 N·m", "about 3.9 N·m", ""},
		{"130 N·m", "no less than 145 N·m", "-"},
	} {
		f := rule.Finding{Read: tt.read, Want: tt.want, Message: "off"}
		verify.ExplainSibling(&f)
		got := ""
		if len(f.Slips) > 0 {
			got = fmt.Sprintf("%s (%s): %s", f.Slips[0].Reads, f.Slips[0].Slip, f.Slips[0].Because)
		}
		switch {
		case tt.slip == "-" && (got != "" || f.Message != "off"):
			t.Errorf("%s, %s: %q, %q", tt.read, tt.want, got, f.Message)
		case tt.slip == "" && !strings.HasSuffix(f.Message, "no single slip explains it"):
			t.Errorf("%s, %s: got %q and %q", tt.read, tt.want, got, f.Message)
		case tt.slip != "" && tt.slip != "-" && got != tt.slip:
			t.Errorf("%s, %s: got %q, want %q", tt.read, tt.want, got, tt.slip)
		}
	}
}

// TestUnitUse: of a book in pound-inches a figure in kgf·cm is the odd one.
func TestUnitUse(t *testing.T) {
	var use verify.UnitUse
	var data strings.Builder
	data.WriteString(head)
	for i := range 15 {
		data.WriteString(strings.Replace(fmt.Sprintf(screw, "M6x1", "8.8", "71 lbf·in"), "id: cover", fmt.Sprintf("id: cover-%d", i), 1))
	}
	var last *schema.Record
	for e, err := range specs.Read("gear.yaml", strings.NewReader(data.String())) {
		if err != nil {
			t.Fatal(err)
		}
		use.Add(e.Record)
		last = e.Record
	}
	q, _ := last.Tighten[0].To.Quantity()
	if n, all := use.Of(q.Unit); n != 15 || all != 15 {
		t.Errorf("lbf·in %d times of %d, want 15 of 15", n, all)
	}
	use.Add(nil)
	var none verify.UnitUse
	if n, all := none.Of(q.Unit); n != 0 || all != 0 {
		t.Errorf("nothing was counted, and yet %d of %d", n, all)
	}
}

// TestSlipsAreNotRejected: what is offered in place of a figure is never itself
// rejected. 100 N·m on an M8 of class 8.8 is above the usual band and below
// breaking; ten times that would break it.
func TestSlipsAreNotRejected(t *testing.T) {
	const screw = head + `  - id: cover-screws
    kind: torque
    where: cover
    fastener: {type: screw, thread: %s, class: %q, count: 4}
    joint: {threads: dry}
    tighten: [{to: %s}]
    source: {ref: manual, at: page 3}
`
	for _, tt := range []struct{ thread, class, to string }{
		{"M8x1.25", "8.8", "100 N·m"},
		{"M16x2", "8.8", "85 lbf·in"},
		{"M20x2.5", "8.8", "1640 N·m"},
		{"M10x1.5", "10.9", "288 N·m"},
		{"3/8-16 UNC", "SAE 5", "124 N·m"},
	} {
		offered := 0
		for _, f := range run(t, verify.All(), "gear.yaml", fmt.Sprintf(screw, tt.thread, tt.class, tt.to)) {
			for _, s := range f.Slips {
				thread, class, to := tt.thread, tt.class, tt.to
				switch s.Slip {
				case "wrong class":
					class = s.Reads
				case "wrong thread":
					thread = s.Reads
				default:
					to = s.Reads
				}
				offered++
				for _, again := range run(t, verify.All(), "gear.yaml", fmt.Sprintf(screw, thread, class, to)) {
					if again.Verdict == rule.Reject {
						t.Errorf("%s %s %s: offers %s (%s), which is rejected: %s", tt.thread, tt.class, tt.to, s.Reads, s.Slip, again.Message)
					}
				}
			}
		}
		t.Logf("%s %s %s: %d offered", tt.thread, tt.class, tt.to, offered)
	}
}

// TestSlipsOffLine: what is offered for a torque does not lead to one that the
// check of the book would ask about again, or it says so.
func TestSlipsOffLine(t *testing.T) {
	line := rule.Finding{
		Check: "torque-off-line", Read: "720 N·m", Want: "about 70 N·m", Message: "off",
		Related: []rule.Related{{Message: "41 N·m for M8x1.25"}, {Message: "125 N·m for M12x1.75"}},
	}
	alone := line
	verify.ExplainSibling(&alone)
	if len(alone.Slips) == 0 {
		t.Fatal("nothing is offered")
	}
	for _, s := range alone.Slips {
		if strings.HasSuffix(s.Reads, "lbf·in") {
			t.Errorf("offers %s, the only row in its unit", s.Reads)
		}
	}
	two := line
	two.Also = []string{"6370 lbf·in"}
	verify.ExplainSibling(&two)
	for _, s := range two.Slips {
		if s.Reads == "720 lbf·in" {
			t.Error("offers 720 lbf·in beside 6370 lbf·in")
		}
	}

	far := rule.Slip{Slip: "digit mistyped", Reads: "120 N·m", Because: "is what an M10 takes"}
	near := rule.Slip{Slip: "decimal point moved", Reads: "72.0 N·m", Because: "is what an M10 takes"}
	thread := rule.Slip{Slip: "wrong thread", Reads: "M24x3", Because: "is in the tables"}
	f := rule.Finding{Slips: []rule.Slip{far, near, thread}}
	verify.Join(&f, line)
	if len(f.Slips) != 2 || f.Slips[0] != near || f.Slips[1] != thread {
		t.Errorf("of three, one off the line: %v", f.Slips)
	}
	f = rule.Finding{Slips: []rule.Slip{far}}
	verify.Join(&f, line)
	if len(f.Slips) != 1 || f.Slips[0].Because != far.Because+"; but off the line of its siblings" {
		t.Errorf("nothing but one off the line: %v", f.Slips)
	}
	bare := rule.Finding{Slips: []rule.Slip{far}}
	bare.Slips[0].Because = ""
	odd := line
	odd.Want = "no less than 3 N·m"
	verify.Join(&bare, odd)
	if bare.Slips[0].Because != "" {
		t.Errorf("no line is expected, and yet: %v", bare.Slips)
	}
}

// TestSlipsStillAsked: what a check would ask about is offered only where nothing
// else is, and does not claim that nothing speaks against it.
func TestSlipsStillAsked(t *testing.T) {
	for _, to := range []string{"01.50 N·m", "01 N·m", "6071 N·m", "4.5.6 N·m"} {
		for _, f := range run(t, verify.All(), "gear.yaml", head+fmt.Sprintf(screw, "M6x1", "12.9", to)) {
			asked := 0
			for _, s := range f.Slips {
				again := false
				for _, x := range run(t, verify.All(), "gear.yaml", head+fmt.Sprintf(screw, "M6x1", "12.9", s.Reads)) {
					again = again || x.Verdict >= rule.Query
				}
				if again {
					asked++
				}
				if again != strings.Contains(s.Because, "but a check would ask about it") {
					t.Errorf("%s: offers %s (%s): asked about: %v", to, s.Reads, s.Because, again)
				}
			}
			if asked > 0 && asked < len(f.Slips) {
				t.Errorf("%s: %d of %d offered are asked about", to, asked, len(f.Slips))
			}
		}
	}
}
