package reference

import (
	"math"
	"slices"
	"strings"
	"sync"
)

// Bearing is the ring on which a head or nut turns. Its mean diameter is
// (Dw+Hole)/2 (VDI 2230).
type Bearing struct {
	Kind   string  // "hex, ISO 4014 / ISO 4017 grade A"
	Dw     float64 // outer diameter, mm
	Hole   float64 // clearance hole, mm
	Source Citation
}

// bearingRow is one head of one size.
type bearingRow struct {
	head, name   string
	metric       bool
	d            float64 // nominal diameter, mm
	inner, outer float64 // smallest and largest bearing diameter, mm
	source       Citation
}

type bearingTable struct {
	heads []bearingRow
	holes []bearingRow // inner is the hole
}

var bearings = sync.OnceValue(func() bearingTable {
	var tab bearingTable
	for _, r := range mustTable("head-bearing.csv") {
		kind, standard := r.text("kind"), r.text("standard")
		b := bearingRow{
			name: kind + ", " + standard, metric: strings.HasPrefix(r.text("size"), "M"),
			d: r.number("nominal_mm"), source: r.cite(),
		}
		dw, dia, s := r.number("dw_min_mm"), r.number("head_dia_max_mm"), r.number("s_mm")
		switch {
		case kind == "clearance-hole":
			b.inner = r.number("hole_mm")
			tab.holes = append(tab.holes, b)
			continue
		case dw > 0:
			b.inner, b.outer = dw, max(dw, dia)
		case dia > 0:
			b.inner, b.outer = dia, dia
		case !b.metric:
			// Shigley takes the width across flats, an open data set 0.95 of it.
			b.inner, b.outer = 0.95*s, s
		default: // small hexagons, of which only the width across flats was seen
			b.inner, b.outer = 0.9*s, 0.9*s
			b.source.Text += "; bearing diameter 0.9 of the width across flats, as in ISO 4014"
			b.source.Seen = Computed
		}
		b.head = headOf[kind]
		tab.heads = append(tab.heads, b)
	}
	return tab
})

var headOf = map[string]string{
	"hex": "hex", "hex-old": "hex", "hex-small": "hex", "hex-flange": "hex flange", "socket-cap": "socket cap",
}

// proportion is a head of which no table is here: diameters as shares of the
// thread diameter.
type proportion struct {
	head, name   string
	inner, outer float64
	source       string
}

// Head diameters of ISO 7380 (M3 5.7 to M12 21), ISO 7045 (M3 5.6, M10 20) and
// ISO 10642 (M3 5.54 to M12 26.88), from memory. The cone of a countersunk head
// wedges: its friction acts as on a ring 1/sin 45° times as large, so the outer
// figure carries that factor.
var proportions = []proportion{
	{"button", "button, ISO 7380", 1.6, 1.9, "iso-7380"},
	{"pan", "pan, ISO 7045", 1.7, 2.0, "iso-7045"},
	{"countersunk", "countersunk, ISO 10642", 1.8, 2.24 * 1.4143, "iso-10642"},
}

// headSynonyms are other names of the heads of a spec file.
var headSynonyms = map[string][]string{
	"hex": {"hex"}, "hexagon": {"hex"}, "hex flange": {"hex flange"}, "flange": {"hex flange"},
	"socket cap": {"socket cap"}, "socket head cap": {"socket cap"}, "socket head": {"socket cap"},
	"button": {"button"}, "countersunk": {"countersunk"}, "flat": {"countersunk"}, "pan": {"pan"},
	"hexalobular": {"socket cap", "pan", "button", "hex flange"}, "torx": {"socket cap", "pan", "button", "hex flange"},
}

// BearingOf returns the plausible bearing rings of a head (hex, hex flange,
// socket cap, button, countersunk, pan, hexalobular) on a thread: of every
// standard that has that size the smallest and the largest. A head that is not
// given or not known gives the union over all heads. Where no table has the
// size the rings are estimated by proportion and marked Computed. Nil where the
// diameter of the thread is not known.
func BearingOf(head string, t Thread) []Bearing {
	if t.D <= 0 {
		return nil
	}
	key := bearingKey{head, t.Family == Unified, t.D}
	list, ok := bearingMemo.get(key)
	if !ok {
		list = bearingsOf(head, t)
		if len(head) < 64 {
			bearingMemo.put(key, list)
		}
	}
	return slices.Clone(list)
}

type bearingKey struct {
	head string
	inch bool
	d    float64
}

var bearingMemo memo[bearingKey, []Bearing]

func bearingsOf(head string, t Thread) []Bearing {
	heads, ok := headSynonyms[strings.ToLower(strings.TrimSpace(head))]
	if !ok {
		heads = []string{"hex", "hex flange", "socket cap", "button", "pan", "countersunk"}
	}
	hole, holeSource := holeOf(t)
	var out []Bearing
	add := func(name string, dw float64, source Citation) {
		if holeSource.Seen == Computed && source.Seen < Memory {
			source.Text += "; hole " + holeSource.Text
			source.Seen = Computed
		}
		out = append(out, Bearing{Kind: name, Dw: dw, Hole: hole, Source: source})
	}
	for _, h := range heads {
		found := false
		for _, b := range bearings().heads {
			if b.head == h && b.metric == (t.Family != Unified) && same(b.d, t.D) {
				found = true
				add(b.name, b.inner, b.source)
				if b.outer > b.inner {
					add(b.name+", edge", b.outer, b.source)
				}
			}
		}
		if found {
			continue
		}
		p := proportionOf(h)
		source := Citation{ID: p.source, Text: Cite(p.source).Text + ", by proportion to the diameter", Seen: Computed}
		add(p.name, p.inner*t.D, source)
		add(p.name+", edge", p.outer*t.D, source)
	}
	return out
}

// proportionOf gives the shares of a head; where there is a table, the least
// and the largest share in it.
func proportionOf(head string) proportion {
	if i := slices.IndexFunc(proportions, func(p proportion) bool { return p.head == head }); i >= 0 {
		return proportions[i]
	}
	p := proportion{head: head, name: head, inner: math.Inf(1)}
	for _, b := range bearings().heads {
		if b.head == head {
			p.inner, p.outer = min(p.inner, b.inner/b.d), max(p.outer, b.outer/b.d)
			if p.source == "" {
				p.source = b.source.ID
			}
		}
	}
	return p
}

// holeOf is the clearance hole of ISO 273 medium, or a tenth above the diameter.
func holeOf(t Thread) (float64, Citation) {
	for _, b := range bearings().holes {
		if t.Family != Unified && same(b.d, t.D) {
			return b.inner, b.source
		}
	}
	return 1.1 * t.D, Citation{ID: "iso-273", Text: "1.1 of the diameter, as ISO 273:1979 medium about M10", Seen: Computed}
}
