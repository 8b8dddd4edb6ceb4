package cited

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// ThreadLimits queries limits of size of a thread that are not those of its
// tolerance class.
var ThreadLimits = &rule.Check{
	ID: "thread-limits", Layer: rule.Cited, Title: "limits of a thread that are not those of its class",
	Doc: doc("thread-limits.md"), Source: reference.Cite("iso-965-1"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  threadLimits,
}

// limitMargin is how far a printed limit may be from the formula, in µm: printed
// tables round the deviation and the tolerance each on its own.
const limitMargin = 3

// threadDiameter finds a metric thread with its class, and which of its diameters
// is meant: "external thread M18x1.5 6g, major diameter".
var threadDiameter = regexp.MustCompile(`(?i:\b)(M ?\d+(?:\.\d+)?(?: ?[xX×] ?\d+(?:\.\d+)?)?)[ -]+(\d[e-hE-H](?:\d[e-hE-H])?)\b.*\b(major|outside|pitch|effective|minor) diameter`)

func threadLimits(p *rule.Pass) {
	r := p.Record
	if r == nil || r.Kind != schema.KindTolerance || r.New.IsZero() {
		return
	}
	m := threadDiameter.FindStringSubmatch(r.Where)
	if m == nil {
		return
	}
	t, problem := reference.ParseThread(m[1])
	if problem != nil || t.Family != reference.Metric {
		return
	}
	if t.Pitch == 0 { // by custom the coarse one
		for _, c := range reference.ThreadsOfSize(t) {
			t.Pitch = max(t.Pitch, c.Pitch)
		}
	}
	least, most, source, ok := limitsOf(t, m[2], m[3])
	if !ok {
		return
	}
	at := schema.At("new")
	for i := range r.New.Values {
		v := &r.New.Values[i]
		if !v.Read() || v.Quantity.Unit.Dimension() != convert.Length || v.Quantity.Form != convert.Range && v.Quantity.Form != convert.Deviation {
			continue
		}
		lo, hi := v.Quantity.Bounds()
		wlo, whi := v.Quantity.Widened()
		off := max(math.Abs(lo*1000-least)-(lo-wlo)*1000, math.Abs(hi*1000-most)-(whi-hi)*1000)
		if off*1000 <= limitMargin {
			continue
		}
		want := fmt.Sprintf("%.3f to %.3f mm", least, most)
		p.Report(rule.Finding{
			Verdict: rule.Query, At: rule.NumberAt(&r.New, at, i), Read: v.Text, Want: want, Source: source,
			Message: fmt.Sprintf("%s is not the %s diameter of %s %s: by its deviation and tolerance that is %s; look at the table, or at the thread",
				v.Text, m[3], t.Designation, m[2], want),
			Related: []rule.Related{{At: schema.Spot{Path: schema.At("where")}, Message: "the thread and its class stand here"}},
		})
		return
	}
}

// limitsOf are the limits of one diameter of a thread of a class, mm.
func limitsOf(t reference.Thread, class, which string) (least, most float64, source reference.Citation, ok bool) {
	external := class == strings.ToLower(class)
	var l reference.ThreadLimits
	var err error
	if external {
		l, err = reference.Limits(t, class, "")
	} else {
		l, err = reference.Limits(t, "", class)
	}
	if err != nil {
		return 0, 0, reference.Citation{}, false
	}
	switch which = strings.ToLower(which); {
	case which == "major" || which == "outside":
		least, most, ok = l.External.MajorMin, l.External.MajorMax, external
	case which == "minor":
		least, most, ok = l.Internal.MinorMin, l.Internal.MinorMax, !external
	case external:
		least, most, ok = l.External.PitchMin, l.External.PitchMax, true
	default:
		least, most, ok = l.Internal.PitchMin, l.Internal.PitchMax, true
	}
	return least, most, l.Source, ok
}
