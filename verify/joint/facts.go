package joint

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
)

// Part is what is turned.
type Part uint8

// The parts that clamp by a thread.
const (
	AnyPart Part = iota // not said: it may also be a plug or a fitting on that thread
	ScrewPart
	NutPart
	StudPart
)

// Words are what a record, or a user of the program, says of a joint: the
// words of the format, empty where nothing is said.
type Words struct {
	Type, Thread, Class, Head string
	Threads                   string // condition: dry, oiled, …
	Into, Seal                string
	FrictionLo, FrictionHi    float64 // a coefficient that the source states; 0 when it states none
	EngagementMM              Span    // engaged length of thread; zero when it is not stated, or has no upper end
	Insert                    string  // names a thread insert; empty when none is
}

// Facts are what is known of a fastener and its joint.
type Facts struct {
	Part      Part
	Threads   []reference.Thread   // candidates, at least one
	Strengths []reference.Strength // rows of the class; none when it is not known
	Head      string
	Condition string  // of the threads
	MuLo      float64 // stated friction; 0 when none is
	MuHi      float64
	Into      string
	Seal      string
	// EngagementMM and Insert speak of the tapped thread only; they do not
	// narrow the band.
	EngagementMM Span // zero when it is not stated
	Insert       bool

	Thread reference.Thread // as printed
	Class  reference.ClassReading
	// Missing says what is not known and so widens the band, in words.
	Missing []string
}

// WordsOf collects what a record says of fastener i; nothing where it has none.
func WordsOf(r *schema.Record, i int) Words {
	if r == nil || i < 0 || i >= len(r.Fasteners.Items) {
		return Words{}
	}
	f, j := &r.Fasteners.Items[i], &r.Joint
	w := Words{
		Type: f.Type, Thread: f.Thread, Class: f.Class, Head: string(f.Head),
		Threads: string(j.Threads), Into: string(j.Into), Seal: string(j.Seal),
	}
	if q, ok := j.Friction.Quantity(); ok {
		w.FrictionLo, w.FrictionHi = coefficient(q)
	}
	w.EngagementMM, w.Insert = engagement(&j.Engagement), j.Insert
	return w
}

// engagement is the span of a stated length in mm, as widely as its digits
// allow; zero where it is not stated or has no upper end.
func engagement(f *schema.Figure) Span {
	q, ok := f.Quantity()
	if !ok || q.Unit.Dimension() != convert.Length {
		return Span{}
	}
	lo, hi := q.Widened()
	if math.IsInf(lo, -1) {
		lo = hi
	}
	s := Span{max(lo, 0) * 1000, hi * 1000}
	if _, printed := q.Bounds(); printed <= 0 || !positive(s.Hi) || s.Lo > s.Hi {
		return Span{}
	}
	return s
}

// coefficient is the span of a stated friction coefficient, as widely as its
// digits allow; 0, 0 where none is stated.
func coefficient(q convert.Quantity) (lo, hi float64) {
	if q.Unit.Dimension() != convert.NoDimension && q.Unit.Dimension() != convert.Number {
		return 0, 0
	}
	half := func(d convert.Decimal) float64 {
		x, _ := d.Step().Float64()
		return x / 2
	}
	a, b := q.First.Float(), q.First.Float()
	slackA, slackB := half(q.First), half(q.First)
	switch q.Form {
	case convert.Single:
	case convert.Range:
		b, slackB = q.Second.Float(), half(q.Second)
	case convert.Deviation:
		if q.Percent {
			a, b = a*(1-q.Minus.Float()/100), b*(1+q.Plus.Float()/100)
		} else {
			a, b = a-q.Minus.Float(), b+q.Plus.Float()
		}
	default:
		return 0, 0
	}
	if a > b {
		a, b, slackA, slackB = b, a, slackB, slackA
	}
	if lo, hi = a-slackA, b+slackB; !positive(lo) || !positive(hi) {
		return 0, 0
	}
	return lo, hi
}

// Clamps reports whether a type of fastener is one that clamps by a thread as
// a screw does: a screw, a stud, a nut, or not said.
func Clamps(kind string) bool {
	switch kind {
	case "", "screw", "stud", "nut":
		return true
	}
	return false
}

// Read finds the facts behind the words. It fails (ok false) where nothing can
// be said: a type that does not clamp as a screw does, no thread, a thread
// that is neither ISO metric nor unified, one that cannot be read, or a class
// that names another material than steel.
func Read(w Words) (f Facts, ok bool) {
	if !Clamps(w.Type) || w.Thread == "" {
		return Facts{}, false
	}
	t, problem := reference.ParseThread(w.Thread)
	if problem != nil || t.D <= 0 || t.Family != reference.Metric && t.Family != reference.Unified {
		return Facts{}, false
	}
	f = Facts{Thread: t}
	// A coefficient that is not met with is a misprint: none is stated then.
	if metWith(w.FrictionLo, w.FrictionHi) {
		f.MuLo, f.MuHi = w.FrictionLo, w.FrictionHi
	}
	f.Part = f.partOf(w.Type)
	f.Threads = f.candidates(t)
	if len(f.Threads) == 0 {
		return Facts{}, false
	}
	f.class(w.Class)
	if !f.Class.Known && reference.NotSteel(w.Class) {
		return Facts{}, false
	}
	f.words(w)
	return f, true
}

func (f *Facts) partOf(kind string) Part {
	switch kind {
	case "screw":
		return ScrewPart
	case "nut":
		return NutPart
	case "stud":
		return StudPart
	}
	f.miss("the type of fastener")
	return AnyPart
}

// candidates are the threads that may be meant: the one printed, or all of its
// diameter where no pitch is given. M8 alone means the coarse thread (ISO
// 965-1), yet fine threads are printed without their pitch too.
func (f *Facts) candidates(t reference.Thread) []reference.Thread {
	if t.PitchGiven && t.Pitch > 0 {
		return []reference.Thread{t}
	}
	list := reference.ThreadsOfSize(t)
	if len(list) != 1 {
		f.miss("the pitch")
	}
	if len(list) == 0 && t.Pitch > 0 {
		list = []reference.Thread{t}
	}
	return list
}

// class takes the rows of a class. A class that no table has, that belongs to
// the other family of threads or is not made in the size says nothing sure of
// the strength, so it counts as not known.
func (f *Facts) class(text string) {
	if text == "" {
		f.miss("the class")
		return
	}
	f.Class = reference.ReadClass(text, f.Thread.D, f.Thread.Family == reference.Metric)
	c := &f.Class
	if !c.Exists || !c.Known || !c.InTables && !c.Between || c.Foreign || !c.SizeFits || len(c.Rows) == 0 {
		f.miss("a class that is in the tables for this thread")
		return
	}
	f.Strengths = c.Rows
}

func (f *Facts) words(w Words) {
	f.Head, f.Condition, f.Into, f.Seal = w.Head, w.Threads, w.Into, w.Seal
	f.Insert = w.Insert != ""
	if e := w.EngagementMM; positive(e.Hi) && 0 <= e.Lo && e.Lo <= e.Hi {
		f.EngagementMM = e
	}
	if f.Head == "" || strings.HasPrefix(f.Head, "other:") {
		f.Head = ""
		f.miss("the head")
	}
	if _, known := reference.UsualFriction(f.Condition); !known {
		f.Condition = ""
		if f.MuLo == 0 {
			f.miss("the condition of the threads")
		}
	}
	if f.Into == "" || strings.HasPrefix(f.Into, "other:") {
		f.Into = ""
		f.miss("what it is screwed into")
	}
}

func (f *Facts) miss(what string) { f.Missing = append(f.Missing, what) }

// Source is the relation by which the band of the facts is worked out, with
// the tables that its numbers come from.
func (f *Facts) Source() reference.Citation {
	c := reference.Cite("vdi-2230")
	if len(f.Strengths) > 0 {
		c.Text += "; strength by " + f.Strengths[0].Source.String()
	}
	return c
}

// Sources are the tables behind the band: relation, thread, strength, friction
// and head.
func (f *Facts) Sources() []reference.Citation {
	list := []reference.Citation{reference.Cite("vdi-2230")}
	add := func(c reference.Citation) {
		if !c.IsZero() && !slices.Contains(list, c) {
			list = append(list, c)
		}
	}
	for _, t := range f.Threads {
		add(t.Source)
	}
	metric := f.Thread.Family == reference.Metric
	for _, s := range f.Strengths {
		add(s.Source)
	}
	if len(f.Strengths) == 0 {
		add(reference.WeakestClass(metric, f.Thread.D).Source)
		add(reference.StrongestClass(metric, f.Thread.D).Source)
	}
	if f.MuLo == 0 {
		mu, _ := reference.UsualFriction(f.Condition)
		add(mu.Source)
	}
	for _, b := range reference.BearingOf(f.Head, f.Threads[0]) {
		add(b.Source)
	}
	return list
}

// ThreadText says what is known of the thread, for a finding.
func (f *Facts) ThreadText() string {
	if len(f.Threads) == 1 {
		return fmt.Sprintf("%s: stress area %.4g mm²", f.Threads[0].Designation, ScrewOf(f.Threads[0]).StressAreaMM2)
	}
	lo, hi := ScrewOf(f.Threads[0]).StressAreaMM2, ScrewOf(f.Threads[0]).StressAreaMM2
	for _, t := range f.Threads[1:] {
		a := ScrewOf(t).StressAreaMM2
		lo, hi = min(lo, a), max(hi, a)
	}
	return fmt.Sprintf("%s: no pitch is given; stress area %.4g to %.4g mm²", f.Thread.Text, lo, hi)
}

// ClassText says what is known of the class, for a finding.
func (f *Facts) ClassText() string {
	if len(f.Strengths) == 0 {
		return fmt.Sprintf("%s: not in the tables for this thread, so the strongest class is allowed for", f.Class.Text)
	}
	s := f.Strengths[0]
	for _, r := range f.Strengths[1:] {
		if max(r.Tensile, r.Proof) > max(s.Tensile, s.Proof) {
			s = r
		}
	}
	if s.Tensile == 0 {
		return fmt.Sprintf("%s: proof stress %.4g MPa (%s)", f.Class.Text, s.Proof, s.Source)
	}
	return fmt.Sprintf("%s: yield at least %.4g MPa, tensile strength at least %.4g MPa (%s)", f.Class.Text, s.Yield, s.Tensile, s.Source)
}
