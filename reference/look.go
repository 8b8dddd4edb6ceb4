package reference

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Entry is something known under a term.
type Entry struct {
	Title  string
	Lines  [][2]string // label, value with its unit
	Source Citation
}

// Look finds everything known under a term, in a fixed order: threads and what
// goes with them, classes and grades, fits, units, conditions of threads,
// materials, fluids, conductors, heads, fittings, locking nuts, parts used once,
// cautions, sources, rules of practice. Nil where nothing is known. Tables that
// hold for no machine in particular say so.
func Look(term string) []Entry {
	term = strings.Join(strings.Fields(term), " ")
	if term == "" {
		return nil
	}
	var out []Entry
	for _, find := range []func(string) []Entry{
		lookThread, lookThreadMore, lookClass, lookFit, lookGeneral, lookUnit, lookFriction, lookMaterial, lookFluid,
		lookElectrical, lookHead, lookJoint, lookLockingNut, lookOneUse, lookCaution, lookSource, lookRules, lookPractice,
	} {
		out = append(out, find(term)...)
	}
	return out
}

// digits4 prints a figure to four significant digits.
func digits4(v float64) string {
	s := strconv.FormatFloat(v, 'g', 4, 64)
	if f, err := strconv.ParseFloat(s, 64); err == nil {
		return plain(f)
	}
	return s
}

func lookThread(term string) []Entry {
	t, p := ParseThread(term)
	if p != nil || t.Family == NoFamily {
		return nil
	}
	if t.Family != Metric && t.Family != Unified {
		e := Entry{Title: t.Designation, Source: t.Source, Lines: [][2]string{{"thread", t.Family.String()}}}
		if e.Source.IsZero() {
			e.Source = Cite("thread-names")
		}
		if strings.HasSuffix(t.Designation, "tapping screw") {
			e.Lines[0][1] += ": it cuts its own, and no table of metric or inch threads holds for it"
		}
		if t.D > 0 {
			e.Lines = append(e.Lines, [2]string{"major diameter", plain(t.D) + " mm"})
		}
		if t.Pitch > 0 {
			e.Lines = append(e.Lines, [2]string{"pitch", digits4(t.Pitch) + " mm"})
		}
		return []Entry{e}
	}
	if t.Pitch == 0 {
		var out []Entry
		for _, c := range ThreadsOfSize(t) {
			out = append(out, threadEntry(c))
		}
		return out
	}
	e := threadEntry(t)
	if !t.PitchGiven {
		var others []string
		for _, c := range ThreadsOfSize(Thread{Family: t.Family, D: t.D}) {
			if c.Designation != t.Designation {
				others = append(others, c.Designation)
			}
		}
		e.Lines = append(e.Lines, [2]string{"same size", strings.Join(others, ", ")})
	}
	return []Entry{e}
}

func threadEntry(t Thread) Entry {
	e := Entry{Title: t.Designation, Source: t.Source}
	add := func(label, value string) { e.Lines = append(e.Lines, [2]string{label, value}) }
	series := t.Series
	if !t.Listed {
		series = "not listed, worked out by the profile"
	}
	if t.Family == Unified {
		add("series", series)
		add("major diameter", fmt.Sprintf("%s mm (%s in)", digits4(t.D), plain(t.D/inch)))
		add("pitch", fmt.Sprintf("%s mm (%s per inch)", digits4(t.Pitch), plain(inch/t.Pitch)))
		add("pitch diameter", digits4(t.PitchDiameter)+" mm")
		add("tensile stress area", fmt.Sprintf("%s mm² (%s in²)", digits4(t.StressArea), digits4(t.StressArea/(inch*inch))))
	} else {
		add("series", series)
		add("major diameter", plain(t.D)+" mm")
		add("pitch", plain(t.Pitch)+" mm")
		add("pitch diameter d2", strconv.FormatFloat(t.PitchDiameter, 'f', 3, 64)+" mm")
		add("minor diameter d3", strconv.FormatFloat(t.MinorDiameter, 'f', 3, 64)+" mm")
		add("stress area", digits4(t.StressArea)+" mm²")
	}
	if hole, source := holeOf(t); source.Seen != Computed {
		add("clearance hole, ISO 273 medium", plain(hole)+" mm ("+source.Seen.String()+")")
	}
	for _, b := range bearings().heads {
		if same(b.d, t.D) && b.metric == (t.Family == Metric) {
			add(b.name, "bears on "+digits4(b.inner)+" mm ("+b.source.Seen.String()+")")
		}
	}
	return e
}

func lookClass(term string) []Entry {
	if _, p := ParseThread(term); p == nil && strings.Contains(term, "/") {
		return nil // 1/4 is a size, not SAE 1 or 4
	}
	var out []Entry
	seen := make(map[string]bool)
	for _, metric := range []bool{true, false} {
		r := ReadClass(term, 0, metric)
		if !r.Known || !r.Exists || r.Foreign {
			continue
		}
		for _, s := range r.Rows {
			title := s.Designation + ", " + s.sizes()
			if !seen[s.Part+title] {
				seen[s.Part+title] = true
				out = append(out, s.entry(title))
			}
		}
	}
	return out
}

func (s Strength) sizes() string {
	from := " from "
	if s.minOpen {
		from = " over "
	}
	if strings.HasPrefix(s.Standard, "ISO") {
		return s.Part + from + "M" + plain(s.MinD) + " to M" + plain(s.MaxD)
	}
	return s.Part + from + inchName(s.MinD/inch) + " to " + inchName(s.MaxD/inch) + " in"
}

func (s Strength) entry(title string) Entry {
	e := Entry{Title: title, Source: s.Source, Lines: [][2]string{{"standard", s.Standard}}}
	for _, v := range []struct {
		label string
		mpa   float64
	}{{"tensile strength, least", s.Tensile}, {"yield, least", s.Yield}, {"proof stress", s.Proof}} {
		if v.mpa == 0 {
			continue
		}
		text := digits4(v.mpa) + " MPa"
		if !strings.HasPrefix(s.Standard, "ISO") {
			text += " (" + plain(v.mpa/mpaPerPSI/1000) + " ksi)"
		}
		e.Lines = append(e.Lines, [2]string{v.label, text})
	}
	return e
}

func lookFriction(term string) []Entry {
	var out []Entry
	if mu, known := Friction(term); known {
		usual, _ := UsualFriction(term)
		k := NutFactor(term)
		out = append(out, Entry{
			Title: "threads " + conditionWord(term), Source: mu.Source,
			Lines: [][2]string{
				{"coefficient of friction, any material", span(mu, 2)},
				{"coefficient of friction, usual for plain steel", span(usual, 2)},
				{"nut factor K", span(k, 2)}, general,
			},
		})
	}
	if len(term) < 4 {
		return out
	}
	for _, r := range mustTable("friction.csv") {
		if !strings.Contains(strings.ToLower(r.text("condition")), strings.ToLower(term)) {
			continue
		}
		e := Entry{Title: r.text("condition"), Source: r.cite()}
		for _, column := range []string{"min", "typical", "max"} {
			if v := r.text(column); v != "" {
				e.Lines = append(e.Lines, [2]string{frictionLabel(r.text("quantity")) + ", " + columnWords[column], v})
			}
		}
		e.Lines = append(e.Lines, general)
		out = append(out, e)
	}
	return out
}

var columnWords = map[string]string{"min": "least", "typical": "typical", "max": "most"}

// frictionLabel writes out the short names of the friction table.
func frictionLabel(quantity string) string {
	if quantity == "K" {
		return "nut factor K"
	}
	return strings.Replace(quantity, "mu ", "coefficient of friction, ", 1)
}

func span(i Interval, digits int) string {
	return strconv.FormatFloat(i.Lo, 'f', digits, 64) + " to " + strconv.FormatFloat(i.Hi, 'f', digits, 64)
}

func lookMaterial(term string) []Entry {
	var out []Entry
	if shear, tensile, known := Tapped(term); known {
		out = append(out, Entry{
			Title: "tapped " + strings.ToLower(term), Source: shear.Source,
			Lines: [][2]string{{"shear strength", span(shear, 0) + " MPa"}, {"tensile strength", span(tensile, 0) + " MPa"}},
		})
	}
	if len(term) < 4 {
		return out
	}
	for _, r := range mustTable("female-strength.csv") {
		if !strings.Contains(strings.ToLower(r.text("material")), strings.ToLower(term)) {
			continue
		}
		e := Entry{Title: r.text("material") + ", " + r.text("condition"), Source: r.cite()}
		for _, what := range []string{"shear", "tensile"} {
			lo, hi := r.text(what+"_MPa"), r.text(what+"_max_MPa")
			switch {
			case lo != "" && hi != "":
				e.Lines = append(e.Lines, [2]string{what + " strength", lo + " to " + hi + " MPa"})
			case lo != "":
				e.Lines = append(e.Lines, [2]string{what + " strength", lo + " MPa"})
			}
		}
		out = append(out, e)
	}
	return out
}

func lookCaution(term string) []Entry {
	low := strings.ToLower(term)
	var out []Entry
	for _, c := range slices.Concat(cautions().list, cautions().signals) {
		if c.ID == low || c.Hazard == low || strings.ToLower(c.Signal) == low && c.Hazard == "definition" {
			e := Entry{Title: c.Signal + " (" + c.ID + ")", Source: c.Source, Lines: [][2]string{{c.Hazard, c.Text}}}
			if len(c.Kinds) > 0 {
				e.Lines = append(e.Lines, [2]string{"goes with", strings.Join(c.Kinds, ", ")})
			}
			out = append(out, e)
		}
	}
	return out
}
