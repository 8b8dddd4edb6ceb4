package schema

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// say writes problems as a test reads them: pointer, fault, sentence.
func say(problems []Problem) []string {
	faults := []string{"unknown", "missing", "wrong", "emptied", "split"}
	var lines []string
	for _, p := range problems {
		key := ""
		if p.At.Key {
			key = "~"
		}
		lines = append(lines, fmt.Sprintf("%s%s %s: %s", p.At.Path, key, faults[p.Fault], p.Message))
	}
	return lines
}

// torque, fill and tolerance are records without a figure; tests add members.
func torque(members string) string { return record("torque", members) }
func record(kind, members string) string {
	return `{"id": "x", "kind": "` + kind + `", "where": "y", "source": {"ref": "m", "at": "p"}, ` + members + `}`
}

const (
	tightened = `"tighten": [{"to": "8 N·m"}]`
	filled    = `"amounts": [{"volume": "4.7 L"}]`
)

func TestSentences(t *testing.T) {
	tests := []struct {
		name, record string
		json         bool // not as YAML
		want         []string
	}{
		{name: "sound", record: torque(tightened)},
		{name: "sound with a field of the user", record: torque(tightened + `, "x-note": {"a": [1]}, "joint": {"x-y": null}`)},

		// One cause, one finding.
		{name: "misspelt field", record: torque(`"tighten": [{"to": "8 N·m", "tolerence": "±10 %"}]`), want: []string{
			`/tighten/0/tolerence~ unknown: unknown field "tolerence" in tighten; did you mean "tolerance"?`}},
		{name: "misspelt required field", record: `{"id": "x", "kind": "torque", "were": "y", "source": {"rf": "m", "at": "p"}, "tigthen": []}`, want: []string{
			`/source/rf~ unknown: unknown field "rf" in source; did you mean "ref"?`,
			`/tigthen~ unknown: unknown field "tigthen" in the record; did you mean "tighten"?`,
			`/were~ unknown: unknown field "were" in the record; did you mean "where"?`}},
		{name: "misspelt act", record: torque(`"tighten": [{"too": "8 N·m"}]`), want: []string{
			`/tighten/0/too~ unknown: unknown field "too" in tighten; did you mean "to"?`}},
		{name: "another word for a field", record: torque(`"tighten": [{"torque": "8 N·m"}]`), want: []string{
			`/tighten/0/torque~ unknown: unknown field "torque" in tighten; did you mean "to"?`}},
		{name: "misspelt beside the right one", record: torque(tightened + `, "wheer": "z"`), want: []string{
			`/wheer~ unknown: unknown field "wheer" in the record; the name of a field of your own begins with x-`}},
		{name: "unknown field", record: torque(tightened + `, "note": "z"`), want: []string{
			`/note~ unknown: unknown field "note" in the record; the name of a field of your own begins with x-`}},
		{name: "field of another kind", record: record("fill", tightened), want: []string{
			`/tighten~ unknown: tighten belongs to a torque record, and this is a fill record`}},
		{name: "wrong kind", record: record("torqe", `"tigten": [], "count": 1`), want: []string{
			`/kind wrong: no kind of record "torqe"; known: torque, fill, tolerance; did you mean "torque"?`}},
		{name: "kind of another sort", record: `{"kind": ["torque"], "foo": 1}`, want: []string{
			`/kind wrong: kind is a list; one of torque, fill, tolerance goes here`}},
		{name: "no kind", record: `{"id": "x", "where": "y", "foo": 1}`, want: []string{
			` missing: a record needs kind, such as kind: torque`}},
		{name: "misspelt kind", record: `{"id": "x", "knd": "torque", "foo": 1}`, want: []string{
			`/knd~ unknown: unknown field "knd" in the record; did you mean "kind"?`}},
		{name: "empty kind", record: `{"id": "x", "kind": null, "foo": 1}`, want: []string{
			`/kind~ emptied: kind is empty; give a value`}},

		// What must be there.
		{name: "nothing but a kind", record: `{"kind": "torque"}`, want: []string{
			` missing: a torque record needs id, such as id: control-cover-screws`,
			` missing: a torque record needs source, such as source: {ref: manual, at: page 4-12}`,
			` missing: a torque record needs tighten, or unpublished with why and do`,
			` missing: a torque record needs where, such as where: control block cover to gearcase`}},
		{name: "fill without figure", record: record("fill", `"fluid": {"name": "oil"}`), want: []string{
			` missing: a fill record needs amounts, level or steps, or unpublished with why and do`}},
		{name: "tolerance without figure", record: record("tolerance", `"of": "clearance"`), want: []string{
			` missing: a tolerance record needs new, wear-limit, rows, fit or select, or unpublished with why and do`}},
		{name: "tolerance without of", record: record("tolerance", `"new": "1 mm"`), want: []string{
			` missing: a tolerance record needs of, or unpublished with why and do`}},
		{name: "unpublished", record: record("tolerance", `"unpublished": {"why": "none printed", "do": "ask"}`)},
		{name: "unpublished without do", record: torque(`"unpublished": {"why": "none printed"}`), want: []string{
			`/unpublished~ missing: unpublished needs do, such as do: ask the maker; do not run until answered`}},
		{name: "source without place", record: `{"id": "x", "kind": "torque", "where": "y", "source": {"ref": "m"}, ` + tightened + `}`, want: []string{
			`/source~ missing: source needs at, such as at: page 4-12`}},
		{name: "source without document", record: `{"id": "x", "kind": "torque", "where": "y", "source": {"at": "p"}, ` + tightened + `}`, want: []string{
			`/source~ missing: source needs ref, the name of a source of the head, or title`}},
		{name: "two things missing", record: record("fill", `"level": {"marks": [{}]}`), want: []string{
			`/level/marks/0 missing: item 1 of marks needs at, such as at: 60 to 80 °C`,
			`/level/marks/0 missing: item 1 of marks needs mark, such as mark: HOT`}},
		{name: "steps", record: torque(`"tighten": [{"pattern": "spiral"}, {"to": "8 N·m", "turn": "90°"}]`), want: []string{
			`/tighten/0 missing: a step of tighten is exactly one of to, turn, loosen, wait, run and check`,
			`/tighten/1 wrong: a step of tighten is exactly one of to, turn, loosen, wait, run and check; this one has to and turn`}},
		{name: "level point without level", record: record("fill", `"level": {"points": [{"at": "20 °C"}]}`), want: []string{
			`/level/points/0 missing: a point of the level needs low, high or both`}},

		// Words.
		{name: "fastener type", record: torque(tightened + `, "fastener": {"type": "bolt"}`), want: []string{
			`/fastener/type wrong: no fastener type "bolt"; did you mean "screw"?`}},
		{name: "thread condition", record: torque(tightened + `, "joint": {"threads": "Dry"}`), want: []string{
			`/joint/threads wrong: no condition of threads "Dry"; did you mean "dry"?`}},
		{name: "other words", record: torque(tightened + `, "joint": {"threads": {"other": "graphite"}, "into": "other: bronze"}`)},
		{name: "other, but what", record: torque(tightened + `, "joint": {"threads": {"other": null}, "seal": {"othr": "x"}}`), want: []string{
			`/joint/seal wrong: seal is a mapping; one of gasket, sealant, O-ring, crush washer, bonded seal, taper, or other: … goes here`,
			`/joint/threads/other~ emptied: other is empty; give a value`}},
		{name: "long vocabulary", record: record("tolerance", `"of": "clearence", "new": "1 mm"`), want: []string{
			`/of wrong: no measure "clearence"; did you mean "clearance"?`}},
		{name: "several words", record: torque(tightened + `, "joint": {"into": "aluminium"}`), want: []string{
			`/joint/into wrong: no material "aluminium"; did you mean "cast aluminium" or "wrought aluminium"?`}},
		{name: "no word near", record: torque(tightened + `, "joint": {"seal": "cork"}`), want: []string{
			`/joint/seal wrong: no seal "cork"; known: gasket, sealant, O-ring, crush washer, bonded seal, taper, or other: …`}},
		{name: "no measure near", record: record("tolerance", `"of": "slop", "new": "1 mm"`), want: []string{
			`/of wrong: no measure "slop"; words such as clearance, end float, side float, backlash and play go here, 40 in all`}},
		{name: "engine", record: record("fill", `"level": {"engine": "idle"}`), want: []string{
			`/level/engine wrong: no state of the engine "idle"; known: off, idling, or a figure with its unit; did you mean "idling"?`}},
		{name: "engine at a speed", record: record("fill", `"level": {"engine": "max 1500 rpm"}`)},
		{name: "engine at a speed in two units", record: record("fill", `"level": {"engine": ["1500 rpm", "25 r/s"]}`)},

		// Numbers.
		{name: "count", record: torque(tightened + `, "fastener": [{"count": 0}, {"count": 2}, {"count": 1.5}]`), want: []string{
			`/fastener/0/count wrong: count is 0; it must be 1 or more`,
			`/fastener/2/count wrong: count is 1.5; a whole number in digits goes here, such as 16`}},
		{name: "count in JSON", json: true, record: torque(tightened + `, "fastener": [{"count": 0}, {"count": "16"}, {"count": 2.0}, {"count": true}]`), want: []string{
			`/fastener/0/count wrong: count is 0; it must be 1 or more`,
			`/fastener/1/count wrong: count is "16"; a whole number in digits without quotation marks goes here, such as 16`,
			`/fastener/3/count wrong: count is true; a whole number in digits goes here, such as 16`}},
		{name: "numbers out of proportion", json: true, record: torque(tightened + `, "fastener": {"count": 1e1000001, "length": 1e999}, "joint": {"insert": 1e-100}`), want: []string{
			`/fastener/count wrong: count: the number "1e1000001" is too long or too great`,
			`/fastener/length wrong: length: the number "1e999" is too long or too great`,
			`/joint/insert wrong: insert: the number "1e-100" is too long or too great`}},
		{name: "places", record: torque(`"tighten": [{"to": "8 N·m", "order": [1, -1, "a"]}]`), want: []string{
			`/tighten/0/order/1 wrong: item 2 of order is -1; it must be 0 or more`,
			`/tighten/0/order/2 wrong: item 3 of order is "a"; a whole number in digits goes here, such as 1`}},
		{name: "a count in words", record: torque(tightened + `, "fastener": {"count": "sixteen"}`), want: []string{
			`/fastener/count wrong: count is "sixteen"; a whole number in digits goes here, such as 16`}},
		{name: "places by letter", record: torque(`"fastener": {"places": ["a", "b", "c", "d"]}, "tighten": [{"to": "8 N·m", "order": ["a", "c", "b", "d", "e", "f"]}]`), want: []string{
			`/fastener/places wrong: places has "a", "b", "c" and "d"; whole numbers in digits go here, such as [1, 4, 2, 3]`,
			`/tighten/0/order wrong: order has "a", "c", "b", "d" and 2 more; whole numbers in digits go here, such as [1, 4, 2, 3]`}},
		{name: "a place too little", record: torque(`"fastener": {"places": [1, null]}, "tighten": [{"to": "8 N·m", "order": "1"}]`), want: []string{
			`/fastener/places/1 emptied: item 2 of places is empty; give a value or leave it out`,
			`/tighten/0/order wrong: order is 1; a list of whole numbers goes here, such as [1, 4, 2, 3]`}},
		{name: "again", record: torque(`"tighten": [{"to": "8 N·m", "again": 100000}]`), want: []string{
			`/tighten/0/again wrong: again is 100000; it must be 1000 or less`}},
		{name: "yes", record: torque(tightened + `, "yield": "yes"`), want: []string{
			`/yield wrong: yield is "yes"; true or false goes here, such as true`}},

		// Figures.
		{name: "a number in JSON", json: true, record: torque(tightened + `, "fastener": {"length": 25}, "joint": {"friction": 0.12}`), want: []string{
			`/fastener/length wrong: length is the number 25; a figure as text with its unit goes here, such as "25 mm"`,
			`/joint/friction wrong: friction is the number 0.12; a coefficient as text goes here, such as "0.12"`}},
		{name: "a number in YAML is text", record: torque(tightened + `, "fastener": {"length": 25}`)},
		{name: "a mapping", record: torque(`"tighten": [{"to": {"value": "8", "unit": "N·m"}}]`), want: []string{
			`/tighten/0/to wrong: to is a mapping; a figure as text with its unit goes here, such as 8 N·m`}},
		{name: "four values", record: torque(`"tighten": [{"to": ["8 N·m", "71 lbf·in", "82 kgf·cm", "5.9 lbf·ft"]}]`), want: []string{
			`/tighten/0/to wrong: to has 4 items; at most 3 go here`}},
		{name: "no value", record: torque(`"tighten": [{"to": []}]`), want: []string{
			`/tighten/0/to wrong: to is an empty list; give a value or leave it out`}},
		{name: "a list within", record: torque(`"tighten": [{"to": ["8 N·m", ["x"]]}]`), want: []string{
			`/tighten/0/to/1 wrong: item 2 of to is a list; a figure as text with its unit goes here`}},
		{name: "long", record: torque(`"tighten": [{"to": "` + strings.Repeat("8", 201) + `"}]`), want: []string{
			`/tighten/0/to wrong: to has 201 letters; at most 200 go here`}},

		// Emptied and split.
		{name: "empty", record: torque(tightened + `, "item": null, "caution": ["hot-oil", null], "fastener": {"thread": " ", "length": ["1 mm", ""]}`), want: []string{
			`/caution/1 emptied: item 2 of caution is empty; give a value or leave it out`,
			`/fastener/length/1 emptied: item 2 of length is empty; give a value or leave it out`,
			`/fastener/thread~ emptied: thread is empty; give a value or leave it out`,
			`/item~ emptied: item is empty; give a value or leave it out`}},
		{name: "an empty act is not a missing one", record: torque(`"tighten": [{"to": null}]`), want: []string{
			`/tighten/0/to~ emptied: to is empty; give a value`}},
		{name: "split", record: record("tolerance", `"of": "clearance", "new": [1, "2 to 1", "8 mm"]`), want: []string{
			`/new split: new is a number split by a comma, for a comma ends an item of a list: put it in quotes, "1,2 to 1,8 mm", and say decimal: comma at the head`}},
		{name: "split twice", json: true, record: record("tolerance", `"of": "clearance", "new": [1, "2 mm", 0, "047 in"]`), want: []string{
			`/new split: new is a number split by a comma, for a comma ends an item of a list: put it in quotes, ["1,2 mm", "0,047 in"], and say decimal: comma at the head`}},
		{name: "two ranges, one without unit", record: record("tolerance", `"of": "clearance", "new": ["320-425", "434-576 mm"]`)},
		{name: "min-1 is a unit", record: record("tolerance", `"of": "speed", "new": ["1500 min-1", "1500 rpm"]`)},
		{name: "not split", record: record("tolerance", `"of": "clearance", "new": ["0.5", "5 mm"], "wear-limit": ["1/4", "5 mm"], "size": ["4 mm", "5"]`)},

		// Forms of text.
		{name: "id", record: `{"id": "Cover Screws", "kind": "torque", "where": "y", "source": {"ref": "m", "at": "p"}, ` + tightened + `}`, want: []string{
			`/id wrong: id is "Cover Screws"; a name of lower case letters, digits, dots, hyphens and underscores goes here, such as cover-screws`}},
		{name: "id of another alphabet", record: `{"id": "Ключ", "kind": "torque", "where": "y", "source": {"ref": "m", "at": "p"}, ` + tightened + `}`, want: []string{
			`/id wrong: id is "Ключ"; a name of lower case letters, digits, dots, hyphens and underscores goes here, such as control-cover-screws`}},
		{name: "id in JSON", json: true, record: torque(tightened + `, "item": "Öl/Filter #2"`), want: []string{
			`/item wrong: item is "Öl/Filter #2"; a name of lower case letters, digits, dots, hyphens and underscores goes here, such as "oel-filter-2"`}},
		{name: "date", record: torque(tightened + `, "entered": {"by": "RM", "date": "2.3.2026"}`), want: []string{
			`/entered/date wrong: date is "2.3.2026"; a date with the year first goes here, such as 2026-03-02`}},
		{name: "number for text in JSON", json: true, record: torque(tightened + `, "fastener": {"class": 8.8}`), want: []string{
			`/fastener/class wrong: class is the number 8.8; text goes here, such as "8.8"`}},
		{name: "text for a list", record: torque(tightened + `, "caution": "hot-oil"`), want: []string{
			`/caution wrong: caution is "hot-oil"; a list of text goes here, such as [hot-oil, stored-energy]`}},
		{name: "text for a mapping", record: torque(tightened + `, "joint": "cast iron"`), want: []string{
			`/joint wrong: joint is "cast iron"; a mapping that tells what the fastener is turned into goes here, such as {into: cast aluminium, engagement: 12 mm, threads: dry, seal: gasket}`}},
		{name: "fastener", record: torque(tightened + `, "fastener": "M8"`), want: []string{
			`/fastener wrong: fastener is "M8"; a fastener or a list of them goes here, such as {type: screw, thread: M6x1, class: 8.8, head: hex flange, length: 25 mm, count: 16}`}},
		{name: "long text", record: torque(tightened + `, "item": "` + strings.Repeat("y", 81) + `"`), want: []string{
			`/item wrong: item has 81 letters; at most 80 go here`}},
		{name: "answers", record: torque(tightened + `, "answers": [{"check": "torque-outside-band", "figure": "tighten", "read": "8 N·m", "because": "b", "by": "RM", "date": "2026-03-04"}]`), want: []string{
			`/answers/0/figure wrong: figure is "tighten"; a pointer within the record goes here, such as /tighten/0/to`}},
		{name: "layout", record: torque(tightened + `, "layout": {"places": {"a": ["0", "0"], "1": ["x", 1], "2": ["1"]}}`), want: []string{
			`/layout/places/1/0 wrong: item 1 of place 1 is "x"; a number goes here, such as 60`,
			`/layout/places/2 wrong: place 2 has 1 item; at least 2 go here`,
			`/layout/places/a~ wrong: places: the name "a" does not go; the number of a place does`}},
		{name: "applies", record: torque(tightened + `, "applies": [{"variant": {}, "gear": []}, null, "A"]`), want: []string{
			`/applies/0/gear wrong: gear is a list; a range of serial numbers or dates goes here, such as 1200 to 9999`,
			`/applies/0/variant wrong: variant is a mapping; a variant or a list of them goes here, such as [A]`,
			`/applies/1 emptied: item 2 of applies is empty; give a value or leave it out`,
			`/applies/2 wrong: item 3 of applies is "A"; a mapping of variant and serial ranges goes here, such as {gear: 1200 to 9999, variant: [A]}`}},
		{name: "only", record: torque(`"tighten": [{"to": "8 N·m", "only": "long"}, {"to": "8 N·m", "only": ["long", 2]}, {"to": "8 N·m", "only": {}}]`), want: []string{
			`/tighten/2/only wrong: only is a mapping; a key, or a list of keys and places goes here, such as [long, 3]`}},
		{name: "only in JSON", json: true, record: torque(`"tighten": [{"to": "8 N·m", "only": 3}]`)},
		{name: "preload by the crush of a shim", record: record("tolerance", `"of": "preload", "new": "0.05 to 0.10 mm"`)},
		{name: "conditions in words", record: record("tolerance", `"of": "pressure", "rows": [{"figure": "5 bar", "at": {"speed": "stall", "temperature": "cold"}}]`)},
		{name: "fit without size", record: record("tolerance", `"of": "diameter", "fit": "H7"`), want: []string{
			` missing: a tolerance record with fit needs size, the nominal size that the fit is of`}},
		{name: "fit with its size misspelt", record: record("tolerance", `"of": "diameter", "fit": "H7", "siez": "40 mm"`), want: []string{
			`/siez~ unknown: unknown field "siez" in the record; did you mean "size"?`}},
		{name: "no record", record: `["x"]`, want: []string{
			` wrong: the record is a list; a record of a spec file goes here`}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, problems := DecodeRecord(mustNode(t, tt.record, !tt.json), &Head{})
			if d := cmp.Diff(tt.want, say(problems)); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
			if r == nil {
				t.Error("no record")
			}
		})
	}
}

func TestCut(t *testing.T) {
	n := mustNode(t, torque(tightened+`, "fastener": {"thread": null}`), true)
	f, _ := n.Member("fastener")
	f.Items[0].Cut = true
	_, problems := DecodeRecord(n, nil)
	want := []string{`/fastener/thread~ emptied: thread is empty: # starts a comment in YAML; put the value in quotes`}
	if d := cmp.Diff(want, say(problems)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestDecodeRecord(t *testing.T) {
	r, problems := DecodeRecord(mustNode(t, `{
		"id": "cover-screws", "kind": "torque", "where": "cover to case", "item": "cover", "supersedes": "old",
		"applies": [{"variant": ["A"], "gear": "1200 to 9999", "built": "from 2019-03-01"}, {"variant": "B", "x-why": "so"}],
		"fastener": [
			{"key": "long", "type": "screw", "thread": "M6x1", "class": 8.8, "head": "hex flange", "length": "25 mm", "count": 4, "places": [1, 2, 3, 4]},
			{"key": "short", "count": 2}
		],
		"joint": {"into": {"other": "bronze"}, "threads": "dry"},
		"tighten": [
			{"to": ["71 lbf·in", "8 N·m"], "tolerance": "±10 %", "pattern": "criss-cross", "only": ["long", 5], "again": 1, "yield": true},
			{"run": "warm up"}
		],
		"yield": true,
		"prevailing": {"torque": "max 1 N·m", "included": false},
		"layout": {"places": {"2": [60, 0.5], "1": ["0", "0"]}},
		"source": {"ref": "manual", "at": "page 4-12"},
		"entered": {"by": "RM", "date": "2026-03-02"},
		"renew": ["gasket"]
	}`, true), &Head{Serials: []Serial{{"gear", "number"}, {"built", "date"}}})
	if len(problems) > 0 {
		t.Fatalf("%q", say(problems))
	}
	if d := cmp.Diff([]Box{
		{Variants: []string{"A"}, Serials: []SerialRange{
			{Name: "gear", Text: "1200 to 9999", Form: "number", From: 1200, To: 9999, HasFrom: true, HasTo: true},
			{Name: "built", Text: "from 2019-03-01", Form: "date", From: 17956, HasFrom: true},
		}},
		{Variants: []string{"B"}},
	}, r.Applies); d != "" {
		t.Errorf("applies (-want +got):\n%s", d)
	}
	if !r.Fasteners.List || len(r.Fasteners.Items) != 2 || r.Fasteners.At(1) != At("fastener", 1) {
		t.Fatalf("fasteners: %+v", r.Fasteners)
	}
	f := r.Fasteners.Items[0]
	f.Length = Figure{}
	if d := cmp.Diff(Fastener{Key: "long", Type: "screw", Thread: "M6x1", Class: "8.8", Head: "hex flange", Count: 4, Places: []int{1, 2, 3, 4}}, f); d != "" {
		t.Errorf("fastener (-want +got):\n%s", d)
	}
	if r.Joint.Into != "other: bronze" || r.Joint.Threads != "dry" {
		t.Errorf("joint: %+v", r.Joint)
	}
	s := r.Tighten[0]
	if got, want := fmt.Sprintln(s.Only, s.Again, s.Yield, s.Pattern, s.To.List, s.To.Values[1].Text), "[long 5] 1 true criss-cross true 8 N·m\n"; got != want {
		t.Errorf("step: got %s, want %s", got, want)
	}
	if r.Tighten[1].Run != "warm up" || !r.Yield || r.Prevailing.Included == nil || *r.Prevailing.Included {
		t.Errorf("got %+v", r.Torque)
	}
	if d := cmp.Diff([]PlaceAt{{2, "60", "0.5"}, {1, "0", "0"}}, r.Layout.Places); d != "" {
		t.Errorf("layout (-want +got):\n%s", d)
	}
	if got, want := strings.Join([]string{r.ID, r.Kind, r.Where, r.Item, r.Supersedes, r.Source.Ref, r.Source.At, r.Entered.By, r.Entered.Date, r.Renew[0]}, "|"),
		"cover-screws|torque|cover to case|cover|old|manual|page 4-12|RM|2026-03-02|gasket"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// One mapping may stand for the list of fasteners, and its path has no number.
func TestOneFastener(t *testing.T) {
	r, problems := DecodeRecord(mustNode(t, torque(tightened+`, "fastener": {"count": 16}`), false), nil)
	if len(problems) > 0 || r.Fasteners.List || len(r.Fasteners.Items) != 1 || r.Fasteners.Items[0].Count != 16 || r.Fasteners.At(0) != At("fastener") {
		t.Errorf("got %+v, %v", r.Fasteners, say(problems))
	}
}

// Numbers of places are kept when all of them are sound, or not at all: what is
// counted against them must not rest on half a list.
func TestPlacesAreKeptWhole(t *testing.T) {
	for list, want := range map[string][]int{
		`[1, 4, 2]`: {1, 4, 2}, `["a", "b"]`: nil, `[1, "b", 3]`: nil, `[1, -1]`: nil, `[1, null, 3]`: nil, `[1, 1.5]`: nil, `"1"`: nil, `[0]`: {0},
	} {
		r, _ := DecodeRecord(mustNode(t, torque(`"fastener": {"places": `+list+`}, "tighten": [{"to": "8 N·m", "order": `+list+`}]`), true), nil)
		if d := cmp.Diff([][]int{want, want}, [][]int{r.Fasteners.Items[0].Places, r.Tighten[0].Order}); d != "" {
			t.Errorf("%s (-want +got):\n%s", list, d)
		}
	}
	r, _ := DecodeRecord(mustNode(t, torque(tightened+`, "layout": {"places": {"1": [0, 0], "a": [1, 1]}}`), true), nil)
	if len(r.Layout.Places) != 0 {
		t.Errorf("layout: got %v", r.Layout.Places)
	}
}

// One key may stand for the list of those that a step is for.
func TestOnly(t *testing.T) {
	r, problems := DecodeRecord(mustNode(t, torque(`"tighten": [{"to": "8 N·m", "only": "long"}, {"to": "8 N·m", "only": ["long", 2]}]`), true), nil)
	if len(problems) > 0 {
		t.Fatalf("%q", say(problems))
	}
	one, two := &r.Tighten[0], &r.Tighten[1]
	if d := cmp.Diff([][]string{{"long"}, {"long", "2"}}, [][]string{one.Only, two.Only}); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if got := one.OnlyAt(At("tighten", 0), 0).String() + two.OnlyAt(At("tighten", 1), 1).String(); got != "/tighten/0/only/tighten/1/only/1" {
		t.Errorf("got %s", got)
	}
	r, _ = DecodeRecord(mustNode(t, torque(`"tighten": [{"to": "8 N·m", "only": 3}]`), false), nil)
	if d := cmp.Diff([]string{"3"}, r.Tighten[0].Only); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// A broken part does not keep the rest from being read.
func TestBrokenPartsLeaveTheRest(t *testing.T) {
	r, problems := DecodeRecord(mustNode(t, torque(`"fastener": [{"count": "x"}, 5, {"count": 3}], "tighten": [{"to": ["8 N·m", {}]}, {"to": "9 N·m", "foo": 1}, [], {"check": "9 N·m"}]`), true), nil)
	if len(problems) != 5 {
		t.Errorf("got %q", say(problems))
	}
	if len(r.Fasteners.Items) != 3 || r.Fasteners.Items[2].Count != 3 {
		t.Errorf("fasteners: %+v", r.Fasteners)
	}
	var got []string
	for p, f := range r.Figures() {
		got = append(got, p.String()+" "+f.Text())
	}
	if d := cmp.Diff([]string{"/tighten/1/to 9 N·m", "/tighten/3/check 9 N·m"}, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestDecodeHead(t *testing.T) {
	h, problems := DecodeHead(mustNode(t, `{
		"$schema": "urn:snapgauge:schema:1.0:specfile", "format": "snapgauge/1.0",
		"machine": {"id": "wrackline-40", "name": "Wrackline 40 reduction gear"},
		"variants": ["A", "B"], "serials": {"gear": "number", "built": "date", "x-old": "no"},
		"entered": {"by": "RM", "date": "2026-03-02"},
		"sources": {"manual": {"title": "Wrackline 40 workshop manual", "edition": "third 2019", "kind": "maker"}, "note": {"title": "A note", "kind": {"other": "a friend"}}},
		"decimal": "comma", "records": [{"broken": true}]
	}`, true))
	if len(problems) > 0 {
		t.Errorf("%q", say(problems))
	}
	if d := cmp.Diff(&Head{
		Format: "snapgauge/1.0", Machine: Machine{"wrackline-40", "Wrackline 40 reduction gear"},
		Variants: []string{"A", "B"}, Serials: []Serial{{"gear", "number"}, {"built", "date"}},
		Entered: Entered{"RM", "2026-03-02"},
		Sources: []NamedSource{
			{"manual", Document{"Wrackline 40 workshop manual", "third 2019", "maker"}},
			{"note", Document{Title: "A note", Kind: "other: a friend"}},
		},
		Decimal: "comma",
	}, h); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestHeadSentences(t *testing.T) {
	tests := []struct {
		name, head string
		want       []string
	}{
		{"nothing", `{}`, []string{
			` missing: a spec file needs format, such as "format": "snapgauge/1.0"`,
			` missing: a spec file needs machine, such as "machine": {"id": "wrackline-40", "name": "Wrackline 40 reduction gear"}`,
			` missing: a spec file needs records`}},
		{"misspelt", `{"format": "snapgauge/1.0", "machine": {"id": "m"}, "record": [], "kind": "torque"}`, []string{
			`/kind~ unknown: unknown field "kind" in the spec file; the name of a field of your own begins with x-`,
			`/record~ unknown: unknown field "record" in the spec file; did you mean "records"?`}},
		{"field of a record", `{"format": "snapgauge/1.0", "machine": {"id": "m"}, "records": [], "tighten": []}`, []string{
			`/tighten~ unknown: unknown field "tighten" in the spec file; the name of a field of your own begins with x-`}},
		{"empty", `{"format": "snapgauge/1.0", "machine": {"id": null}, "records": null, "sources": {"m": null}}`, []string{
			`/machine/id~ emptied: id is empty; give a value`,
			`/records~ emptied: records is empty; give a value`,
			`/sources/m~ emptied: m is empty; give a value or leave it out`}},
		{"forms", `{"format": "snapgauge/2.0", "machine": "m", "records": {}, "decimal": "semicolon", "variants": ["A", "B", "A"], "serials": {"variant": "number", "1": "number", "gear": "numbers"}, "sources": {"m": {"title": "t", "kind": "factory"}}}`, []string{
			`/decimal wrong: no decimal mark "semicolon"; known: point, comma`,
			`/format wrong: format is "snapgauge/2.0"; snapgauge/1.0 goes here`,
			`/machine wrong: machine is "m"; a mapping of id and name goes here, such as {id: wrackline-40, name: Wrackline 40 reduction gear}`,
			`/records wrong: records is a mapping; a list of records goes here, such as`,
			`/serials/1~ wrong: serials: the name "1" does not go; a name of letters, digits and hyphens other than variant does`,
			`/serials/gear wrong: no form of a numbering "numbers"; known: number, date; did you mean "number"?`,
			`/serials/variant~ wrong: serials: the name "variant" does not go; a name of letters, digits and hyphens other than variant does`,
			`/sources/m/kind wrong: no kind of source "factory"; known: maker, supplier, standard, handbook, government, shop, measured, or other: …`,
			`/variants wrong: variants: "A" stands twice`}},
		{"no head", `"x"`, []string{` wrong: the spec file is "x"; a spec file goes here`}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, problems := DecodeHead(mustNode(t, tt.head, true))
			got := say(problems)
			for i := range got { // the example of a list of records is long
				got[i], _, _ = strings.Cut(got[i], ` [{id`)
			}
			if d := cmp.Diff(tt.want, got); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

// A broken head is marked, for what it does not list may be there all the same.
func TestBrokenHead(t *testing.T) {
	for text, want := range map[string]bool{
		`{"format": "snapgauge/1.0", "machine": {"id": "m"}, "sources": {}, "records": []}`:                                  false,
		`{"format": "snapgauge/1.0", "machine": {"id": "m"}, "Sources": {}, "records": []}`:                                  true,
		`{"format": "snapgauge/1.0", "machine": {"id": "m"}, "sources": {}, "record": []}`:                                   true,
		`{"format": "snapgauge/1.0", "machine": {"id": "m"}, "variants": "A", "records": []}`:                                true,
		`{"format": "snapgauge/1.0", "machine": {"id": "M 1"}, "entered": {"by": "RM", "date": "yesterday"}, "records": []}`: false,
		`{"format": "snapgauge/1.0", "records": []}`:                                                                         false,
		`{"format": "snapgauge/1.0", "machine": {"id": "m", "nmae": "M"}, "records": []}`:                                    false,
		`{"format": "snapgauge/1.0", "machine": {"id": "m"}}`:                                                                true,
		`{"format": "snapgauge/1.0", "machine": {"id": "m"}, "sources": {"m": "a manual"}, "records": []}`:                   true,
	} {
		if h, _ := DecodeHead(mustNode(t, text, true)); h.Broken != want {
			t.Errorf("%s: got %v, want %v", text, h.Broken, want)
		}
	}
}

func TestDecodeLine(t *testing.T) {
	h, r, problems := DecodeLine(mustNode(t, `{"format": "snapgauge/1.0", "machine": {"id": "m"}, "serials": {"built": "date"}, "variants": ["A"],
		"id": "x", "kind": "tolerance", "where": "y", "of": "clearance", "new": "1,2 to 1,8 mm", "decimal": "comma",
		"applies": [{"built": "to 2019-03-01"}], "entered": {"by": "RM"},
		"source": {"title": "T", "edition": "2", "kind": "maker", "at": "p"}}`, false))
	if len(problems) > 0 {
		t.Errorf("%q", say(problems))
	}
	if !h.OfOneLine || h.Machine.ID != "m" || h.Format != "snapgauge/1.0" || h.Decimal != "comma" || len(h.Variants) != 1 || h.Serials[0].Form != "date" {
		t.Errorf("head: %+v", h)
	}
	if q, ok := r.New.Quantity(); !ok || q.String() != "1.2 to 1.8 mm" {
		t.Errorf("new: %v", q)
	}
	if r.Applies[0].Serials[0].To != 17956 || r.Entered.By != "RM" || r.Source.Title != "T" {
		t.Errorf("record: %+v", r)
	}

	_, _, problems = DecodeLine(mustNode(t, `{"id": "x", "kind": "fill", "where": "y", "amounts": [{"volume": "4.7 L"}], "source": {"ref": "m", "at": "p"}, "sources": {}, "machne": {"id": "m"}}`, false))
	if d := cmp.Diff([]string{
		` missing: a line needs format, such as "format": "snapgauge/1.0"`,
		`/machne~ unknown: unknown field "machne" in the line; did you mean "machine"?`,
		`/source~ missing: source needs title`,
		`/sources~ unknown: unknown field "sources" in the line; the name of a field of your own begins with x-`,
	}, say(problems)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// The order of problems does not hang on the order of maps.
func TestProblemsComeInOneOrder(t *testing.T) {
	text := torque(`"tighten": [{"to": 5, "foo": 1, "bar": 2, "pattern": "x", "tolerance": []}, {}, {"too": 1}], "joint": {"into": 1, "seal": 2, "threads": 3}, "entered": {}, "misprint": {}`)
	_, problems := DecodeRecord(mustNode(t, text, false), nil)
	first := say(problems)
	for range 20 {
		_, problems := DecodeRecord(mustNode(t, text, false), nil)
		if d := cmp.Diff(first, say(problems)); d != "" {
			t.Fatalf("(-first +later):\n%s", d)
		}
	}
	if len(first) < 12 {
		t.Errorf("only %d problems", len(first))
	}
}

func FuzzDecode(f *testing.F) {
	for _, s := range []string{
		torque(tightened), record("fill", filled), record("tolerance", `"of": "clearance", "new": [1, "2 to 1", "8 mm"]`),
		torque(tightened + `, "applies": [{"variant": ["A"], "gear": "1200 to 9999"}], "layout": {"places": {"1": ["0", "0"]}}`),
		torque(tightened + `, "fastener": {"count": 1e1000001}, "": {"": 0}, "a/b~": 1, "misprint": {"printed": "8 N·m", "use": "9 N·m"}`),
		`{"format": "snapgauge/1.0", "machine": {"id": "m"}, "serials": {"gear": "number"}, "sources": {"m": {"title": "t"}}, "records": []}`,
		`{"kind": "torque", "tighten": {"0": 1}, "tighten": 2, "source": "x", "joint": {"threads": {"other": {"other": 1}}}}`,
		`[]`, `null`, `1e400`, `{"kind":"fill","level":{"engine":["a",null]},"steps":[[]]}`,
	} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, plain bool) {
		if strings.Count(text, "[")+strings.Count(text, "{") > 500 {
			return // the reader of the test goes down as deep as the text
		}
		n, err := nodeOf(text, plain)
		if err != nil {
			return
		}
		h, problems := DecodeHead(n)
		look(t, n, problems)
		r, problems := DecodeRecord(n, h)
		look(t, n, problems)
		use(r)
		_, r, problems = DecodeLine(n)
		look(t, n, problems)
		use(r)
	})
}

// look holds problems to what every caller relies on.
func look(t *testing.T, n *Node, problems []Problem) {
	t.Helper()
	for i, p := range problems {
		if p.Message == "" || strings.HasSuffix(p.Message, ".") && !strings.HasSuffix(p.Message, "…") && p.Fault == MissingField {
			t.Errorf("sentence %q", p.Message)
		}
		if strings.Contains(p.Message, "could not be checked") {
			t.Errorf("the validator failed: %s", p.Message)
		}
		n.Follow(p.At.Path, p.At.Key)
		if i > 0 && comparePaths(problems[i-1].At.Path, p.At.Path) > 0 {
			t.Errorf("%s stands after %s", p.At.Path, problems[i-1].At.Path)
		}
	}
}

// use does with a record what checks do.
func use(r *Record) {
	for _, f := range r.Figures() {
		_, _ = f.Quantity()
		_, _, _ = f.First()
		_ = f.At(Path{}, 0)
	}
	_ = Uncovered(nil, r.Boxes())
	_ = Pick(nil, [][]Box{r.Boxes()}, Facts{})
}
