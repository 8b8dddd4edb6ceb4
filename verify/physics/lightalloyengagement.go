package physics

import (
	"fmt"
	"math"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

const (
	// lightAlloyDiameters is the engagement that the US Army's torque notes ask
	// in aluminium.
	lightAlloyDiameters = 2.0
	// lightAlloyShort: castings are printed down to one and a half diameters
	// (common practice, no source).
	lightAlloyShort = 1.5
	// longestDiameters: wire inserts end at three diameters, and no thread is tapped
	// for more than a few (common practice, no source).
	longestDiameters = 10
)

// LightAlloyEngagement flags an engagement into aluminium or magnesium that is
// short of two diameters, and in whatever material one that no joint has.
var LightAlloyEngagement = &rule.Check{
	ID: "light-alloy-engagement", Layer: rule.Physics, Title: "short engagement in a light alloy",
	Doc: doc("light-alloy-engagement.md"), Source: lightAlloyRule(), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  lightAlloyEngagement,
}

func lightAlloyRule() reference.Citation {
	c := reference.Cite("us-army-torque")
	c.Text = "US Army TM 9-6115-604-34 / NAVFAC P-633 torque notes: at least two diameters of engagement in aluminium"
	return c
}

func lightAlloyEngagement(p *rule.Pass) {
	if p.Record == nil || p.Record.Joint.Insert != "" {
		return
	}
	j := &p.Record.Joint
	v, i, ok := j.Engagement.First()
	if !ok || v.Quantity.Unit.Dimension() != convert.Length || v.Quantity.Form == convert.AtLeast {
		return
	}
	// The smallest screw of the joint is the most forgiving reading.
	d, screw := 0.0, 0
	for k := range p.Record.Fasteners.Items {
		f := &p.Record.Fasteners.Items[k]
		if f.Type == "nut" || !joint.Clamps(f.Type) {
			continue
		}
		t, problem := reference.ParseThread(f.Thread)
		if problem == nil && t.D > 0 && (d == 0 || t.D < d) {
			d, screw = t.D, k
		}
	}
	_, hi := v.Quantity.Widened()
	hi *= 1000
	if d > 0 && v.Quantity.Form != convert.AtMost {
		if problem := absurd(v, d); problem != "" {
			p.Report(rule.Finding{
				Verdict: rule.Query, At: rule.NumberAt(&j.Engagement, schema.At("joint", "engagement"), i), Read: v.Text,
				Message: fmt.Sprintf("%s of %s %s", v.Text, p.Record.Fasteners.Items[screw].Thread, problem),
				Related: []rule.Related{{At: schema.Spot{Path: p.Record.Fasteners.At(screw).Field("thread")}, Message: "this thread"}},
			})
			return
		}
	}
	switch j.Into {
	case "cast aluminium", "wrought aluminium", "magnesium":
	default:
		return
	}
	if d == 0 || hi >= lightAlloyDiameters*d {
		return
	}
	f := rule.Finding{Verdict: rule.Note, Read: v.Text}
	path := schema.At("joint", "engagement")
	f.At = rule.NumberAt(&j.Engagement, path, i)
	f.Want = "at least " + beside(lightAlloyDiameters*d/1000, middleOf(v), v.Quantity.Unit).String()
	thread := p.Record.Fasteners.Items[screw].Thread
	f.Message = fmt.Sprintf("%s of %s in %s is less than two diameters, %s; a reduced torque or an insert is usual",
		v.Text, thread, j.Into, beside(lightAlloyDiameters*d/1000, middleOf(v), v.Quantity.Unit))
	if hi < lightAlloyShort*d {
		f.Verdict = rule.Query
		f.Message = fmt.Sprintf("%s of %s in %s is less than one and a half diameters; two, %s, are asked of it, or an insert",
			v.Text, thread, j.Into, beside(lightAlloyDiameters*d/1000, middleOf(v), v.Quantity.Unit))
	}
	f.Related = []rule.Related{
		{At: schema.Spot{Path: p.Record.Fasteners.At(screw).Field("thread")}, Message: "this thread"},
		{At: schema.Spot{Path: schema.At("joint", "into")}, Message: "this material"},
	}
	p.Report(f)
}

// absurd says what is wrong with an engagement that no joint has, beside a
// diameter (mm).
func absurd(v *convert.Value, d float64) string {
	lo, hi := v.Quantity.Bounds()
	least, _ := v.Quantity.Widened()
	switch {
	case hi <= 0:
		return "holds nothing; a digit of the engagement was lost"
	case !math.IsInf(lo, 0) && least*1000 > longestDiameters*d:
		return fmt.Sprintf("is more than ten diameters, %s; another length, or another unit, was meant",
			beside(longestDiameters*d/1000, middleOf(v), v.Quantity.Unit))
	}
	return ""
}
