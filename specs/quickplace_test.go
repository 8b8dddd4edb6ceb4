package specs

import (
	"testing"

	"snapgauge/schema"
)

// The quick way finds the places that the tree does, or leaves them to it.
func TestQuickPlace(t *testing.T) {
	const line = "{ \"id\" : \"µ-plug\",\"n\":[1,{\"a\":[],\"b\" :\t\"x\\\"y\"}, \"last µm\" ],\"count\":4,\"t\":true,\"e\":\"\",\"to\":[\"25 N·m\",\"18 lbf·ft\"]}"
	for _, c := range []struct {
		spot  schema.Spot
		quick bool
	}{
		{schema.Spot{Path: schema.At("id")}, true},
		{schema.Spot{Path: schema.At("id"), Key: true}, false},
		{schema.Spot{Path: schema.At("n", 2)}, true},
		{schema.Spot{Path: schema.At("n", 2), From: 5, To: 8}, true},
		{schema.Spot{Path: schema.At("n", 2), From: 5, To: 80}, true},
		{schema.Spot{Path: schema.At("n", 3)}, false},
		{schema.Spot{Path: schema.At("n", 1)}, false},
		{schema.Spot{Path: schema.At("n", 1, "b")}, false},
		{schema.Spot{Path: schema.At("n", 1, "a", 0)}, false},
		{schema.Spot{Path: schema.At("n", 0, "a")}, false},
		{schema.Spot{Path: schema.At("count")}, false},
		{schema.Spot{Path: schema.At("e")}, true},
		{schema.Spot{Path: schema.At("to", 1), From: 3, To: 10}, true},
		{schema.Spot{Path: schema.At("missing")}, false},
		{schema.Spot{}, false},
	} {
		for _, mark := range []string{"", bom} {
			at := &text{file: "book.ndjson", src: mark + line, line: 7}
			var read jsonReader
			n, bad := read.line(at, []byte(at.src))
			if bad != nil {
				t.Fatal(bad)
			}
			want := at.locator(n)(c.spot)
			got, ok := quickPlace(at, c.spot)
			if ok != c.quick || ok && got != want {
				t.Errorf("%v: %v, found is %v; want %v, %v", c.spot.Path, got, ok, want, c.quick)
			}
		}
	}
}
