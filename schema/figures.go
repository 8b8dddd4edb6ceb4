package schema

import (
	"iter"
	"strings"

	"snapgauge/convert"
)

// What the places of a record accept.
var (
	wantTorque      = convert.Of(convert.Torque)
	wantAngle       = convert.Of(convert.Angle)
	wantTime        = convert.Of(convert.Time)
	wantLength      = convert.Of(convert.Length)
	wantVolume      = convert.Of(convert.Volume)
	wantTemperature = convert.Of(convert.Temperature)
	wantSpeed       = convert.Of(convert.RotationalSpeed)
	wantNumber      = convert.Of(convert.Number)
	wantLevel       = convert.Of(convert.Length, convert.Volume)
	wantOffTorque   = convert.Of(convert.Ratio, convert.Torque)
	wantOffAngle    = convert.Of(convert.Ratio, convert.Angle)
)

// anyFigure is every dimension that a figure of a record may have; it serves
// for a misprint that stands nowhere.
var anyFigure = anyMeasure | wantTorque | wantAngle | wantTime | wantLength | wantVolume | wantTemperature |
	wantSpeed | wantNumber | convert.Of(convert.Ratio)

// Figures yields every figure that the record has, with its path, in the order
// of the schema: what every record has first, misprint.use among it, then
// torque, fill and tolerance. Want is set. A word that stands where a figure
// may (engine: idling) is yielded too, with Word set.
func (r *Record) Figures() iter.Seq2[Path, *Figure] {
	return func(yield func(Path, *Figure) bool) {
		r.walk(func(p Path, f *Figure, _ wording) bool { return yield(p, f) })
	}
}

// visitor is called for a figure that is present; words tells which words may
// stand there. It returns false to stop.
type visitor func(p Path, f *Figure, words wording) bool

// wording tells which words may stand in the place of a figure.
type wording uint8

const (
	noWord   wording = iota
	bareWord         // a word without digits: cold; "about 70 °C" is a figure with a fault
	anyWord          // whatever begins with a letter: shim B2
)

// walk visits every figure present and sets what its place accepts.
func (r *Record) walk(visit visitor) {
	if use := &r.Misprint.Use; !use.IsZero() {
		setWant(use, r.misprintWant())
		if !visit(pathMisprint.Field("use"), use, noWord) {
			return
		}
	}
	r.walkBody(visit)
}

// setWant writes only what changes, for readers may share the record.
func setWant(f *Figure, want convert.Dimensions) {
	if f.Want != want {
		f.Want = want
	}
}

// The paths of what holds figures, made once.
var (
	pathRecord     = Path{}
	pathMisprint   = At("misprint")
	pathJoint      = At("joint")
	pathTighten    = At("tighten")
	pathPrevailing = At("prevailing")
	pathAmounts    = At("amounts")
	pathLevel      = At("level")
	pathPoints     = At("level", "points")
	pathMarks      = At("level", "marks")
	pathSteps      = At("steps")
	pathRows       = At("rows")
	pathSelect     = At("select")
	pathSelectRows = At("select", "rows")
)

// walkBody is walk without the misprint.
func (r *Record) walkBody(visit visitor) {
	going := true
	see := func(p *Path, name string, f *Figure, want convert.Dimensions, words wording) {
		if !going || f.IsZero() {
			return
		}
		setWant(f, want)
		going = visit(p.Field(name), f, words)
	}
	var p Path

	for i := range r.Fasteners.Items {
		p = r.Fasteners.At(i)
		see(&p, "length", &r.Fasteners.Items[i].Length, wantLength, noWord)
	}
	see(&pathJoint, "engagement", &r.Joint.Engagement, wantLength, noWord)
	see(&pathJoint, "friction", &r.Joint.Friction, wantNumber, noWord)
	for i := range r.Tighten {
		p = pathTighten.Index(i)
		s := &r.Tighten[i]
		see(&p, "to", &s.To, wantTorque, noWord)
		see(&p, "turn", &s.Turn, wantAngle, noWord)
		see(&p, "loosen", &s.Loosen, wantAngle, anyWord)
		see(&p, "wait", &s.Wait, wantTime, noWord)
		see(&p, "check", &s.Check, wantTorque, noWord)
		off := wantOffTorque
		if !s.Turn.IsZero() || !s.Loosen.IsZero() {
			off = wantOffAngle
		}
		see(&p, "tolerance", &s.Tolerance, off, noWord)
		see(&p, "adapter", &s.Adapter, wantLength, noWord)
	}
	see(&pathPrevailing, "torque", &r.Prevailing.Torque, wantTorque, noWord)

	for i := range r.Amounts {
		p = pathAmounts.Index(i)
		see(&p, "volume", &r.Amounts[i].Volume, wantVolume, noWord)
	}
	l := &r.Level
	see(&pathLevel, "engine", &l.Engine, wantSpeed, anyWord)
	see(&pathLevel, "after", &l.After, wantTime, noWord)
	see(&pathLevel, "at", &l.At, wantTemperature, noWord)
	for i := range l.Points {
		p = pathPoints.Index(i)
		see(&p, "at", &l.Points[i].At, wantTemperature, noWord)
		see(&p, "low", &l.Points[i].Low, wantLevel, noWord)
		see(&p, "high", &l.Points[i].High, wantLevel, noWord)
	}
	for i := range l.Marks {
		p = pathMarks.Index(i)
		see(&p, "at", &l.Marks[i].At, wantTemperature, noWord)
	}
	see(&pathLevel, "between-marks", &l.BetweenMarks, wantVolume, noWord)
	for i := range r.Steps {
		p = pathSteps.Index(i)
		see(&p, "add", &r.Steps[i].Add, wantVolume, noWord)
	}

	dims, _, _ := MeasureOf(r.Of)
	see(&pathRecord, "new", &r.New, dims, noWord)
	see(&pathRecord, "wear-limit", &r.WearLimit, dims, noWord)
	for i := range r.Rows {
		p = pathRows.Index(i)
		row := &r.Rows[i]
		see(&p, "figure", &row.Figure, dims, noWord)
		p = p.Field("at")
		see(&p, "speed", &row.At.Speed, wantSpeed, bareWord)
		see(&p, "temperature", &row.At.Temperature, wantTemperature, bareWord)
	}
	see(&pathRecord, "size", &r.Size, wantLength, noWord)
	see(&pathSelect, "want", &r.Select.Want, wantLength, noWord)
	for i := range r.Select.Rows {
		p = pathSelectRows.Index(i)
		row := &r.Select.Rows[i]
		see(&p, "from", &row.From, wantLength, noWord)
		see(&p, "to", &row.To, wantLength, noWord)
		see(&p, "part", &row.Part, wantLength, anyWord)
	}
}

// Figures yields every figure of a wrench with its path below p, the wrench.
// Want is set.
func (w *Wrench) Figures(p Path) iter.Seq2[Path, *Figure] {
	return func(yield func(Path, *Figure) bool) {
		for _, of := range []struct {
			name string
			f    *Figure
			want convert.Dimensions
		}{
			{"range", &w.Range, wantTorque}, {"usable", &w.Usable, wantTorque},
			{"resolution", &w.Resolution, wantTorque}, {"length", &w.Length, wantLength},
		} {
			if of.f.IsZero() {
				continue
			}
			setWant(of.f, of.want)
			if !yield(p.Field(of.name), of.f) {
				return
			}
		}
	}
}

// misprintWant is what the place of the misprint accepts: that of the first
// figure that is printed so.
func (r *Record) misprintWant() convert.Dimensions {
	want := anyFigure
	r.walkBody(func(_ Path, f *Figure, _ wording) bool {
		for i := range f.Values {
			if r.Misprint.Is(f.Values[i].Text) {
				want = f.Want
				return false
			}
		}
		return true
	})
	return want
}

// Is reports whether a text of the record is the misprint.
func (m *Misprint) Is(text string) bool {
	return m.Printed != "" && strings.TrimSpace(text) == strings.TrimSpace(m.Printed)
}
