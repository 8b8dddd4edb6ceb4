package reference

import (
	"fmt"
	"math"
	"strings"
	"sync"
)

// pitchTolerance is the tolerance Td2, grade 6, of a range of diameters and a
// pitch, in µm.
type pitchTolerance struct {
	sizeRange
	pitch, td2 float64
}

// pitchRow is what ISO 965-1 gives for a pitch, in µm; 0 where it gives none.
type pitchRow struct {
	es       map[byte]float64 // magnitude, by deviation
	td, tdm1 float64          // Td and TD1 of grade 6
}

type iso965Tables struct {
	pitchTolerances []pitchTolerance
	pitches         map[float64]pitchRow
}

var iso965 = sync.OnceValue(func() iso965Tables {
	tab := iso965Tables{pitches: make(map[float64]pitchRow)}
	for _, r := range mustTable("iso965-pitch-tolerance.csv") {
		tab.pitchTolerances = append(tab.pitchTolerances, pitchTolerance{r.sizes(), r.number("pitch_mm"), r.number("Td2_um")})
	}
	for _, r := range mustTable("iso965-pitch.csv") {
		tab.pitches[r.number("pitch_mm")] = pitchRow{
			es: map[byte]float64{'e': r.number("e_um"), 'f': r.number("f_um"), 'g': r.number("g_um")},
			td: r.number("Td_um"), tdm1: r.number("TD1_um"),
		}
	}
	return tab
})

// r40 is a decade of the series R40 of preferred numbers, as ISO 965-1 uses it.
var r40 = []float64{
	100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
	315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
}

// preferred is the number of R40 nearest to v, moved on by some steps, to the
// whole micrometre: 37.5 is printed 38, 42.5 is 42.
func preferred(v float64, steps int) float64 {
	i := int(math.Round(40*math.Log10(v/100))) + steps
	decade := math.Floor(float64(i) / 40)
	return math.RoundToEven(r40[i-40*int(decade)] * math.Pow(10, decade))
}

// stepsPerGrade: a grade is a factor of 1.25, the ratio of R10, four steps of R40.
const stepsPerGrade = 4

// td2 is the tolerance of the external pitch diameter in grade 6, µm. The formula
// of ISO 965-1 is 90·P^0.4·d^0.1, with d the geometric mean of the range; its
// tables leave the rounded formula here and there to rise evenly, so a table
// value wins.
func (tab iso965Tables) td2(d, p float64) (float64, error) {
	for _, r := range tab.pitchTolerances {
		if r.holds(d) && same(r.pitch, p) {
			return r.td2, nil
		}
	}
	for _, r := range tab.pitchTolerances {
		if r.holds(d) {
			return preferred(90*math.Pow(p, 0.4)*math.Pow(r.over*r.upTo, 0.05), 0), nil
		}
	}
	return 0, fmt.Errorf("ISO 965-1 has tolerances for diameters over 0.99 to 355 mm, not for %s mm", plain(d))
}

// row is what the tables, or else the formulas, of ISO 965-1 give for a pitch.
func (tab iso965Tables) row(p float64) pitchRow {
	if r, ok := tab.pitches[p]; ok {
		return r
	}
	out := pitchRow{
		es: map[byte]float64{'e': math.Round(50 + 11*p), 'f': math.Round(30 + 11*p), 'g': math.Round(15 + 11*p)},
		td: preferred(180*math.Cbrt(p*p)-3.15/math.Sqrt(p), 0),
	}
	if p < 1 {
		out.tdm1 = preferred(433*p-190*math.Pow(p, 1.22), 0)
	} else {
		out.tdm1 = preferred(230*math.Pow(p, 0.7), 0)
	}
	return out
}

// metricClass splits a tolerance class of ISO 965-1: 6g is grade 6 for both
// diameters, 5g6g grade 5 for the pitch and 6 for the crest.
func metricClass(class, deviations string) (pitchGrade, crestGrade int, deviation byte, ok bool) {
	s := strings.TrimSpace(class)
	if len(s) == 2 {
		s += s
	}
	if len(s) != 4 || !isDigit(s[0]) || !isDigit(s[2]) || s[1] != s[3] || strings.IndexByte(deviations, s[1]) < 0 {
		return 0, 0, 0, false
	}
	return int(s[0] - '0'), int(s[2] - '0'), s[1], true
}

// metricExternal works out an external metric thread.
func metricExternal(t Thread, class string) (ExternalLimits, error) {
	pitch, crest, deviation, ok := metricClass(class, "efgh")
	if !ok || pitch < 3 || pitch > 9 || crest != 4 && crest != 6 && crest != 8 {
		return ExternalLimits{}, fmt.Errorf("“%s” is no tolerance class of external threads that our tables have, such as 6g, 6h, 4g6g or 8g", short(class))
	}
	td2, err := iso965().td2(t.D, t.Pitch)
	if err != nil {
		return ExternalLimits{}, err
	}
	r := iso965().row(t.Pitch)
	es := r.es[deviation]
	if es == 0 && deviation != 'h' {
		return ExternalLimits{}, fmt.Errorf("ISO 965-1 has no deviation %c for a pitch of %s mm", deviation, plain(t.Pitch))
	}
	out := ExternalLimits{Class: class}
	out.MajorMax = t.D - es/1000
	out.MajorMin = out.MajorMax - preferred(r.td, stepsPerGrade*(crest-6))/1000
	out.PitchMax = roundTo(t.D-toPitchDiameter*t.Pitch, 3) - es/1000
	out.PitchMin = out.PitchMax - preferred(td2, stepsPerGrade*(pitch-6))/1000
	return out, nil
}

// metricInternal works out an internal metric thread. TD2 is 1.32 times Td2 of
// the same grade, five steps of R40; EI of G equals the deviation of g.
func metricInternal(t Thread, class string) (InternalLimits, error) {
	pitch, crest, deviation, ok := metricClass(class, "GH")
	if !ok || pitch < 4 || pitch > 8 || crest < 4 || crest > 8 {
		return InternalLimits{}, fmt.Errorf("“%s” is no tolerance class of internal threads that our tables have, such as 6H, 5H6H, 7H or 6G", short(class))
	}
	td2, err := iso965().td2(t.D, t.Pitch)
	if err != nil {
		return InternalLimits{}, err
	}
	r := iso965().row(t.Pitch)
	ei := 0.0
	if deviation == 'G' {
		ei = r.es['g']
	}
	out := InternalLimits{Class: class}
	out.MinorMin = roundTo(t.D-toMinorDiameter*t.Pitch, 3) + ei/1000
	out.MinorMax = out.MinorMin + preferred(r.tdm1, stepsPerGrade*(crest-6))/1000
	out.PitchMin = roundTo(t.D-toPitchDiameter*t.Pitch, 3) + ei/1000
	out.PitchMax = out.PitchMin + preferred(td2, stepsPerGrade*(pitch-6)+5)/1000
	return out, nil
}
