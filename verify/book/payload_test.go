package book

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

var fullClaim = claim{
	ID: "cover", Named: true, Kind: "torque", Supersedes: "old-cover", Unclear: true, None: true, Comma: true,
	Steps: "to;turn;", Final: 1,
	Boxes: []schema.Box{
		{Variants: []string{"A", "B"}},
		{Serials: []schema.SerialRange{{Name: "gear", Text: "1200 to", Form: "number", From: 1200, HasFrom: true}}},
		{Serials: []schema.SerialRange{{Name: "made", Text: "x", Form: "date", To: -3, HasTo: true, Bad: "no date"}}},
	},
	Facts: []fact{
		{
			Key: "tighten 0 to", Texts: []string{"8 N·m", "71 lbf·in"}, Want: convert.Of(convert.Torque), At: "/tighten/0/to",
			Span: schema.Span{Start: schema.Position{Line: 3, Column: 4}, End: schema.Position{Line: 3, Column: 9}}, Soft: true,
		},
		{Key: "level", Texts: []string{"hot"}, Word: true},
	},
}

func TestClaimPayload(t *testing.T) {
	place := rule.Place{File: "a.yaml", Record: "cover"}
	want := fullClaim
	got, ok := decodeClaim(&rule.Row{Payload: want.encode(), Place: place})
	want.place, want.read = place, make([][]convert.Value, 2)
	if diff := cmp.Diff(&want, got, cmp.AllowUnexported(claim{})); !ok || diff != "" {
		t.Errorf("read back %v (-want +got):\n%s", ok, diff)
	}
}

func TestExtentPayload(t *testing.T) {
	want := extent{Unclear: true, Boxes: fullClaim.Boxes, Variants: []string{"A"}, Serials: []schema.Serial{{Name: "gear", Form: "number"}}}
	got, ok := decodeExtent(want.encode())
	if diff := cmp.Diff(want, got); !ok || diff != "" {
		t.Errorf("read back %v (-want +got):\n%s", ok, diff)
	}
}

// FuzzClaimPayload: whatever stands in a file of rows is read or refused, and
// what is read is written alike.
func FuzzClaimPayload(f *testing.F) {
	f.Add(fullClaim.encode())
	f.Add((&claim{}).encode())
	f.Add("")
	f.Add("a\x1fb\x1fc\x1fd\x1f0\x1f99999\x1f")
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := decodeClaim(&rule.Row{Payload: text})
		if !ok {
			return
		}
		again, ok := decodeClaim(&rule.Row{Payload: got.encode()})
		if diff := cmp.Diff(got, again, cmp.AllowUnexported(claim{})); !ok || diff != "" {
			t.Errorf("%q (-first +again):\n%s", text, diff)
		}
	})
}
