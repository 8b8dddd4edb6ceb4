package reference

import (
	"regexp"
	"strconv"
	"strings"
)

// signed prints a deviation in µm as tables do: +21, 0, -7, +6.5.
func signed(um float64) string {
	if um > 0 {
		return "+" + plain(um)
	}
	return plain(um)
}

var sizedFit = regexp.MustCompile(`^[øØ⌀]?\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?\s*([A-Za-z].*)$`)

// lookFit shows a tolerance class (H7) over all sizes, and a class or a fit at
// a size (25 H7, 25 H7/g6).
func lookFit(term string) []Entry {
	if m := sizedFit.FindStringSubmatch(term); m != nil {
		mm, err := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", "."), 64)
		hole, shaft, problem := ParseFit(m[2])
		if err != nil || problem != nil {
			return nil
		}
		return sizedEntries(mm, hole, shaft)
	}
	if m := gradeTerm.FindStringSubmatch(term); m != nil {
		return gradeEntries(m[1])
	}
	if t, p := ParseThread(term); p == nil && t.Family == Metric {
		return nil // M8 is a thread before it is a hole
	}
	hole, shaft, err := ParseFit(term)
	if err != nil {
		return nil
	}
	var out []Entry
	for _, class := range []string{hole, shaft} {
		if class != "" {
			out = append(out, classEntries(class)...)
		}
	}
	return out
}

var gradeTerm = regexp.MustCompile(`(?i)^it ?(01|0|[1-9]|1[0-8])$`)

// gradeEntries lists a standard tolerance by ranges of size.
func gradeEntries(name string) []Entry {
	grade := it01
	if name != "01" {
		grade, _ = strconv.Atoi(name) // the pattern lets digits only pass
	}
	e := Entry{Title: "IT" + name + ", standard tolerance"}
	for _, t := range iso286().tolerances {
		e.Lines = append(e.Lines, [2]string{t.sizeRange.String(), plain(t.um[grade-it01]) + " µm"})
		e.Source = t.source
	}
	return []Entry{e}
}

func partOf(class string) string {
	if isHole(class) {
		return "hole " + class
	}
	return "shaft " + class
}

// classEntries lists the limit deviations of a class by ranges of size.
func classEntries(class string) []Entry {
	e := Entry{Title: partOf(class) + ", limit deviations", Source: Citation{
		ID: "iso-286", Text: "ISO 286-1, from its standard tolerances and fundamental deviations", Seen: Computed}}
	from, value := 0.0, ""
	end := func(upTo float64) {
		if value != "" {
			e.Lines = append(e.Lines, [2]string{sizeRange{from, upTo}.String(), value})
		}
	}
	last := 0.0
	// The deviations of h, or of js, have no ranges of their own; d has all 25.
	for _, d := range iso286().deviations["d"] {
		upper, lower, _, err := LimitDeviation(d.upTo, class)
		now := ""
		if err == nil {
			now = signed(upper) + " / " + signed(lower) + " µm"
		}
		if now != value {
			end(last)
			from, value = d.over, now
		}
		last = d.upTo
	}
	end(last)
	if len(e.Lines) == 0 {
		return nil
	}
	return []Entry{e}
}

// sizedEntries shows the limits of size of a hole, a shaft, and their fit.
func sizedEntries(mm float64, hole, shaft string) []Entry {
	var out []Entry
	for _, class := range []string{hole, shaft} {
		if class == "" {
			continue
		}
		upper, lower, source, err := LimitDeviation(mm, class)
		if err != nil {
			continue
		}
		out = append(out, Entry{Title: plain(mm) + " mm, " + partOf(class), Source: source, Lines: [][2]string{
			{"limit deviations", signed(upper) + " / " + signed(lower) + " µm"},
			{"limits of size", limit(mm, lower) + " to " + limit(mm, upper) + " mm"},
		}})
	}
	if hole == "" || shaft == "" {
		return out
	}
	f, err := Fit(mm, hole+"/"+shaft)
	if err != nil {
		return out
	}
	return append(out, Entry{Title: plain(mm) + " mm, " + hole + "/" + shaft, Source: f.Source, Lines: [][2]string{
		{"kind", f.Kind},
		{"clearance", plain(f.MinClearance) + " to " + plain(f.MaxClearance) + " µm"},
	}})
}

// limit prints a limit of size to the micrometre, or to half of one.
func limit(mm, um float64) string {
	digits := 3
	if um != float64(int(um)) {
		digits = 4
	}
	return strconv.FormatFloat(mm+um/1000, 'f', digits, 64)
}

var generalTerm = regexp.MustCompile(`(?i)^(?:(?:din )?(?:en )?iso )?2768(?:-1)?(?:[ -]?([fmcv])[hkl]?)?$`)

// lookGeneral shows ISO 2768-1: "ISO 2768-m", or all four classes.
func lookGeneral(term string) []Entry {
	m := generalTerm.FindStringSubmatch(term)
	if m == nil {
		return nil
	}
	var out []Entry
	for _, g := range generalTolerances() {
		if m[1] != "" && g.class != strings.ToLower(m[1]) {
			continue
		}
		title := "general tolerances, " + g.kind + ", class " + g.class
		if len(out) == 0 || out[len(out)-1].Title != title {
			out = append(out, Entry{Title: title, Source: g.source})
		}
		e := &out[len(out)-1]
		value := "±" + plain(g.plusMinus) + " mm"
		if g.kind == "angular" {
			value = "±" + degrees(g.plusMinus)
		}
		over := "over " + plain(g.over)
		if g.over == 0.5 {
			over = "from 0.5"
		}
		label := over + " mm"
		if upTo := g.upTo; upTo < 1e9 {
			label = over + " to " + plain(upTo) + " mm"
		}
		e.Lines = append(e.Lines, [2]string{label, value})
	}
	for i := range out {
		out[i].Lines = append(out[i].Lines, [2]string{"note", "holds where a drawing calls for it"})
	}
	return out
}

// degrees prints an angle as the standard does: 1°30', 20'.
func degrees(v float64) string {
	minutes := int(roundTo(v*60, 0))
	out := ""
	if minutes >= 60 {
		out = strconv.Itoa(minutes/60) + "°"
	}
	if minutes%60 != 0 {
		out += strconv.Itoa(minutes%60) + "'"
	}
	return out
}
