package slip

import (
	"cmp"
	"math"
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
	because string // known while the slip is taken back
	outside bool   // the text does not fit the place: a force where a torque is wanted
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
	u.out = append(u.out, Candidate{
		Kind: u.kind, Path: u.path, Edits: []Edit{{u.path, u.i, text}}, Reads: text, share: share,
	})
}

// numbers adds every variant of every number of the value.
func (u *undoing) numbers(variants func(s string) []variant) {
	for _, at := range u.parts.numbers {
		s := u.v.Text[at.Start:at.End]
		if !isNumber(s, u.mark) {
			continue
		}
		for _, x := range variants(s) {
			if isNumber(x.text, u.mark) {
				u.add(with(u.v.Text, at, x.text), x.share/float64(len(u.parts.numbers)))
			}
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

// Undo takes back every single slip of the figures at the paths, the first of
// which a finding is about, and ranks what comes out. At most three are given;
// none when nothing single explains what stands there. Last is asked of the few
// that are left, and may cost more than plausible; it may be nil.
func (b *Bench) Undo(paths []schema.Path, plausible Plausible, last func(*Candidate) float64) []Restored {
	var all []Restored
	for n, path := range paths {
		for _, c := range b.candidates(path) {
			weight, because := b.agreement(&c)
			prior, _ := c.Kind.Prior()
			score := prior * c.share * weight
			if n > 0 {
				score *= relative
			}
			if score > 0 {
				all = append(all, Restored{c, rounded(score), because})
			}
		}
	}
	// What is said of a candidate can only lower its score: once three are found,
	// those that begin below them need not be looked at.
	slices.SortFunc(all, rank)
	best := map[string]Restored{}
	third := 0.0
	for _, r := range all {
		if r.Score < third {
			break
		}
		share, why := outsideShare, ""
		if !r.outside {
			b.Set(r.Edits)
			if share, why = plausible(&r.Candidate); share > 0 && last != nil && r.Score*share >= third {
				share *= last(&r.Candidate)
			}
			b.Reset()
		}
		if share <= 0 {
			continue
		}
		r.Score = rounded(r.Score * share)
		if r.Because = join(r.Because, r.because, why); r.Because == "" {
			r.Because = "then nothing speaks against it"
		}
		key := r.key(b)
		if old, ok := best[key]; !ok || rank(r, old) < 0 {
			best[key] = r
			third = thirdBest(best)
		}
	}
	out := make([]Restored, 0, most)
	for _, r := range best {
		out = append(out, r)
	}
	slices.SortFunc(out, rank)
	for i := range out {
		if i == most || out[i].Score < out[0].Score*leastOf {
			return out[:i]
		}
	}
	return out
}

// outsideShare is the plausibility of a text that does not fit its place.
const outsideShare = 0.02

// thirdBest is the least score that is shown; 0 while fewer are found.
func thirdBest(found map[string]Restored) float64 {
	if len(found) < most {
		return 0
	}
	scores := make([]float64, 0, len(found))
	for _, r := range found {
		scores = append(scores, r.Score)
	}
	slices.Sort(scores)
	return scores[len(scores)-most]
}

// rounded is a score to an eighth of a power of two.
func rounded(score float64) float64 { return math.Exp2(math.Round(math.Log2(score)*8) / 8) }

// rank orders by falling score, then in a fixed order.
func rank(a, b Restored) int {
	return cmp.Or(
		cmp.Compare(b.Score, a.Score),
		cmp.Compare(slices.Index(kinds, a.Kind), slices.Index(kinds, b.Kind)),
		cmp.Compare(len(a.Reads), len(b.Reads)),
		strings.Compare(a.Reads, b.Reads),
	)
}

// key is equal for candidates that lead to the same figure.
func (c *Candidate) key(b *Bench) string {
	var k strings.Builder
	for _, e := range c.Edits {
		k.WriteString(e.Path.String())
		if f := b.Figure(e.Path); f != nil && e.Value >= 0 {
			k.WriteByte(byte('0' + e.Value))
			if q, p := convert.Parse(e.Text, f.Want, b.mark); p == nil {
				k.WriteString(Canonical(q))
				continue
			}
		}
		k.WriteString(e.Text)
	}
	return k.String()
}

// Canonical is equal for quantities that print alike but for trailing zeros.
func Canonical(q convert.Quantity) string {
	for _, d := range []*convert.Decimal{&q.First, &q.Second, &q.Plus, &q.Minus} {
		for d.Den <= 1 && d.Mant != 0 && d.Mant%10 == 0 {
			d.Mant /= 10
			d.Exp++
		}
		if d.Mant == 0 {
			*d = convert.Decimal{}
		}
	}
	if q.Form == convert.Deviation && q.Plus == q.Minus && q.Plus == (convert.Decimal{}) {
		q.Form = convert.Single
	}
	q.FirstAt, q.SecondAt, q.UnitAt = convert.Place{}, convert.Place{}, convert.Place{}
	// Exponents are written as such, so that 1300 and 1.3e3 are one.
	d := func(x convert.Decimal) string {
		s, _ := x.Rat().Float64()
		return " " + strings.TrimSuffix(formatFloat(s), ".0")
	}
	return string(rune('a'+q.Form)) + d(q.First) + d(q.Second) + d(q.Plus) + d(q.Minus) + " " + q.Unit.Symbol()
}

// agreement is how well the values of the figures agree with the edits made, and
// how usual it is to print them so; 0 when they do not agree, or when one of
// them is still in doubt.
func (b *Bench) agreement(c *Candidate) (weight float64, because string) {
	weight = 1
	if c.outside {
		return weight, ""
	}
	for n, e := range c.Edits {
		if e.Value < 0 || n > 0 && c.Edits[n-1].Path == e.Path || e.Value > 0 && len(c.Edits) > 1 {
			continue // a thread; a figure is looked at once
		}
		w, why := b.figureAgrees(c, e)
		if w == 0 {
			return 0, ""
		}
		weight *= w
		if len(c.Edits) == 1 {
			because = why
		}
	}
	return weight, because
}

// figureAgrees is agreement for the figure of one edit.
func (b *Bench) figureAgrees(c *Candidate, e Edit) (weight float64, because string) {
	f := b.Figure(e.Path)
	vs := f.Values
	if q, problem := convert.Parse(e.Text, f.Want, b.mark); problem == nil && len(c.Edits) == 1 && !slices.ContainsFunc(vs, inDoubt) {
		b.scratch = append(b.scratch[:0], vs...)
		vs = b.scratch
		vs[e.Value].Quantity = q
	} else {
		vs = slices.Clone(vs)
		for _, x := range c.Edits {
			if x.Path == e.Path {
				vs[x.Value].Text = x.Text
			}
		}
		reread(vs, f.Want, b.mark)
		for i := range vs {
			if vs[i].Problem != nil && !vs[i].Problem.Settled {
				return 0, ""
			}
		}
	}
	if q := vs[e.Value].Quantity; q.Form == convert.Range && !q.Ordered() && q.Second.Mant >= 0 {
		return 0, ""
	}
	weight = customary(vs) * b.consistent(e.Path, vs) * width(vs[e.Value].Quantity)
	if len(vs) == 1 {
		return weight * roundness(vs[0].Quantity), ""
	}
	for i := 1; i < len(vs); i++ {
		x, y := vs[0].Quantity, vs[i].Quantity
		if x.Unit.Dimension() != y.Unit.Dimension() {
			continue
		}
		if x.Unit == y.Unit {
			return 0, "" // the same unit twice
		}
		if weight *= printedSo(x, y); weight == 0 {
			return 0, ""
		}
		if i == e.Value {
			because = "agrees with " + vs[0].Text
		} else if e.Value == 0 {
			because = join(because, "agrees with "+vs[i].Text)
		}
	}
	return weight, because
}

func inDoubt(v convert.Value) bool { return v.Problem != nil }

// join joins reasons that are there.
func join(reasons ...string) string {
	reasons = slices.DeleteFunc(reasons, func(s string) bool { return s == "" })
	return strings.Join(reasons, "; ")
}
