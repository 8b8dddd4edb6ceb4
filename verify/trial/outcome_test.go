package trial

import (
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

func TestTouches(t *testing.T) {
	to := schema.At("tighten", 0, "to")
	for _, tt := range []struct {
		place, related string
		path           schema.Path
		want           bool
	}{
		{"/records/3/tighten/0/to/1", "", to, true},
		{"/records/3/fastener/thread", "", to, true},
		{"/records/3/joint/engagement", "", to, true},
		{"/records/3/source/at", "", to, false},
		{"/records/3/source/at", "/records/3/tighten/0/to", to, true},
		{"/records/30/tighten/0/to", "", to, false},
		{"/records/4/tighten/0/to", "/records/4/fastener", to, false},
		{"/records/3/level/points/1/low", "", schema.At("level", "points", 0, "at"), true},
		{"/records/3/wear-limit", "", schema.At("new"), true},
		{"/records/3/misprint/use", "", schema.At("misprint", "use"), true},
	} {
		f := rule.Finding{Place: rule.Place{File: "a", Pointer: tt.place}}
		if tt.related != "" {
			f.Related = []rule.Related{{Place: rule.Place{File: "a", Pointer: tt.related}}}
		}
		if got := touches(f, "a", "/records/3", tt.path); got != tt.want {
			t.Errorf("%s, %s: %v, want %v", tt.place, tt.related, got, tt.want)
		}
		if touches(f, "b", "/records/3", tt.path) {
			t.Errorf("%s of another file touches", tt.place)
		}
	}
}

func TestAlike(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want bool
	}{
		{"8 N·m", "8.0 N·m", true}, {"8 N·m", "8.4 N·m", true}, {"8 N·m", "8.6 N·m", false},
		{"170 N·m", "169 N·m", true}, {"170 N·m", "167 N·m", false}, {"171 N·m", "170 N·m", false},
		{"8 to 10 N·m", "8 to 10.2 N·m", true}, {"8 to 10 N·m", "8 to 11 N·m", false},
		{"8 N·m", "8 lbf·ft", false}, {"8 N·m", "max 8 N·m", false}, {"max 20 N·m", "max 20.0 N·m", true},
	} {
		a, p := convert.Parse(tt.a, convert.Of(convert.Torque), convert.Point)
		b, q := convert.Parse(tt.b, convert.Of(convert.Torque), convert.Point)
		if p != nil || q != nil {
			t.Fatal(p, q)
		}
		if got := alike(a, b); got != tt.want {
			t.Errorf("%s prints like %s: %v, want %v", tt.b, tt.a, got, tt.want)
		}
	}
}
