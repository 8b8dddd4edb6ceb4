package physics

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"sync"

	"snapgauge/convert"
	"snapgauge/reference"
)

//go:embed data/general-charts.csv
var chartsFile []byte

// chartRow is a row of a general torque chart.
type chartRow struct {
	class    string
	named    []string // designations that the class names
	strength strengthSpan
	values   []convert.Quantity // as printed, in one unit or two
	nm       float64            // of the first
	printed  string
	source   reference.Citation
}

// strengthSpan are the least and greatest tensile strength (MPa) of the classes
// that a row or a record names.
type strengthSpan struct{ lo, hi float64 }

func strengthsOf(rows []reference.Strength) (s strengthSpan, ok bool) {
	for i, r := range rows {
		if r.Part == "nut" || r.Tensile <= 0 {
			return strengthSpan{}, false
		}
		if i == 0 {
			s = strengthSpan{r.Tensile, r.Tensile}
			continue
		}
		s.lo, s.hi = min(s.lo, r.Tensile), max(s.hi, r.Tensile)
	}
	return s, len(rows) > 0
}

// chartKey is a diameter and pitch in tenths of a micrometre; the pitch is 0
// where a chart prints one figure for coarse and fine.
type chartKey struct {
	metric   bool
	d, pitch int64
}

func keyOf(t reference.Thread) chartKey {
	return chartKey{t.Family == reference.Metric, int64(t.D*1e4 + 0.5), int64(t.Pitch*1e4 + 0.5)}
}

// charts are the general charts by thread. The file is part of the program, so a
// fault in it is a fault of the program and panics; a test reads it.
var charts = sync.OnceValue(func() map[chartKey][]chartRow {
	r := csv.NewReader(bytes.NewReader(chartsFile))
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		panic(err)
	}
	out := make(map[chartKey][]chartRow)
	for _, cells := range lines[1:] {
		thread, class, torque, second, source := cells[0], cells[1], cells[3], cells[4], cells[5]
		t, problem := reference.ParseThread(thread)
		if problem != nil {
			panic(fmt.Sprintf("physics: general charts: %q: %v", thread, problem))
		}
		row := chartRow{
			class: class, printed: torque,
			source: reference.Citation{ID: "rules-of-practice", Text: source, Seen: reference.SeenOnce},
		}
		for _, text := range []string{torque, second} {
			if text == "" {
				continue
			}
			q, problem := convert.Parse(text, convert.Of(convert.Torque), convert.Point)
			if problem != nil {
				panic(fmt.Sprintf("physics: general charts: %q: %v", text, problem))
			}
			row.values = append(row.values, q)
		}
		row.nm, _ = row.values[0].Bounds()
		read := reference.ReadClass(class, t.D, t.Family == reference.Metric)
		strengths := read.Rows
		if read.Between {
			// SAE 6 or 7: it is no chart of the lower neighbour.
			strengths = strengths[len(strengths)-1:]
		}
		for _, s := range strengths {
			row.named = append(row.named, s.Designation)
		}
		var ok bool
		if row.strength, ok = strengthsOf(strengths); ok {
			out[keyOf(t)] = append(out[keyOf(t)], row)
		}
	}
	return out
})

// speaksOf reports whether a row is for one of the classes.
func (r *chartRow) speaksOf(classes []reference.Strength) bool {
	return slices.ContainsFunc(classes, func(s reference.Strength) bool { return slices.Contains(r.named, s.Designation) })
}

// chartRows lists the rows that speak of a thread: of its pitch, and those of
// any pitch.
func chartRows(t reference.Thread) []chartRow {
	k := keyOf(t)
	rows := charts()[k]
	if k.pitch != 0 {
		k.pitch = 0
		if any := charts()[k]; len(any) > 0 {
			rows = append(rows[:len(rows):len(rows)], any...)
		}
	}
	return rows
}
