package schema

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// sounds holds sound records, heads and lines with every field of the format.
var sounds = map[string][]string{
	recordSchema: {
		soundTorque,
		torque(`"item": "a", "supersedes": "b", "renew": ["gasket"], "entered": {"by": "RM", "date": "2026-03-02"}, "x-n": 1,
			"answers": [{"check": "torque-outside-band", "figure": "/tighten/0/to", "read": "14 N·m", "because": "b", "by": "RM", "date": "2026-03-04"}],
			"misprint": {"printed": "53 lbf·ft", "use": "53 lbf·in", "because": "b", "source": {"title": "t", "edition": "e", "kind": "other: x", "at": "p"}, "by": "RM", "date": "2026-03-04"},
			"fastener": [{"key": "long", "type": "stud", "places": [1, 2]}, {"head": {"other": "square"}}],
			"joint": {"friction": "0.12", "insert": "wire", "into": "other: bronze"},
			"tighten": [{"turn": "90°", "adapter": "50 mm", "order": [1, 2], "only": ["long", 2], "again": 2, "yield": true}, {"loosen": "fully"}, {"wait": "5 min"}, {"run": "warm"}, {"check": "8 N·m"}],
			"yield": false, "prevailing": {"torque": "max 1 N·m", "included": true}, "layout": {"places": {"1": ["0", 1.5]}}`),
		record("fill", `"fluid": {"name": "oil", "grade": "ISO VG 46"}, "amounts": [{"when": "after overhaul", "volume": ["6.2 L", "6.6 US qt"]}, {"volume": "1 L"}],
			"level": {"by": "dipstick", "engine": "idling", "after": "5 min", "selector": "neutral", "ground": "level", "at": "40 °C", "sign": "drops",
				"points": [{"at": ["20 °C", "68 °F"], "low": "30 mm", "high": "48 mm"}], "marks": [{"at": "60 to 80 °C", "mark": "HOT"}], "between-marks": "0.8 L"},
			"steps": [{"add": "4 L", "then": "run"}]`),
		torque(`"applies": [{"variant": "A", "gear": 1250}, {}], "tighten": [{"to": "8 N·m", "only": "long", "x-seen": [null, {"a": 1, "b": false}]}, {"to": "9 N·m", "only": 3}],
			"caution": [], "answers": []`),
		record("fill", `"level": {"engine": "1500 rpm"}`),
		record("fill", `"level": {"engine": ["1500 rpm", "25 r/s"]}`),
		record("tolerance", `"of": "clearance", "new": ["1.2 to 1.8 mm", "0.047 to 0.071 in"], "wear-limit": "2.4 mm", "how": "blown", "fit": "H7/g6", "size": "40 mm",
			"rows": [{"figure": "18 bar", "at": {"speed": "1500 rpm", "temperature": "70 °C", "selector": "ahead"}}],
			"select": {"measure": "gap", "want": "0.1 mm", "rows": [{"from": "1.2 mm", "to": "1.3 mm", "part": "shim B"}]}`),
		record("tolerance", `"unpublished": {"why": "none", "do": "ask"}`),
	},
	specfileSchema: {
		`{"$schema": "x", "format": "snapgauge/1.0", "machine": {"id": "m", "name": "M"}, "variants": ["A", "B"], "serials": {"gear": "number", "x-a": 1},
			"entered": {"by": "RM"}, "sources": {"manual": {"title": "T", "kind": {"other": "x"}}}, "decimal": "comma", "records": [], "x-y": 2,
			"wrenches": [{"id": "A", "range": ["20 to 100 N·m", "15 to 75 lbf·ft"], "usable": "20 to 100 N·m", "drive": "1/2 in", "resolution": "0,5 N·m", "class": "II A", "length": "400 mm", "calibrated": "2026-01-15"}]}`,
	},
	lineSchema: {
		strings.Replace(strings.Replace(soundTorque, `{"ref": "manual",`, `{"title": "T",`, 1), `{"id"`, `{"format": "snapgauge/1.7", "machine": {"id": "m"}, "variants": ["A"], "serials": {"gear": "date"}, "decimal": "point", "id"`, 1),
	},
}

func plainOf(t testing.TB, text string) any {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return v
}

// makes tries the decoder on a tree. It holds what the decoder makes against what
// the plain way makes, and the value against the validator: what the decoder is
// sure of, all must accept, and the plain way must make the same of it.
func makes(t *testing.T, d *Decoder, name string, v any, plain bool) (sure, sound bool) {
	t.Helper()
	var got, want any
	var problems []Problem
	n := treeOf(v, plain)
	switch name {
	case specfileSchema:
		want, problems = DecodeHead(n)
		got, sure = d.Head(n)
	case recordSchema:
		want, problems = DecodeRecord(n, benchHead)
		if d.Record(benchHead); d.Tree(n) {
			_, got = d.Done()
			sure = true
		}
	case lineSchema:
		h, r, p := DecodeLine(n)
		want, problems = [2]any{h, r}, p
		if d.Line(); d.Tree(n) {
			h, r := d.Done()
			got, sure = [2]any{h, r}, true
		}
	}
	if !sure {
		return false, len(problems) == 0
	}
	b, _ := json.Marshal(v)
	if len(problems) > 0 {
		t.Fatalf("%s: the decoder is sure of what has problems: %s\n%+v", name, b, problems)
	}
	if file, ok := v.(map[string]any); ok && name == specfileSchema { // records are judged one by one
		file = maps.Clone(file)
		file["records"] = []any{}
		v = file
	}
	if causes, err := validate(name, v); !plain && (err != nil || len(causes) > 0) {
		t.Fatalf("%s: the decoder is sure of what the validator refuses: %s\n%v, %+v", name, b, err, causes)
	}
	if d := cmp.Diff(want, got, cmp.Exporter(func(reflect.Type) bool { return true })); d != "" {
		t.Fatalf("%s: %s (-plain +decoder)\n%s", name, b, d)
	}
	return true, true
}

// treeOf makes a tree of a value. Plain tells that texts and numbers are plain
// scalars of YAML. The names of maps are sorted, but for a turn that the first of
// them decides, so that no order is the rule.
func treeOf(v any, plain bool) *Node {
	switch v := v.(type) {
	case nil:
		return &Node{Kind: NullNode}
	case string:
		return &Node{Kind: TextNode, Text: v, Plain: plain}
	case bool:
		if plain {
			return &Node{Kind: TextNode, Text: strconv.FormatBool(v), Plain: true}
		}
		return &Node{Kind: BoolNode, Text: strconv.FormatBool(v)}
	case json.Number:
		if plain {
			return &Node{Kind: TextNode, Text: string(v), Plain: true}
		}
		return &Node{Kind: NumberNode, Text: string(v)}
	case []any:
		n := &Node{Kind: ListNode}
		for _, x := range v {
			n.Items = append(n.Items, treeOf(x, plain))
		}
		return n
	}
	n := &Node{Kind: MapNode}
	m, _ := v.(map[string]any)
	names := slices.Sorted(maps.Keys(m))
	for i := range names {
		name := names[(i+len(names[0]))%len(names)]
		n.Keys = append(n.Keys, &Node{Kind: TextNode, Text: name})
		n.Items = append(n.Items, treeOf(m[name], plain))
	}
	return n
}

// TestDecoderIsSure: the decoder must know every field of the format, or it
// would be quick for nothing.
func TestDecoderIsSure(t *testing.T) {
	d := &Decoder{}
	for name, texts := range sounds {
		for _, text := range texts {
			v := plainOf(t, text)
			if causes, err := validate(name, v); len(causes) > 0 || err != nil {
				t.Errorf("%s refuses %s: %v, %v", name, text, causes, err)
			}
			for _, plain := range []bool{false, true} {
				if sure, _ := makes(t, d, name, v, plain); !sure {
					t.Errorf("%s: the decoder is not sure of %s (plain scalars: %v)", name, text, plain)
				}
			}
		}
	}
}

// TestDecoderAgainstPlainWay changes sound values at random places and goes both
// ways.
func TestDecoderAgainstPlainWay(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var pool []any // values from everywhere, to be put elsewhere
	values := map[string][]any{}
	for _, name := range slices.Sorted(maps.Keys(sounds)) {
		for _, text := range sounds[name] {
			v := plainOf(t, text)
			values[name] = append(values[name], v)
			pool = append(pool, partsOf(v)...)
		}
	}
	pool = append(pool, nil, true, "", " ", "x-", "1,2", "2 mm", "other: ", "other: x", "2026-02-30", json.Number("0"), json.Number("-1"), json.Number("2.0"),
		json.Number("1e2"), json.Number("1.5"), []any{}, map[string]any{}, strings.Repeat("é", 201), []any{"A", "A"}, map[string]any{"other": ""},
		map[string]any{"other": "x", "x-a": []any{nil, map[string]any{"b": json.Number("1e5")}}}, []any{"1", "2", "3", "4"}, []any{"1,1", "2 mm"})
	sures, refused, needless := 0, 0, 0
	d := &Decoder{}
	for range 6000 {
		name := []string{recordSchema, recordSchema, recordSchema, specfileSchema, lineSchema}[r.IntN(5)]
		v := plainCopy(values[name][r.IntN(len(values[name]))])
		for range 1 + r.IntN(2) {
			v = mutate(r, v, pool)
		}
		switch sure, sound := makes(t, d, name, v, r.IntN(4) == 0); {
		case sure:
			sures++
		case sound:
			needless++
		default:
			refused++
		}
		if r.IntN(8) == 0 {
			d.Keep()
		}
	}
	if sures < 1000 || refused < 1000 {
		t.Errorf("sure of %d, %d refused: the changes are too mild or too wild", sures, refused)
	}
	// Only numbers that are whole and do not look it are asked about twice.
	if needless > sures/20 {
		t.Errorf("not sure of %d of %d sound values", needless, sures+needless)
	}
}

func partsOf(v any) []any {
	parts := []any{v}
	switch v := v.(type) {
	case []any:
		for _, x := range v {
			parts = append(parts, partsOf(x)...)
		}
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			parts = append(parts, name)
			parts = append(parts, partsOf(v[name])...)
		}
	}
	return parts
}

func plainCopy(v any) any {
	switch v := v.(type) {
	case []any:
		list := make([]any, len(v))
		for i, x := range v {
			list[i] = plainCopy(x)
		}
		return list
	case map[string]any:
		m := make(map[string]any, len(v))
		for k, x := range v {
			m[k] = plainCopy(x)
		}
		return m
	}
	return v
}

// mutate changes one place of a value: takes it away, puts something else
// there, renames it or adds to it.
func mutate(r *rand.Rand, v any, pool []any) any {
	other := func() any { return plainCopy(pool[r.IntN(len(pool))]) }
	switch v := v.(type) {
	case []any:
		if len(v) == 0 || r.IntN(6) == 0 {
			return append(v, other())
		}
		i := r.IntN(len(v))
		switch r.IntN(4) {
		case 0:
			return slices.Delete(v, i, i+1)
		case 1:
			v[i] = other()
		default:
			v[i] = mutate(r, v[i], pool)
		}
		return v
	case map[string]any:
		names := slices.Sorted(maps.Keys(v))
		if len(names) == 0 || r.IntN(8) == 0 {
			name, _ := other().(string)
			v[name] = other()
			return v
		}
		name := names[r.IntN(len(names))]
		switch r.IntN(6) {
		case 0:
			delete(v, name)
		case 1:
			v[name] = other()
		default:
			v[name] = mutate(r, v[name], pool)
		}
		return v
	}
	return other()
}

func FuzzDecoder(f *testing.F) {
	for name, texts := range sounds {
		for _, text := range texts {
			f.Add(name, text, false)
			f.Add(name, text, true)
		}
	}
	f.Fuzz(func(t *testing.T, name, text string, plain bool) {
		if name != recordSchema && name != lineSchema && name != specfileSchema || strings.Count(text, "[")+strings.Count(text, "{") > 500 {
			return
		}
		var v any
		d := json.NewDecoder(strings.NewReader(text))
		d.UseNumber()
		if d.Decode(&v) == nil {
			makes(t, &Decoder{}, name, v, plain)
		}
	})
}
