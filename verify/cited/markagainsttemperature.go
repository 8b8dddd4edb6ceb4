package cited

import (
	"fmt"
	"regexp"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// The bands of a dipstick with a cold and a hot mark: the cold band is valid up to
// 71 °C (US Army TM 9-2320-386-10), and a cold check is made up to 49 °C (operator
// manuals of a maker of heavy automatic transmissions). Between the two either
// mark may hold.
const (
	coldBandC  = 71.0
	coldCheckC = 49.0
)

// MarkAgainstTemperature queries a cold mark that holds only in hot oil, and a hot
// one that holds only in cold.
var MarkAgainstTemperature = &rule.Check{
	ID: "mark-against-temperature", Layer: rule.Cited, Title: "a cold mark in hot oil, or a hot mark in cold",
	Doc: doc("mark-against-temperature.md"), Source: reference.Cite("us-army-tm-9-2320-386-10"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		if p.Record == nil {
			return
		}
		for i := range p.Record.Level.Marks {
			m, path := &p.Record.Level.Marks[i], schema.At("level", "marks", i)
			at, ok := measure.Read(&m.At, path.Field("at"), convert.Temperature)
			if !ok {
				continue
			}
			cold, hot := coldMark.MatchString(m.Mark), hotMark.MatchString(m.Mark)
			f := rule.Finding{
				Verdict: rule.Query, At: at.At, Read: at.Text,
				Related: []rule.Related{{At: schema.Spot{Path: path.Field("mark")}, Message: fmt.Sprintf("the mark is %q", m.Mark)}},
			}
			switch {
			case cold && coldest(at) > coldBandC+zeroC+slack(at, convert.AtLeast):
				f.Want = "up to 71 °C (160 °F)"
				f.Message = fmt.Sprintf("mark %q holds at %s; by the rule of practice a cold mark holds up to 71 °C (160 °F)", m.Mark, at.Text)
			case hot && warmest(at) < coldCheckC+zeroC-slack(at, convert.AtMost):
				f.Want = "71 to 149 °C (160 to 300 °F)"
				f.Message = fmt.Sprintf("mark %q holds at %s; by the rule of practice a hot mark holds from 71 °C (160 °F), and up to 49 °C (120 °F) the check is a cold one", m.Mark, at.Text)
			default:
				continue
			}
			p.Report(f)
		}
	},
}

// slack is what a limit is forgiven, in K. A single temperature at it may be
// either band's, as its rounding allows; a band that begins or ends at it lies
// whole on the wrong side: 71 to 93 °C is the hot band in print, 160 °F is 71.1 °C.
func slack(at measure.Reading, limited convert.Form) float64 {
	if at.Form == convert.Range || at.Form == limited {
		return -0.2
	}
	return at.Step() / 2
}

// A mark that names a temperature by a single word: COLD, HOT FULL, hot band.
var (
	coldMark = regexp.MustCompile(`(?i)^(?:(?:full|add|run|safe|max|min|upper|lower|ref) )*cold(?: (?:full|add|run|safe|max|min|mark|band|range|line|level|check|side))*$`)
	hotMark  = regexp.MustCompile(`(?i)^(?:(?:full|add|run|safe|max|min|upper|lower|ref) )*hot(?: (?:full|add|run|safe|max|min|mark|band|range|line|level|check|side))*$`)
)
