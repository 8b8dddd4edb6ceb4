package fluid_test

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/fluid"
)

func span(lo, hi float64) fluid.Interval { return fluid.Interval{Lo: lo, Hi: hi} }

var alike = cmp.Options{cmpopts.EquateApprox(0, 1e-9), cmpopts.EquateNaNs()}

// gearcase is the level table of the design's example, hottest first.
var gearcase = []fluid.Point{
	{TC: fluid.Exactly(70), Low: fluid.Exactly(41), High: fluid.Exactly(59)},
	{TC: fluid.Exactly(20), Low: fluid.Exactly(30), High: fluid.Exactly(48)},
}

func TestAt(t *testing.T) {
	one := fluid.Exactly
	ranges := []fluid.Point{{TC: span(15, 25), Low: one(30), High: one(48)}, {TC: span(60, 80), Low: one(40), High: one(58)}}
	open := []fluid.Point{{TC: one(20), Low: one(30), High: one(48)}, {TC: span(60, math.Inf(1)), Low: one(40), High: one(58)}}
	meeting := []fluid.Point{{TC: span(15, 25), Low: one(30), High: one(48)}, {TC: span(25, 40), Low: one(32), High: one(50)}}
	tests := []struct {
		name      string
		points    []fluid.Point
		tC        float64
		low, high fluid.Interval
		err       string
	}{
		// 52 °C is 32/50 of the way: 30 + 0.64·11 = 37.04, 48 + 7.04 = 55.04.
		{"between", gearcase, 52, one(37.04), one(55.04), ""},
		{"cold end", gearcase, 20, one(30), one(48), ""},
		{"hot end", gearcase, 70, one(41), one(59), ""},
		{"colder", gearcase, 19.9, fluid.None, fluid.None, "the level is given from 20 to 70 °C, not at 19.9 °C"},
		{"hotter", gearcase, 71, fluid.None, fluid.None, "the level is given from 20 to 70 °C, not at 71 °C"},
		{"one point", gearcase[:1], 70, one(41), one(59), ""},
		{"one point, beside it", gearcase[:1], 60, fluid.None, fluid.None, "the level is given at 70 °C only, not at 60 °C"},
		{"bounds of both", []fluid.Point{{TC: fluid.Exactly(0), Low: span(10, 12), High: span(20, 24)}, {TC: fluid.Exactly(10), Low: span(20, 22), High: span(30, 34)}}, 5, span(15, 17), span(25, 29), ""},
		{"three points", append([]fluid.Point{{TC: fluid.Exactly(90), Low: one(50), High: one(70)}}, gearcase...), 80, one(45.5), one(64.5), ""},
		{"high not given when hot", []fluid.Point{{TC: fluid.Exactly(20), Low: one(30), High: one(48)}, {TC: fluid.Exactly(70), Low: one(41), High: fluid.None}}, 45, one(35.5), fluid.None, ""},
		{"middle without low", []fluid.Point{{TC: fluid.Exactly(20), Low: one(30), High: one(48)}, {TC: fluid.Exactly(40), Low: fluid.None, High: one(50)}, {TC: fluid.Exactly(70), Low: one(41), High: one(59)}}, 40, one(34.4), one(50), ""},
		{"empty", nil, 20, fluid.None, fluid.None, "no point gives a level: the level table is not sound"},
		{"nothing given", []fluid.Point{{TC: fluid.Exactly(20), Low: fluid.None, High: fluid.None}}, 20, fluid.None, fluid.None, "no point gives a level: the level table is not sound"},
		{"twice", append([]fluid.Point{{TC: fluid.Exactly(20), Low: one(31), High: one(48)}}, gearcase...), 30, fluid.None, fluid.None, "two points are at 20 °C: the level table is not sound"},
		{"crossed", []fluid.Point{{TC: fluid.Exactly(20), Low: one(50), High: one(48)}}, 20, fluid.None, fluid.None, "low is above high at 20 °C: the level table is not sound"},
		{"crossed between", []fluid.Point{{TC: fluid.Exactly(20), Low: one(30), High: one(48)}, {TC: fluid.Exactly(40), Low: fluid.None, High: one(32)}, {TC: fluid.Exactly(70), Low: one(41), High: one(59)}}, 40, fluid.None, fluid.None, "low is above high at 40 °C: the level table is not sound"},
		{"open", []fluid.Point{{TC: fluid.Exactly(20), Low: span(math.Inf(-1), 30), High: one(48)}}, 20, fluid.None, fluid.None, "a level from -Inf to 30 at 20 °C: the level table is not sound"},
		{"no temperature", []fluid.Point{{TC: fluid.Exactly(math.NaN()), Low: one(30), High: one(48)}}, 20, fluid.None, fluid.None, "a point at NaN °C: the level table is not sound"},
		{"in the cold range", ranges, 15, one(30), one(48), ""},
		{"in it", ranges, 18, one(30), one(48), ""},
		{"its end", ranges, 25, one(30), one(48), ""},
		// 46 °C is 21/35 of the way from 25 to 60 °C: 30 + 0.6·10 = 36.
		{"between ranges", ranges, 46, one(36), one(54), ""},
		{"in the hot range", ranges, 80, one(40), one(58), ""},
		{"colder than the ranges", ranges, 14, fluid.None, fluid.None, "the level is given from 15 to 80 °C, not at 14 °C"},
		{"one range", ranges[:1], 26, fluid.None, fluid.None, "the level is given from 15 to 25 °C, not at 26 °C"},
		{"open end", open, 95, one(40), one(58), ""},
		{"open end, colder", open, 19, fluid.None, fluid.None, "the level is given from 20 °C up, not at 19 °C"},
		{"open start", []fluid.Point{{TC: span(math.Inf(-1), 5), Low: one(30), High: one(48)}}, 6, fluid.None, fluid.None, "the level is given up to 5 °C, not at 6 °C"},
		{"where two ranges meet", meeting, 25, span(30, 32), span(48, 50), ""},
		{"beside it", meeting, 24, one(30), one(48), ""},
		{"overlap", append([]fluid.Point{{TC: span(20, 30), Low: one(31), High: fluid.None}}, ranges...), 22, fluid.None, fluid.None, "a point at 15 to 25 °C and one at 20 to 30 °C: the level table is not sound"},
		{"point in a range", append([]fluid.Point{{TC: one(25), Low: one(31), High: fluid.None}}, ranges...), 22, fluid.None, fluid.None, "a point at 15 to 25 °C and one at 25 °C: the level table is not sound"},
		{"backward", []fluid.Point{{TC: span(25, 15), Low: one(31), High: fluid.None}}, 22, fluid.None, fluid.None, "a point at 25 to 15 °C: the level table is not sound"},
		{"all temperatures", []fluid.Point{{TC: span(math.Inf(-1), math.Inf(1)), Low: one(31), High: fluid.None}}, 22, fluid.None, fluid.None, "a point at -Inf to +Inf °C: the level table is not sound"},
		{"not asked", gearcase, math.NaN(), fluid.None, fluid.None, "temperature NaN °C: outside the range of the relation"},
	}
	for _, tt := range tests {
		low, high, err := fluid.At(tt.points, tt.tC)
		got := ""
		if err != nil {
			got = err.Error()
		}
		if got != tt.err {
			t.Errorf("%s: error %q, want %q", tt.name, got, tt.err)
		}
		if diff := cmp.Diff([]fluid.Interval{tt.low, tt.high}, []fluid.Interval{low, high}, alike); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
	if gearcase[0].TC.Lo != 70 {
		t.Error("the table was sorted in place")
	}
}

func TestAtErrors(t *testing.T) {
	_, _, err := fluid.At(gearcase, 80)
	var outside *fluid.OutsideError
	if !errors.As(err, &outside) || outside.FromC != 20 || outside.ToC != 70 {
		t.Errorf("outside: %v", err)
	}
	if _, _, err := fluid.At(nil, 20); !errors.Is(err, fluid.ErrTable) {
		t.Errorf("no table: %v", err)
	}
}

func figure(t *testing.T, want convert.Dimensions, texts ...string) schema.Figure {
	t.Helper()
	f := schema.Figure{Want: want, List: len(texts) > 1}
	for _, s := range texts {
		q, problem := convert.Parse(s, want, convert.Point)
		f.Values = append(f.Values, convert.Value{Text: s, Quantity: q, Problem: problem})
	}
	return f
}

func TestPointsOf(t *testing.T) {
	temperature, level := convert.Of(convert.Temperature), convert.Of(convert.Length, convert.Volume)
	at := func(s ...string) schema.Figure { return figure(t, temperature, s...) }
	lv := func(s ...string) schema.Figure { return figure(t, level, s...) }
	l := schema.Level{Points: []schema.LevelPoint{
		{At: at("158 °F", "70 °C"), Low: lv("41 mm"), High: lv("59 mm", "2.3 in")},
		{At: at("15 to 25 °C"), Low: lv("3.0 to 3.2 cm"), High: lv("max 48 mm")},
		{At: at("warm"), Low: lv("35 mm"), High: lv("53 mm")},
		{At: at("40 °C"), Low: lv("2 L")},
		{At: at("90 °C"), High: lv("2.5 L", "2 1/2 in")},
		{At: at("min 100 °C"), High: lv("70 mm")},
	}}
	got, dim := fluid.PointsOf(&l)
	want := []fluid.Point{
		{TC: fluid.Exactly(70), Low: fluid.Exactly(41), High: fluid.Exactly(59)},
		{TC: span(15, 25), Low: span(30, 32), High: fluid.None},
		{TC: fluid.Exactly(90), Low: fluid.None, High: fluid.Exactly(63.5)},
		{TC: span(100, math.Inf(1)), Low: fluid.None, High: fluid.Exactly(70)},
	}
	if diff := cmp.Diff(want, got, alike); diff != "" || dim != convert.Length {
		t.Errorf("in %v (-want +got):\n%s", dim, diff)
	}
	if got[0].TC.Lo != 70 || got[1].TC.Hi != 25 {
		t.Errorf("temperatures with noise: %v, %v", got[0].TC, got[1].TC)
	}

	l = schema.Level{Points: []schema.LevelPoint{{At: at("20 °C"), Low: lv("0.5 L"), High: lv("1 US qt")}}}
	got, dim = fluid.PointsOf(&l)
	// 1 US qt is 0.946352946 L (NIST SP 811).
	if diff := cmp.Diff([]fluid.Point{{TC: fluid.Exactly(20), Low: fluid.Exactly(0.5), High: fluid.Exactly(0.946352946)}}, got, alike); diff != "" || dim != convert.Volume {
		t.Errorf("in %v (-want +got):\n%s", dim, diff)
	}
	word := schema.Level{Points: []schema.LevelPoint{{At: at("20 °C"), Low: schema.Figure{Word: true, Values: []convert.Value{{Text: "full"}}}}}}
	if got, dim := fluid.PointsOf(&word); got != nil || dim != convert.NoDimension {
		t.Errorf("a word is a level: %v in %v", got, dim)
	}
}

// TestSpan: the design's gearcase, 18 mm and 0.35 L between the marks.
func TestSpan(t *testing.T) {
	s := fluid.Span{HeightMM: fluid.Exactly(18), VolumeL: fluid.Exactly(0.35)}
	per, err := s.PerLitreMM()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "per litre", per.Lo, 51.43, 0.005) // 18/0.35
	// 6.2 L of an oil that grows by 3.7 % are 0.229 L more, 11.8 mm.
	rise, err := s.RiseMM(fluid.Exactly(6.2), fluid.Exactly(0.037))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "rise", rise.Lo, 11.8, 0.005)
	fall, err := s.RiseMM(span(4.7, 6.2), span(-0.037, 0.037))
	if err != nil || fall.Lo != -rise.Hi || fall.Hi != rise.Hi {
		t.Errorf("both ways: %v, %v", fall, err)
	}
	depth, err := s.DepthMM(fluid.Exactly(6.2))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "depth", depth.Mid(), 318.86, 0.005) // 6.2·18/0.35
	low, err := s.AtLowL(span(6.1, 6.2))
	if diff := cmp.Diff(span(5.75, 5.85), low, alike); diff != "" || err != nil {
		t.Errorf("at the low mark, %v (-want +got):\n%s", err, diff)
	}
	if low, err := (fluid.Span{VolumeL: span(0.3, 0.4)}).AtLowL(span(0.35, 0.5)); err != nil || low != span(0, 0.2) {
		t.Errorf("next to nothing at the low mark: %v, %v", low, err)
	}
	bad := map[string]func() error{
		"more than the fill": func() error { _, err := s.AtLowL(fluid.Exactly(0.3)); return err },
		"no fill":            func() error { _, err := s.AtLowL(fluid.Exactly(0)); return err },
		"no span":            func() error { _, err := (fluid.Span{}).PerLitreMM(); return err },
		"rise of no span":    func() error { _, err := (fluid.Span{}).RiseMM(fluid.Exactly(1), fluid.Exactly(0)); return err },
		"rise of no fill":    func() error { _, err := s.RiseMM(fluid.None, fluid.Exactly(0)); return err },
		"endless":            func() error { _, err := s.DepthMM(fluid.Exactly(math.MaxFloat64)); return err },
		"endless litres":     func() error { _, err := s.RiseMM(fluid.Exactly(math.MaxFloat64), fluid.Exactly(2)); return err },
	}
	for name, call := range bad {
		if err := call(); !errors.Is(err, fluid.ErrRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestInterval(t *testing.T) {
	if fluid.None.Known() || span(2, 1).Known() || span(0, math.Inf(1)).Known() || !span(1, 1).Known() {
		t.Error("Known")
	}
}

func BenchmarkAt(b *testing.B) {
	for b.Loop() {
		if _, _, err := fluid.At(gearcase, 52); err != nil {
			b.Fatal(err)
		}
	}
}
