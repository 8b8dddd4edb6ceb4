package schema

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// differences compares two records in JSON, and tells each difference in a line.
func differences(t *testing.T, was, now string) []string {
	t.Helper()
	head := &Head{Sources: []NamedSource{
		{"m", Document{Title: "manual", Edition: "2019", Kind: "maker"}},
		{"n", Document{Title: "manual", Edition: "2024", Kind: "maker"}},
		{"same", Document{Title: "manual", Edition: "2019", Kind: "maker"}},
	}}
	read := func(members string) *Record {
		r, problems := DecodeRecord(mustNode(t, `{"id": "x", "where": "y", "kind": `+members+`}`, true), head)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return r
	}
	var out []string
	for _, d := range Differences(head, read(was), head, read(now)) {
		line := fmt.Sprintf("%s: %s → %s", d.Path, d.Was, d.Now)
		if d.Figure {
			line += " " + d.How.String()
		}
		if d.WasPath != d.Path {
			line += " was " + d.WasPath.String()
		}
		out = append(out, line)
	}
	return out
}

func TestDifferences(t *testing.T) {
	const src = `"source": {"ref": "m", "at": "p 1"}`
	worn := func(of, limit string) string {
		return `"tolerance", ` + src + `, "of": "` + of + `", "wear-limit": ` + limit
	}
	torque := func(members string) string { return `"torque", ` + src + `, ` + members }
	for _, tt := range []struct {
		name, was, now string
		want           []string
	}{
		{"the same, in other words", torque(`"tighten": [{"to": "71 lbf·in"}], "applies": [{"variant": ["A"]}, {"variant": ["B"]}]`),
			`"torque", "source": {"ref": "same", "at": "p  1"}, "tighten": [{"to": ["71 in-lbs"]}], "applies": [{"variant": ["B", "A"]}], "answers": [{"check": "c", "figure": "/f", "read": "r", "because": "b", "by": "KE", "date": "2026-03-04"}], "entered": {"by": "RM"}`, nil},
		{"figures", torque(`"tighten": [{"to": "6 N·m"}, {"turn": "90°"}]`), torque(`"tighten": [{"to": "9 N·m"}, {"turn": "90°", "tolerance": "±5°"}]`),
			[]string{"/tighten/0/to: 6 N·m → 9 N·m moved", "/tighten/1/tolerance:  → ±5° moved"}},
		{"a step put in", torque(`"tighten": [{"to": "6 N·m"}, {"to": "9 N·m"}]`), torque(`"tighten": [{"to": "3 N·m"}, {"to": "6 N·m"}, {"to": "9.0 N·m"}]`),
			[]string{"/tighten/0/to:  → 3 N·m moved", "/tighten/2/to: 9 N·m → 9.0 N·m restated was /tighten/1/to"}},
		{"a step taken out", torque(`"tighten": [{"to": "6 N·m"}, {"wait": "5 min"}, {"to": "9 N·m"}]`), torque(`"tighten": [{"to": "6 N·m"}, {"to": "10 N·m"}]`),
			[]string{"/tighten/1/to: 9 N·m → 10 N·m moved was /tighten/2/to", "/tighten/wait: 5 min →  moved was /tighten/1/wait"}},
		{"texts", torque(`"fastener": {"thread": "M6x1", "class": "8.8", "count": 4}, "caution": ["a"], "tighten": [{"to": "6 N·m", "order": [1, 2]}]`),
			torque(`"fastener": [{"thread": "M6x1", "class": "10.9", "count": 5, "key": "long"}], "caution": ["a", "b"], "tighten": [{"to": "6 N·m", "order": [2, 1], "yield": true}]`),
			[]string{"/caution: a → a, b", "/fastener/0/key:  → long was /fastener/key", "/fastener/0/class: 8.8 → 10.9 was /fastener/class", "/fastener/0/count: 4 → 5 was /fastener/count",
				"/tighten/0/order: 1, 2 → 2, 1", "/tighten/0/yield:  → true"}},
		{"sources", torque(`"tighten": [{"to": "6 N·m"}]`), `"torque", "source": {"ref": "n", "at": "p 2"}, "tighten": [{"to": "6 N·m"}]`,
			[]string{"/source: manual, 2019 (maker) → manual, 2024 (maker)", "/source/at: p 1 → p 2"}},
		{"where it applies", torque(`"tighten": [{"to": "6 N·m"}]`), torque(`"applies": [{"gear": "from 5"}], "prevailing": {"torque": "1 N·m", "included": false}, "tighten": [{"to": "6 N·m"}]`),
			[]string{"/applies: all → gear from 5", "/prevailing/torque:  → 1 N·m moved", "/prevailing/included:  → false"}},
		{"amounts by when", `"fill", ` + src + `, "amounts": [{"when": "dry fill", "volume": "5 L"}, {"when": "drain and refill", "volume": "3 L"}]`,
			`"fill", ` + src + `, "amounts": [{"when": "drain and refill", "volume": "4 L"}, {"when": "after overhaul", "volume": "5 L"}]`,
			[]string{"/amounts/0/volume: 3 L → 4 L moved was /amounts/1/volume", "/amounts/1/when:  → after overhaul", "/amounts/1/volume:  → 5 L moved",
				"/amounts/when: dry fill →  was /amounts/0/when", "/amounts/volume: 5 L →  moved was /amounts/0/volume"}},
		{"points by their temperature", `"fill", ` + src + `, "level": {"points": [{"at": "20 °C", "low": "30 mm"}, {"at": "70 °C", "low": "40 mm"}]}, "amounts": [{"when": "dry fill", "volume": "1 L"}]`,
			`"fill", ` + src + `, "level": {"points": [{"at": "70 °C", "low": "41 mm"}]}, "amounts": [{"when": "dry fill", "volume": "1 L"}]`,
			[]string{"/level/points/0/low: 40 mm → 41 mm moved was /level/points/1/low", "/level/points/at: 20 °C →  moved was /level/points/0/at", "/level/points/low: 30 mm →  moved was /level/points/0/low"}},
		{"rows by their conditions", `"tolerance", ` + src + `, "of": "pressure", "rows": [{"figure": "1 bar", "at": {"speed": "idle"}}, {"figure": "4 bar", "at": {"speed": "2000 rpm"}}]`,
			`"tolerance", ` + src + `, "of": "pressure", "rows": [{"figure": "5 bar", "at": {"speed": "2000 rpm"}}, {"figure": "1 bar", "at": {"speed": "idle"}}]`,
			[]string{"/rows/0/figure: 4 bar → 5 bar moved was /rows/1/figure"}},
		// A wear limit without a word is an end: a clearance grows as parts wear, a thickness
		// shrinks; nobody knows which way a width goes. 0.30 mm is 0.0118 in.
		{"a wear limit given its word", worn("clearance", `"0.30 mm"`), worn("clearance", `"max 0.3 mm"`), []string{"/wear-limit: 0.30 mm → max 0.3 mm restated"}},
		{"its word taken away", worn("thickness", `["min 4.0 mm", "0.157 in"]`), worn("thickness", `"4.0 mm"`), []string{"/wear-limit: min 4.0 mm, 0.157 in → 4.0 mm restated"}},
		{"a wear limit in another unit, with its word", worn("clearance", `"0.30 mm"`), worn("clearance", `"max 0.012 in"`), []string{"/wear-limit: 0.30 mm → max 0.012 in restated"}},
		{"a word against the way of wear", worn("clearance", `"0.30 mm"`), worn("clearance", `"min 0.30 mm"`), []string{"/wear-limit: 0.30 mm → min 0.30 mm moved"}},
		{"another figure, with its word", worn("clearance", `"0.30 mm"`), worn("clearance", `"max 0.31 mm"`), []string{"/wear-limit: 0.30 mm → max 0.31 mm moved"}},
		{"nobody knows which way it wears", worn("width", `"0.30 mm"`), worn("width", `"max 0.30 mm"`), []string{"/wear-limit: 0.30 mm → max 0.30 mm moved"}},
		{"only a wear limit is an end by itself", `"tolerance", ` + src + `, "of": "clearance", "new": "0.30 mm"`, `"tolerance", ` + src + `, "of": "clearance", "new": "max 0.30 mm"`,
			[]string{"/new: 0.30 mm → max 0.30 mm moved"}},
		{"a misprint is compared by what is used", torque(`"tighten": [{"to": "80 N·m"}], "misprint": {"printed": "80 N·m", "use": "8 N·m", "because": "b", "source": {"ref": "n", "at": "p 9"}, "by": "KE", "date": "2026-03-04"}`), torque(`"tighten": [{"to": "8 N·m"}]`),
			[]string{"/misprint/printed: 80 N·m → ", "/misprint/use: 8 N·m →  moved", "/misprint/because: b → ", "/misprint/source: manual, 2024 (maker) → ", "/misprint/source/at: p 9 → ", "/misprint/by: KE → ", "/misprint/date: 2026-03-04 → "}},
		{"a layout", torque(`"layout": {"places": {"1": ["0", "0"]}}, "tighten": [{"to": "6 N·m"}]`), torque(`"layout": {"places": {"1": ["0", "5"]}}, "tighten": [{"to": "6 N·m"}]`),
			[]string{"/layout/places: 1: [0, 0] → 1: [0, 5]"}},
	} {
		if d := cmp.Diff(tt.want, differences(t, tt.was, tt.now)); d != "" {
			t.Errorf("%s (-want +got)\n%s", tt.name, d)
		}
	}
}

// Lists too long to be laid side by side are taken in order.
func TestDifferencesOfLongLists(t *testing.T) {
	long := func(n int) *Record {
		r := &Record{Kind: KindTorque}
		for i := range n {
			r.Tighten = append(r.Tighten, Step{Run: fmt.Sprint(i)})
		}
		return r
	}
	if got := Differences(nil, long(2000), nil, long(2001)); len(got) != 1 || got[0].Path.String() != "/tighten/2000/run" {
		t.Errorf("got %v", got)
	}
}
