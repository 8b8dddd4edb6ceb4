package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/verify/fluid"
)

// Whatever the level and the last printed digit, the bounds lie inside, in the
// unit of the table and in its counterpart, and no more than a step away.
func TestInward(t *testing.T) {
	for _, symbol := range []string{"mm", "in", "L", "US qt"} {
		u, _ := convert.UnitBySymbol(symbol)
		for i := range 400 {
			step := []float64{1, 0.1, 0.5, 0.01, 10}[i%5]
			lo := 20 + 37.13*math.Abs(math.Sin(float64(i)))
			hi := lo + 25 + 3*math.Cos(float64(i))
			mm := func(x float64) fluid.Interval { return fluid.Exactly(u.ToSI(x) * 1000) }
			q, err := inward(mm(lo), mm(hi), u, step)
			if err != nil {
				t.Fatalf("%v to %v %s: %v", lo, hi, u, err)
			}
			a, b := q.Bounds()
			const noise = 1e-6
			if u.FromSI(a) < lo-noise || u.FromSI(b) > hi+noise || u.FromSI(a) > lo+step+noise || u.FromSI(b) < hi-step-noise {
				t.Errorf("%v to %v %s by %v: got %s", lo, hi, u, step, q)
			}
			c, ok := counterpart(q, true)
			if !ok || c.Unit == u {
				t.Fatalf("%s has no counterpart", q)
			}
			if ca, cb := c.Bounds(); ca < a*(1-1e-12) || cb > b*(1+1e-12) {
				t.Errorf("%s became %s, which is wider", q, c)
			}
		}
	}
}

func TestInwardCloses(t *testing.T) {
	mm, _ := convert.UnitBySymbol("mm")
	tests := []struct {
		low, high fluid.Interval
		step      float64
		want      string // "" for an error
	}{
		{fluid.Exactly(37.04), fluid.Exactly(55.04), 1, "38 to 55 mm"},
		{fluid.Exactly(30), fluid.Exactly(48), 1, "30 to 48 mm"},
		{fluid.Exactly(30.4), fluid.Exactly(30.6), 1, "30.4 to 30.6 mm"}, // no whole number between them
		{fluid.Interval{Lo: 30, Hi: 31}, fluid.Interval{Lo: 47, Hi: 48}, 1, "31 to 47 mm"},
		{fluid.Exactly(304), fluid.Exactly(396), 10, "310 to 390 mm"},
		{fluid.Exactly(50), fluid.Exactly(40), 1, ""},
		{fluid.Exactly(30.00001), fluid.Exactly(30.00002), 1, ""},
	}
	for _, tt := range tests {
		q, err := inward(tt.low, tt.high, mm, tt.step)
		if got := q.String(); (err != nil) != (tt.want == "") || err == nil && got != tt.want {
			t.Errorf("%v to %v by %v: got %s, %v, want %q", tt.low, tt.high, tt.step, got, err, tt.want)
		}
	}
}

// FuzzLevel: whatever the table and the temperature, level gives a page or says
// why not, and the page has a picture of the right width.
func FuzzLevel(f *testing.F) {
	f.Add("20 °C", "30 mm", "48 mm", "70 °C", "41 mm", "59 mm", "52°C")
	f.Add("68 °F", "1 1/4 in", "2 in", "158 °F", "1 1/2 in", "2 1/4 in", "100°F")
	f.Add("20 °C", "30 mm", "30 mm", "20 °C", "31 mm", "31 mm", "20 °C")
	f.Add("15 to 25 °C", "30 mm", "48 mm", "min 60 °C", "40 mm", "58 mm", "18 °C")
	f.Add("-300 °C", "max 3 L", "0 L", "1e9 °C", "-3 L", "9 to 10 L", "-273.15 °C")
	f.Fuzz(func(t *testing.T, at1, low1, high1, at2, low2, high2, at string) {
		book := fmt.Sprintf("format: snapgauge/1.0\nmachine: {id: m, name: M}\nsources:\n  s: {title: S, kind: shop}\nrecords:\n"+
			"  - id: x\n    kind: fill\n    where: w\n    level:\n      by: dipstick\n      points:\n"+
			"        - {at: %q, low: %q, high: %q}\n        - {at: %q, low: %q, high: %q}\n    source: {ref: s}\n",
			at1, low1, high1, at2, low2, high2)
		text, err := level(strings.NewReader(book), "-", "x", at, false)
		if err != nil {
			if strings.TrimSpace(err.Error()) == "" {
				t.Error("an error that says nothing")
			}
			return
		}
		for line := range strings.Lines(text) {
			if strings.Contains(line, "| ") && strings.HasPrefix(line, " ") && len(line) > labelWidth+axisWidth+10 {
				t.Errorf("too wide: %q", line)
			}
		}
		if !strings.Contains(text, "X at ") {
			t.Errorf("no chart:\n%s", text)
		}
	})
}
