package sheet

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

const caseHalf = `
  - id: case
    kind: torque
    where: case halves
    fastener:
      - {key: short, type: screw, thread: M8x1.25, class: "8.8", head: "other: twelve point", length: 35 mm, count: 2, places: [1, 2]}
      - {key: long, type: screw, thread: M8x1.25, length: 75 mm, count: 2, places: [3, 4]}
    joint: {into: cast aluminium, engagement: 18 mm, threads: "other: graphite", friction: "0.12", seal: sealant, insert: wire}
    tighten:
      - {to: [10 N·m, 89 lbf·in], pattern: in order, order: [2, 4, 1, 3]}
      - {loosen: fully}
      - {loosen: 1/4 turn}
      - {wait: 5 min}
      - {run: engine warm}
      - {to: [20 N·m, 177 lbf·in], tolerance: ±2 N·m, pattern: criss-cross, only: long, again: 1}
      - {turn: 90°, yield: true, again: 2, only: [short, long]}
      - {check: 20 N·m}
    layout: {places: {1: [0, 100], 2: [100, 100], 3: [0, 0], 4: [100, 0]}}
    source: {ref: manual, at: page 4-31}
`

func TestSteps(t *testing.T) {
	torque := cardOf(t, made(t, Input{Records: records(t, caseHalf)}), "case").Torque
	one := func(role Role, text string) Figure { return Figure{Parts: []Part{{role, text}}} }
	want := []Step{
		{N: 1, Act: "tighten to", Figure: Figure{Parts: []Part{{Printed, "10 N·m"}, {Printed, "89 lbf·in"}}}, Order: []int{2, 4, 1, 3}},
		{N: 2, Act: "loosen", Figure: one(Printed, "fully")},
		{N: 3, Act: "loosen by", Figure: one(Printed, "1/4 turn")},
		{N: 4, Act: "wait", Figure: one(Printed, "5 min")},
		{N: 5, Text: "engine warm"},
		{
			N: 6, Act: "tighten to", Figure: Figure{Parts: []Part{{Printed, "20 N·m"}, {Printed, "177 lbf·in"}}},
			// 2 N·m is 17.701 lbf·in; to two digits and rounded inwards 17
			Tolerance: Figure{Parts: []Part{{Printed, "±2 N·m"}, {Converted, "±17 lbf·in"}}},
			Pattern:   "criss-cross", Only: "long", Again: "then once more",
		},
		{N: 7, Act: "turn on by", Figure: one(Printed, "90°"), Yield: true, Only: "short, long", Again: "then 2 times more"},
		{N: 8, Act: "check that it holds", Figure: Figure{Parts: []Part{{Printed, "20 N·m"}, {Converted, "177 lbf·in"}}}},
	}
	if diff := cmp.Diff(want, torque.Steps, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if torque.Pattern != "" || torque.Order != nil {
		t.Errorf("steps that differ have %q, %v in common", torque.Pattern, torque.Order)
	}
	wantFasteners := []Fastener{
		{Key: "short", Count: 2, What: "screw M8x1.25", Detail: "class 8.8, twelve point", Length: one(Printed, "35 mm"), Places: "1, 2"},
		{Key: "long", Count: 2, What: "screw M8x1.25", Length: one(Printed, "75 mm"), Places: "3, 4"},
	}
	if diff := cmp.Diff(wantFasteners, torque.Fasteners); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	var joint []string
	for _, term := range torque.Joint {
		joint = append(joint, term.Name+" "+term.Text+term.Figure.Main().Text)
	}
	if diff := cmp.Diff([]string{"into cast aluminium", "engagement 18 mm", "threads graphite", "friction 0.12", "seal sealant", "insert wire"}, joint); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// An order that all steps share is told once; a step that turns nothing has no say.
func TestCommonOrder(t *testing.T) {
	e := records(t, `
  - id: head
    kind: torque
    where: head
    fastener: {type: nut, thread: M10x1.25, count: 4}
    tighten:
      - {to: [25 N·m, 18 lbf·ft], pattern: centre outwards, order: [2, 3, 1, 4]}
      - {run: engine warm}
      - {turn: 90°, pattern: centre outwards, order: [2, 3, 1, 4]}
    source: {ref: manual, at: page 3}
  - {id: one, kind: torque, where: lid, fastener: {type: screw, thread: M6x1, count: 4}, tighten: [{to: [8 N·m, 71 lbf·in], pattern: criss-cross}], source: {ref: manual, at: page 4}}
`)
	s := made(t, Input{Records: e})
	head := cardOf(t, s, "head").Torque
	if head.Pattern != "centre outwards" || !cmp.Equal(head.Order, []int{2, 3, 1, 4}) {
		t.Errorf("in common: %q, %v", head.Pattern, head.Order)
	}
	for _, step := range head.Steps {
		if step.Pattern != "" || step.Order != nil {
			t.Errorf("step %d tells it again", step.N)
		}
	}
	one := cardOf(t, s, "one").Torque
	if one.Pattern != "" || one.Steps[0].Pattern != "criss-cross" || one.Steps[0].N != 0 {
		t.Errorf("one step: %+v", one.Steps[0])
	}
}

// Where order or picture are not in the record the sheet says where to look, and
// invents none.
func TestLook(t *testing.T) {
	const from = " not recorded here, see Machine 1 manual, third 2019, page 9"
	record := func(fastener, step, layout string) string {
		return "  - {id: a, kind: torque, where: x, fastener: {type: screw, thread: M6x1, " + fastener + "}, tighten: [{to: [8 N·m, 71 lbf·in]" + step + "}], " +
			layout + "source: {ref: manual, at: page 9}}\n"
	}
	const layout = "layout: {places: {1: [0, 0], 2: [10, 0]}}, "
	for _, x := range []struct{ text, want string }{
		{record("count: 1", "", ""), ""},
		{record("length: 10 mm", "", ""), ""},
		{record("count: 2", "", ""), "order and picture" + from},
		{record("count: 2", ", pattern: criss-cross", ""), "picture" + from},
		{record("count: 2", ", order: [2, 1]", ""), "picture" + from},
		{record("count: 2", "", layout), "order" + from},
		{record("count: 2", ", order: [2, 1]", layout), ""},
		{strings.Replace(record("count: 2", "", ""), "tighten: [{to: [8 N·m, 71 lbf·in]}]", "unpublished: {why: none printed, do: ask}", 1), ""},
	} {
		torque := cardOf(t, made(t, Input{Records: records(t, x.text)}), "a").Torque
		if torque.Look != x.want {
			t.Errorf("%sgot %q, want %q", x.text, torque.Look, x.want)
		}
	}
}

func TestPrevailing(t *testing.T) {
	for included, want := range map[string]string{
		", included: false": "not included in the figures: add it as measured",
		", included: true":  "included in the figures: do not add it",
		"":                  "the record does not say whether the figures include it",
	} {
		e := records(t, "  - {id: a, kind: torque, where: x, prevailing: {torque: 3 to 9 N·m"+included+"}, tighten: [{to: 45 N·m}], source: {ref: manual, at: page 9}}\n")
		p := cardOf(t, made(t, Input{Records: e}), "a").Torque.Prevailing
		if p == nil || p.Say != want || p.Torque.Main().Text != "3 to 9 N·m" {
			t.Errorf("%s: got %+v", included, p)
		}
	}
}

// A wrench of the shop, what it is set to and what that comes from. The arithmetic is
// that of the package wrench.
func TestWrench(t *testing.T) {
	text := strings.Replace(head, "records:", "wrenches:\n  - {id: small, range: 2 to 10 N·m, drive: 1/4 in, calibrated: 2026-02-09}\n"+
		"  - {id: large, range: [20 to 110 N·m, 15 to 80 lbf·ft], length: 380 mm, class: II A}\n  - {id: idle, range: 500 to 800 N·m}\nrecords:", 1)
	e := recordsOf(t, text+`
  - id: a
    kind: torque
    where: x
    tighten:
      - {to: [8 N·m, 71 lbf·in]}
      - {to: 45 N·m, adapter: 50 mm}
      - {to: 150 lbf·ft}
      - {turn: 90°}
    source: {ref: manual, at: page 9}
`)
	s := made(t, Input{Records: e})
	steps := cardOf(t, s, "a").Torque.Steps
	if w := steps[0].Wrench; w == nil || w.Wrench != "small" || w.Drive != "1/4 in" || w.Set != "8 N·m" || w.Converted || w.How != "" {
		t.Errorf("step 1: %+v", w)
	}
	// 45·380/(380+50) = 39.8 N·m
	if w := steps[1].Wrench; w == nil || w.Wrench != "large" || !strings.HasPrefix(w.Set, "39.") && !strings.HasPrefix(w.Set, "40") || !strings.HasPrefix(w.How, "from 45 N·m") {
		t.Errorf("step 2: %+v", w)
	}
	if w := steps[2].Wrench; w == nil || w.Set != "" || !strings.HasPrefix(w.Missing, "no wrench of the list will do: ") {
		t.Errorf("step 3: %+v", w)
	}
	if steps[3].Wrench != nil {
		t.Errorf("step 4 turns by an angle: %+v", steps[3].Wrench)
	}
	want := []string{"small 2 to 10 N·m, drive 1/4 in, calibrated 2026-02-09", "large 20 to 110 N·m / 15 to 80 lbf·ft, class II A"}
	if diff := cmp.Diff(want, s.Wrenches); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	page := html(t, s)
	for _, want := range []string{"wrench <b><bdi>small</bdi></b> (<bdi>1/4 in</bdi>) set to", "with an adapter of", "no wrench of the list will do"} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
}
