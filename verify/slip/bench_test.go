package slip

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
	"snapgauge/schema"
)

// figure makes a figure of texts, not read yet.
func figure(texts ...string) schema.Figure {
	f := schema.Figure{List: len(texts) > 1}
	for _, t := range texts {
		f.Values = append(f.Values, convert.Value{Text: t})
	}
	return f
}

// torque makes a record of one torque and reads it.
func torque(texts ...string) *schema.Record {
	r := &schema.Record{ID: "r", Kind: schema.KindTorque}
	r.Tighten = []schema.Step{{To: figure(texts...)}}
	r.ReadFigures("")
	return r
}

// screwed is the torque of a screw.
func screwed(texts ...string) *schema.Record {
	r := torque(texts...)
	r.Fasteners.Items = []schema.Fastener{{Type: "screw", Thread: "M8x1.25", Class: "8.8"}}
	return r
}

// tolerance makes a record of one measure and reads it.
func tolerance(of string, texts ...string) *schema.Record {
	r := &schema.Record{ID: "r", Kind: schema.KindTolerance}
	r.Of, r.New = of, figure(texts...)
	r.ReadFigures("")
	return r
}

var (
	atTorque = schema.At("tighten", 0, "to")
	atNew    = schema.At("new")
)

func texts(f *schema.Figure) []string {
	var out []string
	for _, v := range f.Values {
		out = append(out, v.Text)
	}
	return out
}

// What is set on the bench is read, and all is as before after Reset; the record
// that it was made from never changes.
func TestBench(t *testing.T) {
	r := screwed()
	r.Tighten[0].To = figure("71 lbf·in", "8 N·m")
	r.ReadFigures("")
	b := NewBench(r, "")
	thread := r.Fasteners.At(0).Field("thread")
	b.Set([]Edit{{atTorque, 0, "71 lbf·ft"}, {thread, -1, "M10x1.5"}, {atTorque, 5, "none"}, {atNew, 0, "none"}})
	if got := texts(&b.Record.Tighten[0].To); !cmp.Equal(got, []string{"71 lbf·ft", "8 N·m"}) || b.Record.Fasteners.Items[0].Thread != "M10x1.5" {
		t.Errorf("on the bench: %q, %q", got, b.Record.Fasteners.Items[0].Thread)
	}
	if u := b.Record.Tighten[0].To.Values[0].Quantity.Unit.Symbol(); u != "lbf·ft" {
		t.Errorf("read as %s", u)
	}
	if got := texts(&r.Tighten[0].To); !cmp.Equal(got, []string{"71 lbf·in", "8 N·m"}) {
		t.Errorf("the record has changed: %q", got)
	}
	b.Reset()
	if d := cmp.Diff(r.Tighten[0].To, b.Record.Tighten[0].To); d != "" || b.Record.Fasteners.Items[0].Thread != "M8x1.25" {
		t.Errorf("after Reset -want +got\n%s", d)
	}
	if b.Figure(atNew) != nil || len(b.Paths()) != 1 {
		t.Errorf("figures: %v", b.Paths())
	}
	if _, problem := b.Parse(atNew, "8 N·m"); problem == nil {
		t.Error("a figure that is not there was read")
	}
	if b.Copy().Record.Tighten[0].To.Values[0].Text != "71 lbf·in" || b.Decimal() != "" {
		t.Error("the copy is another record")
	}
}

// A record with a misprint is read anew as a whole.
func TestBenchMisprint(t *testing.T) {
	r := torque("33 N·m")
	r.Misprint = schema.Misprint{Printed: "33 N·m", Use: figure("23 N·m")}
	r.ReadFigures("")
	b := NewBench(r, "")
	nm := func() float64 { q, _ := b.Record.Tighten[0].To.Quantity(); return q.Nominal() }
	if nm() != 23 {
		t.Fatalf("the misprint reads %v", nm())
	}
	b.Set([]Edit{{atTorque, 0, "43 N·m"}})
	if nm() != 43 {
		t.Errorf("another text reads %v", nm())
	}
	b.Reset()
	if nm() != 23 {
		t.Errorf("after Reset it reads %v", nm())
	}
	if k, _ := KindOf("digit-lost"); len(k.Plants(b, atTorque, 0, nil)) > 0 {
		t.Error("slips are planted in a misprint")
	}
}
