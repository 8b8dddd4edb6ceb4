package release

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
)

// Normal is the record of an entry in normal form, as a release has it. Its
// State and Number are the release's to give. File is that of the entry. An
// error means that the record cannot be written as JSON.
func Normal(e *schema.Entry) (Record, error) {
	h, r := e.Head, e.Record
	if h == nil {
		h = &schema.Head{}
	}
	out := Record{
		State: StateRelease, Machine: h.Machine.ID, Item: r.ItemName(), ID: r.ID, Kind: r.Kind, Where: r.Where,
		File: e.File, Pointer: e.Pointer, Supersedes: r.Supersedes, Source: sourceOf(h, r.Source),
		Caution: r.Caution, Renew: r.Renew, Figures: []Figure{},
	}
	if e.Locate != nil {
		out.Line = e.Locate(schema.Spot{Path: schema.At("id")}).Start.Line
	}
	entered := r.EnteredBy(h)
	out.Entered = Signature{By: entered.By, Date: entered.Date}
	var words []string
	for _, b := range r.Boxes() {
		b = h.Within(b)
		out.Applies = append(out.Applies, boxOf(b))
		words = append(words, b.String())
	}
	out.AppliesTo = strings.Join(words, "; or ")
	var err error
	if out.Fingerprint, err = schema.Fingerprint(h, r); err != nil {
		return Record{}, fmt.Errorf("%s: %w", r.ID, err)
	}
	if how, line, err := e.Standing(); err != nil {
		return Record{}, fmt.Errorf("%s: %w", r.ID, err)
	} else if how == schema.Signed {
		out.Countersign = &Countersign{By: line.By, Date: line.Date, Fingerprint: line.Fingerprint}
	}
	for _, a := range r.Answers {
		out.Answers = append(out.Answers, Answer(a))
	}
	if u := r.Unpublished; u != (schema.Unpublished{}) {
		out.Unpublished = &Unpublished{Why: u.Why, Do: u.Do}
	}
	for p, f := range r.Figures() {
		figure := figureOf(p, f, &r.Misprint)
		if p == schema.At("misprint", "use") {
			continue // it stands with the misprint
		}
		out.Figures = append(out.Figures, figure)
	}
	if m := &r.Misprint; m.Printed != "" {
		out.Misprint = &Misprint{
			Printed: m.Printed, Use: figureOf(schema.At("misprint", "use"), &m.Use, &schema.Misprint{}), Because: m.Because,
			Source: sourceOf(h, m.Source), By: m.By, Date: m.Date,
		}
	}
	return out, out.author(e)
}

// author puts the record itself in, where its shape is sound.
func (out *Record) author(e *schema.Entry) error {
	for _, p := range e.Problems {
		out.Problems = append(out.Problems, p.Message)
	}
	if _, known := e.Head.SourceOf(e.Record.Source); !known && len(out.Problems) == 0 {
		out.Problems = append(out.Problems, fmt.Sprintf("source %q is not listed", e.Record.Source.Ref))
	}
	if len(out.Problems) > 0 {
		return nil
	}
	var err error
	out.Authored, err = json.Marshal(schema.Plain(e.Head, e.Record))
	return err
}

func sourceOf(h *schema.Head, s schema.Source) Source {
	d, known := h.SourceOf(s)
	if !known {
		d.Title = s.Ref
	}
	return Source{Title: d.Title, Edition: d.Edition, Kind: d.Kind, At: s.At}
}

func boxOf(b schema.Box) Box {
	out := Box{Variants: b.Variants}
	for _, r := range b.Serials {
		x := Range{Name: r.Name, Form: r.Form, Text: r.String(), Bad: r.Bad}
		if r.HasFrom {
			x.From = &r.From
		}
		if r.HasTo {
			x.To = &r.To
		}
		out.Serials = append(out.Serials, x)
	}
	return out
}

func figureOf(p schema.Path, f *schema.Figure, m *schema.Misprint) Figure {
	out := Figure{Pointer: p.String(), Values: []Value{}}
	if f.Word {
		out.Word = strings.TrimSpace(f.Text())
		return out
	}
	for i := range f.Values {
		v := valueOf(&f.Values[i])
		v.Misprint = m.Is(f.Values[i].Text)
		out.Values = append(out.Values, v)
	}
	return out
}

// The names of the forms.
var forms = map[convert.Form]string{
	convert.Single: "single", convert.Range: "range", convert.Deviation: "deviation",
	convert.AtMost: "at most", convert.AtLeast: "at least", convert.Tolerance: "tolerance",
}

func valueOf(v *convert.Value) Value {
	out := Value{Text: v.Text}
	if v.Problem != nil {
		out.Problem = v.Problem.Message
		if !v.Problem.Settled {
			return out // taken for comparing at most
		}
	}
	q := v.Quantity
	out.Form, out.Percent = forms[q.Form], q.Percent
	out.Unit, out.UCUM, out.SI, out.SIUCUM = q.Unit.Symbol(), q.Unit.UCUM(), "1", "1"
	out.Dimension = convert.Number.String()
	switch d := q.Unit.Dimension(); {
	case q.Unit == 0:
		out.UCUM = "1"
	case d == convert.Ratio: // a plain number in SI: 10 % is 0.1
		out.Dimension = d.String()
	default:
		out.Dimension, out.SI, out.SIUCUM = d.String(), d.SI().Symbol(), d.SI().UCUM()
	}
	put := func(to *string, d convert.Decimal) {
		*to = d.String()
		out.Digits = max(out.Digits, d.Digits())
	}
	switch q.Form {
	case convert.Range:
		put(&out.First, q.First)
		put(&out.Second, q.Second)
	case convert.AtMost:
		put(&out.Second, q.Second)
	case convert.Deviation:
		put(&out.First, q.First)
		out.Plus, out.Minus = q.Plus.String(), q.Minus.String()
	case convert.Tolerance:
		put(&out.Plus, q.Plus)
		put(&out.Minus, q.Minus)
	default:
		put(&out.First, q.First)
	}
	e, w := endsOf(q, false), endsOf(q, true)
	out.Low, out.High = finite(float(e.lo, e.pi)), finite(float(e.hi, e.pi))
	out.LowExact, out.HighExact = exact(e.lo, e.pi), exact(e.hi, e.pi)
	out.RoundingLow, out.RoundingHigh = finite(float(w.lo, w.pi)), finite(float(w.hi, w.pi))
	return out
}

// finite leaves out what a float64 cannot hold, and so JSON cannot.
func finite(f *float64) *float64 {
	if f == nil || math.IsInf(*f, 0) || math.IsNaN(*f) {
		return nil
	}
	return f
}
