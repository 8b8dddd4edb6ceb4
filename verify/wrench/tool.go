package wrench

import (
	"fmt"
	"math"

	"snapgauge/convert"
	"snapgauge/schema"
)

// fifth is the part of the greatest torque from which a wrench is used. Source:
// test points of ISO 6789:2003; common practice.
const fifth = 0.2

// millimetre is the unit that lengths are computed in; any other would do.
var millimetre, _ = convert.UnitBySymbol("mm")

// tool is a wrench of the shop, read.
type tool struct {
	*schema.Wrench
	place    int // in the list of the head
	scales   []scale
	off      Off
	lengthMM float64 // 0: not said
}

// scale is one scale of a wrench. Torques are in its unit.
type scale struct {
	unit      convert.Unit
	low, high float64 // of the part to be used
	whole     bool    // that is all of the scale
	step      float64 // of the setting; 0: not said
	stepAt    int     // decimals of the step
}

// toolOf reads a wrench; ok is false for one that cannot be chosen, because its
// range cannot be read ([Problems] tells why).
func toolOf(w *schema.Wrench, place int) (t tool, ok bool) {
	t = tool{Wrench: w, place: place}
	greatest := 0.0
	for i := range w.Range.Values {
		v := &w.Range.Values[i]
		q := v.Quantity
		if !v.Read() || q.Form != convert.Range || !q.Ordered() || q.First.Mant < 0 || q.Second.Mant <= 0 {
			continue
		}
		lo, hi := q.Bounds()
		greatest = max(greatest, hi)
		s := scale{unit: q.Unit, low: max(q.First.Float(), fifth*q.Second.Float()), high: q.Second.Float()}
		if u, ok := inUnit(&w.Usable, q.Unit); ok && u.Form == convert.Range {
			ulo, uhi := u.Bounds()
			s.low, s.high = q.Unit.FromSI(max(ulo, lo)), q.Unit.FromSI(min(uhi, hi))
		}
		s.whole = s.low <= q.First.Float()
		if r, ok := inUnit(&w.Resolution, q.Unit); ok && r.Form == convert.Single && r.First.Mant > 0 {
			s.step, s.stepAt = q.Unit.FromSI(r.Nominal()), max(0, -int(r.First.Exp))
			if r.Unit != q.Unit {
				s.stepAt = 1
			}
		}
		t.scales = append(t.scales, s)
	}
	if len(t.scales) == 0 {
		return t, false
	}
	if t.off, ok = OffOf(w.Class, greatest); !ok {
		t.off, _ = OffOf("", greatest)
	}
	if q, ok := w.Length.Quantity(); ok && q.Form == convert.Single && q.Nominal() > 0 {
		t.lengthMM = millimetre.FromSI(q.Nominal())
	}
	return t, true
}

// inUnit is the value of a figure in a unit, else its first that was read.
func inUnit(f *schema.Figure, u convert.Unit) (q convert.Quantity, ok bool) {
	for i := range f.Values {
		if v := &f.Values[i]; v.Read() && v.Quantity.Unit == u {
			return v.Quantity, true
		}
	}
	return f.Quantity()
}

// Problem is what is wrong with a wrench of the list.
type Problem struct {
	At      schema.Spot // a path from the root of the file
	Read    string
	Message string // lower case, no full stop
	Want    string
}

// Problems tells what is wrong with the list of wrenches of a head: ids that stand
// twice, figures that cannot be read, ranges without two ends in rising order, steps
// that the range has no room for, a class that is none.
func Problems(h *schema.Head) []Problem {
	if h == nil {
		return nil
	}
	var out []Problem
	first := map[string]int{}
	for i := range h.Wrenches {
		w := &h.Wrenches[i]
		at := schema.At("wrenches", i)
		if before, again := first[w.ID]; again && w.ID != "" {
			out = append(out, Problem{
				At: schema.Spot{Path: at.Field("id")}, Read: w.ID,
				Message: fmt.Sprintf("%s stands twice in the list of wrenches, as number %d and %d; give each its own id", w.ID, before+1, i+1),
			})
		} else {
			first[w.ID] = i
		}
		out = append(out, problemsOf(w, at)...)
	}
	return out
}

func problemsOf(w *schema.Wrench, at schema.Path) []Problem {
	var out []Problem
	say := func(f *schema.Figure, name string, i int, want, format string, args ...any) {
		out = append(out, Problem{
			At: schema.Spot{Path: f.At(at.Field(name), i)}, Read: f.Values[i].Text, Want: want,
			Message: fmt.Sprintf(format, args...),
		})
	}
	for path, f := range w.Figures(at) {
		for i := range f.Values {
			if p := f.Values[i].Problem; p != nil && !p.Settled {
				out = append(out, Problem{
					At:   schema.Spot{Path: f.At(path, i), From: p.At.Start, To: p.At.End},
					Read: f.Values[i].Text, Message: p.Message,
				})
			}
		}
	}
	for _, of := range []struct {
		name string
		f    *schema.Figure
	}{{"range", &w.Range}, {"usable", &w.Usable}} {
		for i := range of.f.Values {
			v := &of.f.Values[i]
			switch q := v.Quantity; {
			case !v.Read():
			case q.Form != convert.Range:
				say(of.f, of.name, i, "20 to 110 N·m", "%s has one end; the %s of a wrench has two, such as 20 to 110 N·m", v.Text, of.name)
			case !q.Ordered() || q.First.Cmp(q.Second) == 0 || q.First.Mant < 0:
				say(of.f, of.name, i, "", "%s does not rise from nought or more; write the least torque first", v.Text)
			}
		}
	}
	for i := range w.Resolution.Values {
		v := &w.Resolution.Values[i]
		top, ok := inUnit(&w.Range, v.Quantity.Unit)
		switch q := v.Quantity; {
		case !v.Read():
		case q.Form != convert.Single || q.First.Mant <= 0:
			say(&w.Resolution, "resolution", i, "0.5 N·m", "%s is no step of a setting, which is one torque, such as 0.5 N·m", v.Text)
		case ok && top.Form == convert.Range && q.Nominal() > math.Max(top.First.Float(), top.Second.Float())*top.Unit.ToSI(1):
			say(&w.Resolution, "resolution", i, "", "a step of %s is more than the whole scale, %s", v.Text, w.Range.Text())
		}
	}
	if q, ok := w.Length.Quantity(); ok && (q.Form != convert.Single || q.Nominal() <= 0) {
		say(&w.Length, "length", 0, "380 mm", "%s is no length of a wrench, from its square to the middle of the grip, such as 380 mm", w.Length.Text())
	}
	if _, ok := OffOf(w.Class, 100); !ok {
		out = append(out, Problem{
			At: schema.Spot{Path: at.Field("class")}, Read: w.Class, Want: "II A or ±3 %",
			Message: fmt.Sprintf("%s is no class of ISO 6789, such as II A, nor what a wrench may be off, such as ±3 %%", w.Class),
		})
	}
	return out
}
