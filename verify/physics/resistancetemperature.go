package physics

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// coilMargin is how far the resistances of one coil at two temperatures may be off
// the straight line of copper: printed tables round, widen the limits of the hot
// row, or stand for a coil with a resistor in series.
const coilMargin = 0.15

// ResistanceTemperature queries rows of a coil that do not go together as copper does.
var ResistanceTemperature = &rule.Check{
	ID: "resistance-temperature", Layer: rule.Physics, Title: "a coil resistance that does not go with its temperature",
	Doc: doc("resistance-temperature.md"), Source: reference.Cite("iec-60028"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  resistanceTemperature,
}

// coilRow is a row of a coil's resistance: one figure, one temperature.
type coilRow struct {
	ohm, at  measure.Reading
	tC       float64
	at20     float64 // what the middle comes to at 20 °C
	loose    float64 // part of itself by which rounding and the span of temperature may move it
	selector string
	form     convert.Form
}

func resistanceTemperature(p *rule.Pass) {
	if p.Record == nil || p.Record.Of != "coil resistance" {
		return
	}
	rows := coilRows(p.Record)
	for len(rows) > 1 {
		// Rows of one coil: the same selector and form.
		group := []coilRow{rows[0]}
		var rest []coilRow
		for _, r := range rows[1:] {
			if r.selector == rows[0].selector && r.form == rows[0].form {
				group = append(group, r)
			} else {
				rest = append(rest, r)
			}
		}
		coilGroup(p, group)
		rows = rest
	}
}

// coilGroup tells of the one row that does not go with the others; of two rows, of
// the second.
func coilGroup(p *rule.Pass, rows []coilRow) {
	odd := rows[len(rows)-1]
	if len(rows) > 2 {
		odd = oddest(rows)
	}
	for _, r := range rows {
		if !r.goesWith(odd) {
			report(p, r, odd)
			return
		}
	}
}

// oddest is the row that is farthest from the middle one at 20 °C.
func oddest(rows []coilRow) coilRow {
	sorted := slices.Clone(rows)
	slices.SortStableFunc(sorted, func(a, b coilRow) int { return cmp.Compare(a.at20, b.at20) })
	middle := sorted[len(sorted)/2].at20
	return slices.MaxFunc(rows, func(a, b coilRow) int {
		return cmp.Compare(math.Abs(math.Log(a.at20/middle)), math.Abs(math.Log(b.at20/middle)))
	})
}

func (r coilRow) goesWith(s coilRow) bool {
	return math.Abs(math.Log(r.at20/s.at20)) <= math.Log1p(coilMargin)+r.loose+s.loose
}

func report(p *rule.Pass, sound, odd coilRow) {
	factor, err := measure.CoilFactor(sound.tC, odd.tC)
	if err != nil {
		return
	}
	lo, hi := sound.ohm.Bounds()
	want := shown(odd.ohm, lo*factor, hi*factor)
	p.Report(rule.Finding{
		Verdict: rule.Query, At: odd.ohm.At, Read: odd.ohm.Text, Want: want,
		Message: fmt.Sprintf("%s at %s does not go with %s at %s; a copper winding comes to about %s there",
			odd.ohm.Text, odd.at.Text, sound.ohm.Text, sound.at.Text, want),
		Related: []rule.Related{
			{At: odd.at.At, Message: "its temperature stands here"},
			{At: sound.ohm.At, Message: fmt.Sprintf("%s at %s is here", sound.ohm.Text, sound.at.Text)},
			{At: sound.at.At, Message: "and its temperature"},
		},
	})
}

// shown prints ends in the unit and form of a figure, to three digits.
func shown(r measure.Reading, lo, hi float64) string {
	switch {
	case r.Form == convert.AtMost:
		return "max " + convert.FromFloat(hi, r.Unit, 3).String()
	case r.Form == convert.AtLeast:
		return "min " + convert.FromFloat(lo, r.Unit, 3).String()
	case lo == hi:
		return convert.FromFloat(lo, r.Unit, 3).String()
	}
	return convert.FromFloat(lo, r.Unit, 3).First.String() + " to " + convert.FromFloat(hi, r.Unit, 3).String()
}

func coilRows(rec *schema.Record) []coilRow {
	var out []coilRow
	for i := range rec.Rows {
		row := &rec.Rows[i]
		path := schema.At("rows", i)
		r := coilRow{selector: row.At.Selector}
		var ok, okAt bool
		r.ohm, ok = measure.Read(&row.Figure, path.Field("figure"), convert.Resistance)
		r.at, okAt = measure.Read(&row.At.Temperature, path.Field("at").Field("temperature"), convert.Temperature)
		if !ok || !okAt || !r.at.Closed() || r.ohm.Nominal() <= 0 {
			continue
		}
		r.form = r.ohm.Form
		if r.ohm.Closed() {
			r.form = convert.Single // its middle is judged
		}
		r.tC = r.at.Nominal() - 273.15
		cold, hot := r.at.Widened()
		f20, err := measure.CoilFactor(r.tC, 20)
		fCold, errCold := measure.CoilFactor(cold-273.15, 20)
		fHot, errHot := measure.CoilFactor(hot-273.15, 20)
		if err != nil || errCold != nil || errHot != nil {
			continue
		}
		r.at20 = r.ohm.Nominal() * f20
		r.loose = math.Log(fCold/fHot)/2 + r.ohm.Step()/2/r.ohm.Nominal()
		out = append(out, r)
	}
	return out
}
