package reference

// Family is a family of screw threads.
type Family uint8

// The families of threads. Only Metric and Unified have tables here; the
// others are known by name.
const (
	NoFamily     Family = iota
	Metric              // ISO 261, M8x1.25
	Unified             // ASME B1.1, 1/4-20 UNC
	PipeParallel        // ISO 228 G, BSPP, PF
	PipeTaper           // ISO 7 R, Rc, Rp, BSPT, PT
	NPT                 // ASME B1.20.1
	NPTF                // ASME B1.20.3
	Flare37             // 37° flare, SAE J514
	ORingPort           // O-ring port, ISO 11926, SAE J1926
	OtherFamily         // trapezoidal, Acme, Whitworth, MJ, UNJ, BA and others
)

// Thread is a thread as printed and what is known of it.
type Thread struct {
	Text          string  // as printed
	Family        Family  //
	Designation   string  // normal form: "M8x1.25", "1/4-20 UNC", "No. 10-32 UNF", "G 1/2"
	D             float64 // major diameter, mm; 0 where not known
	Pitch         float64 // mm; 0 where not known
	PitchDiameter float64 // d2, mm
	MinorDiameter float64 // d3, mm
	StressArea    float64 // mm²
	Series        string  // coarse, fine, UNC, UNF, UNEF, UN, UNS, special
	Tolerance     string  // 6g, 2A
	Length        string  // a length printed behind the designation: M8x1.25x25
	LeftHand      bool
	PitchGiven    bool // false: M8 is read as M8x1.25, 1/4 is left open
	Listed        bool // stands in the tables of ISO 261 or ASME B1.1
	Source        Citation
}

// ProblemKind is a kind of ThreadProblem.
type ProblemKind uint8

// The kinds of trouble with a thread designation.
const (
	NotAThread     ProblemKind = iota // no designation at all
	NoSuchSize                        // M8.25
	NoSuchPitch                       // M8x1.52, 1/4-21
	LengthForPitch                    // M8x25
	SeriesMismatch                    // 1/4-20 UNF
)

// ThreadProblem says why a text is no thread designation, or a doubtful one.
type ThreadProblem struct {
	Start, End int // bytes of the text
	Kind       ProblemKind
	Message    string   // lower case, no full stop
	Near       []string // real designations nearest to it
	Certain    bool     // no such thread can exist
}

func (p *ThreadProblem) Error() string { return p.Message }

// ParseThread reads a thread designation as printed.
func ParseThread(text string) (Thread, *ThreadProblem) { return Thread{Text: text}, nil }

// Threads returns all listed metric and unified threads.
func Threads() []Thread { return nil }

// ThreadsOfSize returns every listed thread of the diameter of t.
func ThreadsOfSize(t Thread) []Thread { return nil }

// Nearest returns the designations of listed threads nearest to t.
func Nearest(t Thread) []string { return nil }
