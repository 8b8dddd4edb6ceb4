package reference

import (
	"math"
	"strings"
	"sync"
)

// Interval is a closed interval of a value.
type Interval struct {
	Lo, Hi float64
	Source Citation
}

// Between coefficient and nut factor: K = 0.015 + 1.2·μ for hexagon heads, from
// the relation of VDI 2230; within 5 % of it from M6 up for μ of 0.10 to 0.30.
const (
	kBase  = 0.015
	kSlope = 1.2
)

// frictionRow is a row of friction.csv; Hi is 0 where the source leaves it open.
type frictionRow struct {
	condition, quantity string
	lo, hi              float64
	source              Citation
}

var frictionRows = sync.OnceValue(func() []frictionRow {
	var out []frictionRow
	for _, r := range mustTable("friction.csv") {
		f := frictionRow{condition: r.text("condition"), quantity: r.text("quantity"), source: r.cite()}
		lo, typical, hi := r.number("min"), r.number("typical"), r.number("max")
		f.lo, f.hi = lo, hi
		if lo == 0 {
			f.lo = typical
		}
		if hi == 0 {
			f.hi = typical
		}
		out = append(out, f)
	}
	return out
})

// frictionWord is what a word of a spec file may mean.
type frictionWord struct {
	word, usual, all string
}

type frictionTable struct {
	usual, all map[string]pair
	union      pair
	outermost  Interval
}

// pair is a coefficient and the nut factor that goes with it.
type pair struct{ mu, k Interval }

var frictions = sync.OnceValue(func() frictionTable {
	tab := frictionTable{usual: make(map[string]pair), all: make(map[string]pair)}
	for _, f := range frictionRows() {
		if f.condition == "any, measured" {
			tab.outermost = Interval{Lo: f.lo, Hi: f.hi, Source: f.source}
		}
	}
	var everything []string
	for _, r := range mustTable("friction-words.csv") {
		w := frictionWord{r.text("word"), r.text("usual"), r.text("all")}
		tab.usual[w.word] = unionOf(w.usual, tab.outermost)
		tab.all[w.word] = unionOf(w.all, tab.outermost)
		everything = append(everything, w.all)
	}
	tab.union = unionOf(strings.Join(everything, "; "), tab.outermost)
	tab.union.k = widest(tab.union.k, tab.outermost)
	tab.union.mu = widest(tab.union.mu, Interval{Lo: muOf(tab.outermost.Lo), Hi: muOf(tab.outermost.Hi)})
	text := Citation{ID: "vdi-2230", Text: "VDI 2230-1 Table A5 classes A to E and the spread of measured nut factors, Handbook of Bolts and Bolted Joints", Seen: Computed}
	tab.union.mu.Source, tab.union.k.Source = text, text
	return tab
})

// muOf is the coefficient that belongs to a nut factor, kOf the reverse.
func muOf(k float64) float64 { return (k - kBase) / kSlope }
func kOf(mu float64) float64 { return kBase + kSlope*mu }

func widest(a, b Interval) Interval {
	a.Lo, a.Hi = min(a.Lo, b.Lo), max(a.Hi, b.Hi)
	return a
}

// unionOf spans the rows whose condition begins with one of the names, K turned
// into μ and back. A class without upper end (VDI class E) ends at the outermost
// nut factor measured.
func unionOf(names string, outermost Interval) pair {
	mu := Interval{Lo: math.Inf(1)}
	var used []string
	for name := range strings.SplitSeq(names, "; ") {
		used = append(used, name)
		for _, f := range frictionRows() {
			if !strings.HasPrefix(f.condition, name) {
				continue
			}
			lo, hi := f.lo, f.hi
			switch {
			case f.quantity == "K":
				lo, hi = muOf(lo), muOf(hi)
			case !strings.HasPrefix(f.quantity, "mu"):
				continue // a multiplier of a torque
			case hi == 0:
				hi = muOf(outermost.Hi)
			}
			mu.Lo, mu.Hi = min(mu.Lo, lo), max(mu.Hi, hi)
		}
	}
	mu.Lo, mu.Hi = math.Floor(mu.Lo*1000+1e-6)/1000, math.Ceil(mu.Hi*1000-1e-6)/1000
	source := Citation{ID: "vdi-2230", Text: "VDI 2230-1 Table A5 and published nut factors, rows " + strings.Join(used, ", "), Seen: Computed}
	mu.Source = source
	return pair{mu, Interval{Lo: kOf(mu.Lo), Hi: kOf(mu.Hi), Source: source}}
}

// conditionWords maps other names of a condition to the words of a spec file.
var conditionWords = map[string]string{
	"lubricated": "oiled", "oil": "oiled", "engine oil": "oiled", "lightly oiled": "oiled", "greased": "oiled", "grease": "oiled",
	"molybdenum disulphide": "moly", "mos2": "moly", "moly paste": "moly", "antiseize": "anti-seize", "anti seize": "anti-seize",
	"wax": "waxed", "threadlock": "threadlocker", "thread lock": "threadlocker", "locking compound": "threadlocker",
	"zinc plated": "plated", "galvanized": "plated", "galvanised": "plated", "cadmium plated": "plated",
	"clean and dry": "dry", "clean, dry": "dry", "clean": "as received", "as delivered": "as received", "plain": "as received",
}

func conditionWord(condition string) string {
	c := strings.ToLower(strings.TrimSpace(condition))
	c = strings.TrimSpace(strings.TrimPrefix(c, "other:"))
	if w, ok := conditionWords[c]; ok {
		return w
	}
	return c
}

// Friction returns the coefficients of friction, thread and head, that a
// condition of the threads leaves open: dry, oiled, moly, anti-seize, waxed,
// threadlocker, plated, as received. It is the union of all published rows that
// fit, whatever the parts are made of. An empty or unknown condition, and
// sealant, of which no row was found, gives the union of all and known false.
func Friction(condition string) (mu Interval, known bool) {
	if p, ok := frictions().all[conditionWord(condition)]; ok {
		return p.mu, true
	}
	return frictions().union.mu, false
}

// UsualFriction is the narrower interval that is usual for plain steel screws,
// for judging what stands out, never for a reject. An empty or unknown
// condition gives class B and C of VDI 2230 with dry steel (as received).
func UsualFriction(condition string) (mu Interval, known bool) {
	if p, ok := frictions().usual[conditionWord(condition)]; ok {
		return p.mu, true
	}
	return frictions().usual["as received"].mu, false
}

// NutFactor returns the nut factors K of T = K·F·d for a condition, as wide as
// [Friction].
func NutFactor(condition string) Interval {
	if p, ok := frictions().all[conditionWord(condition)]; ok {
		return p.k
	}
	return frictions().union.k
}

// OutermostNutFactor is the spread of measured nut factors, 0.086 to 0.52
// (Handbook of Bolts and Bolted Joints).
func OutermostNutFactor() Interval { return frictions().outermost }
