package trial

import (
	"iter"
	"math/rand/v2"
	"slices"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
	"snapgauge/verify/slip"
)

// Options for [Run]. The zero value plants every kind of slip with seed 0.
type Options struct {
	Seed     uint64
	Kinds    []string      // ids of package slip; none means all
	Checks   []*rule.Check // nil means verify.All()
	Progress func(done, total int)
	Stop     func() bool // asked between records; true ends the trial
	NoHoles  bool        // leave out what to add to the records
	// Every plants only one in so many of the slips that are drawn, evenly over the
	// kinds and the records; 0 means all. All records are judged untouched.
	Every int
	// Least is the least factor by which a slip changes a figure; 0 means 1.03.
	// Slips that leave no figure to compare are planted all the same.
	Least float64
	// Figures says of a figure that slips are planted in it; nil means in all.
	Figures func(schema.Path) bool
	// Draws is how often a kind is drawn for one value; 0 means once.
	Draws int
}

// Count is what became of the slips of one kind.
type Count struct {
	Kind     string // id
	Name     string
	Units    int // in how many units the figure was printed: 1, or 2 for more
	Planted  int
	Caught   int // by a reject or a query
	Rejected int // by a reject
	Named    int // and among the slips listed
	First    int // and named first
	// Of figures in two units: those whose values then disagree by every habit of
	// rounding, and how many of these are caught and rejected.
	Disagree, DisagreeCaught, DisagreeRejected int
}

// Report is the outcome of a trial.
type Report struct {
	Seed    uint64
	Records int
	Figures int // that slips were planted in
	// Of the untouched records; no slips are planted in them:
	Rejected int // records with a reject
	Queried  int // records with a query and no reject
	Counts   []Count
	Holes    []Hole
}

// Run plants slips in the records of the entries, all of one run: entries of one
// machine are one book. The records are not changed.
func Run(entries iter.Seq[schema.Entry], opt Options) Report {
	t := newTrial(entries, opt)
	total := len(t.records)
	for i, r := range t.records {
		if opt.Progress != nil {
			opt.Progress(i, total)
		}
		if opt.Stop != nil && opt.Stop() {
			break
		}
		if r.good {
			t.record(r)
		}
	}
	if opt.Progress != nil {
		opt.Progress(total, total)
	}
	rep := Report{Seed: opt.Seed, Records: total, Figures: t.figures, Rejected: t.rejected, Queried: t.queried, Counts: t.table()}
	if !opt.NoHoles {
		rep.Holes = t.holes()
	}
	return rep
}

// trial is one run.
type trial struct {
	opt     Options
	checks  []*rule.Check // of records
	answers string        // id of the check that lets queries be answered; "" when it is not run
	book    *book
	kinds   []*slip.Kind
	units   verify.UnitUse
	records []*subject
	counts  map[countKey]*Count
	left    map[countKey]int // until the next of a kind is planted

	figures, rejected, queried int
}

type countKey struct {
	kind  *slip.Kind
	units int
}

// subject is one record under trial.
type subject struct {
	index int
	entry schema.Entry
	bench *slip.Bench
	known map[findingKey]bool // what is said of it untouched
	good  bool                // nothing more than notes: slips are planted in it
	donor *slip.Bench         // a neighbour of its kind; nil when it has none

	planted int     // in figures
	through []plant // of them, that nothing caught
}

func newTrial(entries iter.Seq[schema.Entry], opt Options) *trial {
	t := &trial{opt: opt, counts: map[countKey]*Count{}, left: map[countKey]int{}}
	checks := opt.Checks
	if checks == nil {
		checks = verify.All()
	}
	for _, c := range checks {
		if c.Record != nil || c.Answers {
			t.checks = append(t.checks, c)
		}
		if c.Answers {
			t.answers = c.ID
		}
	}
	for _, k := range slip.Kinds() {
		if len(opt.Kinds) == 0 || slices.Contains(opt.Kinds, k.ID) {
			t.kinds = append(t.kinds, k)
		}
	}
	t.book = newBook(checks)
	last := map[string]*subject{} // by kind
	for e := range entries {
		e.Locate = nil // places in the file cost, and nobody sees them here
		s := &subject{index: len(t.records), entry: e}
		if e.HeadOnly || e.Record == nil {
			t.book.add(-1, &e)
			continue
		}
		decimal := ""
		if e.Head != nil {
			decimal = e.Head.Decimal
		}
		s.bench = slip.NewBench(e.Record, decimal)
		t.book.add(s.index, &e)
		t.units.Add(e.Record)
		if n := last[e.Record.Kind]; n != nil {
			s.donor = n.bench
			if n.donor == nil {
				n.donor = s.bench
			}
		}
		last[e.Record.Kind] = s
		t.records = append(t.records, s)
	}
	t.book.judge()
	for _, s := range t.records {
		t.untouched(s)
	}
	return t
}

// untouched judges a record as it is.
func (t *trial) untouched(s *subject) {
	worst := rule.Note
	s.known = map[findingKey]bool{}
	e := s.entry
	for _, f := range t.judge(&e) {
		worst = max(worst, f.Verdict)
		s.known[keyOf(f)] = true
	}
	worst = max(worst, t.book.worst(s.index, func(f rule.Finding) bool { return t.answers != "" && s.answers(f) }))
	s.good = worst < rule.Query
	switch worst {
	case rule.Reject:
		t.rejected++
	case rule.Query:
		t.queried++
	}
}

// judge runs the checks of records over one entry.
func (t *trial) judge(e *schema.Entry) []rule.Finding {
	var found []rule.Finding
	one := func(yield func(schema.Entry) bool) { yield(*e) }
	// The error is the sorter's, and no rows are sorted.
	_ = verify.Run(one, verify.Options{Checks: t.checks, Units: &t.units}, func(f rule.Finding) bool {
		// An answer to a check of the book seems to answer nothing here.
		if f.Verdict > rule.Note && f.Check != t.answers {
			found = append(found, f)
		}
		return true
	})
	return found
}

// answers reports whether the record answers a query of the book.
func (s *subject) answers(f rule.Finding) bool {
	return f.Verdict == rule.Query && slices.ContainsFunc(s.entry.Record.Answers, func(a schema.Answer) bool {
		figure := s.entry.Pointer + a.Figure
		return a.Check == f.Check && a.Read == f.Read && (f.Place.Pointer == figure || strings.HasPrefix(f.Place.Pointer, figure+"/"))
	})
}

type findingKey struct {
	check, file, pointer string
	verdict              rule.Verdict
}

func keyOf(f rule.Finding) findingKey {
	return findingKey{f.Check, f.Place.File, f.Place.Pointer, f.Verdict}
}

// record plants every kind of slip in every figure of a record.
func (t *trial) record(s *subject) {
	rng := rand.New(rand.NewPCG(t.opt.Seed, uint64(s.index)+1))
	for _, p := range t.plants(s, rng) {
		if !t.turn(p) {
			continue
		}
		o := t.try(s, p)
		odd := p.units > 1 && p.value >= 0 && t.disagree(s, p)
		c := t.count(p)
		c.Planted++
		if o.caught {
			c.Caught++
		} else if p.value >= 0 {
			s.through = append(s.through, p)
		}
		if p.value >= 0 {
			s.planted++
		}
		if o.rejected {
			c.Rejected++
		}
		if odd {
			c.Disagree++
			if o.caught {
				c.DisagreeCaught++
			}
			if o.rejected {
				c.DisagreeRejected++
			}
		}
		if o.rank > 0 {
			c.Named++
		}
		if o.rank == 1 {
			c.First++
		}
	}
}

// turn reports that a slip is one of those to be planted: of each kind, in one unit
// and in two, every so manyth. The seed says where each begins.
func (t *trial) turn(p plant) bool {
	if t.opt.Every < 2 {
		return true
	}
	key := countKey{p.kind, p.units}
	left, begun := t.left[key]
	if !begun {
		rng := rand.New(rand.NewPCG(t.opt.Seed, uint64(2*slices.Index(t.kinds, p.kind)+p.units)))
		left = rng.IntN(t.opt.Every)
	}
	if left == 0 {
		left = t.opt.Every
	}
	t.left[key] = left - 1
	return left == t.opt.Every
}

// disagree reports a slip after which two values of the figure, both read, do not
// agree in any way.
func (t *trial) disagree(s *subject, p plant) bool {
	s.bench.Set(p.edits)
	defer s.bench.Reset()
	vs := s.bench.Figure(p.path).Values
	for i := range vs {
		for j := range i {
			a, b := vs[j].Quantity, vs[i].Quantity
			if vs[i].Problem == nil && vs[j].Problem == nil && a.Unit.Dimension() == b.Unit.Dimension() &&
				convert.Agree(a, b).Outcome == convert.Disagree && !asRise(a, b) {
				return true
			}
		}
	}
	return false
}

// asRise reports two temperatures that agree as a rise: 3 °C beside 5 °F.
func asRise(a, b convert.Quantity) bool {
	if a.Unit.Dimension() != convert.Temperature {
		return false
	}
	span := convert.Of(convert.TemperatureDifference)
	x, problem := convert.ReadUnit(a.Unit.Symbol(), span)
	y, problem2 := convert.ReadUnit(b.Unit.Symbol(), span)
	a.Unit, b.Unit = x, y
	return problem == nil && problem2 == nil && convert.Agree(a, b).Outcome != convert.Disagree
}

func (t *trial) count(p plant) *Count {
	key := countKey{p.kind, p.units}
	c := t.counts[key]
	if c == nil {
		c = &Count{Kind: p.kind.ID, Name: p.kind.Name, Units: p.units}
		t.counts[key] = c
	}
	return c
}

// table lists the counts in the order of the kinds, two units first.
func (t *trial) table() []Count {
	var out []Count
	for _, k := range t.kinds {
		for _, units := range []int{2, 1} {
			if c := t.counts[countKey{k, units}]; c != nil {
				out = append(out, *c)
			}
		}
	}
	return out
}
