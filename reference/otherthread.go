package reference

import (
	"slices"
	"strings"
)

// named is a family of threads known by its name.
type named struct {
	family Family
	name   string // as written in the normal form
	after  bool   // the name stands behind the size: 3/8 NPT
	source string
}

// namedWords are names that may stand anywhere in a designation.
var namedWords = map[string]named{
	"npt": {NPT, "NPT", true, "asme-b1.20.1"}, "anpt": {NPT, "ANPT", true, ""},
	"nptf": {NPTF, "NPTF", true, "asme-b1.20.3"}, "dryseal": {NPTF, "NPTF", true, "asme-b1.20.3"},
	"nptr": {OtherFamily, "NPTR", true, ""}, "nps": {OtherFamily, "NPS", true, ""},
	"npsm": {OtherFamily, "NPSM", true, ""}, "npsf": {OtherFamily, "NPSF", true, ""},
	"npsc": {OtherFamily, "NPSC", true, ""}, "npsi": {OtherFamily, "NPSI", true, ""},
	"npsl": {OtherFamily, "NPSL", true, ""}, "npsh": {OtherFamily, "NPSH", true, ""},
	"bspp": {PipeParallel, "G", false, "iso-228"}, "bsp": {OtherFamily, "BSP", true, ""},
	"bspt": {PipeTaper, "R", false, "iso-7"},
	"jic":  {Flare37, "37° flare", true, "sae-j514"},
	"orb":  {ORingPort, "O-ring port", true, "sae-j1926"}, "oring": {ORingPort, "O-ring port", true, "sae-j1926"},
	"orfs": {OtherFamily, "O-ring face seal", true, ""},
	"bsw":  {OtherFamily, "BSW", true, ""}, "whitworth": {OtherFamily, "BSW", true, ""}, "whit": {OtherFamily, "BSW", true, ""},
	"bsf": {OtherFamily, "BSF", true, ""}, "bsc": {OtherFamily, "BSC", true, ""}, "cei": {OtherFamily, "BSC", true, ""},
	"bsb": {OtherFamily, "BSB", true, ""}, "ba": {OtherFamily, "BA", true, ""},
	"acme": {OtherFamily, "Acme", true, ""}, "trapezoidal": {OtherFamily, "Tr", false, ""}, "buttress": {OtherFamily, "buttress", true, ""},
	"unj": {OtherFamily, "UNJ", true, ""}, "unjc": {OtherFamily, "UNJC", true, ""}, "unjf": {OtherFamily, "UNJF", true, ""},
	"unjef": {OtherFamily, "UNJEF", true, ""}, "unjs": {OtherFamily, "UNJS", true, ""},
	"ght": {OtherFamily, "GHT", true, ""}, "nst": {OtherFamily, "NST", true, ""}, "dash": {OtherFamily, "dash", false, ""},
}

// namedPrefixes are names that stand before a number and nowhere else.
var namedPrefixes = map[string]named{
	"g": {PipeParallel, "G", false, "iso-228"}, "pf": {PipeParallel, "PF", false, ""},
	"r": {PipeTaper, "R", false, "iso-7"}, "rc": {PipeTaper, "Rc", false, "iso-7"}, "rp": {PipeTaper, "Rp", false, "iso-7"},
	"pt": {PipeTaper, "PT", false, ""}, "ps": {OtherFamily, "PS", false, ""},
	"tr": {OtherFamily, "Tr", false, ""}, "w": {OtherFamily, "W", false, ""}, "s": {OtherFamily, "S", false, ""},
	"rd": {OtherFamily, "Rd", false, ""}, "st": {OtherFamily, "ST", false, ""}, "mj": {OtherFamily, "MJ", false, ""},
	"k": {OtherFamily, "K", false, ""}, "pg": {OtherFamily, "Pg", false, ""}, "an": {OtherFamily, "AN", false, ""},
}

// Threads of 37° flare and O-ring port fittings by dash number (sixteenths of an
// inch of tube): fitting makers' torque tables, -4 to -32.
var dashThreads = map[int]string{
	4: "7/16-20", 5: "1/2-20", 6: "9/16-18", 8: "3/4-16", 10: "7/8-14", 12: "1-1/16-12",
	16: "1-5/16-12", 20: "1-5/8-12", 24: "1-7/8-12", 32: "2-1/2-12",
}

// Sizes of pipe threads, ISO 7-1, ISO 228-1 and ASME B1.20.1; from memory.
var pipeSizes = []string{
	"1/16", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8", "1", "1-1/8", "1-1/4", "1-1/2", "1-3/4",
	"2", "2-1/4", "2-1/2", "2-3/4", "3", "3-1/2", "4", "5", "6", "8", "10", "12",
}

// otherFamily reads the designations that carry the name of a family other
// than metric and unified.
func (s *scan) otherFamily(t Thread) (Thread, *ThreadProblem, bool) {
	n, nameEnd, ok := s.findName()
	if !ok {
		return t, nil, false
	}
	t.Family, t.Listed = n.family, false
	if n.source != "" {
		t.Source = Cite(n.source)
	}
	var problem *ThreadProblem
	switch {
	case n.family == Flare37, n.family == ORingPort, n.name == "dash", n.name == "MJ",
		strings.HasSuffix(n.name, "flare"), strings.HasPrefix(n.name, "UNJ"), n.name == "O-ring face seal":
		s.fitting(&t, n, nameEnd)
	case n.family == PipeParallel || n.family == PipeTaper || n.family == NPT || n.family == NPTF || n.name == "BSP":
		problem = s.pipe(&t, n, nameEnd)
	case n.name == tapping:
		s.tappingScrew(&t, nameEnd)
	default:
		s.other(&t, n, nameEnd)
	}
	t.LeftHand = s.leftHand()
	return t, problem, true
}

// findName finds the name of a family and where it ends.
func (s *scan) findName() (n named, end int, ok bool) {
	norm := string(s.norm)
	switch {
	case strings.Contains(norm, "37deg"), strings.Contains(norm, "37 deg"):
		return namedWords["jic"], strings.Index(norm, "37") + 5, true
	case strings.Contains(norm, "45deg"), strings.Contains(norm, "45 deg"):
		return named{OtherFamily, "45° flare", true, ""}, strings.Index(norm, "45") + 5, true
	case strings.Contains(norm, "face seal"):
		return namedWords["orfs"], strings.Index(norm, "face seal") + 9, true
	case strings.Contains(norm, "o-ring"), strings.Contains(norm, "o ring"):
		return namedWords["orb"], strings.Index(norm, "ring") + 4, true
	}
	first := true
	for i := 0; i < len(norm); {
		if !isLetter(norm[i]) {
			i++
			continue
		}
		j := i
		for j < len(norm) && isLetter(norm[j]) {
			j++
		}
		w := norm[i:j]
		if n, ok := namedWords[w]; ok {
			return n, j, true
		}
		if w == "flare" {
			return named{OtherFamily, "flare", true, ""}, j, true
		}
		if n, ok := namedPrefixes[w]; ok && first && s.i == i && numberFollows(norm[j:]) {
			return n, j, true
		}
		first = false
		i = j
	}
	if i := strings.Index(norm, tapping); i >= 0 {
		return named{OtherFamily, tapping, true, ""}, i + len(tapping), true
	}
	return named{}, 0, false
}

// tapping names screws that cut their own thread. Their sizes (M5, #8) are named
// as those of metric and unified threads are, their threads are others.
const tapping = "tapping"

// tappingScrew writes the size as printed, and what it is the size of.
func (s *scan) tappingScrew(t *Thread, nameEnd int) {
	size := s.text[s.from(s.i):s.from(nameEnd-len(tapping))]
	size = strings.TrimRight(size, " -,")
	if n := len(size) - len("self"); n >= 0 && strings.EqualFold(size[n:], "self") {
		size = strings.TrimRight(size[:n], " -,")
	}
	t.Designation = strings.TrimSpace(size + " tapping screw")
}

func numberFollows(rest string) bool {
	rest = strings.TrimLeft(rest, " -.")
	return rest != "" && isDigit(rest[0])
}

// pipe reads the nominal size of a pipe thread: G 1/2 A, 3/8-18 NPT.
func (s *scan) pipe(t *Thread, n named, nameEnd int) *ThreadProblem {
	d, at, ok := s.sizeNear(nameEnd, n.after)
	if !ok {
		t.Designation = n.name
		return &ThreadProblem{Start: s.from(0), End: len(s.text), Kind: NoSuchSize, Message: "the size of the pipe thread is missing; write " + compose(n, "1/2")}
	}
	size := inchName(d)
	if d == 0.125 {
		size = "1/8"
	}
	t.Designation = compose(n, size)
	if tol := strings.TrimSpace(string(s.norm[s.i:])); tol == "a" || tol == "b" {
		t.Tolerance = strings.ToUpper(tol)
	}
	if slices.Contains(pipeSizes, size) {
		return nil
	}
	return &ThreadProblem{Start: at.start, End: at.end, Kind: NoSuchSize, Message: size + " is no size of pipe thread"}
}

// compose puts name and size together.
func compose(n named, size string) string {
	if n.after {
		return size + " " + n.name
	}
	return n.name + " " + size
}

// sizeNear takes the size in inches behind the name, or before it.
func (s *scan) sizeNear(nameEnd int, after bool) (d float64, at place, ok bool) {
	try := func(from int) bool {
		s.i = from
		s.skip(" -.(\"")
		i := s.i
		d, _, ok = s.inches()
		at = place{s.from(i), s.from(s.i)}
		s.skip("\"'")
		return ok && d > 0
	}
	if !after && try(nameEnd) {
		return d, at, true
	}
	i := slices.IndexFunc(s.norm, isDigit)
	if i < 0 {
		return 0, at, false
	}
	if try(i) {
		return d, at, true
	}
	return 0, at, false
}

// fitting reads fittings and threads that have the geometry of a unified or
// metric thread: 7/16-20 37° flare, -6 ORB, M18x1.5 O-ring port, 1/4-28 UNJF.
func (s *scan) fitting(t *Thread, n named, nameEnd int) {
	inner, ok := s.innerThread(nameEnd)
	if !ok {
		if dash, found := s.dashSize(nameEnd); found {
			inner, _ = ParseThread(dash)
			ok = true
		}
	}
	if !ok {
		t.Designation = strings.TrimSpace(s.text)
		return
	}
	t.D, t.Pitch, t.PitchGiven = inner.D, inner.Pitch, inner.PitchGiven
	size := inner.Designation
	if inner.Family == Unified {
		size, _, _ = strings.Cut(size, " UN")
	}
	switch {
	case n.name == "MJ":
		t.Designation = "MJ" + strings.TrimPrefix(size, "M")
	case n.name == "dash":
		t.Designation = strings.TrimSpace(s.text)
	default:
		t.Designation = size + " " + n.name
	}
	if n.name != "MJ" && !strings.HasPrefix(n.name, "UNJ") {
		// The thread of the fitting is the unified or metric one itself.
		t.PitchDiameter, t.MinorDiameter, t.StressArea, t.Series = inner.PitchDiameter, inner.MinorDiameter, inner.StressArea, inner.Series
	}
}

// innerThread looks for a metric or unified designation with its pitch.
func (s *scan) innerThread(nameEnd int) (Thread, bool) {
	norm := string(s.norm)
	for i := 0; i < len(norm); i++ {
		if i > 0 && (isDigit(norm[i-1]) || norm[i-1] == '/' || norm[i-1] == '-' || isLetter(norm[i-1]) && norm[i-1] != 'j') {
			continue
		}
		part := scan{text: norm[i:]}
		switch {
		case norm[i] == 'm' && numberFollows(norm[i+1:]):
		case norm[i] == 'm' && strings.HasPrefix(norm[i:], "mj"):
			part.text = "m" + norm[i+2:]
		case isDigit(norm[i]), norm[i] == '#', norm[i] == '.':
		default:
			continue
		}
		part.normalise()
		var t Thread
		if part.peek() == 'm' {
			t, _ = part.metric(Thread{})
		} else {
			t, _ = part.unified(Thread{})
		}
		if t.Pitch > 0 && t.PitchGiven {
			return t, true
		}
	}
	return Thread{}, false
}

// dashSize reads the dash number of a fitting: "JIC 6", "-8 ORB", "dash -4".
func (s *scan) dashSize(nameEnd int) (string, bool) {
	for _, from := range []int{nameEnd, 0} {
		s.i = min(from, len(s.norm))
		s.skip(" -#")
		if n, ok := s.integer(); ok {
			if d, ok := dashThreads[n]; ok && s.peek() != '/' {
				return d, true
			}
		}
	}
	return "", false
}

// other names a thread of a family without table; the diameter is set where
// the designation gives it in mm or inches.
func (s *scan) other(t *Thread, n named, nameEnd int) {
	d, at, ok := s.sizeNear(nameEnd, n.after)
	if !ok {
		t.Designation = n.name
		return
	}
	printed := strings.TrimSpace(s.text[at.start:at.end])
	switch n.name {
	case "Tr", "S", "Rd", "ST", "K": // millimetres
		t.D = d
		s.skip(" ")
		if s.peek() == 'x' {
			s.i++
			s.skip(" ")
			if p, ok := s.number(); ok {
				t.Pitch, t.PitchGiven = p, true
				printed = plain(d) + "x" + plain(p)
			}
		}
	case "BSW", "BSF", "BSC", "W", "Acme": // inches
		t.D = d * inch
		if tpi, _, given, _ := s.threadsPerInch(); given {
			t.Pitch, t.PitchGiven = inch/tpi, true
			printed = inchName(d) + "-" + plain(tpi)
		}
	}
	t.Designation = compose(n, printed)
}

func (s *scan) leftHand() bool {
	fields := strings.FieldsFunc(string(s.norm), func(r rune) bool { return !isLetter(byte(r)) })
	return slices.Contains(fields, "lh") || slices.Contains(fields, "left")
}
