package reference

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestCautions(t *testing.T) {
	// The words used in spec files.
	for _, c := range []struct {
		id, signal string
		kinds      []string
	}{
		{"hot-oil", "WARNING", []string{"torque", "fill"}},
		{"stored-energy", "WARNING", []string{"torque"}},
		{"compressed-air", "WARNING", []string{"torque", "tolerance"}},
		{"eye-protection", "CAUTION", []string{"torque", "fill", "tolerance"}},
		{"raised-machine", "DANGER", []string{"torque", "fill", "tolerance"}},
		{"overfill", "NOTICE", []string{"fill"}},
	} {
		got, ok := CautionByID(c.id)
		if !ok || got.Signal != c.signal || got.Text == "" {
			t.Errorf("%s: %+v", c.id, got)
		}
		if diff := cmp.Diff(c.kinds, got.Kinds); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.id, diff)
		}
	}
	for _, id := range []string{"signal-danger", "no such caution", ""} {
		if _, ok := CautionByID(id); ok {
			t.Errorf("%q is no caution", id)
		}
	}
	var ids []string
	for _, c := range Cautions() {
		if slices.Contains(ids, c.ID) {
			t.Errorf("%s stands twice", c.ID)
		}
		ids = append(ids, c.ID)
		if !slices.Contains([]string{"DANGER", "WARNING", "CAUTION", "NOTICE"}, c.Signal) || len(c.Kinds) == 0 || c.Source.Text == "" {
			t.Errorf("%s is not whole: %+v", c.ID, c)
		}
	}
	if len(ids) != 34 {
		t.Errorf("%d cautions", len(ids))
	}
	if c, _ := CautionByID("hot-coolant"); c.Source.Seen != Practice || c.Source.String() != "common practice, no source" {
		t.Errorf("%+v", c.Source)
	}
}

func TestRules(t *testing.T) {
	if len(Rules("")) != len(Rules("torque"))+len(Rules("units"))+len(Rules("clearance"))+len(Rules("fill"))+
		len(Rules("level"))+len(Rules("electrical"))+len(Rules("pressure")) {
		t.Error("a rule has no area")
	}
	i := slices.IndexFunc(Rules("torque"), func(r Rule) bool { return r.Text == "standard tolerance of a torque figure that prints none" })
	if i < 0 {
		t.Fatal("the US Army torque appendix gives a tolerance where none is printed")
	}
	if r := Rules("torque")[i]; r.Low != "-10" || r.High != "+10" || r.Unit != "%" || r.Source.Seen != SeenOnce {
		t.Errorf("%+v", r)
	}
	if len(Rules("no such area")) != 0 {
		t.Error("an area that is none has rules")
	}
}
