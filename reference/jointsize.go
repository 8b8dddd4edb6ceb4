package reference

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// rowSizes are the threads or sizes that a row of joints.csv holds for.
type rowSizes struct {
	any     bool     // every size
	threads []Thread // screw threads; Pitch 0 where the row gives none
	// A range of screw threads by diameter, mm, or of pipe threads by nominal
	// size, in; both ends inside.
	loMM, hiMM     float64
	loPipe, hiPipe float64
	pipe           bool // the row speaks of pipe threads
	npt            bool // of NPT and NPTF only
	parallel       bool // of parallel internal threads only
}

var (
	dashSize  = regexp.MustCompile(`dash -?(\d+)`)
	pipeSizeR = regexp.MustCompile(`(?:^| )(\d+(?:-\d+/\d+|/\d+)?)(?: |$)`)
)

// sizesOf reads the thread of a row: M10x1, 14 mm, dash -4 (7/16-20), 1/16 and
// 1/8, up to 1, M14 to M18, any. What it cannot read (band 13.5 mm, not stated)
// is compared as text.
func sizesOf(kind, thread, detail string) rowSizes {
	s := rowSizes{any: thread == "any"}
	if strings.Contains(kind, "pipe") {
		s.pipe, s.npt = true, strings.Contains(kind, "NPT")
		s.parallel = strings.Contains(detail, "into G")
		s.pipeRange(thread)
		return s
	}
	if _, in, ok := strings.Cut(thread, "("); ok {
		thread = strings.TrimSuffix(in, ")")
	}
	if a, b, ok := strings.Cut(thread, " to "); ok {
		lo, p1 := ParseThread(a)
		hi, p2 := ParseThread(b)
		if p1 == nil && p2 == nil && lo.Family == Metric && hi.Family == Metric {
			s.loMM, s.hiMM = lo.D, hi.D
		}
		return s
	}
	if list, ok := strings.CutSuffix(thread, " mm"); ok { // spark plugs: 14 mm; 10, 12 and 14 mm
		for d := range strings.SplitSeq(strings.ReplaceAll(list, " and ", ", "), ", ") {
			if v, err := strconv.ParseFloat(d, 64); err == nil {
				s.threads = append(s.threads, metricOf(v, 0))
			}
		}
		return s
	}
	if t, p := ParseThread(thread); p == nil && (t.Family == Metric || t.Family == Unified) {
		s.threads = append(s.threads, t)
	}
	return s
}

func (s *rowSizes) pipeRange(text string) {
	switch {
	case strings.HasPrefix(text, "up to "):
		s.hiPipe = inchesOf(text[len("up to "):])
	case strings.HasPrefix(text, "under "):
		s.hiPipe = inchesOf(text[len("under "):]) - 1.0/64 // sizes go by sixteenths
	case strings.HasSuffix(text, " and larger"):
		s.loPipe, s.hiPipe = inchesOf(strings.TrimSuffix(text, " and larger")), math.Inf(1)
	default:
		a, b, ok := strings.Cut(strings.ReplaceAll(text, " and ", " to "), " to ")
		if !ok {
			b = a
		}
		s.loPipe, s.hiPipe = inchesOf(a), inchesOf(b)
	}
}

// inchesOf reads 1/4, 1-1/4, 1; 0 for anything else.
func inchesOf(text string) float64 {
	in := scan{text: text}
	in.normalise()
	if v, _, ok := in.inches(); ok && in.end() {
		return v
	}
	return 0
}

// wanted is a thread asked for.
type wanted struct {
	text   string
	thread Thread
	pipe   float64 // nominal size of a pipe thread, in; of any inch size without pitch
}

func sizeWanted(text string) wanted {
	w := wanted{text: strings.ToLower(strings.Join(strings.Fields(text), " "))}
	t, p := ParseThread(text)
	if p != nil {
		return w
	}
	w.thread = t
	switch t.Family {
	case PipeParallel, PipeTaper, NPT, NPTF:
		if m := pipeSizeR.FindStringSubmatch(t.Designation); m != nil {
			w.pipe = inchesOf(m[1])
		}
	case Unified:
		if t.Pitch == 0 {
			w.pipe = t.D / inch
		}
	}
	return w
}

// fits reports that a row, with its thread as printed, holds for what is wanted.
func (s rowSizes) fits(w wanted, printed string) bool {
	low := strings.ToLower(printed)
	if w.text == "" || s.any || w.text == low || strings.HasPrefix(low, w.text+" ") {
		return true
	}
	if a, b := dashSize.FindStringSubmatch(w.text), dashSize.FindStringSubmatch(low); a != nil && b != nil {
		return a[1] == b[1]
	}
	t := w.thread
	if s.pipe {
		if s.npt && t.Family != NPT && t.Family != NPTF && t.Family != Unified {
			return false
		}
		if s.parallel && (t.Family == PipeTaper || t.Family == NPT || t.Family == NPTF) {
			return false
		}
		const near = 1e-9
		return w.pipe > 0 && w.pipe > s.loPipe-near && w.pipe < s.hiPipe+near
	}
	if t.D == 0 {
		return false
	}
	if s.hiMM > 0 && t.Family == Metric {
		return t.D >= s.loMM && t.D <= s.hiMM
	}
	for _, r := range s.threads {
		screw := t.Family == r.Family || t.Family == Flare37 && r.Family == Unified
		pitch := r.Pitch == 0 || t.Pitch == 0 || !r.PitchGiven || !t.PitchGiven || math.Abs(r.Pitch-t.Pitch) < 0.01
		if screw && pitch && math.Abs(r.D-t.D) < 0.01 {
			return true
		}
	}
	return false
}
