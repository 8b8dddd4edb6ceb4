package slip

import (
	"slices"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
)

// Candidate is one slip taken back.
type Candidate struct {
	Kind  *Kind
	Edits []Edit // that put it right
	Reads string // the corrected text
	Path  schema.Path

	share   float64
	weight  float64 // of the agreement
	agrees  string  // with what
	because string  // known while the slip is taken back
	outside bool    // the text does not fit the place: a force where a torque is wanted
}

// Touches reports whether a path lies in what the candidate edits.
func (c *Candidate) Touches(p schema.Path) bool {
	return slices.ContainsFunc(c.Edits, func(e Edit) bool { return e.Path.Has(p) })
}

// Restored is a candidate with its rank.
type Restored struct {
	Candidate
	Score   float64 // rounded; comparable within one search only
	Because string
	queried bool // a check asks about it still
}

// Plausible tells how plausible the record on the bench is, from 0 (cannot be)
// to 1, with a candidate's edits made, and why: "is what an M6 of class 8.8
// takes". The reason may be empty.
type Plausible func(*Candidate) (share float64, because string)

const (
	most     = 3
	leastOf  = 1.0 / 300 // of the best score: less is not worth showing
	relative = 0.5       // a figure that the finding only refers to is likelier right
)

// undoing collects the candidates of one value.
type undoing struct {
	b     *Bench
	kind  *Kind
	path  schema.Path
	f     *schema.Figure
	i     int
	v     *convert.Value
	parts parts
	mark  byte
	out   []Candidate
}

func (u *undoing) add(text string, share float64) {
	if text == u.v.Text {
		return
	}
	// Most candidates agree with nothing, and are dropped before they cost.
	weight, because := u.b.agrees(u.path, u.f, u.i, text)
	if weight == 0 {
		return
	}
	u.out = append(u.out, Candidate{
		Kind: u.kind, Path: u.path, Edits: []Edit{{u.path, u.i, text}}, Reads: text,
		share: share, weight: weight, agrees: because,
	})
}

// numbers adds every variant of every number of the value.
func (u *undoing) numbers(variants func(s string) []variant) {
	if p := u.v.Problem; p != nil && !p.Settled && p.Kind != convert.BadNumber && p.Kind != convert.NoNumber && p.Kind != convert.CommaDoubt && p.Kind != convert.Ambiguous {
		return // the trouble is in the unit
	}
	places := u.parts.numbers
	if len(places) == 0 {
		places = u.parts.fraction
	}
	for _, at := range places {
		s := u.v.Text[at.Start:at.End]
		if !mayBeNumber(s, u.mark) {
			continue
		}
		for _, x := range variants(s) {
			text := with(u.v.Text, at, x.text)
			if !isNumber(x.text, u.mark) {
				continue
			}
			if len(u.parts.numbers) == 0 {
				if _, problem := u.b.parse(text, u.f.Want); problem != nil {
					continue // 2/4 and 11/22 are on no rule
				}
			}
			u.add(text, x.share/float64(len(places)))
		}
	}
}

func (b *Bench) markByte() byte {
	if b.mark == convert.Comma {
		return ','
	}
	return '.'
}

// candidates takes back every single slip of a figure.
func (b *Bench) candidates(path schema.Path) []Candidate {
	f := b.Figure(path)
	if f == nil {
		return nil
	}
	u := undoing{b: b, path: path, f: f, mark: b.markByte()}
	for u.i = range f.Values {
		if hopeless(f.Values, u.i) {
			continue
		}
		u.v = &f.Values[u.i]
		u.parts = partsOf(u.v)
		for _, u.kind = range kinds {
			if u.kind.undo != nil {
				u.kind.undo(&u)
			}
		}
	}
	return u.out
}

// hopeless reports that another value than i cannot be read whatever i says: no
// single slip of i mends the figure.
func hopeless(vs []convert.Value, i int) bool {
	for j := range vs {
		p := vs[j].Problem
		if j == i || p == nil || p.Kind == convert.WrongDimension && vs[i].Problem != nil && vs[i].Problem.Kind == p.Kind {
			continue // forces in the units of torques are one slip
		}
		if !p.Settled && (len(p.Readings) == 0 || p.Kind == convert.CutShort || p.Kind == convert.WrongForm) {
			return true
		}
	}
	return false
}

// Undo takes back every single slip of the figures at the paths, the first of
// which a finding is about, and ranks what comes out. At most three are given;
// none when nothing single explains what stands there. Last is asked of the few
// that are left, and may cost more than plausible; it may be nil.
func (b *Bench) Undo(paths []schema.Path, plausible Plausible, last func(*Candidate) float64) []Restored {
	var all []Restored
	printed := map[schema.Path]float64{}
	for n, path := range paths {
		for _, c := range b.candidates(path) {
			if c.weight == 0 {
				c.weight = b.agreement(&c)
			}
			prior, _ := c.Kind.Prior()
			score := prior * c.share * c.weight / b.asPrinted(&c, printed)
			if n > 0 {
				score *= relative
			}
			if score > 0 {
				all = append(all, Restored{Candidate: c, Score: rounded(score), Because: c.agrees})
			}
		}
	}
	// What is said of a candidate can only lower its score: once three are found,
	// those that begin below them need not be looked at.
	slices.SortFunc(all, rank)
	best := map[string]Restored{}
	enough := 0.0
	for n, r := range all {
		if r.Score < enough || n == tries {
			break
		}
		share, why := outsideShare, ""
		if !r.outside {
			b.Set(r.Edits)
			if share, why = plausible(&r.Candidate); share > 0 && last != nil && r.Score*share >= enough {
				clean := last(&r.Candidate)
				share, r.queried = share*clean, clean < 1
			}
			b.Reset()
		}
		if share <= 0 {
			continue
		}
		r.Score = rounded(r.Score * share)
		r.Because = join(r.Because, r.because, why)
		switch {
		case r.queried:
			r.Because = join(r.Because, "but a check would ask about it")
		case r.Because == "" && ofSiblings(r.Path):
			r.Because = "then no check of the record speaks against it"
		case r.Because == "":
			r.Because = "then nothing speaks against it"
		}
		key := r.key(b)
		if old, ok := best[key]; !ok || rank(r, old) < 0 {
			best[key] = r
			_, enough = shown(best)
		}
	}
	out, _ := shown(best)
	return out
}

// ofSiblings reports a torque, which the book may yet hold against its siblings.
func ofSiblings(p schema.Path) bool {
	first, _ := p.Step(0)
	last, _ := p.Step(p.Len() - 1)
	return first == "tighten" && last == "to"
}

// tries is how many candidates are looked at; the rest are far behind.
const tries = 250

// outsideShare is the plausibility of a text that does not fit its place.
const outsideShare = 0.02

// agreement is how well the values of the figures agree with several edits made;
// 0 when they do not, or when one of them is still in doubt.
func (b *Bench) agreement(c *Candidate) (weight float64) {
	weight = 1
	if c.outside {
		return weight
	}
	for n, e := range c.Edits {
		if e.Value < 0 || slices.ContainsFunc(c.Edits[:n], func(x Edit) bool { return x.Path == e.Path }) {
			continue // a thread; a figure is looked at once
		}
		f := b.Figure(e.Path)
		vs := slices.Clone(f.Values)
		for _, x := range c.Edits {
			if x.Path == e.Path {
				vs[x.Value].Text = x.Text
			}
		}
		b.reread(vs, f.Want)
		for i := range vs {
			if inDoubt(vs[i]) && !vs[i].Problem.Settled {
				return 0
			}
		}
		w, _ := b.weigh(e.Path, vs, e.Value)
		if weight *= w; weight == 0 {
			return 0
		}
	}
	return weight
}

// asPrinted is how usual the figures that a candidate edits are as they stand,
// whether they agree or not. What is restored is measured by it, so that slips of
// one figure, of another, of two at once and of a thread can be held against each
// other.
func (b *Bench) asPrinted(c *Candidate, known map[schema.Path]float64) float64 {
	w := 1.0
	for n, e := range c.Edits {
		if e.Value < 0 || slices.ContainsFunc(c.Edits[:n], func(x Edit) bool { return x.Path == e.Path }) {
			continue
		}
		x, ok := known[e.Path]
		if !ok {
			x = b.usual(e.Path)
			known[e.Path] = x
		}
		w *= x
	}
	return w
}

// unreadable is the weight of a figure that cannot be read as it stands.
const unreadable = 0.2

func (b *Bench) usual(path schema.Path) float64 {
	vs := b.Figure(path).Values
	for i := range vs {
		if vs[i].Quantity.Unit == 0 && vs[i].Problem != nil {
			return unreadable
		}
	}
	q := vs[0].Quantity
	return max(1e-9, roundness(q)*customary(vs)*b.consistent(path, vs)*b.digits(q)*width(q))
}

// agrees is how well the values of a figure agree when one of them is another
// text, how usual it is to print them so, and with what the text agrees.
func (b *Bench) agrees(path schema.Path, f *schema.Figure, i int, text string) (weight float64, because string) {
	q, problem := b.parse(text, f.Want)
	b.scratch = append(b.scratch[:0], f.Values...)
	vs := b.scratch
	if problem == nil && !slices.ContainsFunc(vs, inDoubt) {
		vs[i].Quantity = q
	} else {
		vs[i].Text = text
		b.reread(vs, f.Want)
		for k := range vs {
			if inDoubt(vs[k]) && !vs[k].Problem.Settled {
				return 0, ""
			}
		}
	}
	return b.weigh(path, vs, i)
}

// weigh weighs the values of a figure, of which i is another than is printed.
func (b *Bench) weigh(path schema.Path, vs []convert.Value, i int) (weight float64, because string) {
	if q := vs[i].Quantity; q.Form == convert.Range && !q.Ordered() && q.Second.Mant >= 0 {
		return 0, ""
	}
	weight = 1
	if len(vs) == 1 {
		weight = roundness(vs[0].Quantity)
	}
	for k := 1; k < len(vs); k++ {
		x, y := vs[0].Quantity, vs[k].Quantity
		if x.Unit.Dimension() != y.Unit.Dimension() {
			continue
		}
		if x.Unit == y.Unit {
			return 0, "" // the same unit twice
		}
		if weight *= printedSo(x, y); weight == 0 {
			return 0, ""
		}
		if k == i {
			because = "agrees with " + vs[0].Text
		} else if i == 0 {
			because = join(because, "agrees with "+vs[k].Text)
		}
	}
	return weight * customary(vs) * b.consistent(path, vs) * b.digits(vs[0].Quantity) * width(vs[i].Quantity), because
}

func inDoubt(v convert.Value) bool { return v.Problem != nil }

// join joins reasons that are there.
func join(reasons ...string) string {
	reasons = slices.DeleteFunc(reasons, func(s string) bool { return s == "" })
	return strings.Join(reasons, "; ")
}
