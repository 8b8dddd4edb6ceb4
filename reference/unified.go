package reference

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
)

// Threads per inch of ASME B1.1, and those of other inch threads still met
// (Whitworth, BSF, cycle and pipe threads, wood and tapping screws); from memory.
var (
	unifiedTPI = []float64{
		80, 72, 64, 56, 48, 44, 40, 36, 32, 28, 27, 24, 20, 18, 16, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4.5, 4,
	}
	otherTPI = []float64{60, 50, 30, 26, 25, 22, 19, 15, 11.5, 3.5, 3.25, 3}
)

// numbered is the diameter in inches of size numbers: 0.060 + 0.013·n.
func numbered(n int) float64 { return 0.060 + 0.013*float64(n) }

var numberSizes = []int{0, 1, 2, 3, 4, 5, 6, 8, 10, 12}

// standardInches lists the diameters of ASME B1.1: the numbered sizes, by
// sixteenths to 3 in, by eighths to 6 in.
var standardInches = sync.OnceValue(func() []float64 {
	var out []float64
	for _, n := range numberSizes {
		out = append(out, numbered(n))
	}
	for i := 4; i <= 48; i++ {
		out = append(out, float64(i)/16)
	}
	for i := 25; i <= 48; i++ {
		out = append(out, float64(i)/8)
	}
	return out
})

// inchName writes a diameter as the trade does: No. 10, 1/4, 1-1/8, 0.26.
func inchName(d float64) string {
	for _, n := range numberSizes {
		// No. 5 is 0.125 in, the same as 1/8.
		if math.Abs(d-numbered(n)) < 1e-6 {
			return fmt.Sprintf("No. %d", n)
		}
	}
	whole, den := int(d), 64
	num := int(math.Round((d - float64(whole)) * 64))
	if math.Abs(float64(whole)+float64(num)/64-d) > 1e-4 {
		return plain(d)
	}
	for num%2 == 0 && den > 1 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", num, den)
	}
	return fmt.Sprintf("%d-%d/%d", whole, num, den)
}

// inches takes a size in inches: 1/4, 1-1/8, 1 1/8, 1.125, 1. The kind is 'f'
// for a fraction, 'd' for a decimal, 'i' for a whole number, '?' for a fraction
// that no rule is divided by (10/24).
func (s *scan) inches() (d float64, kind byte, ok bool) {
	i := s.i
	whole, ok := s.integer()
	if !ok || (s.peek() == '.' || s.peek() == ',') && isDigit(s.look(1)) {
		s.i = i
		d, ok = s.number()
		return d, 'd', ok
	}
	after := s.i
	if s.peek() == '/' { // 1/4
		s.i++
		if den, ok := s.integer(); ok {
			return fraction(0, whole, den)
		}
	}
	s.i = after
	if c := s.peek(); c == '-' || c == ' ' { // 1-1/8, 1 1/8, 1 - 1/8
		s.skip(" -")
		if num, ok := s.integer(); ok && s.peek() == '/' {
			s.i++
			if den, ok := s.integer(); ok && num < den {
				return fraction(whole, num, den)
			}
		}
	}
	s.i = after
	return float64(whole), 'i', true
}

func fraction(whole, num, den int) (float64, byte, bool) {
	if den == 0 {
		return 0, '?', true
	}
	kind := byte('f')
	if den < 2 || den > 64 || den&(den-1) != 0 || num%2 == 0 {
		kind = '?'
	}
	return float64(whole) + float64(num)/float64(den), kind, true
}

// unifiedLabel maps the printed names of series to ours: American National and
// trade names to the unified series, the rounded root (UNR) to its series.
var unifiedLabel = map[string]string{
	"unc": "UNC", "unf": "UNF", "unef": "UNEF", "un": "UN", "uns": "UNS",
	"unr": "UN", "unrc": "UNC", "unrf": "UNF", "unref": "UNEF", "unrs": "UNS",
	"nc": "UNC", "nf": "UNF", "nef": "UNEF", "n": "UN", "ns": "UNS", "uss": "UNC", "coarse": "UNC", "fine": "UNF",
}

// seriesFirst takes the series where it stands before the size: UNC 1/4-20.
func (s *scan) seriesFirst() {
	i := s.i
	word := s.word()
	label, ok := unifiedLabel[word]
	s.skip(" -.")
	size := isDigit(s.peek()) || s.peek() == '#' || s.hasWord("no") || s.hasWord("nr")
	if !ok || !size || word == "coarse" || word == "fine" {
		s.i = i
		return
	}
	s.series = label
}

// unified reads an inch designation without a family name.
func (s *scan) unified(t Thread) (Thread, *ThreadProblem) {
	begin := s.i
	isNumber := s.numberSign()
	d, kind, ok := s.inches()
	if !ok {
		return t, s.notAThread()
	}
	n := d
	if isNumber {
		if kind != 'i' {
			return t, s.notAThread()
		}
		d = numbered(int(n))
	}
	marked := s.inchMark()
	size := place{s.from(begin), s.from(s.i)}
	if s.metricWithoutM(n, kind) {
		return s.missingM(t, n)
	}
	tpi, at, given, crossed := s.threadsPerInch()
	if !isNumber && !marked && kind == 'i' && (given && sizeNumber(n, tpi) || !given && (n == 8 || n == 10 || n == 12)) {
		isNumber, d = true, numbered(int(n))
	}
	label, both := s.series, false
	read := Thread{Text: t.Text}
	rest := s.tail(&read, "1235", "ab", func(w string) bool {
		l, ok := unifiedLabel[w]
		switch {
		case ok && label != "" && l != label:
			label, both = "", true // "fine and coarse": any pitch
		case ok && !both:
			label = l
		}
		return ok || w == "sae" || w == "ansi" || w == "and" && label != ""
	})
	read = keepTail(unifiedThread(d, tpi, label), read)
	if given && crossed && !read.Listed {
		// 1/4 x 1 is a size and a length.
		length := s.text[at.start:at.end]
		read = keepTail(unifiedThread(d, 0, label), read)
		read.Length = length
		return read, &ThreadProblem{Start: at.start, End: at.end, Kind: LengthForPitch, Near: Nearest(read),
			Message: length + " in is a length, not threads per inch; " + inchName(d) + " is " + orList(Nearest(read))}
	}
	if p := unifiedSize(read, n, kind, isNumber, label, size); p != nil {
		return read, p
	}
	if given {
		if p := unifiedPitch(read, tpi, s.text[at.start:at.end], at); p != nil {
			return read, p
		}
		if p := mismatch(&read, label, tpi, place{size.start, len(s.text)}); p != nil {
			return read, p
		}
	}
	return read, rest
}

// numberSign takes what stands before a size number: #, No., Nr.
func (s *scan) numberSign() bool {
	i := s.i
	switch {
	case s.peek() == '#':
		s.i++
	case isLetter(s.peek()):
		s.word()
		s.skip(".")
	}
	s.skip(" ")
	return s.i > i
}

// inchMark takes an inch mark or the word, and tells whether one was there.
func (s *scan) inchMark() bool {
	i := s.i
	s.skip(" ")
	for _, w := range []string{"inches", "inch", "in"} {
		if s.hasWord(w) {
			s.i += len(w)
			s.skip(".")
			return true
		}
	}
	s.i = i
	s.skip("\"'")
	return s.i > i
}

// threadsPerInch takes -20, " - 20", x20, " 20". crossed tells that no dash was
// there, so that it may be a length.
func (s *scan) threadsPerInch() (tpi float64, at place, given, crossed bool) {
	back := s.i
	s.skip(" ")
	switch c := s.peek(); {
	case c == '-':
		s.i++
	case c == 'x':
		crossed = true
		s.i++
	case s.i > back && isDigit(c):
		crossed = true
	default:
		s.i = back
		return 0, place{}, false, false
	}
	s.skip(" ")
	i := s.i
	if _, ok := s.tolerance("1235", "ab"); ok {
		s.i = back
		return 0, place{}, false, false
	}
	if _, kind, ok := s.inches(); !ok || kind == 'f' || kind == '?' {
		s.i = back
		return 0, place{}, false, false
	}
	s.i = i
	if v, ok := s.number(); ok && v > 0 {
		return v, place{s.from(i), s.from(s.i)}, true, crossed
	}
	s.i = back
	return 0, place{}, false, false
}

// sizeNumber tells whether a bare whole number is a size number: 10-32 is
// No. 10, 1-8 is one inch.
func sizeNumber(n, tpi float64) bool {
	if n > 12 || !slices.Contains(numberSizes, int(n)) {
		return false
	}
	if threads().find(Unified, numbered(int(n))*inch, inch/tpi) != nil {
		return true
	}
	return threads().find(Unified, n*inch, inch/tpi) == nil && (n == 0 || n > 6 || tpi >= 22)
}

// unifiedThread is the listed thread, or the computed one; without threads per
// inch the one of the named series, or the bare size.
func unifiedThread(d, tpi float64, label string) Thread {
	list := threads().ofSize(Unified, d*inch)
	if tpi == 0 {
		for _, c := range list {
			if label != "" && c.Series == label && (label == "UNC" || label == "UNF" || label == "UNEF") {
				c.PitchGiven = false
				return c
			}
		}
		t := unifiedOf(d, 0, label)
		t.Listed = len(list) > 0
		return t
	}
	if c := threads().find(Unified, d*inch, inch/tpi); c != nil {
		return *c
	}
	t := unifiedOf(d, tpi, "UNS")
	if name := inchName(d); d == math.Trunc(d) && sizeNumber(d, tpi) {
		// 1-80 is No. 1: one inch with 80 threads needs its mark.
		t.Designation = name + "\"" + strings.TrimPrefix(t.Designation, name)
	}
	t.Source = Citation{ID: "fed-std-h28", Text: Cite("fed-std-h28").Text, Seen: Computed}
	return t
}

// unifiedSize judges the diameter.
func unifiedSize(t Thread, n float64, kind byte, isNumber bool, label string, at place) *ThreadProblem {
	standard := slices.ContainsFunc(standardInches(), func(d float64) bool { return same(d*inch, t.D) })
	if isNumber {
		standard = slices.Contains(numberSizes, int(n))
	}
	// UNS covers diameters of any size (ASME B1.1, special threads).
	if kind != '?' && (standard || label == "UNS" && kind == 'd') {
		return nil
	}
	p := &ThreadProblem{Start: at.start, End: at.end, Kind: NoSuchSize, Near: Nearest(t)}
	if kind == '?' {
		p.Message = "no size in inches is written so; " + inchName(t.D/inch) + " in reduced form, or a size number with its threads per inch (10-32)"
		return p
	}
	name := inchName(t.D / inch)
	if isNumber {
		name = fmt.Sprintf("No. %g", n)
	}
	p.Message = name + " is no size of ASME B1.1; nearest are " + orList(p.Near)
	// Thirty-seconds and odd decimals are met in older and special threads.
	p.Certain = t.D == 0 || kind == 'f' && !isNumber && math.Abs(n*32-math.Round(n*32)) > 1e-9
	return p
}

// unifiedPitch judges the threads per inch.
func unifiedPitch(t Thread, tpi float64, printed string, at place) *ThreadProblem {
	is := func(v float64) bool { return v == tpi }
	share := t.Pitch / t.D
	if t.Listed || slices.ContainsFunc(unifiedTPI, is) && share < impossiblePitch {
		return nil
	}
	p := &ThreadProblem{Start: at.start, End: at.end, Kind: NoSuchPitch, Near: Nearest(t)}
	name := inchName(t.D / inch)
	switch {
	case share >= impossiblePitch:
		p.Message = printed + " threads per inch are too coarse for " + name
		// Wood and tapping screws come near to half the diameter.
		p.Certain = share >= 0.5
	case slices.ContainsFunc(otherTPI, is):
		p.Message = printed + " threads per inch stand in no series of ASME B1.1, only in other inch threads"
	default:
		p.Message = "no ASME B1.1 thread has " + printed + " threads per inch"
		p.Certain = true
	}
	if len(p.Near) > 0 {
		p.Message += "; " + name + " is " + orList(p.Near)
	}
	return p
}

// mismatch judges the series against the threads per inch: 1/4-20 UNF.
func mismatch(t *Thread, label string, tpi float64, at place) *ThreadProblem {
	if label == "" || label == t.Series {
		return nil
	}
	if !t.Listed || label == "UN" || label == "UNS" {
		// Every unified thread may be called so; unlisted ones are special.
		return nil
	}
	for _, c := range threads().ofSize(Unified, t.D) {
		if c.Series == label {
			// The fine thread of older 1 in screws is 14, now called UNS.
			if t.Series == "UNS" {
				return nil
			}
			name := strings.TrimSuffix(t.Designation, " "+t.Series)
			return &ThreadProblem{Start: at.start, End: at.end, Kind: SeriesMismatch,
				Message: name + " is " + t.Series + "; the " + label + " thread of that size is " + c.Designation,
				Near:    []string{t.Designation, c.Designation}}
		}
	}
	return nil
}

// metricWithoutM tells 8x1.25 and 14 mm.
func (s *scan) metricWithoutM(n float64, kind byte) bool {
	if kind == 'f' || kind == '?' || n < 1 {
		return false
	}
	back := s.i
	defer func() { s.i = back }()
	s.skip(" ")
	if s.hasWord("mm") {
		return true
	}
	if s.peek() != 'x' && s.peek() != '-' {
		return false
	}
	s.i++
	s.skip(" ")
	p, ok := s.number()
	return ok && (threads().find(Metric, n, p) != nil && p != math.Trunc(p) || s.hasWord("mm"))
}

// missingM reads a metric thread printed without its M, and says so.
func (s *scan) missingM(t Thread, d float64) (Thread, *ThreadProblem) {
	p, _, given := s.metricPitch()
	read := metricOf(d, 0)
	if given {
		read = metricThread(d, p)
	}
	read.Text = t.Text
	near := Nearest(read)
	return read, &ThreadProblem{Start: s.from(0), End: len(s.text), Kind: NotAThread, Near: near,
		Message: "“" + short(s.text) + "” lacks the M of a metric thread; " + orList(near)}
}
