package schema

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
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
			"tighten": [{"turn": "90°", "order": [1, 2], "only": ["long", 2], "again": 2, "yield": true}, {"loosen": "fully"}, {"wait": "5 min"}, {"run": "warm"}, {"check": "8 N·m"}],
			"yield": false, "prevailing": {"torque": "max 1 N·m", "included": true}, "layout": {"places": {"1": ["0", 1.5]}}`),
		record("fill", `"fluid": {"name": "oil", "grade": "ISO VG 46"}, "amounts": [{"when": "after overhaul", "volume": ["6.2 L", "6.6 US qt"]}, {"volume": "1 L"}],
			"level": {"by": "dipstick", "engine": "idling", "after": "5 min", "selector": "neutral", "ground": "level", "at": "40 °C", "sign": "drops",
				"points": [{"at": ["20 °C", "68 °F"], "low": "30 mm", "high": "48 mm"}], "marks": [{"at": "60 to 80 °C", "mark": "HOT"}], "between-marks": "0.8 L"},
			"steps": [{"add": "4 L", "then": "run"}]`),
		record("fill", `"level": {"engine": "1500 rpm"}`),
		record("fill", `"level": {"engine": ["1500 rpm", "25 r/s"]}`),
		record("tolerance", `"of": "clearance", "new": ["1.2 to 1.8 mm", "0.047 to 0.071 in"], "wear-limit": "2.4 mm", "how": "blown", "fit": "H7/g6", "size": "40 mm",
			"rows": [{"figure": "18 bar", "at": {"speed": "1500 rpm", "temperature": "70 °C", "selector": "ahead"}}],
			"select": {"measure": "gap", "want": "0.1 mm", "rows": [{"from": "1.2 mm", "to": "1.3 mm", "part": "shim B"}]}`),
		record("tolerance", `"unpublished": {"why": "none", "do": "ask"}`),
	},
	specfileSchema: {
		`{"$schema": "x", "format": "snapgauge/1.0", "machine": {"id": "m", "name": "M"}, "variants": ["A", "B"], "serials": {"gear": "number", "x-a": 1},
			"entered": {"by": "RM"}, "sources": {"manual": {"title": "T", "kind": {"other": "x"}}}, "decimal": "comma", "records": [], "x-y": 2}`,
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

// TestAcceptsSound: the quick check must know every keyword that the schemas
// use, or it would be quick for nothing.
func TestAcceptsSound(t *testing.T) {
	for name, texts := range sounds {
		for _, text := range texts {
			v := plainOf(t, text)
			if causes, err := validate(name, v); len(causes) > 0 || err != nil {
				t.Errorf("%s refuses %s: %v, %v", name, text, causes, err)
			}
			if !accepts(name, v) {
				t.Errorf("%s: the quick check is not sure of %s", name, text)
			}
		}
	}
	for name, r := range rules() {
		if r.unsure {
			t.Errorf("%s: a keyword is not known", name)
		}
	}
}

// TestAcceptsOnlySound changes sound values at random places and asks both.
// What the quick check accepts, the validator must accept.
func TestAcceptsOnlySound(t *testing.T) {
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
	pool = append(pool, nil, true, "", "other: ", "other: x", "2026-02-30", json.Number("0"), json.Number("-1"), json.Number("2.0"),
		json.Number("1e2"), json.Number("1.5"), []any{}, map[string]any{}, strings.Repeat("é", 201), []any{"A", "A"}, map[string]any{"other": ""})
	accepted, refused, needless := 0, 0, 0
	for range 3000 {
		name := []string{recordSchema, recordSchema, recordSchema, specfileSchema, lineSchema}[r.IntN(5)]
		v := plainCopy(values[name][r.IntN(len(values[name]))])
		for range 1 + r.IntN(2) {
			v = mutate(r, v, pool)
		}
		causes, err := validate(name, v)
		if err != nil {
			t.Fatal(err)
		}
		sound := len(causes) == 0
		quick := accepts(name, v)
		switch {
		case quick && !sound:
			b, _ := json.Marshal(v)
			t.Fatalf("%s: the quick check accepts what the validator refuses: %s\n%+v", name, b, causes)
		case quick:
			accepted++
		case sound:
			needless++
		default:
			refused++
		}
	}
	if accepted < 500 || refused < 500 {
		t.Errorf("%d accepted, %d refused: the changes are too mild or too wild", accepted, refused)
	}
	// Only numbers that are whole and do not look it are asked about twice.
	if needless > accepted/20 {
		t.Errorf("%d sound values of %d were not accepted", needless, accepted+needless)
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

func FuzzAccepts(f *testing.F) {
	for name, texts := range sounds {
		for _, text := range texts {
			f.Add(name, text)
		}
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		if name != recordSchema && name != lineSchema && name != specfileSchema || strings.Count(text, "[")+strings.Count(text, "{") > 500 {
			return
		}
		var v any
		d := json.NewDecoder(strings.NewReader(text))
		d.UseNumber()
		if d.Decode(&v) != nil || !accepts(name, v) {
			return
		}
		if causes, err := validate(name, v); err != nil || len(causes) > 0 {
			t.Errorf("the quick check accepts what the validator refuses: %v, %+v", err, causes)
		}
	})
}
