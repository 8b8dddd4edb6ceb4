package sense

import (
	"cmp"
	"fmt"
	"slices"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// MarksOverlap flags two marks of a level that hold at one temperature.
var MarksOverlap = &rule.Check{
	ID: "marks-overlap", Layer: rule.Sense, Title: "two marks hold at one temperature",
	Doc: doc("marks-overlap.md"), Source: reference.Cite("us-army-tm-9-2320-386-10"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		type band struct {
			at     spotted
			lo, hi float64
			i      int
		}
		var bands []band
		for i := range p.Record.Level.Marks {
			if s, ok := at(&p.Record.Level.Marks[i].At, schema.At("level", "marks", i, "at")); ok {
				lo, hi := s.quantity().Bounds()
				bands = append(bands, band{s, lo, hi, i})
			}
		}
		slices.SortStableFunc(bands, func(a, b band) int { return cmp.Compare(a.lo, b.lo) })
		far := 0 // the band that reaches farthest up so far
		for k := 1; k < len(bands); k++ {
			a, b := bands[far], bands[k]
			if b.hi > a.hi {
				far = k
			}
			half := b.lo - widened(b.at) // NaN without a lower end
			if !(half > 0) {
				half = 0
			}
			if b.lo >= a.hi-half || p.Record.Level.Marks[a.i].Mark == p.Record.Level.Marks[b.i].Mark {
				continue
			}
			if b.i < a.i { // report the later of the two
				a, b = b, a
			}
			p.Report(rule.Finding{
				Verdict: rule.Query, At: b.at.number(), Read: b.at.text(),
				Message: fmt.Sprintf("%s overlaps %s; which mark holds there?", b.at.text(), a.at.text()),
				Related: []rule.Related{{At: a.at.number(), Message: fmt.Sprintf("mark %q holds here", p.Record.Level.Marks[a.i].Mark)}},
			})
		}
	},
}

// widened is the least temperature that a band may have meant.
func widened(s spotted) float64 {
	lo, _ := s.quantity().Widened()
	return lo
}
