package main

import (
	"strings"

	"snapgauge/reference"
	"snapgauge/verify/joint"
)

// chartRow is a row of a printed table: what brings a screw of a class to 0.9 of
// its yield with one friction in thread and under head.
type chartRow struct {
	class              string
	mu                 float64
	head               reference.Bearing
	preloadN, torqueNm float64
}

// What printed tables are made for: classes that are sold everywhere, and the
// frictions of VDI 2230 tables and of those for stainless steel.
var (
	chartClasses       = map[reference.Family][]string{reference.Metric: {"8.8", "10.9", "12.9"}, reference.Unified: {"SAE 2", "SAE 5", "SAE 8"}}
	chartFrictions     = []float64{0.10, 0.12, 0.14}
	stainlessFrictions = []float64{0.10, 0.20, 0.30}
)

// chartRows are the rows for the question; none where the pitch is not known, or
// for a nut, whose strength is not that of a screw.
func (q *question) chartRows() []chartRow {
	f := &q.facts
	if q.chart.Pitch <= 0 || f.Part == joint.NutPart {
		return nil
	}
	t, head := q.chart, standardHead(f.Head, q.chart)
	strengths, frictions := f.Strengths, chartFrictions
	if len(strengths) == 0 {
		frictions = []float64{0.12}
		for _, c := range chartClasses[t.Family] {
			if r := reference.ReadClass(c, t.D, t.Family == reference.Metric); r.SizeFits {
				strengths = append(strengths, r.Rows...)
			}
		}
	}
	var out []chartRow
	for _, r := range strengths {
		if !r.Fits(t.D) || r.Yield <= 0 {
			continue
		}
		for _, mu := range q.frictions(r, frictions) {
			if row, err := chartRowOf(t, r, head, mu); err == nil {
				out = append(out, row)
			}
		}
	}
	return out
}

// frictions are those that are stated, or else those of the tables.
func (q *question) frictions(r reference.Strength, usual []float64) []float64 {
	switch {
	case q.facts.MuLo > 0 && q.facts.MuLo == q.facts.MuHi:
		return []float64{q.facts.MuLo}
	case q.facts.MuLo > 0:
		return []float64{q.facts.MuLo, q.facts.MuHi}
	case strings.HasPrefix(r.Standard, "ISO 3506"):
		return stainlessFrictions
	}
	return usual
}

func chartRowOf(t reference.Thread, r reference.Strength, head reference.Bearing, mu float64) (chartRow, error) {
	s := joint.ScrewOf(t)
	f, err := joint.PreloadAtStressN(s, r.Yield, chartShare, mu)
	if err != nil {
		return chartRow{}, err
	}
	m, err := joint.TorqueNm(s, (head.Dw+head.Hole)/2, f, mu, mu)
	return chartRow{r.Designation, mu, head, f, m}, err
}

// standardHead is the head that printed tables are made for: of the present
// standard, by default a hexagon.
func standardHead(head string, t reference.Thread) reference.Bearing {
	if head == "" {
		head = "hex"
	}
	return reference.BearingOf(head, t)[0]
}

// estimatedBearing reports a head of which no table has the size.
func estimatedBearing(b reference.Bearing) bool {
	return b.Source.Seen == reference.Computed && strings.Contains(b.Source.Text, "by proportion")
}
