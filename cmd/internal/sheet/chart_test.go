package sheet

import (
	"strings"
	"testing"

	"snapgauge/schema"
)

func placeAt(n int, x, y string) schema.PlaceAt { return schema.PlaceAt{Place: n, X: x, Y: y} }

func levelOf(t *testing.T, level string) *Level {
	t.Helper()
	e := records(t, "  - {id: oil, kind: fill, where: sump, level: {by: dipstick, "+level+"}, source: {ref: manual, at: page 1}}\n")
	return cardOf(t, made(t, Input{Records: e}), "oil").Fill.Level
}

// Temperature has both scales; the levels have the inch scale only where the source
// prints inches too.
func TestLevelChart(t *testing.T) {
	d := levelOf(t, "engine: idling, points: [{at: 20 °C, low: 30 mm, high: 48 mm}, {at: 70 °C, low: 41 mm, high: 59 mm}]").Chart
	if d == nil {
		t.Fatal("nothing is drawn")
	}
	if got := texts(d, "unit"); got != "°C °F mm" {
		t.Errorf("units %q", got)
	}
	if got := texts(d, "name"); got != "high low" {
		t.Errorf("lines %q", got)
	}
	both := levelOf(t, "engine: idling, points: [{at: 20 °C, low: [30 mm, 1.18 in], high: [48 mm, 1.89 in]}, {at: 70 °C, low: [41 mm, 1.61 in], high: [59 mm, 2.32 in]}]").Chart
	if got := texts(both, "unit"); got != "°C °F mm in" {
		t.Errorf("units %q", got)
	}
	if numbers := texts(both, "number"); !strings.Contains(numbers, "20 30 40 50 60 70") || !strings.Contains(numbers, "1.5 2.0") {
		t.Errorf("numbers %q", numbers)
	}
	// 20 °C and 68 °F are one place: ticks of °F lie at 80 °F = 26.7 °C and so on.
	points := 0
	for _, s := range d.Shapes {
		if s.Class == "point" {
			points++
			if x, y := num(t, s.X), num(t, s.Y); x < chartLeft || x > chartW || y < chartTop || y > chartH-chartFoot {
				t.Errorf("a point lies outside: %g, %g", x, y)
			}
		}
	}
	if points != 4 {
		t.Errorf("%d points, want the four that are printed", points)
	}
}

// The line of a point is drawn where it belongs: level 30 to 48 mm, 20 to 70 °C.
func TestLevelChartPlaces(t *testing.T) {
	d := levelOf(t, "engine: idling, points: [{at: 20 °C, low: 30 mm, high: 40 mm}, {at: 70 °C, low: 40 mm, high: 50 mm}]").Chart
	var at [][2]float64
	for _, s := range d.Shapes {
		if s.Class == "point" {
			at = append(at, [2]float64{num(t, s.X), num(t, s.Y)})
		}
	}
	// high at 20 and 70 °C, then low at 20 and 70 °C
	if at[0][0] != at[2][0] || at[1][0] != at[3][0] || at[0][0] >= at[1][0] {
		t.Errorf("temperatures lie at %v", at)
	}
	if at[0][1] != at[3][1] { // both are 40 mm
		t.Errorf("40 mm lies at %g and %g", at[0][1], at[3][1])
	}
	if !(at[1][1] < at[0][1] && at[0][1] < at[2][1]) {
		t.Errorf("levels lie at %v", at)
	}
}

// Nothing is drawn where there is no span, or where the table says nothing.
func TestNoChart(t *testing.T) {
	for _, level := range []string{
		"engine: idling, points: [{at: 20 °C, low: 30 mm, high: 48 mm}]",
		"engine: idling, points: [{at: min 20 °C, low: 30 mm, high: 48 mm}]",
		"engine: idling, points: [{at: 20 °C, low: 30 mm}, {at: 60 °C, low: 30 mm}]",
		"engine: idling, marks: [{at: min 20 °C, mark: dot}]",
	} {
		if d := levelOf(t, level).Chart; d != nil {
			t.Errorf("%s is drawn", level)
		}
	}
}

func TestWindowChart(t *testing.T) {
	d := levelOf(t, "engine: \"off\", marks: [{at: 10 to 25 °C, mark: lower dot}, {at: 45 to 60 °C, mark: upper dot}]").Chart
	if got := texts(d, "name"); got != "1 2" {
		t.Errorf("windows %q", got)
	}
	if got := texts(d, "unit"); got != "°C °F" {
		t.Errorf("units %q", got)
	}
	plug := levelOf(t, "engine: \"off\", at: 10 to 30 °C, sign: at the edge").Chart
	if got := texts(plug, "name"); got != "" {
		t.Errorf("the window of a plug is numbered %q", got)
	}
}

// A level by volume has a scale in litres.
func TestLevelVolume(t *testing.T) {
	d := levelOf(t, "engine: idling, points: [{at: 20 °C, low: 1.0 L, high: 2.0 L}, {at: 70 °C, low: 1.5 L, high: 2.5 L}]").Chart
	if got := texts(d, "unit"); got != "°C °F L" {
		t.Errorf("units %q", got)
	}
	if numbers := texts(d, "number"); !strings.Contains(numbers, "1.0 1.5 2.0 2.5") {
		t.Errorf("numbers %q", numbers)
	}
}

// What a level check needs and the record does not say is said.
func TestLevelMissing(t *testing.T) {
	for level, want := range map[string]string{
		"between-marks: 1 L": "engine running or off; temperature",
		"engine: idling":     "temperature",
		"engine: idling, marks: [{at: 20 to 30 °C, mark: dot}]": "",
		"at: 20 °C, sign: at the edge":                          "engine running or off",
	} {
		if got := strings.Join(levelOf(t, level).Missing, "; "); got != want {
			t.Errorf("%s: %q, want %q", level, got, want)
		}
	}
	e := records(t, "  - {id: oil, kind: fill, where: sump, amounts: [{when: top up, volume: 1 L}], source: {ref: manual, at: page 1}}\n")
	if l := cardOf(t, made(t, Input{Records: e}), "oil").Fill.Level; l != nil {
		t.Errorf("a level where none is told: %+v", l)
	}
}
