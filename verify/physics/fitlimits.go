package physics

import (
	"fmt"
	"math"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// FitLimits compares printed limits with those of the fit that the record names.
var FitLimits = &rule.Check{
	ID: "fit-limits", Layer: rule.Physics, Title: "limits that are not those of the fit",
	Doc: doc("fit-limits.md"), Source: reference.Cite("iso-286"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record:  fitLimits,
}

func fitLimits(p *rule.Pass) {
	size, limits, err := fitOf(p.Record)
	if err != nil || limits == nil {
		return // fit-unreadable or fit-not-in-tables speaks
	}
	printed, ok := measure.Read(&p.Record.New, schema.At("new"), convert.Length)
	if !ok {
		return
	}
	nominal := size.Nominal()
	candidates := mayMean(p.Record.Of, printed, nominal, limits)
	near, off := nearest(printed, candidates)
	if len(candidates) == 0 || off <= 1.001 {
		return
	}
	f := rule.Finding{
		Verdict: rule.Query, At: printed.At, Read: printed.Text, Want: inUnitOf(printed, near.Lo, near.Hi), Source: near.Source,
		Related: []rule.Related{
			{At: schema.Spot{Path: schema.At("fit")}, Message: fmt.Sprintf("the fit is %s", p.Record.Fit)},
			{At: size.At, Message: fmt.Sprintf("at %s", size.Text)},
		},
	}
	f.Message = fmt.Sprintf("%s are not the %s at %s, which are %s", printed.Text, near.Of, size.Text, f.Want)
	if p.Record.Of == "bore" || p.Record.Of == "diameter" {
		if farFrom(printed, nominal, candidates) {
			f.Verdict = rule.Reject
		}
	}
	p.Report(f)
}

// fitOf reads fit and size of a record; limits are nil where either is absent,
// and where the fit is of another system.
func fitOf(r *schema.Record) (size measure.Reading, limits []measure.Limits, err error) {
	if r == nil || r.Fit == "" {
		return size, nil, nil
	}
	size, ok := measure.Read(&r.Size, schema.At("size"), convert.Length)
	if !ok || size.Form != convert.Single {
		return size, nil, nil
	}
	limits, err = measure.FitLimits(millimetres(size.Nominal()), r.Fit)
	return size, limits, err
}

// millimetres leaves out what binary arithmetic adds, so that 80 mm lies in the
// range of sizes up to 80 mm.
func millimetres(si float64) float64 { return math.Round(si*1e9) / 1e6 }

// partMeasures are measures of one part, which may be printed as limits of the
// part or as deviations from its size. The fit of a keyway is of its width, so
// a depth, a length and a height say nothing of the fit.
var partMeasures = map[string]bool{"bore": true, "diameter": true, "width": true, "thickness": true}

// mayMean is what a printed figure may be: a figure near the size is of the part
// itself, a small one a deviation or a clearance, and any other could be meant as
// either.
func mayMean(of string, printed measure.Reading, nominal float64, limits []measure.Limits) []measure.Limits {
	switch of {
	case "depth", "length", "height", "protrusion", "runout", "flatness", "taper", "out-of-round", "travel", "stroke", "free length":
		return nil
	}
	most := greatest(printed)
	small := most <= 0.1*nominal
	part := partMeasures[of]
	var out []measure.Limits
	for _, l := range limits {
		switch l.Kind {
		case measure.OfClearance:
			if !small && part {
				continue
			}
			out = append(out, l)
			switch {
			case l.Hi <= 0: // interference is often printed without its sign
				out = append(out, measure.Limits{Of: "interference of " + l.Of[len("clearance of "):], Kind: l.Kind, Lo: -l.Hi, Hi: -l.Lo, Source: l.Source})
			case l.Lo < 0: // and of a transition fit the clearance alone
				l.Lo = 0
				out = append(out, l)
			}
		case measure.OfDeviation:
			if small && part {
				out = append(out, l)
			}
		case measure.OfSize:
			if !small && (part || most > 0.9*nominal) {
				out = append(out, l)
			}
		}
	}
	return out
}

func greatest(r measure.Reading) float64 {
	lo, hi := r.Bounds()
	most := 0.0
	for _, x := range [...]float64{lo, hi} {
		if !math.IsInf(x, 0) {
			most = max(most, math.Abs(x))
		}
	}
	return most
}

// nearest is the candidate that the figure is least off, and by how many units of
// its last printed digit.
func nearest(printed measure.Reading, candidates []measure.Limits) (near measure.Limits, off float64) {
	off = math.Inf(1)
	for _, c := range candidates {
		o := printed.Off(c.Lo/1000, c.Hi/1000)
		if printed.Form == convert.Single { // one number lies within
			o = max(0, c.Lo/1000-printed.Nominal(), printed.Nominal()-c.Hi/1000) / printed.Step()
		}
		if o < off {
			near, off = c, o
		}
	}
	return near, off
}

// farFrom reports a figure that no reading brings near: both ends differ from
// every candidate by more than a tenth of the size, and more than the figure's
// digits allow.
func farFrom(printed measure.Reading, nominal float64, candidates []measure.Limits) bool {
	lo, hi := printed.Widened()
	for _, c := range candidates {
		slack := 0.1 * nominal
		if lo <= c.Hi/1000+slack && hi >= c.Lo/1000-slack {
			return false
		}
	}
	return !math.IsInf(lo, 0) && !math.IsInf(hi, 0)
}

// inUnitOf prints limits (mm) in the unit and form of a figure, to a micrometre or
// the digits of the figure.
func inUnitOf(r measure.Reading, lo, hi float64) string {
	decimals := 3
	if r.Unit.Symbol() == "in" {
		decimals = 4
	}
	show := func(mm float64) string { return fmt.Sprintf("%.*f", decimals, r.Unit.FromSI(mm/1000)) }
	switch r.Form {
	case convert.AtMost:
		return fmt.Sprintf("max %s %s", show(hi), r.Unit)
	case convert.AtLeast:
		return fmt.Sprintf("min %s %s", show(lo), r.Unit)
	}
	return fmt.Sprintf("%s to %s %s", show(lo), show(hi), r.Unit)
}
