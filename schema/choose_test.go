package schema

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func boxesOf(gear string, variants ...string) []Box {
	b := Box{Variants: variants}
	if gear != "" {
		b.Serials = []SerialRange{ParseSerialRange("gear", gear, FormNumber)}
	}
	return []Box{b}
}

func TestChoose(t *testing.T) {
	h := &Head{Variants: []string{"A", "B"}, Serials: []Serial{{Name: "gear", Form: FormNumber}}}
	early := Candidate{ID: "early", Boxes: boxesOf("to 1199", "A")}
	late := Candidate{ID: "late", Boxes: boxesOf("from 1200", "A")}
	b := Candidate{ID: "b", Boxes: boxesOf("", "B")}
	newer := Candidate{ID: "newer", Supersedes: "late", Boxes: boxesOf("from 5000", "A")}
	newest := Candidate{ID: "newest", Supersedes: "newer", Boxes: boxesOf("from 5000", "A")}
	bad := Candidate{ID: "bad", Boxes: boxesOf("about 7", "A")}
	gear := func(n int64) map[string]int64 { return map[string]int64{"gear": n} }
	tests := []struct {
		name  string
		of    []Candidate
		facts Facts
		want  string
		ask   string
	}{
		{"nothing known", []Candidate{early, late, b}, Facts{}, "", "variant"},
		{"the number is missing", []Candidate{early, late, b}, Facts{Variant: "A"}, "", "gear"},
		{"decided", []Candidate{early, late, b}, Facts{Variant: "A", Serials: gear(1200)}, "late", ""},
		{"the number is not needed", []Candidate{early, late, b}, Facts{Variant: "B"}, "b", ""},
		{"none applies", []Candidate{early, late}, Facts{Variant: "B"}, "", ""},
		{"the later source", []Candidate{late, newer}, Facts{Variant: "A", Serials: gear(5000)}, "newer", ""},
		{"a chain of them", []Candidate{late, newer, newest}, Facts{Variant: "A", Serials: gear(5000)}, "newest", ""},
		{"not yet replaced", []Candidate{late, newer}, Facts{Variant: "A", Serials: gear(4999)}, "late", ""},
		{"whether it is replaced is not known", []Candidate{late, newer}, Facts{Variant: "A"}, "", "gear"},
		{"what cannot be read", []Candidate{bad}, Facts{Variant: "A", Serials: gear(7)}, "bad", ""},
		{"from 1 is every number", []Candidate{{ID: "every", Boxes: boxesOf("from 1", "A")}}, Facts{Variant: "A"}, "every", ""},
		{"to 0 is none", []Candidate{{ID: "none", Boxes: boxesOf("to 0", "A")}}, Facts{Variant: "A"}, "", ""},
		{"no record", nil, Facts{}, "", ""},
	}
	for _, tt := range tests {
		apply, ask := Choose(h, tt.of, tt.facts)
		var ids []string
		for _, i := range apply {
			ids = append(ids, tt.of[i].ID)
		}
		if got := strings.Join(ids, " "); got != tt.want || ask != tt.ask {
			t.Errorf("%s: %q, asks %q, want %q and %q", tt.name, got, ask, tt.want, tt.ask)
		}
	}
}

func TestDeclare(t *testing.T) {
	h := &Head{}
	h.Declare(&Head{Variants: []string{"A", "B"}, Serials: []Serial{{"gear", FormNumber}}})
	h.Declare(&Head{Variants: []string{"C", "A"}, Serials: []Serial{{"gear", FormDate}, {"built", FormDate}}})
	want := &Head{Variants: []string{"A", "B", "C"}, Serials: []Serial{{"gear", FormNumber}, {"built", FormDate}}}
	if diff := cmp.Diff(want, h); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestSplitFacts(t *testing.T) {
	for text, want := range map[string]string{
		"variant=B gear=1250":                "variant=B|gear=1250",
		"  gear = 1250\tvariant=B ":          "gear=1250|variant=B",
		"variant=long keel built=2019-03-01": "variant=long keel|built=2019-03-01",
		"B":                                  "B",
		"":                                   "",
	} {
		if got := strings.Join(SplitFacts(text), "|"); got != want {
			t.Errorf("SplitFacts(%q) = %q, want %q", text, got, want)
		}
	}
}
