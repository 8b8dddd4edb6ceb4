package units

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// ValuesDisagree flags two printed values of one figure that no rounding makes
// the same.
var ValuesDisagree = &rule.Check{
	ID: "values-disagree", Layer: rule.Units, Title: "two values of one figure disagree",
	Doc: doc("values-disagree.md"), Source: reference.Cite("nist-sp-811"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		for path, f := range figures(p) {
			valuesDisagree(p, path, f)
		}
	},
}

// valuesDisagree compares every value with the first. Where two of three agree,
// the third is named, and be it the first.
func valuesDisagree(p *rule.Pass, path schema.Path, f *schema.Figure) {
	var read []int
	for i := range f.Values {
		if f.Values[i].Read() {
			read = append(read, i)
		}
	}
	if len(read) < 2 {
		return
	}
	first := read[0]
	var odd []int
	for _, i := range read[1:] {
		if !agree(f, first, i) {
			odd = append(odd, i)
		}
	}
	if len(odd) == 2 && agree(f, odd[0], odd[1]) {
		disagreement(p, path, f, odd[0], first)
		return
	}
	for _, i := range odd {
		disagreement(p, path, f, first, i)
	}
}

func agree(f *schema.Figure, i, j int) bool {
	a, b := f.Values[i].Quantity, f.Values[j].Quantity
	if a.Unit.Dimension() != b.Unit.Dimension() {
		return true // 0.1 mm and 0.2° of backlash: nothing to compare
	}
	return convert.Agree(a, b).Outcome != convert.Disagree
}

// disagreement reports value i, which does not agree with value good.
func disagreement(p *rule.Pass, path schema.Path, f *schema.Figure, good, i int) {
	g, v := &f.Values[good], &f.Values[i]
	a := convert.Agree(g.Quantity, v.Quantity)
	verdict := rule.Query
	if a.Certain() && sure(g) && sure(v) {
		verdict = rule.Reject
	}
	message := "%s and %s disagree%s"
	if asDifference(g.Quantity, v.Quantity) {
		// 3 °C beside 5 °F: no points on the scale, but a rise in temperature.
		// A measured temperature may be either.
		verdict = rule.Query
		if p.Record.Of == "temperature" {
			verdict = rule.Note
		}
		message = "%s and %s disagree%s as temperatures, though not as a difference of temperatures"
	}
	left, right := shown(f, good), shown(f, i)
	if i < good { // in the order of the file
		left, right = right, left
	}
	// The wrong value's own digits may be too few to show the right one.
	want := a.Want
	if converted, err := g.Quantity.To(v.Quantity.Unit, false); err == nil {
		want = converted.Quantity
	}
	p.Report(rule.Finding{
		Verdict: verdict, At: rule.NumberAt(f, path, i),
		Message: fmt.Sprintf(message, left, right, where(a.End)),
		Read:    v.Text, Want: want.String(),
		Related: []rule.Related{{
			At:      rule.NumberAt(f, path, good),
			Message: fmt.Sprintf("%s is %s", shown(f, good), want),
		}},
	})
}

// asDifference reports that two temperatures agree when they are taken as
// differences of temperatures.
func asDifference(a, b convert.Quantity) bool {
	if a.Unit.Dimension() != convert.Temperature || b.Unit.Dimension() != convert.Temperature {
		return false
	}
	span := convert.Of(convert.TemperatureDifference)
	x, problemX := convert.ReadUnit(a.Unit.Symbol(), span)
	y, problemY := convert.ReadUnit(b.Unit.Symbol(), span)
	a.Unit, b.Unit = x, y
	return problemX == nil && problemY == nil && convert.Agree(a, b).Outcome != convert.Disagree
}

// shown is a value as authored; of a misprint, what is used in its place.
func shown(f *schema.Figure, i int) string {
	if q := f.Values[i].Quantity; f.Misprint && q.FirstAt == q.SecondAt {
		return q.String()
	}
	return f.Values[i].Text
}

// sure reports that the unit of a value leaves no doubt.
func sure(v *convert.Value) bool { return v.Problem == nil || v.Problem.Settled }

func where(e convert.End) string {
	switch e {
	case convert.Lower:
		return " at the lower end"
	case convert.Upper:
		return " at the upper end"
	case convert.PlusEnd, convert.MinusEnd:
		return " in the deviation"
	}
	return ""
}
