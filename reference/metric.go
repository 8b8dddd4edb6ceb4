package reference

import (
	"math"
	"slices"
	"strings"
)

// The pitches of the ISO 261 general plan, mm.
var isoPitches = []float64{
	0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75,
	2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 8,
}

// Sizes and pitches that are older than ISO 261 or outside it and still met
// (JIS and DIN before ISO, ISO 1501 below M1.4); from memory.
var (
	oldSizes   = []float64{1.7, 2.3, 2.6}
	oldPitches = []float64{0.1, 0.125, 0.15, 0.175, 0.225, 0.9}
)

// The coarsest pitch of ISO 261 is a quarter of its diameter (M1x0.25). What is
// coarser than this share cannot be a thread of the standard profile.
const impossiblePitch = 0.35

const metricDeviations = "abcdefghjkmnprs"

// metric reads a designation that begins with M.
func (s *scan) metric(t Thread) (Thread, *ThreadProblem) {
	begin := s.i
	s.i++
	s.skip(" -")
	d, ok := s.number()
	if !ok {
		return t, s.notAThread()
	}
	size := place{s.from(begin), s.from(s.i)}
	p, pitch, given := s.metricPitch()
	read := metricThread(d, p)
	read.Text = t.Text
	hint := ""
	rest := s.tail(&read, "3456789", metricDeviations, func(w string) bool {
		if w == "coarse" || w == "fine" {
			hint = w
			return true
		}
		return false
	})
	if hint == "fine" && !given {
		read = keepTail(metricOf(d, 0), read)
		read.Series, read.Listed = "fine", len(threads().ofSize(Metric, d)) > 0
	}
	if problem := metricSize(d, read, size); problem != nil {
		return read, problem
	}
	if given {
		if problem := s.metricPitchProblem(&read, p, pitch); problem != nil {
			return read, problem
		}
	}
	return read, rest
}

type place struct{ start, end int }

// metricPitch takes the pitch behind the size: x1.25, -1.25, " 1.25", xP1.25.
func (s *scan) metricPitch() (p float64, at place, given bool) {
	back := s.i
	s.skip(" ")
	spaced := s.i > back
	switch c := s.peek(); {
	case c == 'x':
		s.i++
		s.skip(" ")
		if s.hasWord("ph") { // the lead of a thread with several starts
			s.i += 2
			s.number()
		}
		if s.hasWord("p") {
			s.i++
		}
	case c == '-':
		s.i++
		s.skip(" ")
	case !spaced || !isDigit(c):
		s.i = back
		return 0, place{}, false
	}
	i := s.i
	if _, ok := s.tolerance("3456789", metricDeviations); ok {
		s.i = back
		return 0, place{}, false
	}
	p, ok := s.number()
	if !ok || p == 0 {
		s.i = back
		return 0, place{}, false
	}
	return p, place{s.from(i), s.from(s.i)}, true
}

// metricThread is the listed thread of that size, or the computed one. Without
// a pitch it is the coarse thread, or the bare size where there is none.
func metricThread(d, p float64) Thread {
	list := threads().ofSize(Metric, d)
	if p == 0 {
		for _, c := range list {
			if c.Series == "coarse" {
				c.PitchGiven = false
				return c
			}
		}
		t := metricOf(d, 0)
		t.Listed = len(list) > 0
		return t
	}
	if c := threads().find(Metric, d, p); c != nil {
		return *c
	}
	t := metricOf(d, p)
	t.Source = Citation{ID: "iso-68-1", Text: Cite("iso-68-1").Text, Seen: Computed}
	return t
}

// keepTail gives a thread what was read behind another.
func keepTail(t, read Thread) Thread {
	t.Text, t.Tolerance, t.LeftHand, t.Length = read.Text, read.Tolerance, read.LeftHand, read.Length
	return t
}

// metricSize judges the diameter.
func metricSize(d float64, t Thread, at place) *ThreadProblem {
	if len(threads().ofSize(Metric, d)) > 0 || slices.Contains(oldSizes, d) {
		return nil
	}
	near := Nearest(t)
	p := &ThreadProblem{Start: at.start, End: at.end, Kind: NoSuchSize, Near: near}
	p.Message = "M" + plain(d) + " is no size of ISO 261; nearest are " + orList(near)
	// Whole and half sizes outside ISO 261 are cut now and then, as are
	// threads below M1 and above M300. Other fractions are not.
	whole := math.Abs(d*2-math.Round(d*2)) < 1e-9
	p.Certain = d == 0 || d > 1 && d <= 300 && !whole
	return p
}

// metricPitchProblem judges a printed pitch. Where it is a length, the thread
// becomes the coarse one.
func (s *scan) metricPitchProblem(t *Thread, p float64, at place) *ThreadProblem {
	listed := func(v float64) bool { return v == p }
	iso := slices.ContainsFunc(isoPitches, listed)
	if t.Listed || iso && p < impossiblePitch*t.D && !lengthLike(p, t.D) || slices.ContainsFunc(oldPitches, listed) && p < impossiblePitch*t.D {
		return nil
	}
	printed := strings.TrimSpace(s.text[at.start:at.end])
	problem := &ThreadProblem{Start: at.start, End: at.end, Kind: NoSuchPitch, Near: Nearest(*t)}
	if lengthLike(p, t.D) {
		coarse := metricThread(t.D, 0)
		coarse = keepTail(coarse, *t)
		if coarse.Length == "" {
			coarse.Length = printed
		}
		*t = coarse
		problem.Kind = LengthForPitch
		problem.Near = Nearest(*t)
		problem.Message = printed + " mm is a length, not a pitch; M" + plain(t.D) + " is " + orList(problem.Near)
		return problem
	}
	problem.Certain = true
	if iso {
		problem.Message = "a pitch of " + printed + " mm is too coarse for M" + plain(t.D)
	} else {
		problem.Message = "no ISO 261 thread has a pitch of " + printed + " mm"
	}
	if len(problem.Near) > 0 {
		problem.Message += "; M" + plain(t.D) + " is " + orList(problem.Near)
	}
	return problem
}

// lengthLike reports that a number behind the x is a length: a whole or half
// number of at least 4 mm, coarser than any standard pitch of the diameter.
func lengthLike(p, d float64) bool {
	return p >= 4 && p > 0.26*d && math.Abs(p*2-math.Round(p*2)) < 1e-9
}

// orList joins names: "M8x1.25, M8x1 or M8x0.75".
func orList(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}
