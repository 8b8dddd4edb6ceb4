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
// none when nothing single explains what stands there.
func (b *Bench) Undo(paths []schema.Path, plausible Plausible) []Restored {
	best := map[string]Restored{}
	for n, path := range paths {
		for _, c := range b.candidates(path) {
			weight, because := b.agreement(&c)
			if weight == 0 {
				continue
			}
			var share float64
			var why string
			if c.outside {
				share = 0.5
			} else {
				b.Set(c.Edits)
				share, why = plausible(&c)
				b.Reset()
			}
			prior, _ := c.Kind.Prior()
			score := prior * c.share * weight * share
			if n > 0 {
				score *= relative
			}
			if score <= 0 {
				continue
			}
			r := Restored{c, rounded(score), join(because, c.because, why)}
			if r.Because == "" {
				r.Because = "then nothing speaks against it"
			}
			key := c.key(b)
			if old, ok := best[key]; !ok || rank(r, old) < 0 {
				best[key] = r
			}
		}
	}
	var out []Restored
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

// agreement is how well the values of the figure agree with the edits made; 0
// when they do not, or when one of them is still in doubt.
func (b *Bench) agreement(c *Candidate) (weight float64, because string) {
	if c.outside {
		return 1, ""
	}
	if len(c.Edits) != 1 || c.Edits[0].Value < 0 {
		return 1, "" // rows exchanged, a thread: the figures themselves are as they were
	}
	e := c.Edits[0]
	f := b.Figure(e.Path)
	q, problem := convert.Parse(e.Text, f.Want, b.mark)
	vs := f.Values
	if problem != nil || slices.ContainsFunc(vs, func(v convert.Value) bool { return v.Problem != nil }) {
		vs = slices.Clone(vs)
		vs[e.Value].Text = e.Text
		reread(vs, f.Want, b.mark)
		for i := range vs {
			if vs[i].Problem != nil && !vs[i].Problem.Settled {
				return 0, ""
			}
		}
		q = vs[e.Value].Quantity
	}
	if q.Form == convert.Range && !q.Ordered() && q.Second.Mant >= 0 {
		return 0, ""
	}
	weight = 1
	for i := range vs {
		other := vs[i].Quantity
		if i == e.Value || other.Unit.Dimension() != q.Unit.Dimension() {
			continue
		}
		if other.Unit == q.Unit {
			return 0, "" // the same unit twice
		}
		first, second := q, other
		if i < e.Value {
			first, second = other, q
		}
		weight *= habit(convert.Agree(first, second).Outcome)
		if weight == 0 {
			return 0, ""
		}
		because = join(because, "agrees with "+vs[i].Text)
	}
	return weight, because
}

// habit is how often two values of one figure agree in a way, of the call-outs
// counted in data/error-frequencies.csv: 858 of 937 by rounding, 46 by a short
// factor, 33 by coarse rounding.
func habit(o convert.Outcome) float64 {
	switch o {
	case convert.Exact, convert.Rounded, convert.RoundedFromSecond:
		return 1
	case convert.Truncated, convert.Inward:
		return 0.1
	case convert.Loose, convert.Coarse:
		return 0.05
	}
	return 0
}

// join joins reasons that are there.
func join(reasons ...string) string {
	reasons = slices.DeleteFunc(reasons, func(s string) bool { return s == "" })
	return strings.Join(reasons, "; ")
}
