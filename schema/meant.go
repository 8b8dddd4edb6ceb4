package schema

import (
	"slices"
	"strings"
)

// What was meant by a word or a field that the format does not have. A
// suggestion is taken over in a hurry, so that one that changes the meaning is
// worse than none: where a word may stand for several they are all named, and
// where the nearest one would mislead there is an entry without any.

// meantField maps names that people give to fields to the name of the format,
// where no likeness of letters would find it.
var meantField = map[string]string{
	"torque": "to", "angle": "turn", "back off": "loosen", "bolt": "fastener", "bolts": "fastener", "screw": "fastener",
	"material": "into", "lubrication": "threads", "lube": "threads", "condition": "threads", "quantity": "count", "qty": "count",
	"number": "count", "grade": "class", "property-class": "class", "sequence": "order", "name": "where", "location": "where",
	"wear": "wear-limit", "service-limit": "wear-limit", "type": "kind", "warnings": "caution", "hazards": "caution",
	"capacity": "amounts", "volume": "amounts", "page": "at", "oil": "fluid", "steps": "tighten", "measure": "of", "reason": "because",
}

// meant maps words of the trade to the words of the format that they may stand
// for. Common practice, no source.
var meant = map[string][]string{
	// type
	"bolt": {"screw"}, "cap screw": {"screw"}, "capscrew": {"screw"}, "grub screw": {"set screw"},
	"locknut": {"prevailing nut"}, "lock nut": {"prevailing nut"}, "locking nut": {"prevailing nut"},
	"drain screw": {"plug"}, "flare nut": {"tube nut"}, "union nut": {"tube nut"}, "pipe nut": {"tube nut"},
	"bearing nut": {"nut", "adjusting nut"}, "adjusting screw": nil, "bleed screw": nil, "bleeder screw": nil,
	// threads
	"lubricated": {"oiled", "moly", "anti-seize"}, "oil": {"oiled"}, "greased": nil, "clean": {"dry", "as received"}, "plain": {"as received"}, "galvanised": {"plated"}, "galvanized": {"plated"}, "unlubricated": {"dry"},
	"unoiled": {"dry"}, "oil free": {"dry"}, "free of oil": {"dry"}, "non lubricated": {"dry"}, "not lubricated": {"dry"}, "not oiled": {"dry"}, "dry film": nil,
	"molybdenum disulfide": {"moly"}, "molybdenum disulphide": {"moly"}, "mos2": {"moly"}, "copper grease": {"anti-seize"},
	"copper paste": {"anti-seize"}, "locking compound": {"threadlocker"}, "thread lock": {"threadlocker"}, "as delivered": {"as received"},
	// into
	"aluminium": {"cast aluminium", "wrought aluminium"}, "aluminium alloy": {"cast aluminium", "wrought aluminium"}, "forged aluminium": {"wrought aluminium"},
	"extruded aluminium": {"wrought aluminium"}, "alloy": {"cast aluminium", "wrought aluminium", "magnesium"},
	"grey iron": {"cast iron"}, "gray iron": {"cast iron"}, "nodular iron": {"ductile iron"}, "aluminium bronze": nil,
	// head
	"hexagon": {"hex"}, "socket": {"socket cap"}, "socket head": {"socket cap"}, "allen": {"socket cap"}, "hex socket": {"socket cap"},
	"hexagon socket": {"socket cap"}, "cap": {"hex", "socket cap"}, "flange": {"hex flange"}, "flanged": {"hex flange"},
	"flat": {"countersunk"}, "flat head": {"countersunk"}, "pin": nil,
	// seal
	"copper washer": {"crush washer"}, "sealing washer": {"crush washer", "bonded seal"}, "washer": {"crush washer", "bonded seal"},
	"liquid gasket": {"sealant"},
	// pattern
	"star": {"criss-cross"}, "cross": {"criss-cross"}, "crosswise": {"criss-cross"}, "diagonal": {"criss-cross"}, "clockwise": {"circular"},
	"centre out": {"centre outwards"}, "inside out": {"centre outwards"}, "outside in": nil, "centre inwards": nil,
	// engine
	"stopped": {"off"}, "not running": {"off"}, "idle": {"idling"}, "tickover": {"idling"}, "running": nil, "on": nil,
	// by
	"stick": {"dipstick"}, "glass": {"sight glass"}, "window": {"sight glass"},
	// of
	"axial play": {"end float"}, "end play": {"end float"}, "endplay": {"end float"}, "ovality": {"out-of-round"}, "roundness": {"out-of-round"},
	"lash": {"backlash"}, "valve lash": {"clearance"}, "play in mesh": {"backlash"}, "gear play": {"backlash"}, "eccentricity": {"runout"}, "warp": {"flatness"}, "warpage": {"flatness"},
	"spring force": {"spring load"}, "spring length": {"free length", "length"}, "load": {"spring load", "preload"},
	"torque": {"rolling torque", "preload"}, "drag torque": {"rolling torque"}, "turning torque": {"rolling torque"}, "weight": {"mass"},
	"inside diameter": {"bore"}, "inner diameter": {"bore"}, "internal diameter": {"bore"}, "bore diameter": {"bore"},
	"hole diameter": {"bore"}, "cylinder diameter": {"bore"}, "drum diameter": {"bore"}, "bush diameter": {"bore", "diameter"},
	"bushing diameter": {"bore", "diameter"}, "compression": {"pressure"}, "capacity": {"volume"}, "rpm": {"speed"}, "tension": nil, "tolerance": nil, "straightness": nil, "strength": nil,
	// when
	"refill": {"drain and refill"}, "oil change": {"drain and refill"}, "service": {"drain and refill"}, "service fill": {"drain and refill"}, "change": {"drain and refill", "filter change"},
	"with filter": {"filter change"}, "overhaul": {"after overhaul"}, "dry": {"dry fill"}, "initial fill": {"dry fill"}, "first fill": {"dry fill"},
	"total": {"dry fill"}, "fill": nil,
	// kind of source, decimal
	"manufacturer": {"maker"}, "oem": {"maker"}, "manual": {"maker"}, "workshop manual": {"maker"}, "shop manual": {"maker"}, ",": {"comma"}, ".": {"point"},
}

// negating are words and beginnings that turn the meaning of what follows.
var negating = []string{"no", "not", "non", "un", "without", "never"}

// Meant returns the words of known that a word was meant to be, at most three,
// or none: those of the trade that it stands for; those that it holds, as
// piston clearance holds clearance, or that hold it; else the one that lies
// nearest in spelling.
func Meant(word string, known []string) []string {
	text := spaced(word)
	if text == "" {
		return nil
	}
	for _, k := range known {
		if string(letters(k)) == string(letters(text)) {
			return []string{k}
		}
	}
	if words, ok := ofTrade(text, known); ok {
		return words
	}
	if negated(text) {
		return nil
	}
	for _, words := range [][]string{heldBy(text, known), holding(text, known)} {
		if len(words) > 3 {
			return nil
		}
		if len(words) > 0 {
			return words
		}
	}
	return nearestMeant(text, known)
}

// ofTrade looks a text up among the words of the trade; ok is false where it
// does not stand there for this list.
func ofTrade(text string, known []string) (words []string, ok bool) {
	m, there := meant[text]
	for _, w := range m {
		if slices.Contains(known, w) {
			words = append(words, w)
		}
	}
	return words, words != nil || there && m == nil
}

// spaced is a text in lower case and British spelling, its words parted by
// single blanks.
func spaced(word string) string {
	text := strings.NewReplacer("-", " ", "_", " ").Replace(strings.ToLower(clip(word, 100)))
	text = strings.Join(strings.Fields(text), " ")
	return strings.NewReplacer("aluminum", "aluminium", "center", "centre").Replace(text)
}

// negated reports that a text says that something is not so.
func negated(text string) bool {
	for w := range strings.FieldsSeq(text) {
		if slices.Contains(negating, w) {
			return true
		}
	}
	return false
}

// heldBy lists the known words that stand in a text as words of their own, and
// where there is none what the words of the trade in it mean. A word within a
// longer one, as nut in lock nut, is not meant.
func heldBy(text string, known []string) []string {
	type found struct {
		from, to int
		means    []string
		own      bool // it is a known word, not one of the trade
	}
	var all []found
	see := func(phrase string, means []string, own bool) {
		if i := wordAt(text, phrase); i >= 0 && phrase != "" {
			all = append(all, found{i, i + len(phrase), means, own})
		}
	}
	for _, k := range known {
		see(spaced(k), []string{k}, true)
	}
	for phrase := range meant {
		if means, ok := ofTrade(phrase, known); ok {
			see(phrase, means, false)
		}
	}
	all = slices.DeleteFunc(slices.Clone(all), func(f found) bool {
		return slices.ContainsFunc(all, func(g found) bool {
			return g.from <= f.from && f.to <= g.to && g.to-g.from > f.to-f.from
		})
	})
	hasOwn := slices.ContainsFunc(all, func(f found) bool { return f.own })
	var words []string
	for _, k := range known {
		if slices.ContainsFunc(all, func(f found) bool { return f.own == hasOwn && slices.Contains(f.means, k) }) {
			words = append(words, k)
		}
	}
	return words
}

// holding lists the known words that hold a text as words of their own.
func holding(text string, known []string) (words []string) {
	for _, k := range known {
		if wordAt(spaced(k), text) >= 0 {
			words = append(words, k)
		}
	}
	return words
}

// wordAt is where a phrase stands in a text as words of their own, -1 where it
// does not.
func wordAt(text, phrase string) int {
	if i := strings.Index(" "+text+" ", " "+phrase+" "); i >= 0 {
		return i
	}
	return -1
}

// nearestMeant is what lies nearest in spelling, by two letters at most: a word
// of the list, or one of the trade that means one.
func nearestMeant(text string, known []string) (words []string) {
	w := letters(text)
	limit := 2
	if len(w) <= 4 {
		limit = 1
	}
	best := limit + 1
	see := func(phrase string, means []string) {
		l := letters(phrase)
		d := distance(w, l)
		if d > best || d > limit || 2*d >= max(len(w), len(l)) || turns(string(w), string(l)) {
			return
		}
		if d < best {
			best, words = d, nil
		}
		for _, m := range means {
			if !slices.Contains(words, m) {
				words = append(words, m)
			}
		}
	}
	for _, k := range known {
		see(k, []string{k})
	}
	for phrase := range meant {
		if means, ok := ofTrade(phrase, known); ok {
			see(phrase, means)
		}
	}
	slices.SortFunc(words, func(a, b string) int { return slices.Index(known, a) - slices.Index(known, b) })
	return words[:min(len(words), 3)]
}

// turns reports that one of two words is the other with a beginning that turns
// its meaning: unplated, plated.
func turns(a, b string) bool {
	if len(a) < len(b) {
		a, b = b, a
	}
	rest, ok := strings.CutSuffix(a, b)
	return ok && slices.Contains(negating, rest)
}
