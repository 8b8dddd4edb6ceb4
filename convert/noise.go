package convert

import (
	"slices"
	"strings"
)

// unreadUnit says why a spelling is in none of the wanted dimensions: it
// measures something else, it is known but misread by a scanner, or it is not
// known at all. The readings are units alone.
func unreadUnit(spelling string, want Dimensions, at Place) *Problem {
	if e, ok := lookup(spelling, all&^want); ok {
		d := e.unit.Dimension()
		if e.doubt != nil {
			d = e.doubt.dimension
		}
		return &Problem{Kind: WrongDimension, At: at, Message: quote(spelling) + " is " + d.withArticle() + "; here " + want.String() + " is wanted"}
	}
	p := &Problem{Kind: UnknownUnit, At: at}
	for _, u := range lookAlikes(spelling, want) {
		p.Readings = append(p.Readings, Quantity{Unit: u})
	}
	p.Message = "unit " + quote(spelling) + " is not known"
	switch near := nearest(spelling, want); {
	case len(p.Readings) > 0:
		p.Message += "; it looks like a misread " + or(texts(p.Readings, Point))
	case near != "":
		p.Message += "; did you mean " + near + "?"
	default:
		if us := usualOf(want); len(us) > 0 {
			p.Message += "; " + want.String() + " is written in " + or(us)
		}
	}
	return p
}

// usualOf lists the symbols of the usual units of the wanted dimensions.
func usualOf(want Dimensions) []string {
	var ss []string
	for d := Ratio; d < dimensions; d++ {
		if want.Has(d) {
			for _, u := range d.usual() {
				ss = append(ss, u.Symbol())
			}
		}
	}
	return ss
}

// What a scanner takes for what. Met in scanned manuals: Ib-ft and 1b-ft for
// lb-ft, N•rn and Nom for N·m, N ). m, NŽm, 0 for ° (call-outs of US Army
// technical manuals).
var misread = strings.NewReplacer(
	"rn", "m", "i", "l", "1", "l", "|", "l", "!", "l", "í", "l",
	"0", "o", "°", "o", "º", "o", "○", "o",
	"(", "", ")", "", "[", "", "]", "", ",", "", ";", "", ":", "", "~", "", "ž", "", "'", "", "`", "",
)

// skeleton is a key with everything that a scanner confuses made one.
func skeleton(key []byte) string { return misread.Replace(strings.ToLower(string(key))) }

// lookAlikes finds the units whose spelling a scanner can turn into this one,
// at most three, in the order of the table.
func lookAlikes(spelling string, want Dimensions) []Unit {
	var buf [maxSpelling]byte
	key, ok := appendKey(buf[:0], spelling)
	if !ok || len(key) == 0 {
		return nil
	}
	full := skeleton(key)
	bare := strings.ReplaceAll(full, "o", "") // a raised dot read as o: Nom
	var found []Unit
	ls := lexicons()
	for d := Ratio; d < dimensions; d++ {
		if !want.Has(d) {
			continue
		}
		for k, e := range ls[d].exact {
			if s := skeleton([]byte(k)); s != full && s != bare {
				continue
			}
			if e.doubt != nil {
				found = append(found, e.doubt.units...)
			} else {
				found = append(found, e.unit)
			}
		}
	}
	slices.Sort(found)
	found = slices.Compact(found)
	return found[:min(len(found), 3)]
}

// nearest is the symbol of the unit with the spelling nearest to this one, two
// slips of a typist away at most and one in three of its letters, or "".
func nearest(spelling string, want Dimensions) string {
	var buf [maxSpelling]byte
	key, ok := appendKey(buf[:0], spelling)
	if !ok {
		return ""
	}
	most := min(2, len(key)/3)
	best, unit := most+1, Unit(0)
	ls := lexicons()
	for d := Ratio; d < dimensions; d++ {
		if !want.Has(d) {
			continue
		}
		for k, e := range ls[d].folded {
			if e.doubt != nil {
				continue
			}
			n := distance(string(lower(nil, key)), k, best)
			if n < best || n == best && n <= most && e.unit < unit {
				best, unit = n, e.unit
			}
		}
	}
	if best > most {
		return ""
	}
	return unit.Symbol()
}

// distance counts the letters to change, add, drop or exchange with their
// neighbour between a and b; anything above limit is limit+1.
func distance(a, b string, limit int) int {
	if len(a)-len(b) > limit || len(b)-len(a) > limit {
		return limit + 1
	}
	prev2, prev, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(prev[j]+1, row[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], prev2[j-2]+1)
			}
		}
		prev2, prev, row = prev, row, prev2
	}
	return min(prev[len(b)], limit+1)
}
