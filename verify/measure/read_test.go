package measure_test

import (
	"math"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/measure"
)

func figure(t *testing.T, dim convert.Dimension, texts ...string) schema.Figure {
	t.Helper()
	want := convert.Of(dim)
	f := schema.Figure{Want: want, List: len(texts) > 1}
	for _, s := range texts {
		q, problem := convert.Parse(s, want, convert.Point)
		f.Values = append(f.Values, convert.Value{Text: s, Quantity: q, Problem: problem})
	}
	return f
}

func TestRead(t *testing.T) {
	f := figure(t, convert.Length, "about 80", "80.000 to 80.019 mm")
	r, ok := measure.Read(&f, schema.At("new"), convert.Length)
	if !ok || r.Text != "80.000 to 80.019 mm" || !r.Closed() {
		t.Errorf("got %+v, %v", r, ok)
	}
	if want := (schema.Spot{Path: schema.At("new", 1), From: 0, To: 16}); r.At != want {
		t.Errorf("stands at %+v, want %+v", r.At, want)
	}
	f.Misprint = true
	f.Values[1].Text, f.Values[1].Quantity.FirstAt, f.Values[1].Quantity.SecondAt = "8.000 to 8.019 mm", convert.Place{}, convert.Place{}
	if r, _ = measure.Read(&f, schema.At("new"), convert.Length); r.Text != "80.000 to 80.019 mm" {
		t.Errorf("of a misprint: %q", r.Text)
	}
	for name, f := range map[string]schema.Figure{
		"absent":    {},
		"word":      {Word: true, Values: []convert.Value{{Text: "idling"}}},
		"unread":    figure(t, convert.Length, "some mm"),
		"dimension": figure(t, convert.Volume, "2 L"),
		"tolerance": figure(t, convert.Length, "±0.3 mm"),
	} {
		if r, ok := measure.Read(&f, schema.At("new"), convert.Length); ok {
			t.Errorf("%s: %+v", name, r)
		}
	}
}

// TestOff: distances in units of the last printed digit. The wanted ends are in mm.
func TestOff(t *testing.T) {
	tests := []struct {
		text   string
		lo, hi float64
		want   float64
	}{
		{"0.020 to 0.062 mm", 0.020, 0.062, 0},
		{"0.02 to 0.06 mm", 0.020, 0.062, 0.2},
		{"0.02 to 0.07 mm", 0.020, 0.062, 0.8}, // rounded outwards
		{"0.020 to 0.065 mm", 0.020, 0.062, 3},
		{"0.062 to 0.020 mm", 0.020, 0.062, 0}, // printed falling
		{"80 to 80.019 mm", 80, 80.019, 0},
		{"80 to 80.019 mm", 80.001, 80.019, 1}, // 80 is not rounded to millimetres
		{"25 +0.021/-0 mm", 25, 25.021, 0},
		{"25 +0.021/-0 mm", 25.002, 25.021, 2},
		{"25 ±0.1 mm", 24.8, 25.1, 1},
		{"25 ±1 mm", 24.5, 26, 0.5},
		{"max 0.06 mm", 0.020, 0.062, 0.2},
		{"min 0.02 mm", 0.050, 0.062, 3},
		{"0.04 mm", 0.04, 0.05, 1},
		{"0.0008 to 0.0024 in", 0.020, 0.062, 0.4}, // 0.020 mm is 0.00079 in, 0.062 mm 0.00244 in
		{"20 mm ±10 %", 18, 22, 0},
	}
	for _, tt := range tests {
		f := figure(t, convert.Length, tt.text)
		r, ok := measure.Read(&f, schema.At("new"), convert.Length)
		if !ok {
			t.Fatalf("%s is not read", tt.text)
		}
		if got := r.Off(tt.lo/1000, tt.hi/1000); math.Abs(got-tt.want) > 0.05 {
			t.Errorf("%s is off %g to %g mm by %.2f, want %g", tt.text, tt.lo, tt.hi, got, tt.want)
		}
	}
	f := figure(t, convert.Temperature, "68 °F")
	if r, ok := measure.Read(&f, schema.At("at"), convert.Temperature); !ok || math.Abs(r.Step()-5.0/9) > 1e-9 {
		t.Errorf("a unit of 68 °F is %g K", r.Step())
	}
}

func BenchmarkRead(b *testing.B) {
	q, _ := convert.Parse("80.000 to 80.019 mm", convert.Of(convert.Length), convert.Point)
	f := schema.Figure{Values: []convert.Value{{Text: "80.000 to 80.019 mm", Quantity: q}}}
	p := schema.At("new")
	for b.Loop() {
		r, ok := measure.Read(&f, p, convert.Length)
		if !ok || r.Off(0.080, 0.080019) > 1 {
			b.Fatal(r)
		}
	}
}
