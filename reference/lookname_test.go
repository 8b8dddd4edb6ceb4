package reference

import (
	"os"
	"strings"
	"testing"
)

func TestLookNames(t *testing.T) {
	for _, c := range []struct{ term, title, label, value string }{
		// ISO 4014 grade A dw min, TestBearing has the sources.
		{"hex", "hex, ISO 4014 / ISO 4017 grade A", "M8", "bears on 11.63 mm"},
		{"Socket cap head", "socket-cap, ISO 4762", "M8", "bears on 12.33 mm"},
		{"button", "button, ISO 7380", "any size", "bears on 1.6 of the diameter of the thread"},
		{"VDI 2230", "vdi-2230", "cited for friction", "VDI 2230-1 Table A5 friction coefficient classes"},
		{"VDI 2230-1", "vdi-2230", "document", Cite("vdi-2230").Text},
		{"ISO 286", "iso-286", "document", "ISO 286-1 and ISO 286-2, limits and fits"},
		{"ISO 898", "iso-898-1", "cited for metric classes", "ISO 898-1:2013 Table 3 (and 1999 edition Table 3)"},
		{"ISO 898", "iso-898-2", "document", Cite("iso-898-2").Text},
		{"criss-cross", "pattern: circular flange", "rule", "cross pattern in stages"},
		{"criss-cross", "pattern: wheel", "rule", "opposite nuts alternately"},
		{"centre outwards", "pattern: rectangular cover, cylinder head, valve body", "passes", "2 or 3"},
		{"in order", "pattern: circular flange, 4 bolts", "rule", "order by place round the circle: 1 3 2 4"},
	} {
		if !found(Look(c.term), c.title, c.label, c.value) {
			t.Errorf("%q: no %q: %q under %q in\n%s", c.term, c.label, c.value, c.title, printed(Look(c.term)))
		}
	}
	// ISO alone names half of all documents, and so none.
	if got := Look("ISO"); len(got) != 0 {
		t.Errorf("ISO: %s", printed(got))
	}
}

// Every table that cites its sources row by row has a name to be shown under.
func TestTablesHaveNames(t *testing.T) {
	list, err := os.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range list {
		rows := mustTable(f.Name())
		if _, cites := rows[0].index["cite"]; cites != (tableWords[f.Name()] != "") {
			t.Errorf("%s: cites %v, named %q", f.Name(), cites, tableWords[f.Name()])
		}
	}
}

func TestWhy(t *testing.T) {
	for _, c := range []struct{ term, want, near string }{
		{"8.7", "there is no property class 8.7: the first number", "8.8"},
		{"A2-75", "there is no class A2-75: the number", "A2-70"},
		{"8.B", "“8.B” is no class; 8.8 is", ""},
		{"A325", "A325 is a class or grade that exists; no table here has its strength", ""},
		{"45H", "45H is a class or grade that exists", ""},
		{"14.9", "14.9 is a class or grade that exists", ""},
		// SAE J300 has no 35, and no 12W; ISO 3448 no 45.
		{"SAE 10W-35", "there is no engine oil 35 to go with SAE 10W; there are 8, 12, 16, 20, 30, 40, 50 and 60", ""},
		{"80w90w", "", ""},
		{"12W-40", "there is no SAE 12W; winter grades are 0W, 5W, 10W,", ""},
		{"SAE 25W-8", "there is no SAE 25W-8: SAE 25W is thicker at 100 °C than SAE 8", ""},
		{"SAE 35", "there is no SAE 35 in the tables; there are 8,", ""},
		{"ISO VG 45", "there is no ISO VG 45 in the tables; there are 2, 3, 5, 7, 10, 15, 22, 32, 46,", ""},
		{"DOT 6", "there is no DOT 6 in the tables; there are 3, 4, 5 and 5.1", ""},
		{"SAE 9", "there is no SAE grade 9;", "SAE 8"},
		{"H25", "grade 25 does not exist; the grades of ISO 286 are 01, 0 and 1 to 18", ""},
		{"ZC8", "ZC8 is not in our tables of ISO 286", ""},
		{"Q7", "ISO 286 has no deviation Q", ""},
		{"25 q9", "ISO 286 has no deviation q", ""},
		{"H7/q6", "ISO 286 has no deviation q", ""},
		{"600 H7", "our tables of ISO 286 are for nominal sizes over 0 up to 500 mm, not for 600 mm", ""},
		{"IT19", "there is no IT19; the grades of ISO 286 are", ""},
		{"M8x1.52", "no ISO 261 thread has a pitch of 1.52 mm", ""},
		{"1/4-21", "no ASME B1.1 thread has 21 threads per inch", ""},
		{"", "", ""}, {"nothing at all", "", ""}, {"wood", "", ""}, {"25 H", "", ""}, {"?", "", ""},
	} {
		got, near := Why(c.term)
		if c.want == "" != (got == "") || !strings.HasPrefix(got, c.want) || c.near != "" && (len(near) == 0 || near[0] != c.near) {
			t.Errorf("%q: got %q, %v, want %q, %q", c.term, got, near, c.want, c.near)
		}
	}
}

// FuzzWhy: a reason is one sentence of ours, whatever was looked for.
func FuzzWhy(f *testing.F) {
	for _, s := range []string{"8.7", "A325", "SAE 10W-35", "H25", "25 q9", "IT19", "1/4-21", "999W-999", "A2/A4-75"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if reason, near := Why(s); strings.HasSuffix(reason, ".") || strings.HasSuffix(reason, "there are ") || reason == "" && len(near) > 0 {
			t.Errorf("%q: %q, %v", s, reason, near)
		}
	})
}
