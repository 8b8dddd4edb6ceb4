package reference

// Family is a family of screw threads.
type Family uint8

// The families of threads. Only Metric and Unified have tables here; the
// others are known by name.
const (
	NoFamily     Family = iota
	Metric              // ISO 261: M8x1.25
	Unified             // ASME B1.1: 1/4-20 UNC
	PipeParallel        // ISO 228 G, BSPP, PF
	PipeTaper           // ISO 7 R, Rc, Rp, BSPT, PT
	NPT                 // ASME B1.20.1
	NPTF                // ASME B1.20.3
	Flare37             // 37° flare, SAE J514
	ORingPort           // port with O-ring, SAE J1926, ISO 11926, ISO 6149
	OtherFamily         // trapezoidal, Acme, Whitworth, MJ, UNJ, BA and others
)

// String names the family as it is spoken of.
func (f Family) String() string {
	switch f {
	case Metric:
		return "metric"
	case Unified:
		return "unified"
	case PipeParallel:
		return "parallel pipe thread"
	case PipeTaper:
		return "taper pipe thread"
	case NPT:
		return "NPT"
	case NPTF:
		return "NPTF"
	case Flare37:
		return "37° flare"
	case ORingPort:
		return "O-ring port"
	case OtherFamily:
		return "other thread"
	}
	return "no thread"
}

// Thread is a thread as printed and what is known of it. Lengths are in mm,
// 0 where not known.
//
// MinorDiameter is the root that belongs to the stress area, so that
// StressArea = π/4·((PitchDiameter+MinorDiameter)/2)² in both families:
// d − 1.226869·P for metric threads (ISO 898-1), D − 1.299038·P, the root of the
// sharp form, for unified ones (FED-STD-H28). The two must not be mixed.
type Thread struct {
	Text          string  // as printed
	Family        Family  // NoFamily where nothing could be read
	Designation   string  // normal form: "M8x1.25", "1/4-20 UNC", "No. 10-32 UNF", "G 1/2"
	D             float64 // major diameter
	Pitch         float64
	PitchDiameter float64 // d2
	MinorDiameter float64 // d3
	StressArea    float64 // mm²
	Series        string  // coarse, fine, UNC, UNF, UNEF, UN, UNS
	Tolerance     string  // 6g, 2A
	Length        string  // a length printed behind the designation, as printed: 25 in M8x1.25x25
	LeftHand      bool
	PitchGiven    bool // false: M8 is read as M8x1.25, 1/4 leaves the pitch open (0)
	Listed        bool // the size, and the pitch where one is given, stand in ISO 261 or ASME B1.1
	Source        Citation
}

// ProblemKind is a kind of ThreadProblem.
type ProblemKind uint8

// The kinds of trouble with a thread designation.
const (
	NotAThread     ProblemKind = iota // no designation, or something unreadable behind one
	NoSuchSize                        // M8.25
	NoSuchPitch                       // M8x1.52, 1/4-21
	LengthForPitch                    // M8x25
	SeriesMismatch                    // 1/4-20 UNF
)

// ThreadProblem says why a text is no thread designation, or a doubtful one.
// It is an error.
type ThreadProblem struct {
	Start, End int // bytes of the text
	Kind       ProblemKind
	Message    string   // lower case, no full stop
	Near       []string // real designations nearest to it, likeliest first
	Certain    bool     // no such thread can exist
}

func (p *ThreadProblem) Error() string { return p.Message }

// ParseThread reads a thread designation as printed: M8, M8x1.25, M8 × 1.25-6g,
// 1/4-20 UNC-2A, #10-32, No. 10-32, 5/16"-18, 1 1/8-7, .250-20, G 1/2 A, R 3/8,
// 3/8 NPT, 7/16-20 37° flare, 9/16-18 ORB, Tr 20x4, and other families by name,
// tapping screws among them. The series may stand in front: UNC 1/4-20.
//
// A size without pitch is read as the coarse thread in metric ("M8", ISO 965-1)
// and left open in inch ("1/4": Pitch 0, see [ThreadsOfSize]). A pitch that is
// a standard value but not listed for the diameter is computed, with Listed
// false. The Thread holds what could be read even where there is a problem.
func ParseThread(text string) (Thread, *ThreadProblem) {
	if t, ok := threadMemo.get(text); ok {
		return t, nil
	}
	t, p := parseThread(text)
	if p == nil && len(text) < 64 {
		threadMemo.put(text, t)
	}
	return t, p
}

var threadMemo memo[string, Thread]

func parseThread(text string) (Thread, *ThreadProblem) {
	s := scan{text: text}
	s.normalise()
	t := Thread{Text: text}
	s.skip(" ")
	if s.end() {
		return t, &ThreadProblem{Start: 0, End: len(text), Message: "no thread is given"}
	}
	if read, p, ok := s.otherFamily(t); ok {
		return read, p
	}
	s.seriesFirst()
	c := s.peek()
	switch {
	case c == 'm':
		return s.metric(t)
	case c == '#', c == '.', isDigit(c), s.hasWord("no"), s.hasWord("nr"), s.hasWord("num"), s.hasWord("number"):
		return s.unified(t)
	}
	return t, s.notAThread()
}

// notAThread is the problem of a text that names no thread we know.
func (s *scan) notAThread() *ThreadProblem {
	return &ThreadProblem{
		Start: s.from(0), End: len(s.text), Kind: NotAThread,
		Message: "“" + short(s.text) + "” is no thread designation; write M8x1.25, 1/4-20 or G 1/2",
	}
}

// short cuts a text for a message.
func short(text string) string {
	const most = 40
	n := 0
	for i := range text {
		if n++; n > most {
			return text[:i] + "…"
		}
	}
	return text
}
