package reference

import (
	"strings"
	"sync"
)

// material is what a screw may be turned into.
type material struct {
	shear, tensile Interval
	rows           string // names in female-strength.csv
}

var materials = sync.OnceValue(func() map[string]material {
	m := make(map[string]material)
	for _, r := range mustTable("tapped.csv") {
		c := r.cite()
		m[r.text("into")] = material{
			shear:   Interval{r.number("shear_lo_MPa"), r.number("shear_hi_MPa"), c},
			tensile: Interval{r.number("tensile_lo_MPa"), r.number("tensile_hi_MPa"), c},
			rows:    r.text("rows"),
		}
	}
	return m
})

var materialWords = map[string]string{
	"aluminium": "cast aluminium", "aluminum": "cast aluminium", "cast aluminum": "cast aluminium",
	"wrought aluminum": "wrought aluminium", "grey iron": "cast iron", "gray iron": "cast iron", "stainless": "stainless steel",
	"nodular iron": "ductile iron",
}

// Tapped returns shear and tensile strength (MPa) of the materials that a word
// may mean: steel, stainless steel, cast iron, ductile iron, cast aluminium,
// wrought aluminium, magnesium, brass. Nothing is known of plastic and of other
// words. The span is wide on purpose: the name of a material is not its grade.
func Tapped(into string) (shear, tensile Interval, known bool) {
	w := strings.ToLower(strings.TrimSpace(into))
	w = strings.TrimSpace(strings.TrimPrefix(w, "other:"))
	if full, ok := materialWords[w]; ok {
		w = full
	}
	m, ok := materials()[w]
	return m.shear, m.tensile, ok
}
