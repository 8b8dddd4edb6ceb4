package sense

import (
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// UnpublishedWithFigure flags a record that says that no figure is published and
// gives one.
var UnpublishedWithFigure = &rule.Check{
	ID: "unpublished-with-figure", Layer: rule.Sense, Title: "unpublished beside a figure",
	Doc: doc("unpublished-with-figure.md"), Source: reference.Cite("snapgauge-format"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		r := p.Record
		if r.Unpublished == (schema.Unpublished{}) {
			return
		}
		if path, ok := figureOf(r); ok {
			p.Report(rule.Finding{
				Verdict: rule.Reject, At: schema.Spot{Path: schema.At("unpublished"), Key: true},
				Message: "the record says that no figure is published, and gives one; leave out the one that is wrong",
				Related: []rule.Related{{At: schema.Spot{Path: path}, Message: "the figure is here"}},
			})
		}
	},
}

// figureOf finds the first figure that the record is about. What goes with an
// unpublished figure does not count: a level beside an unpublished volume, a wear
// limit beside unpublished limits for new parts, a running torque, a step in words.
func figureOf(r *schema.Record) (schema.Path, bool) {
	for i := range r.Tighten {
		s, path := &r.Tighten[i], schema.At("tighten", i)
		switch {
		case !s.To.IsZero():
			return path.Field("to"), true
		case !s.Turn.IsZero():
			return path.Field("turn"), true
		case !s.Check.IsZero():
			return path.Field("check"), true
		}
	}
	switch {
	case len(r.Amounts) > 0:
		return schema.At("amounts"), true
	case !r.New.IsZero():
		return schema.At("new"), true
	case len(r.Rows) > 0:
		return schema.At("rows"), true
	case r.Fit != "":
		return schema.At("fit"), true
	case len(r.Select.Rows) > 0:
		return schema.At("select", "rows"), true
	}
	return schema.Path{}, false
}
