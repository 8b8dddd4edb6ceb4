package specs

import (
	"fmt"
	"strings"
	"testing"

	"snapgauge/schema"
)

// TestLost: of a record that cannot be read the id is told where it stands in
// it once, in whatever form, and with it where it stands.
func TestLost(t *testing.T) {
	yamlHead := "format: snapgauge/1.0\nx-id: &i \"spare\"\nrecords:\n"
	for _, c := range []struct{ name, src, want string }{
		{"a.yaml", yamlHead + "  - {id: plug, a: 1, a: 2}\n", `lost/records/0 "plug" at 4:10`},
		{"a.yaml", yamlHead + "  - {a: 1, a: 2, id: 'plug'}\n", `lost/records/0 "plug" at 4:22`},
		{"a.yaml", yamlHead + "  - a: !t 1\n    id: &x plug\n", `lost/records/0 "plug" at 5:9`},
		{"a.yaml", yamlHead + "  - {id: plug, <<: {a: 1}}\n", `lost/records/0 "plug" at 4:10`},
		{"a.yaml", yamlHead + "  - {id: *i, a: 1, a: 2}\n", `lost/records/0 "spare" at 2:7`},
		{"a.yaml", yamlHead + "  - {id: plug, id: lid}\n", `lost/records/0 "" at 4:20`},
		{"a.yaml", yamlHead + "  - {id: plug, id: plug}\n", `lost/records/0 "plug" at 4:20`},
		{"a.yaml", yamlHead + "  - {id: [plug], a: 1, a: 2}\n", `lost/records/0 "" at 4:24`},
		{"a.yaml", yamlHead + "  - &r {id: plug, a: 1, a: 2}\n  - *r\n", `lost/records/0 "plug" at 4:13; lost/records/1 "plug" at 4:13`},
		{"a.yaml", yamlHead + "  - [!t a]\n", `lost/records/0 "" at 4:6`},
		{"a.json", `{"format": "snapgauge/1.0", "records": [` + "\n" + `{"a": 1, "a": 2, "id": "plug"}]}`, `lost/records/0 "plug" at 2:24`},
		{"a.json", `{"format": "snapgauge/1.0", "records": [{` + "\n" + `"id": "plug", "count": 1e999999}]}`, `lost/records/0 "plug" at 2:7`},
		{"a.json", `{"format": "snapgauge/1.0", "records": [{"id": 3, "count": 1e999999}]}`, `lost/records/0 "" at 1:60`},
		{"a.json", `{"format": "snapgauge/1.0", "records": [[1e999999]]}`, `lost/records/0 "" at 1:42`},
		{"a.ndjson", `{"format": "snapgauge/1.0", "machine": {"name": "x", "id": "gear"}, "id": "plug", "count": 1e999999}`, `lost "plug" at 1:75 of gear`},
		{"a.ndjson", "\ufeff" + `{"id": "plug", "machine": {"id": "gear", "id": "lid"}}`, `lost "plug" at 1:8 of `},
		{"a.ndjson", "\n" + `{"machine": {"id": 3}, "id": "plug", "x": 1 1}`, `lost "plug" at 2:30 of `},
		{"a.ndjson", `{"machine": {"id": "gear" 1}, "id": "plug"}`, `lost "" at 1:27 of gear`},
		{"a.ndjson", `{"a·": "` + "\xb7" + `", "id": "plug"}`, `lost "plug" at 1:19 of `},
		{"a.ndjson", `{"id": "plug`, `lost "" at 1:13 of `},
		{"a.ndjson", `{"machine": {"id": "gear`, `lost "" at 1:25 of `},
		{"a.ndjson", `3`, `lost "" at 1:1 of `},
	} {
		var got []string
		for e, err := range Read(c.name, strings.NewReader(c.src)) {
			if e.Lost {
				got = append(got, lostTold(e))
			} else if err != nil {
				t.Errorf("%s: not lost: %v", c.src, err)
			}
		}
		diff(t, c.src, c.want, strings.Join(got, "; "))
	}
}

// A file with nothing but records that cannot be read takes time in proportion
// to its length.
func TestLostMany(t *testing.T) {
	const n = 20_000
	for name, src := range map[string]string{
		"a.yaml": "format: snapgauge/1.0\nrecords:\n" + strings.Repeat("  - {id: plug, a: 1, a: 2}\n", n),
		"a.json": `{"format": "snapgauge/1.0", "records": [{"id": "x"}` + strings.Repeat(",\n"+`{"id": "plug", "a": 1, "a": 2}`, n) + "]}",
	} {
		last, lost := schema.Span{}, 0
		for e := range Read(name, strings.NewReader(src)) {
			if e.Lost {
				lost++
				last = e.Locate(schema.Spot{})
			}
		}
		diff(t, name, fmt.Sprint(n, " lost"), fmt.Sprint(lost, " lost"))
		if last.Start.Line < n {
			t.Errorf("%s: the last is said to be on line %d", name, last.Start.Line)
		}
	}
}
