package cited

import (
	"fmt"
	"math"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// hottestC is the oil temperature above which a dipstick is not read, 300 °F.
// Source: US Army TM 9-2320-386-10, of an automatic transmission.
const hottestC = 149.0

// LevelTooHot queries a level that is read by dipstick in oil too hot for it.
var LevelTooHot = &rule.Check{
	ID: "level-too-hot", Layer: rule.Cited, Title: "a dipstick level in oil too hot to be read",
	Doc: doc("level-too-hot.md"), Source: reference.Cite("us-army-tm-9-2320-386-10"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		if p.Record == nil || p.Record.Level.By != "dipstick" {
			return
		}
		levelTemperatures(p.Record, func(at measure.Reading) {
			if warmest(at)-at.Step()/2 <= hottestC+zeroC {
				return
			}
			p.Report(rule.Finding{
				Verdict: rule.Query, At: at.At, Read: at.Text, Want: "up to 149 °C (300 °F)",
				Message: fmt.Sprintf("a level at %s is hotter than a dipstick is read; the rule of practice ends at 149 °C (300 °F)", at.Text),
			})
		})
	},
}

// zeroC is 0 °C in K.
const zeroC = 273.15

// levelTemperatures walks the temperatures at which a level is read.
func levelTemperatures(r *schema.Record, yield func(at measure.Reading)) {
	see := func(f *schema.Figure, p schema.Path) {
		if at, ok := measure.Read(f, p, convert.Temperature); ok {
			yield(at)
		}
	}
	l := &r.Level
	see(&l.At, schema.At("level", "at"))
	for i := range l.Points {
		see(&l.Points[i].At, schema.At("level", "points", i, "at"))
	}
	for i := range l.Marks {
		see(&l.Marks[i].At, schema.At("level", "marks", i, "at"))
	}
}

// warmest is the warm end of a temperature in K, the cold one where it is open.
func warmest(at measure.Reading) float64 {
	lo, hi := at.Bounds()
	if math.IsInf(hi, 0) {
		return lo
	}
	return hi
}

// coldest is the cold end, the warm one where it is open.
func coldest(at measure.Reading) float64 {
	lo, hi := at.Bounds()
	if math.IsInf(lo, 0) {
		return hi
	}
	return lo
}
