package reference

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"sync"
)

// threadTable holds the listed threads, and where those of one diameter are.
type threadTable struct {
	all    []Thread
	bySize map[sizeKey][]int
}

type sizeKey struct {
	family Family
	d      int64 // tenths of a micrometre
}

func keyOf(f Family, d float64) sizeKey { return sizeKey{f, int64(math.Round(d * 1e4))} }

var threads = sync.OnceValue(func() *threadTable {
	tab := &threadTable{bySize: make(map[sizeKey][]int)}
	for _, r := range mustTable("metric-threads.csv") {
		t := metricOf(r.number("nominal_mm"), r.number("pitch_mm"))
		t.PitchDiameter = r.number("pitch_diameter_d2_mm")
		t.MinorDiameter = r.number("minor_diameter_d3_mm")
		t.StressArea = r.number("stress_area_mm2")
		t.Series, t.Source = r.text("series"), r.cite()
		tab.add(t)
	}
	for _, r := range mustTable("iso-261-plan.csv") {
		pitches := strings.Fields(r.text("fine_mm"))
		series := "fine"
		if c := r.text("coarse_mm"); c != "" {
			tab.addPlan(r, c, "coarse")
		}
		for _, p := range pitches {
			tab.addPlan(r, p, series)
		}
	}
	for _, r := range mustTable("unified-threads.csv") {
		t := unifiedOf(r.number("nominal_in"), r.number("tpi"), strings.TrimPrefix(r.text("series"), "8-"))
		t.StressArea = r.number("stress_area_in2") * inch * inch
		t.Source = r.cite()
		tab.add(t)
	}
	for _, r := range mustTable("unified-series.csv") {
		lo, hi, tpi := r.number("min_in"), r.number("max_in"), r.number("tpi")
		for _, d := range standardInches() {
			if d >= lo && d <= hi {
				t := unifiedOf(d, tpi, "UN")
				t.Source = r.cite()
				tab.addNew(t)
			}
		}
	}
	for _, list := range tab.bySize {
		slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(tab.all[b].Pitch, tab.all[a].Pitch) })
	}
	return tab
})

func (tab *threadTable) add(t Thread) {
	t.Listed = true
	k := keyOf(t.Family, t.D)
	tab.bySize[k] = append(tab.bySize[k], len(tab.all))
	tab.all = append(tab.all, t)
}

// addNew adds a thread unless that diameter and pitch are there already.
func (tab *threadTable) addNew(t Thread) {
	if tab.find(t.Family, t.D, t.Pitch) == nil {
		tab.add(t)
	}
}

func (tab *threadTable) addPlan(r row, pitch, series string) {
	p := row{file: r.file, line: r.line, index: map[string]int{"p": 0}, cells: []string{pitch}}.number("p")
	t := metricOf(r.number("nominal_mm"), p)
	t.Series, t.Source = series, r.cite()
	tab.addNew(t)
}

func (tab *threadTable) find(f Family, d, pitch float64) *Thread {
	for _, i := range tab.bySize[keyOf(f, d)] {
		if same(tab.all[i].Pitch, pitch) {
			return &tab.all[i]
		}
	}
	return nil
}

// ofSize lists the threads of a diameter, coarse first.
func (tab *threadTable) ofSize(f Family, d float64) []Thread {
	var out []Thread
	for _, i := range tab.bySize[keyOf(f, d)] {
		out = append(out, tab.all[i])
	}
	return out
}

// metricOf works out a metric thread by the ISO 68-1 profile and the stress
// area of ISO 898-1. Without a pitch only the diameter is known.
func metricOf(d, p float64) Thread {
	t := Thread{Family: Metric, D: d, Designation: "M" + plain(d), Source: Cite("iso-261")}
	if p == 0 {
		return t
	}
	t.Pitch, t.PitchGiven = p, true
	t.Designation += "x" + plain(p)
	t.PitchDiameter = d - 0.649519*p
	t.MinorDiameter = d - 1.226869*p
	t.StressArea = areaOf(t)
	return t
}

// unifiedOf works out a unified thread by FED-STD-H28: the stress area is
// π/4·(D − 0.9743/n)², the mean of pitch diameter and sharp root.
func unifiedOf(d, tpi float64, series string) Thread {
	t := Thread{Family: Unified, D: d * inch, Series: series, Designation: inchName(d), Source: Cite("asme-b1.1")}
	if tpi != 0 {
		t.Pitch, t.PitchGiven = inch/tpi, true
		t.PitchDiameter = t.D - 0.649519*t.Pitch
		t.MinorDiameter = t.D - 1.299038*t.Pitch
		t.StressArea = areaOf(t)
		t.Designation += "-" + plain(tpi)
	}
	if series != "" {
		t.Designation += " " + series
	}
	return t
}

func areaOf(t Thread) float64 {
	m := (t.PitchDiameter + t.MinorDiameter) / 2
	return math.Pi / 4 * m * m
}

// Threads returns all listed metric and unified threads, in table order.
func Threads() []Thread { return slices.Clone(threads().all) }

// ThreadsOfSize returns every listed thread of the diameter of t, coarse
// first: the candidates where a pitch is not given. Where t names a series but
// no pitch ("M10 fine", "1/4 UNF"), only that series.
func ThreadsOfSize(t Thread) []Thread {
	list := threads().ofSize(t.Family, t.D)
	if t.Pitch == 0 && t.Series != "" {
		list = slices.DeleteFunc(list, func(c Thread) bool { return c.Series != t.Series })
	}
	return list
}

// Nearest returns designations of listed threads nearest to t, likeliest
// first, at most four: those of its diameter by distance of pitch, or those of
// the nearest diameters.
func Nearest(t Thread) []string {
	list := threads().ofSize(t.Family, t.D)
	if t.Pitch != 0 {
		slices.SortStableFunc(list, func(a, b Thread) int {
			return cmp.Compare(math.Abs(a.Pitch-t.Pitch), math.Abs(b.Pitch-t.Pitch))
		})
	}
	if len(list) == 0 {
		list = nearestSizes(t)
	}
	var out []string
	for _, c := range list[:min(len(list), 4)] {
		out = append(out, c.Designation)
	}
	return out
}

// nearestSizes lists for a diameter that is not standard the nearest that are,
// with the pitch of t where they have it, with their coarsest where they do not.
func nearestSizes(t Thread) []Thread {
	var list []Thread
	seen := make(map[sizeKey]bool)
	for _, c := range threads().all {
		k := keyOf(c.Family, c.D)
		if c.Family != t.Family || seen[k] {
			continue
		}
		seen[k] = true
		best := threads().ofSize(c.Family, c.D)[0]
		if same := threads().find(c.Family, c.D, t.Pitch); same != nil {
			best = *same
		}
		list = append(list, best)
	}
	slices.SortStableFunc(list, func(a, b Thread) int {
		return cmp.Compare(math.Abs(a.D-t.D), math.Abs(b.D-t.D))
	})
	return list[:min(len(list), 2)]
}
