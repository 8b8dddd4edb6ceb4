package trial_test

import (
	"encoding/csv"
	"os"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/trial"
)

// callOuts are the call-outs in two units of US government manuals that are right
// and whose values agree, as records without anything but their figure.
func callOuts(t testing.TB, name string) func(func(schema.Entry) bool) {
	f, err := os.Open("../../convert/testdata/callouts/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return func(yield func(schema.Entry) bool) {
		for _, r := range rows[1:] {
			id, class := r[0], r[13]
			if class != "none" {
				continue
			}
			text := func(lo, hi, unit string) convert.Value {
				switch unit {
				case "degC":
					unit = "°C"
				case "degF":
					unit = "°F"
				}
				if lo == hi {
					return convert.Value{Text: lo + " " + unit}
				}
				return convert.Value{Text: lo + " to " + hi + " " + unit}
			}
			figure := schema.Figure{List: true, Values: []convert.Value{text(r[4], r[5], r[6]), text(r[7], r[8], r[9])}}
			rec := &schema.Record{ID: id, Kind: schema.KindTorque}
			if name == "torque" {
				rec.Tighten = []schema.Step{{To: figure}}
			} else {
				rec.Kind, rec.Of, rec.New = schema.KindTolerance, measure(r[6]), figure
			}
			rec.ReadFigures("")
			clean := true
			for _, f := range rec.Figures() {
				clean = clean && f.Values[0].Problem == nil && f.Values[1].Problem == nil
			}
			if clean && !yield(schema.Entry{File: name, Pointer: "/" + id, Head: &schema.Head{}, Record: rec}) {
				return
			}
		}
	}
}

func measure(unit string) string {
	switch unit {
	case "psi":
		return "pressure"
	case "degF", "degC":
		return "temperature"
	}
	return "width"
}

var digitSlips = []string{"digits-transposed", "digit-wrong", "digit-lost", "digit-doubled"}

// TestTwoUnits: figures in two units. Every slip after which the values
// disagree is caught, 95 % of them are rejected; of all digit slips above 3 %,
// drawn equally by kind, 96 % are caught in torque and 90 % in dimensions.
func TestTwoUnits(t *testing.T) {
	for _, tt := range []struct {
		name   string
		caught float64
	}{{"torque", 96}, {"tolerances", 90}} {
		r := trial.Run(callOuts(t, tt.name), trial.Options{Seed: 1, NoHoles: true, Draws: 2, Every: sample(6)})
		var odd, oddCaught, oddRejected int
		var share float64
		for _, c := range r.Counts {
			odd, oddCaught, oddRejected = odd+c.Disagree, oddCaught+c.DisagreeCaught, oddRejected+c.DisagreeRejected
			t.Logf("%s %d: %d planted, %.1f %% caught; %d disagree, %.1f rejected; first %.1f, three %.1f", c.Name, c.Units, c.Planted, percent(c.Caught, c.Planted), c.Disagree, percent(c.DisagreeRejected, c.Disagree),
				percent(c.First, c.Caught), percent(c.Named, c.Caught))
			for _, k := range digitSlips {
				if c.Kind == k {
					share += percent(c.Caught, c.Planted) / float64(len(digitSlips))
				}
			}
		}
		t.Logf("%s: %d call-outs; %d slips disagree, %d caught, %.1f %% rejected; digit slips %.1f %% caught", tt.name, r.Records, odd, oddCaught, percent(oddRejected, odd), share)
		if r.Rejected > 0 || r.Queried*50 > r.Records {
			t.Errorf("%s: untouched: %d rejected, %d queried of %d", tt.name, r.Rejected, r.Queried, r.Records)
		}
		if oddCaught < odd || oddRejected*100 < odd*95 {
			t.Errorf("%s: of %d that disagree %d are caught and %d rejected, want all and 95 %%", tt.name, odd, oddCaught, oddRejected)
		}
		if share < tt.caught {
			t.Errorf("%s: %.1f %% of digit slips are caught, want %.0f %%", tt.name, share, tt.caught)
		}
	}
}
