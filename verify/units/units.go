// Package units holds the checks of the layer units: every figure can be read,
// in a unit that fits its place and has one reading, and two printed values of
// one figure agree.
//
// Package convert reads the figures and finds the doubts; most checks here give
// one kind of doubt its name, its text and its verdict.
package units

import (
	"embed"
	"iter"
	"slices"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

//go:embed *.md
var texts embed.FS

func doc(name string) string { return rule.Doc(texts, name) }

// figures walks the figures of the record that are not words, with their paths. In
// a selection table whose parts go by number (23-4567) these are no figures either.
func figures(p *rule.Pass) iter.Seq2[schema.Path, *schema.Figure] {
	return func(yield func(schema.Path, *schema.Figure) bool) {
		for _, at := range p.Figures() {
			if at.Figure.Word || isPart(at.Path) && !anyPartRead(p.Record) {
				continue
			}
			if !yield(at.Path, at.Figure) {
				return
			}
		}
	}
}

// isPart reports a path such as /select/rows/0/part.
func isPart(path schema.Path) bool {
	if path.Len() != 4 {
		return false
	}
	first, _ := path.Step(0)
	last, _ := path.Step(3)
	return first == "select" && last == "part"
}

func anyPartRead(r *schema.Record) bool {
	return slices.ContainsFunc(r.Select.Rows, func(row schema.SelectRow) bool {
		_, _, ok := row.Part.First()
		return ok && !row.Part.Word
	})
}

// doubt is a value of a figure that was not read, or not surely.
type doubt struct {
	want  convert.Dimensions
	at    schema.Spot // of the part in doubt
	value *convert.Value
}

// doubts walks the doubts of some kinds.
func doubts(p *rule.Pass, kinds ...convert.Kind) iter.Seq[doubt] {
	return func(yield func(doubt) bool) {
		if !p.Doubtful() {
			return
		}
		for path, f := range figures(p) {
			for i := range f.Values {
				v := &f.Values[i]
				if v.Problem == nil || !slices.Contains(kinds, v.Problem.Kind) {
					continue
				}
				at := schema.Spot{Path: f.At(path, i), From: v.Problem.At.Start, To: v.Problem.At.End}
				if !yield(doubt{f.Want, at, v}) {
					return
				}
			}
		}
	}
}

// finding says of a doubt what package convert says.
func (d doubt) finding(v rule.Verdict) rule.Finding {
	return rule.Finding{
		Verdict: v, At: d.at, Message: d.value.Problem.Message,
		Read: d.value.Text, Want: readings(d.value.Problem.Readings),
	}
}

// readings lists what a figure may have been, likeliest first.
func readings(qs []convert.Quantity) string {
	var s []string
	for _, q := range qs {
		s = append(s, q.String())
	}
	return strings.Join(s, " or ")
}
