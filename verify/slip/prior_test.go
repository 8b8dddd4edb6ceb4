package slip_test

import (
	"math"
	"regexp"
	"testing"

	"snapgauge/verify/slip"
)

// Documents by data/error-frequencies.csv: scan noise 26, shared by three kinds;
// decimal slipped 6; leading point lost 6; digit wrong or transposed 9, shared by
// four; unit cut short 4; unit symbol wrong 2; force as torque 5; factor 1.4 and
// factor 12 one each. What is not counted takes half of one.
func TestPriors(t *testing.T) {
	want := map[string]float64{
		"dash-lost": 26. / 3, "sign-lost": 26. / 3, "scan-noise": 26. / 3, "point-moved": 6, "point-lost": 6,
		"digits-transposed": 9. / 4, "digit-wrong": 9. / 4, "digit-lost": 9. / 4, "digit-doubled": 9. / 4,
		"unit-cut-short": 4, "unit-wrong-form": 2, "force-for-torque": 5, "factor-wrong": 2,
	}
	for _, k := range slip.Kinds() {
		got, assumed := k.Prior()
		w, counted := want[k.ID]
		if !counted {
			w = 0.5
		}
		if math.Abs(got-w) > 1e-12 || assumed == counted {
			t.Errorf("%s: prior %v, assumed %v; want %v, %v", k.ID, got, assumed, w, !counted)
		}
	}
}

func TestKinds(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, k := range slip.Kinds() {
		if !kebab.MatchString(k.ID) || seen[k.ID] || k.Name == "" {
			t.Errorf("kind %q, name %q", k.ID, k.Name)
		}
		seen[k.ID] = true
		if same, ok := slip.KindOf(k.ID); !ok || same != k {
			t.Errorf("%s is not found by its id", k.ID)
		}
	}
	if _, ok := slip.KindOf("no-such"); ok {
		t.Error("a kind that does not exist is found")
	}
}
