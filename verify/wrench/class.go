package wrench

import (
	"strconv"
	"strings"
	"sync"

	"snapgauge/convert"
	"snapgauge/reference"
)

// Off is what a wrench may be off, in parts of its reading.
type Off struct {
	Part   float64 // 0.04
	Source reference.Citation
	Stated bool // by the shop, for its own wrench
}

// OffOf is what a wrench of a class may be off, by its greatest torque in N·m. A
// class is a type and a class of ISO 6789 (II A, type II class A), or what the
// wrench may be off (±3 %); without one it is taken for a good one, which may be off
// by 4 %, and by 6 % where it ends at 10 N·m or below. ok is false for a class that
// is neither, and for one that the tables do not have.
func OffOf(class string, greatestNm float64) (off Off, ok bool) {
	if strings.TrimSpace(class) == "" {
		class = "II A"
	}
	if kind, letter, ok := isoClass(class); ok {
		off, ok = deviations()[deviation{kind, letter, greatestNm <= smallNm}]
		return off, ok
	}
	q, problem := convert.Parse(class, convert.Of(convert.Ratio), convert.Point)
	if problem != nil || q.Form != convert.Tolerance {
		return Off{}, false
	}
	lo, hi := q.Bounds()
	part := max(hi, -lo)
	return Off{Part: part, Stated: true}, part > 0 && part < 1
}

// isoClass reads II A, type II class A, ISO 6789:2003 type II class A.
func isoClass(text string) (kind, letter string, ok bool) {
	text = strings.ToUpper(strings.Join(strings.Fields(text), ""))
	if strings.HasPrefix(text, "ISO6789") {
		if _, text, ok = strings.Cut(text, "TYPE"); !ok {
			return "", "", false
		}
	}
	text = strings.TrimPrefix(text, "TYPE")
	for _, of := range []struct{ as, kind string }{{"II", "II"}, {"2", "II"}, {"I", "I"}, {"1", "I"}} {
		rest, ok := strings.CutPrefix(text, of.as)
		if !ok {
			continue
		}
		letter = strings.TrimPrefix(strings.TrimLeft(rest, ",-"), "CLASS")
		return of.kind, letter, len(letter) == 1 && letter >= "A" && letter <= "G"
	}
	return "", "", false
}

// smallNm parts the rows of the table of ISO 6789. That the greatest torque of the
// wrench decides, and not its setting, is from memory.
const smallNm = 10.0

type deviation struct {
	kind, class string
	small       bool
}

// deviations are the permissible deviations of ISO 6789.
var deviations = sync.OnceValue(func() map[deviation]Off {
	out := map[deviation]Off{}
	for _, row := range reference.WrenchRows("permissible deviation") {
		percent, err := strconv.ParseFloat(row.High, 64)
		if err != nil || row.Unit != "%" {
			continue
		}
		out[deviation{row.Type, row.Class, strings.HasPrefix(row.Range, "up to")}] = Off{Part: percent / 100, Source: row.Source}
	}
	return out
})
