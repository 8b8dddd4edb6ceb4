package reference

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestOneUse(t *testing.T) {
	for _, c := range []struct {
		part string
		want string // parts of the table, as printed there, first to last
	}{
		{"gasket", "gasket"},
		{"cover gasket when hard", "gasket"},
		{"head gasket", "cylinder head gasket and its bolts; gasket"},
		{"spark plug gasket", "spark plug gasket"},
		{"O-rings", "O-ring, preformed packing"},
		{"o ring", "O-ring, preformed packing"},
		{"Orings", "O-ring, preformed packing"},
		{"O-rings under the nuts", "O-ring, preformed packing"},
		{"oil seal, carrier gasket", "seal, rubber"}, // one part an item of the list
		{"crush washer", "copper crush washer; aluminium crush washer"},
		{"copper seat washers", "copper crush washer"},
		{"copper washers, two each bolt", "copper crush washer"},
		{"bonded seal", "bonded seal (metal and rubber)"},
		{"lock washer", "lockwasher"},
		{"spring washers", "lockwasher"},
		{"lock plate", "tab washer"},
		{"split pin", "cotter pin"},
		{"cotter", "cotter pin"},
		{"roll pin", "spring (roll) pin"},
		{"safety wire", "lockwire"},
		{"prevailing nut", "self-locking nut; self-locking nut; self-locking nut, small; prevailing-torque nut"},
		{"self-locking nut", "self-locking nut; self-locking nut; self-locking nut, small; prevailing-torque nut"},
		{"torque-to-yield screw", "torque-to-yield or angle-tightened bolt"},
		{"head bolts", "cylinder head gasket and its bolts"},
		{"connecting rod bolts", "connecting-rod bolts and nuts"},
		{"screws", "screws, general"},
		{"oil filter", "spin-on filter"},
		{"circlip", "retaining ring"},
		{"thread sealant", "PTFE tape or pipe sealant"},
		{"nuts", ""},
		{"paint", ""},
		{"", ""},
	} {
		var got []string
		for _, p := range OneUse(c.part) {
			got = append(got, p.Part)
			if p.Rule == "" || p.Renew == "" || p.Source.Text == "" || p.Source.ID == "" {
				t.Errorf("%q: %+v lacks a rule, a word or a source", c.part, p)
			}
		}
		if diff := cmp.Diff(c.want, strings.Join(got, "; ")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.part, diff)
		}
	}
	// US Army TM 5-5420-280-23&P and others; the school of the aircraft manuals second.
	nut := OneUse("self-locking nut")
	if !nut[0].Always() || nut[0].Source.Seen != SeenTwice || nut[1].Always() || nut[1].Source.Seen != SeenTwice {
		t.Errorf("self-locking nut: %+v", nut[:2])
	}
	if p := OneUse("copper washer")[0]; p.Source.Seen != Practice || p.Source.ID != "common-practice" {
		t.Errorf("copper washer: %+v", p)
	}
}

func TestRenewCovers(t *testing.T) {
	for _, c := range []struct {
		renew []string
		part  string
		want  bool
	}{
		{[]string{"gasket"}, "gasket", true},
		{[]string{"head bolts", "head gasket"}, "gasket", true},
		{[]string{"copper seat washers"}, "crush washer", true},
		{[]string{"sealing washers"}, "crush washer", true},
		{[]string{"washers"}, "crush washer", true},
		{[]string{"spring washer"}, "crush washer", false},
		{[]string{"O-rings under the nuts"}, "O-ring", true},
		{[]string{"O-rings under the nuts"}, "self-locking nut", false},
		{[]string{"seals"}, "O-ring", true},
		{[]string{"oil seal"}, "bonded seal", true}, // “seal” may be any of them
		{[]string{"bonded seals"}, "O-ring", false},
		{[]string{"nuts"}, "self-locking nut", true},
		{[]string{"self-locking nut"}, "prevailing nut", true},
		{[]string{"staked nut"}, "self-locking nut", false},
		{[]string{"head bolts"}, "torque-to-yield screw", true},
		{[]string{"screws"}, "torque-to-yield bolt", true},
		{[]string{"gasket"}, "torque-to-yield screw", false},
		{[]string{"split pins"}, "cotter pin", true},
		{[]string{"felt strip"}, "felt strip", true}, // the same words, though the table has no such part
		{[]string{""}, "", false},
		{nil, "gasket", false},
	} {
		if got := RenewCovers(c.renew, c.part); got != c.want {
			t.Errorf("%q covers %q: got %v, want %v", c.renew, c.part, got, c.want)
		}
	}
}

// Every id of the words has rows, and every row is reached by a word.
func TestOneUseTablesMeet(t *testing.T) {
	reached := make(map[string]bool)
	for _, w := range oneUse().words {
		for _, id := range w.ids {
			reached[id] = true
			if len(oneUse().byID[id]) == 0 {
				t.Errorf("%v leads to %q, which oneuse.csv lacks", w.words, id)
			}
		}
	}
	for id := range oneUse().byID {
		if !reached[id] {
			t.Errorf("no words lead to %q", id)
		}
	}
}
