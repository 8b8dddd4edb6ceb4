package convert

import (
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// figureTexts seed the fuzzing of figures; they are the texts of the tables in
// parse_test.go.
func figureTexts() []string {
	var ts []string
	for _, tt := range clearFigures {
		ts = append(ts, tt.text)
	}
	for _, tt := range doubtfulFigures {
		ts = append(ts, tt.text)
	}
	return ts
}

// FuzzParse: a figure that is read, printed and read again is the same figure;
// its digits survive; every place lies inside the text; nothing panics.
func FuzzParse(f *testing.F) {
	for _, c := range callouts(f) {
		f.Add(c.printed, uint8(c.dimension()), false)
	}
	for _, text := range figureTexts() {
		for d := Number; d < dimensions; d += 3 {
			f.Add(text, uint8(d), d%2 == 0)
		}
	}
	f.Fuzz(func(t *testing.T, text string, d uint8, comma bool) {
		want, mark := Of(Dimension(d%uint8(dimensions))), Point
		if comma {
			mark = Comma
		}
		q, p := Parse(text, want, mark)
		inside := func(at Place) {
			t.Helper()
			if at.Start < 0 || at.End < at.Start || at.End > len(text) {
				t.Errorf("%q: place %v outside", text, at)
			}
		}
		inside(q.FirstAt)
		inside(q.SecondAt)
		inside(q.UnitAt)
		if p != nil {
			inside(p.At)
			if p.Message == "" || !utf8.ValidString(p.Error()) || p.Kind == 0 {
				t.Errorf("%q: problem %+v", text, p)
			}
			for _, r := range p.Readings {
				inside(r.FirstAt)
				inside(r.SecondAt)
				inside(r.UnitAt)
				readBack(t, text, r, want)
			}
			return
		}
		readBack(t, text, q, want)
		if q.Form != Tolerance && q.Form != AtMost && q.First.Den <= 1 && !strings.ContainsAny(text[q.FirstAt.Start:q.FirstAt.End], "eE") {
			printed := strings.Map(func(r rune) rune {
				if '0' <= r && r <= '9' {
					return r
				}
				return -1
			}, text[q.FirstAt.Start:q.FirstAt.End])
			printed = strings.TrimLeft(printed, "0")
			if kept := strings.TrimLeft(strconv.FormatInt(max(q.First.Mant, -q.First.Mant), 10), "0"); kept != printed {
				t.Errorf("%q: digits %q of %q survive", text, kept, printed)
			}
		}
		lo, hi := q.Bounds()
		wlo, whi := q.Widened()
		if q.Unit.Symbol() != "TPI" && (lo > hi || wlo > lo || whi < hi) {
			t.Errorf("%q: bounds %v to %v, widened %v to %v", text, lo, hi, wlo, whi)
		}
		if a := Agree(q, q); a.Outcome != Exact || a.Certain() {
			t.Errorf("%q does not agree with itself: %v", text, a)
		}
	})
}

func readBack(t *testing.T, text string, q Quantity, want Dimensions) {
	t.Helper()
	q.FirstAt, q.SecondAt, q.UnitAt = Place{}, Place{}, Place{}
	printed := q.String()
	back, p := Parse(printed, want, Point)
	if p != nil {
		t.Errorf("%q is %q, which is not read: %v", text, printed, p)
		return
	}
	back.FirstAt, back.SecondAt, back.UnitAt = Place{}, Place{}, Place{}
	if back != q {
		t.Errorf("%q is %q, which reads as %q: %+v, want %+v", text, printed, back.String(), back, q)
	}
}

// FuzzReadUnit: what is read is of a wanted dimension and reads back from its
// symbol; what is not read has a message.
func FuzzReadUnit(f *testing.F) {
	for i := range table {
		for s := range strings.SplitSeq(table[i].symbol+"|"+table[i].spellings, "|") {
			f.Add(s, uint8(table[i].dimension))
		}
	}
	for i := range doubts {
		for s := range strings.SplitSeq(doubts[i].spellings, "|") {
			f.Add(s, uint8(doubts[i].dimension))
		}
	}
	for _, s := range []string{"Ib-ft", "N•rn", "N ). m", "Nom", "1b", "lbf·tf", "MOHM"} {
		f.Add(s, uint8(Torque))
	}
	f.Fuzz(func(t *testing.T, spelling string, d uint8) {
		want := Of(Dimension(d % uint8(dimensions)))
		u, p := ReadUnit(spelling, want)
		if p != nil {
			if u != 0 || p.Message == "" || !utf8.ValidString(p.Message) || p.At != (Place{0, len(spelling)}) {
				t.Errorf("%q: %v, %+v", spelling, u, p)
			}
			for _, q := range p.Readings {
				if !want.Has(q.Unit.Dimension()) {
					t.Errorf("%q: reading %s is %s", spelling, q.Unit, q.Unit.Dimension())
				}
			}
			return
		}
		if !want.Has(u.Dimension()) {
			t.Errorf("%q is %s, %s", spelling, u, u.Dimension())
		}
		if back, p := ReadUnit(u.Symbol(), want); p != nil || back != u {
			t.Errorf("%q is %s, which reads as %s, %v", spelling, u, back, p)
		}
	})
}
