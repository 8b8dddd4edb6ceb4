package physics_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/internal/tabletest"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
)

// step makes a step of one word: to, turn, loosen, run, check.
func step(t testing.TB, act, text string, only ...string) schema.Step {
	s := schema.Step{Only: only}
	switch act {
	case "to":
		s.To = tabletest.Figure(t, convert.Torque, text)
	case "check":
		s.Check = tabletest.Figure(t, convert.Torque, text)
	case "turn":
		s.Turn = tabletest.Figure(t, convert.Angle, text)
	case "loosen":
		s.Loosen = schema.Figure{Word: true, Values: []convert.Value{{Text: text}}}
	case "run":
		s.Run = text
	case "wait":
		s.Wait = tabletest.Figure(t, convert.Time, text)
	case "yield":
		s.To, s.Yield = tabletest.Figure(t, convert.Torque, text), true
	default:
		t.Fatalf("no step %q", act)
	}
	return s
}

func screw(key, thread, class string, places ...int) schema.Fastener {
	return schema.Fastener{Key: key, Type: "screw", Thread: thread, Class: class, Places: places}
}

// said shortens findings to "verdict pointer text".
func said(found []rule.Finding) []string {
	var out []string
	for _, f := range found {
		out = append(out, fmt.Sprintf("%s %s %s", f.Verdict, f.At.Path, f.Read))
	}
	return out
}

// TestSteps: which steps may be too low, and which too high. M10 of 10.9 is
// tightened to about 70 N·m (Dubbel 18th ed. p. G175: 68); 2 N·m is too low,
// 110 N·m unusual for 8.8 oiled into steel, 700 N·m breaks it.
func TestSteps(t *testing.T) {
	m10, m6 := screw("long", "M10x1.5", "10.9", 1, 2), screw("short", "M6x1", "8.8", 3, 4)
	tests := []struct {
		name  string
		fast  []schema.Fastener
		steps []schema.Step
		want  []string
	}{
		{"final too low", []schema.Fastener{m10}, []schema.Step{step(t, "to", "2 N·m")}, []string{"query /tighten/0/to 2 N·m"}},
		{"stages", []schema.Fastener{m10}, []schema.Step{step(t, "to", "2 N·m"), step(t, "to", "70 N·m")}, nil},
		{"wait is nothing", []schema.Fastener{m10}, []schema.Step{step(t, "to", "2 N·m"), step(t, "wait", "5 min")}, []string{"query /tighten/0/to 2 N·m"}},
		{"snug before an angle", []schema.Fastener{m10}, []schema.Step{step(t, "to", "2 N·m"), step(t, "turn", "90°")}, nil},
		{"snug that breaks", []schema.Fastener{m10}, []schema.Step{step(t, "to", "700 N·m"), step(t, "turn", "90°")}, []string{"reject /tighten/0/to 700 N·m"}},
		{"loosened again", []schema.Fastener{m10}, []schema.Step{step(t, "to", "2 N·m"), step(t, "loosen", "fully"), step(t, "to", "70 N·m")}, nil},
		{"run after", []schema.Fastener{m10}, []schema.Step{step(t, "to", "2 N·m"), step(t, "run", "warm up")}, nil},
		{"check low", []schema.Fastener{m10}, []schema.Step{step(t, "to", "70 N·m"), step(t, "check", "2 N·m")}, nil},
		{"check high", []schema.Fastener{m10}, []schema.Step{step(t, "to", "70 N·m"), step(t, "check", "150 N·m")}, []string{"query /tighten/1/check 150 N·m"}},
		{"check breaks", []schema.Fastener{m10}, []schema.Step{step(t, "check", "700 N·m")}, []string{"reject /tighten/0/check 700 N·m"}},
		{"into yield", []schema.Fastener{m10}, []schema.Step{step(t, "yield", "700 N·m")}, nil},
		{"check after yield", []schema.Fastener{m10}, []schema.Step{step(t, "yield", "70 N·m"), step(t, "check", "150 N·m")}, nil},
		{"only the key", []schema.Fastener{m10, m6}, []schema.Step{step(t, "to", "70 N·m", "long"), step(t, "to", "9 N·m", "short")}, nil},
		{"keys exchanged", []schema.Fastener{m10, m6}, []schema.Step{step(t, "to", "70 N·m", "short"), step(t, "to", "9 N·m", "long")},
			[]string{"reject /tighten/0/to 70 N·m", "query /tighten/1/to 9 N·m"}},
		{"only the places", []schema.Fastener{m10, m6}, []schema.Step{step(t, "to", "70 N·m", "1", "2"), step(t, "to", "9 N·m", "3", "4")}, nil},
		{"one figure for both", []schema.Fastener{m10, m6}, []schema.Step{step(t, "to", "70 N·m")}, []string{"reject /tighten/0/to 70 N·m"}},
		{"two alike", []schema.Fastener{m10, m10}, []schema.Step{step(t, "to", "700 N·m")}, []string{"reject /tighten/0/to 700 N·m"}},
		{"places of the only fastener", []schema.Fastener{m10}, []schema.Step{step(t, "to", "700 N·m", "1")}, []string{"reject /tighten/0/to 700 N·m"}},
	}
	for _, tt := range tests {
		r := &schema.Record{Torque: schema.Torque{Tighten: tt.steps}}
		r.Fasteners.Items, r.Fasteners.List = tt.fast, len(tt.fast) > 1
		if diff := cmp.Diff(tt.want, said(judge(r))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
}

// TestForms: how the forms of a figure are judged, on an M8x1.25 of 8.8, usual
// about 8 to 45 N·m, broken above about 110 N·m.
func TestForms(t *testing.T) {
	tests := []struct{ text, want string }{
		{"25 N·m", ""},
		{"2.5 N·m", "query"},
		{"250 N·m", "reject"},
		{"60 N·m", "query"},
		{"20 to 300 N·m", "query"}, // its lower end is possible, its middle is not
		{"250 to 300 N·m", "reject"},
		{"25 ±5 N·m", ""},
		{"250 ±10 N·m", "reject"},
		{"max 25 N·m", ""},
		{"max 250 N·m", "reject"},
		{"max 3 N·m", "query"},
		{"min 3 N·m", ""},
		{"min 250 N·m", "reject"},
	}
	for _, tt := range tests {
		r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(t, "to", tt.text)}}}
		r.Fasteners.Items = []schema.Fastener{screw("", "M8x1.25", "8.8")}
		got := ""
		if found := judge(r); len(found) == 1 {
			got = found[0].Verdict.String()
		} else if len(found) > 1 {
			t.Errorf("%s: %v", tt.text, said(found))
		}
		if got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.text, got, tt.want)
		}
	}
}

func TestYieldRecord(t *testing.T) {
	r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(t, "to", "700 N·m")}}}
	r.Fasteners.Items, r.Yield = []schema.Fastener{screw("", "M10x1.5", "10.9")}, true
	if found := judge(r); len(found) > 0 {
		t.Errorf("into yield: %v", said(found))
	}
	// The torque before the angle is not the one that goes into yield.
	r.Tighten = append(r.Tighten, step(t, "turn", "90°"))
	if diff := cmp.Diff([]string{"reject /tighten/0/to 700 N·m"}, said(judge(r))); diff != "" {
		t.Errorf("snug (-want +got):\n%s", diff)
	}
}

func TestPrevailing(t *testing.T) {
	yes, no := true, false
	tests := []struct {
		name   string
		torque string
		inc    *bool
		want   int
	}{
		{"none", "", nil, 1},
		{"included", "3 N·m", &yes, 0},
		{"included, not given", "", &yes, 0},
		{"not said", "3 N·m", nil, 0},
		{"not included", "3 N·m", &no, 1},
		{"at least", "min 3 N·m", &yes, 0},
	}
	for _, tt := range tests {
		r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(t, "to", "17 N·m")}}}
		r.Fasteners.Items = []schema.Fastener{screw("", "M6x1", "8.8")}
		r.Joint.Threads = "oiled"
		r.Prevailing.Included = tt.inc
		if tt.torque != "" {
			r.Prevailing.Torque = tabletest.Figure(t, convert.Torque, tt.torque)
		}
		if found := judge(r); len(found) != tt.want {
			t.Errorf("%s: %v, want %d", tt.name, said(found), tt.want)
		}
	}
}

// TestFinding: a finding names the place, what would go in the unit as written,
// the source, and the fields that it was judged by.
func TestFinding(t *testing.T) {
	r := &schema.Record{}
	r.Tighten = []schema.Step{{To: tabletest.Figure(t, convert.Torque, "71 lbf·ft", "96 N·m")}}
	r.Fasteners.Items = []schema.Fastener{screw("", "M6x1", "8.8")}
	found := judge(r)
	if len(found) != 1 {
		t.Fatalf("got %v", said(found))
	}
	f := found[0]
	if f.At != (schema.Spot{Path: schema.At("tighten", 0, "to", 0), From: 0, To: 2}) {
		t.Errorf("stands at %+v", f.At)
	}
	if !strings.HasSuffix(f.Want, " lbf·ft") || strings.Count(f.Want, "lbf·ft") != 1 {
		t.Errorf("want: %q", f.Want)
	}
	if !strings.Contains(f.Source.Text, "VDI 2230") || !strings.Contains(f.Source.Text, "ISO 898-1") {
		t.Errorf("source: %v", f.Source)
	}
	var at []string
	for _, re := range f.Related {
		at = append(at, re.At.Path.String())
	}
	if diff := cmp.Diff([]string{"/fastener/thread", "/fastener/class"}, at); diff != "" {
		t.Errorf("related (-want +got):\n%s", diff)
	}
}

// TestNothingToSay: broken and foreign records are passed over.
func TestNothingToSay(t *testing.T) {
	checks := []*rule.Check{
		physics.ThreadUnknown, physics.ClassUnknown, physics.ClassNotInSize, physics.TorqueAboveYield, physics.TorqueOutsideBand,
		physics.TorqueStripsThread, physics.OtherGradeTable, physics.FittingOutsideTable, physics.PrevailingTorqueOutside,
		physics.NutClassBelowScrew, physics.LightAlloyEngagement, physics.YieldWithoutRenewal, physics.OneTimePart,
	}
	unread := schema.Figure{Values: []convert.Value{{Text: "71 lb", Problem: &convert.Problem{Kind: convert.UnknownUnit}}}}
	records := []*schema.Record{
		nil,
		{},
		{Torque: schema.Torque{Tighten: []schema.Step{{To: unread}}}},
		{Torque: schema.Torque{Tighten: []schema.Step{{}}, Fasteners: schema.Fasteners{Items: []schema.Fastener{{}}}}},
		{Torque: schema.Torque{Tighten: []schema.Step{{To: unread}}, Fasteners: schema.Fasteners{Items: []schema.Fastener{screw("", "M6x1", "8.8")}}}},
		{Torque: schema.Torque{Tighten: []schema.Step{{To: tabletest.Figure(t, convert.Torque, "700 N·m")}}, Fasteners: schema.Fasteners{Items: []schema.Fastener{{Type: "plug", Thread: "M6x1"}}}}},
		{Torque: schema.Torque{Tighten: []schema.Step{{To: tabletest.Figure(t, convert.Torque, "700 N·m")}}, Fasteners: schema.Fasteners{Items: []schema.Fastener{{Type: "adjusting nut", Thread: "M35x1.5"}}}}},
		{Torque: schema.Torque{Tighten: []schema.Step{{To: unread}}, Prevailing: schema.Prevailing{Torque: unread}, Fasteners: schema.Fasteners{Items: []schema.Fastener{{Type: "prevailing nut", Thread: "M10"}}}}, Renew: []string{"nut"}},
		{Torque: schema.Torque{Tighten: []schema.Step{{To: unread}}, Joint: schema.Joint{Into: "cast aluminium", Engagement: unread}, Fasteners: schema.Fasteners{Items: []schema.Fastener{screw("", "M6x1", "8.8")}}}},
		{Torque: schema.Torque{Tighten: []schema.Step{{To: unread}}, Fasteners: schema.Fasteners{List: true, Items: []schema.Fastener{screw("", "M6x1", "8.8"), {Type: "nut", Thread: "", Class: "4"}, {Type: "tube nut"}}}}},
	}
	for i, r := range records {
		for _, c := range checks {
			c.Record(rule.NewPass(c, &schema.Entry{Record: r}, func(f rule.Finding) {
				t.Errorf("record %d: %s says %s", i, c.ID, f.Message)
			}))
		}
	}
}

func TestThreadsAndClasses(t *testing.T) {
	tests := []struct {
		check         *rule.Check
		thread, class string
		want          string // start of "verdict: message"; "" means silence
	}{
		{physics.ThreadUnknown, "M8x1.52", "", "reject: "},
		{physics.ThreadUnknown, "1/4-21", "", "reject: "},
		{physics.ThreadUnknown, "M8x25", "", "query: "},
		{physics.ThreadUnknown, "as before", "", "query: "},
		{physics.ThreadUnknown, "M16x0.75", "", "note: M16x0.75 is not listed for its diameter by ISO 261"},
		{physics.ThreadUnknown, "1/4-24", "", "note: 1/4-24"},
		{physics.ThreadUnknown, "G 1/2", "", ""},
		{physics.ClassUnknown, "M8", "8.7", "reject: "},
		{physics.ClassUnknown, "", "8.7", "reject: "},
		{physics.ClassUnknown, "M8", "6.9", "note: class \"6.9\" is not in the tables, so"},
		{physics.ClassUnknown, "M8", "titanium", "note: "},
		{physics.ClassUnknown, "", "SAE 5", ""},
		{physics.ClassUnknown, "G 1/2", "10.9", ""},
		{physics.ClassNotInSize, "M20", "9.8", "query: "},
		{physics.ClassNotInSize, "M8", "SAE 5", "query: "},
		{physics.ClassNotInSize, "1/4-20", "10.9", "query: "},
		{physics.ClassNotInSize, "", "9.8", ""},
		{physics.ClassNotInSize, "M8", "8.7", ""},
	}
	for _, tt := range tests {
		r := &schema.Record{}
		r.Fasteners.Items = []schema.Fastener{screw("", tt.thread, tt.class)}
		got := ""
		tt.check.Record(rule.NewPass(tt.check, &schema.Entry{Record: r}, func(f rule.Finding) {
			got = f.Verdict.String() + ": " + f.Message
			if f.Source.IsZero() || f.Read == "" {
				t.Errorf("%s %s: no source or text in %+v", tt.thread, tt.class, f)
			}
		}))
		if !strings.HasPrefix(got, tt.want) || tt.want == "" && got != "" {
			t.Errorf("%s on %q of %q: got %q, want %q", tt.check.ID, tt.thread, tt.class, got, tt.want)
		}
	}
}

func TestTexts(t *testing.T) {
	for _, c := range []*rule.Check{physics.ThreadUnknown, physics.ClassUnknown, physics.ClassNotInSize, physics.TorqueAboveYield, physics.TorqueOutsideBand} {
		if !strings.Contains(c.Doc, "```yaml") || c.Source.IsZero() {
			t.Errorf("%s: no example or no source", c.ID)
		}
	}
}

func BenchmarkTorqueChecks(b *testing.B) {
	r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(b, "to", "25 N·m")}}}
	r.Fasteners.Items = []schema.Fastener{screw("", "M8x1.25", "8.8")}
	r.Joint.Threads = "dry"
	for b.Loop() {
		if found := judge(r); len(found) > 0 {
			b.Fatal(said(found))
		}
	}
}

// TestTypeDropped: a panel nut 1/2 takes 30 lbf·in, as an adjusting nut without a
// word; without its type nothing may be queried that is not with it. A torque that
// breaks the screw is, whatever is said.
func TestTypeDropped(t *testing.T) {
	for _, kind := range []string{"", "adjusting nut"} {
		r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(t, "to", "30 lbf·in")}}}
		r.Fasteners.Items = []schema.Fastener{{Type: kind, Thread: "1/2"}}
		if found := judgeAll(r); len(found) > 0 {
			t.Errorf("type %q: %v", kind, said(found))
		}
	}
	r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(t, "to", "3000 N·m")}}}
	r.Fasteners.Items = []schema.Fastener{{Thread: "1/2"}}
	if found := judge(r); len(found) != 1 || found[0].Verdict != rule.Reject {
		t.Errorf("3000 N·m: %v", said(found))
	}
}

// TestFrictionDroppedFinds: 115 N·m on M8 of 8.8 with a stated friction of 0.40 is no
// reject, and none when the friction is left out; 49 N·m is looked at either way.
func TestFrictionDroppedFinds(t *testing.T) {
	for _, tt := range []struct{ class, torque string }{{"8.8", "115 N·m"}, {"12.9", "175 N·m"}, {"8.8", "49 N·m"}} {
		for _, mu := range []string{"", "0.40", "0.30"} {
			r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(t, "to", tt.torque)}}}
			r.Fasteners.Items = []schema.Fastener{screw("", "M8x1.25", tt.class)}
			if mu != "" {
				r.Joint.Friction = tabletest.Figure(t, convert.Number, mu)
			}
			found := judge(r)
			if mu != "0.30" && (len(found) != 1 || found[0].Verdict != rule.Query) || tt.torque == "49 N·m" && len(found) != 1 ||
				tt.torque == "49 N·m" && strings.HasSuffix(found[0].Message, "; a friction of "+mu+" is more than is usual") != (mu != "") {
				t.Errorf("%s at %s, friction %q: %v", tt.class, tt.torque, mu, said(found))
			}
		}
	}
}

// TestOneFigure: a table of one figure is no range.
func TestOneFigure(t *testing.T) {
	r := &schema.Record{Torque: schema.Torque{Tighten: []schema.Step{step(t, "to", "500 N·m")}}}
	r.Fasteners.Items = []schema.Fastener{{Type: "set screw", Thread: "M10"}, {Type: "pipe fitting", Thread: "1/8 NPT"}, {Type: "plug", Thread: "M10x1"}}
	for i := range r.Fasteners.Items {
		one := *r
		one.Fasteners = schema.Fasteners{Items: r.Fasteners.Items[i : i+1]}
		for _, f := range judgeAll(&one) {
			for _, text := range []string{f.Message, f.Want} {
				if a, b, found := strings.Cut(text, " to "); found {
					a = a[strings.LastIndex(a, " ")+1:]
					if strings.HasPrefix(b, a+" N·m") {
						t.Errorf("%s", text)
					}
				}
			}
		}
	}
}
