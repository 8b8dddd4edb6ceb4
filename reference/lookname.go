package reference

import (
	"slices"
	"strings"
	"sync"
)

// lookHead shows what a head bears on, by size.
func lookHead(term string) []Entry {
	heads, ok := headSynonyms[strings.ToLower(strings.TrimSuffix(term, " head"))]
	if !ok {
		return nil
	}
	var out []Entry
	for _, b := range bearings().heads {
		if !slices.Contains(heads, b.head) {
			continue
		}
		size := "M" + plain(b.d)
		if !b.metric {
			size = inchName(b.d/inch) + " in"
		}
		entryFor(&out, b.name, b.source).add(size, "bears on "+digits4(b.inner)+" mm")
	}
	for _, p := range proportions {
		if slices.Contains(heads, p.head) {
			e := entryFor(&out, p.name, Citation{ID: p.source, Text: Cite(p.source).Text + ", by proportion to the diameter", Seen: Computed})
			e.add("any size", "bears on "+plain(p.inner)+" of the diameter of the thread")
		}
	}
	return out
}

// tableWords name the tables that cite their sources row by row.
var tableWords = map[string]string{
	"drag-rules.csv": "locking nuts", "electrical.csv": "conductors", "female-strength.csv": "strength of tapped materials",
	"fluids.csv": "fluids", "friction.csv": "friction", "head-bearing.csv": "heads and clearance holes",
	"inch-grades.csv": "inch grades", "iso-261-plan.csv": "metric threads", "iso2768.csv": "general tolerances",
	"iso286-deviations.csv": "fundamental deviations", "iso286-it.csv": "standard tolerances",
	"iso965-pitch-tolerance.csv": "limits of threads", "iso965-pitch.csv": "limits of threads", "joints.csv": "joints and fittings",
	"metric-classes.csv": "metric classes", "metric-threads.csv": "metric threads", "oneuse.csv": "parts used once",
	"patterns.csv": "patterns", "prevailing.csv": "locking nuts", "tapped.csv": "tapped materials",
	"unified-series.csv": "unified threads", "unified-threads.csv": "unified threads", "wrenches.csv": "torque wrenches",
}

// citedIn lists, by the short name of a document, the tables that cite it and
// the places that they name.
var citedIn = sync.OnceValue(func() map[string][][2]string {
	out := make(map[string][][2]string)
	names := make([]string, 0, len(tableWords))
	for name := range tableWords {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		for _, r := range mustTable(name) {
			id, line := r.text("cite"), [2]string{"cited for " + tableWords[name], r.text("source")}
			if !slices.Contains(out[id], line) {
				out[id] = append(out[id], line)
			}
		}
	}
	return out
})

// lookSource shows a document that is cited, by its short name or as it is
// called (VDI 2230, ISO 898), and what is cited from it.
func lookSource(term string) []Entry {
	name := strings.ReplaceAll(strings.ToLower(term), " ", "-")
	part := strings.ContainsAny(name, "0123456789") // ISO alone is half of all
	var out []Entry
	for _, id := range citationIDs() {
		if id != name && !(part && (strings.HasPrefix(id, name+"-") || strings.HasPrefix(name, id+"-"))) {
			continue
		}
		c := Cite(id)
		out = append(out, Entry{Title: c.ID, Source: c, Lines: append([][2]string{{"document", c.Text}}, citedIn()[id]...)})
	}
	return out
}

var citationIDs = sync.OnceValue(func() []string {
	var out []string
	for id := range citations() {
		out = append(out, id)
	}
	slices.Sort(out)
	return out
})
