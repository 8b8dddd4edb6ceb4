package trial

import (
	"math"
	"math/rand/v2"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/slip"
)

// plant is one slip to be planted.
type plant struct {
	kind  *slip.Kind
	edits []slip.Edit
	path  schema.Path // of the figure, or of the thread or class
	value int         // -1 for a thread or class
	units int         // of the figure: 1, or 2 for more
	was   []string    // the text before; of rows exchanged, those of both
}

// plants draws the slips for a record: for each value of each figure one of
// each kind, where the kind can befall it.
func (t *trial) plants(s *subject, rng *rand.Rand) []plant {
	var out []plant
	draws := max(t.opt.Draws, 1)
	draw := func(k *slip.Kind, path schema.Path, value, units int, was string, donor *schema.Figure) {
		var variants [][]slip.Edit
		for _, v := range k.Plants(s.bench, path, value, donor) {
			if counts(s.bench, v) && (t.opt.Least == 0 || factor(s.bench, path, value, v) >= t.opt.Least) {
				variants = append(variants, v)
			}
		}
		rng.Shuffle(len(variants), func(i, j int) { variants[i], variants[j] = variants[j], variants[i] })
		for _, v := range variants[:min(draws, len(variants))] {
			texts := []string{was}
			for _, e := range v {
				if e.Value == 0 && e.Path != path {
					texts = append(texts, s.bench.Figure(e.Path).Text())
				}
			}
			out = append(out, plant{k, v, path, value, units, texts})
		}
	}
	for _, path := range s.bench.Paths() {
		if t.opt.Figures != nil && !t.opt.Figures(path) {
			continue
		}
		f := s.bench.Figure(path)
		t.figures++
		var donor *schema.Figure
		if s.donor != nil {
			donor = s.donor.Figure(path)
		}
		for i := range f.Values {
			for _, k := range t.kinds {
				draw(k, path, i, min(len(f.Values), 2), f.Values[i].Text, donor)
			}
		}
	}
	r := s.bench.Record
	for i := range r.Fasteners.Items {
		at := r.Fasteners.At(i)
		for _, k := range t.kinds {
			draw(k, at.Field("thread"), -1, 1, r.Fasteners.Items[i].Thread, nil)
			draw(k, at.Field("class"), -1, 1, r.Fasteners.Items[i].Class, nil)
		}
	}
	return out
}

// least is the smallest change that counts as a slip: less than any wrench or
// rule shows.
const least = 0.03

// counts reports edits that change what is read by more than the least: a slip
// that does nobody harm is none.
func counts(b *slip.Bench, edits []slip.Edit) bool {
	if len(edits) == 0 {
		return false
	}
	changed := false
	for _, e := range edits {
		if e.Value < 0 {
			return true
		}
		was := b.Figure(e.Path).Values[e.Value]
		b.Set([]slip.Edit{e})
		is := b.Figure(e.Path).Values[e.Value]
		b.Reset()
		changed = changed || differs(&was, &is)
	}
	return changed
}

// factor is how many times greater or less the slip makes a figure; infinite
// where there is nothing to compare.
func factor(b *slip.Bench, path schema.Path, value int, edits []slip.Edit) float64 {
	if value < 0 {
		return math.Inf(1)
	}
	was := b.Figure(path).Values[value]
	b.Set(edits)
	is := b.Figure(path).Values[value]
	b.Reset()
	if !was.Read() || !is.Read() {
		return math.Inf(1)
	}
	r := is.Quantity.Nominal() / was.Quantity.Nominal()
	return max(r, 1/r)
}

func differs(was, is *convert.Value) bool {
	if !is.Read() || !was.Read() {
		return true
	}
	if is.Problem != nil && !is.Problem.Settled {
		return true // lb for lbf·ft
	}
	a, b := was.Quantity, is.Quantity
	if a.Unit.Dimension() != b.Unit.Dimension() || a.Form != b.Form {
		return true
	}
	if a.Form == convert.Range && a.Ordered() != b.Ordered() {
		return true
	}
	lo, hi := a.Bounds()
	lo2, hi2 := b.Bounds()
	return apart(lo, lo2, a.Unit) || apart(hi, hi2, a.Unit)
}

func apart(x, y float64, u convert.Unit) bool {
	if x == y || math.IsInf(x, 0) && math.IsInf(y, 0) {
		return false
	}
	if u.Dimension() == convert.Temperature {
		return math.Abs(x-y) > 3 // K
	}
	return math.Abs(x-y) > least*max(math.Abs(x), math.Abs(y))
}
