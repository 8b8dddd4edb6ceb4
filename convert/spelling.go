package convert

import (
	"strings"
	"sync"
	"unicode/utf8"
)

// maxSpelling is the longest spelling that is looked up, in bytes of its key.
const maxSpelling = 40

// A spelling is looked up by its key: the text without what print puts between
// the parts of a unit (points, hyphens, spaces, raised dots), with one code
// point for each sign that has several. "lb. ft.", "lb-ft" and "lb·ft" are one
// key, "lb/ft" and "N m/m" are others.
type entry struct {
	unit  Unit
	doubt *doubt // not nil: the spelling is refused in this dimension
}

// lexicon holds the spellings of one dimension by their exact key and by the
// key in lower case.
type lexicon struct{ exact, folded map[string]entry }

var lexicons = sync.OnceValue(func() *[dimensions]lexicon {
	ls := new([dimensions]lexicon)
	for d := range ls {
		ls[d] = lexicon{map[string]entry{}, map[string]entry{}}
	}
	for i := 1; i < len(table); i++ {
		r := &table[i]
		l := &ls[r.dimension]
		l.add(r.symbol, entry{unit: Unit(i)})
		for s := range strings.SplitSeq(r.spellings, "|") {
			l.add(s, entry{unit: Unit(i)})
		}
	}
	for i := range doubts {
		d := &doubts[i]
		d.resolve()
		for s := range strings.SplitSeq(d.spellings, "|") {
			ls[d.dimension].add(s, entry{doubt: d})
		}
	}
	return ls
})

// add enters a spelling. Two spellings that differ only in their case leave
// the key in lower case in doubt: MOHM may be mΩ or MΩ.
func (l *lexicon) add(spelling string, e entry) {
	if spelling == "" {
		return
	}
	var buf, low [maxSpelling]byte
	key, ok := appendKey(buf[:0], spelling)
	if !ok {
		return
	}
	l.exact[string(key)] = e
	folded := lower(low[:0], key)
	old, seen := l.folded[string(folded)]
	switch {
	case !seen:
		l.folded[string(folded)] = e
	case old.doubt == nil && e.doubt == nil && old.unit != e.unit:
		l.folded[string(folded)] = entry{doubt: &doubt{
			dimension: e.unit.Dimension(), kind: Ambiguous, units: []Unit{old.unit, e.unit},
			because: "has letters of the wrong case, and the case decides",
		}}
	}
}

// find looks a key up. low is scratch space.
func (l *lexicon) find(key, low []byte) (entry, bool) {
	if e, ok := l.exact[string(key)]; ok {
		return e, true
	}
	e, ok := l.folded[string(lower(low, key))]
	if ok && e.doubt == nil && caseDecides(e.unit) && key[0]^e.unit.Symbol()[0] == 'a'-'A' {
		return entry{doubt: &doubt{
			dimension: e.unit.Dimension(), kind: Ambiguous, units: []Unit{e.unit},
			because: "is in doubt, for m is milli and M is mega",
		}}, true
	}
	return e, ok
}

// caseDecides reports whether the first letter of a unit tells milli from mega.
func caseDecides(u Unit) bool {
	switch u.Symbol() {
	case "mN·m", "MPa", "mV", "mA", "mΩ", "MΩ", "mPa·s":
		return true
	}
	return false
}

// lower appends the key with its ASCII letters in lower case.
func lower(dst, key []byte) []byte {
	for _, c := range key {
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		dst = append(dst, c)
	}
	return dst
}

// appendKey appends the key of a spelling and reports whether it fits.
func appendKey(dst []byte, s string) ([]byte, bool) {
	for i := 0; i < len(s); {
		c := s[i]
		if c < utf8.RuneSelf {
			i++
			switch c {
			case ' ', '\t', '.', '-', '_', '*', '^':
				continue
			}
			if len(dst) == maxSpelling {
				return dst, false
			}
			dst = append(dst, c)
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		i += n
		if isSpace(r) {
			continue
		}
		switch r {
		case '·', '•', '⋅', '∙', '×', '‐', '‑', '⁻':
			continue
		case 'μ':
			r = 'µ'
		case '\u2126': // the ohm sign
			r = '\u03a9' // the letter
		case 'º', '˚':
			r = '°'
		case '²':
			r = '2'
		case '³':
			r = '3'
		case '¹':
			r = '1'
		case '’', '′', '‘':
			r = '\''
		case '”', '″', '“':
			r = '"'
		case '⁄', '∕':
			r = '/'
		case '℃', '℉':
			if len(dst)+3 > maxSpelling {
				return dst, false
			}
			dst = append(dst, "°"...)
			if r == '℃' {
				r = 'C'
			} else {
				r = 'F'
			}
		}
		if len(dst)+utf8.RuneLen(r) > maxSpelling {
			return dst, false
		}
		dst = utf8.AppendRune(dst, r)
	}
	return dst, true
}

// isSpace reports the blanks of print: no-break, figure, thin and hair spaces.
func isSpace(r rune) bool {
	switch r {
	case ' ', '\t', '\u00a0', '\u2002', '\u2003', '\u2007', '\u2008', '\u2009', '\u200a', '\u202f':
		return true
	}
	return false
}

// lookup finds a spelling in the wanted dimensions, lowest first; one that has a
// unit goes before one that is in doubt.
func lookup(spelling string, want Dimensions) (found entry, ok bool) {
	var buf, low [maxSpelling]byte
	key, fits := appendKey(buf[:0], spelling)
	if !fits || len(key) == 0 {
		return entry{}, false
	}
	ls := lexicons()
	for d := Ratio; d < dimensions; d++ {
		if !want.Has(d) {
			continue
		}
		e, is := ls[d].find(key, low[:0])
		if is && e.doubt == nil {
			return e, true
		}
		if is && !ok {
			found, ok = e, true
		}
	}
	return found, ok
}

// all is every dimension that has units.
const all = Dimensions(1<<dimensions-1) &^ (1<<NoDimension | 1<<Number)

// ReadUnit reads any spelling met in print in the dimensions that are wanted.
// The problem's readings are quantities of which only the unit counts.
func ReadUnit(spelling string, want Dimensions) (Unit, *Problem) {
	e, ok := lookup(spelling, want)
	if ok && e.doubt == nil {
		return e.unit, nil
	}
	at := Place{0, len(spelling)}
	if !ok {
		return 0, unreadUnit(spelling, want, at)
	}
	p := &Problem{Kind: e.doubt.kind, At: at}
	for _, u := range e.doubt.units {
		p.Readings = append(p.Readings, Quantity{Unit: u})
	}
	p.Message = e.doubt.message(spelling, "", p.Readings, Point)
	return 0, p
}
