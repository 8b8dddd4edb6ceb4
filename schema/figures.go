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
		r.walk(func(p Path, f *Figure, _ bool) bool { return yield(p, f) })
	}
}

// visitor is called for a figure that is present; wordy tells that a word may
// stand there. It returns false to stop.
type visitor func(p Path, f *Figure, wordy bool) bool

// walk visits every figure present and sets what its place accepts.
func (r *Record) walk(visit visitor) {
	if use := &r.Misprint.Use; !use.IsZero() {
		setWant(use, r.misprintWant())
		if !visit(At("misprint", "use"), use, false) {
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

// walkBody is walk without the misprint.
func (r *Record) walkBody(visit visitor) {
	going := true
	see := func(p Path, name string, f *Figure, want convert.Dimensions, wordy bool) {
		if !going || f.IsZero() {
			return
		}
		setWant(f, want)
		going = visit(p.Field(name), f, wordy)
	}
	var root Path

	for i := range r.Fasteners.Items {
		see(r.Fasteners.At(i), "length", &r.Fasteners.Items[i].Length, wantLength, false)
	}
	joint := At("joint")
	see(joint, "engagement", &r.Joint.Engagement, wantLength, false)
	see(joint, "friction", &r.Joint.Friction, wantNumber, false)
	for i := range r.Tighten {
		p, s := At("tighten", i), &r.Tighten[i]
		see(p, "to", &s.To, wantTorque, false)
		see(p, "turn", &s.Turn, wantAngle, false)
		see(p, "loosen", &s.Loosen, wantAngle, true)
		see(p, "wait", &s.Wait, wantTime, false)
		see(p, "check", &s.Check, wantTorque, false)
		off := wantOffTorque
		if !s.Turn.IsZero() || !s.Loosen.IsZero() {
			off = wantOffAngle
		}
		see(p, "tolerance", &s.Tolerance, off, false)
	}
	see(At("prevailing"), "torque", &r.Prevailing.Torque, wantTorque, false)

	for i := range r.Amounts {
		see(At("amounts", i), "volume", &r.Amounts[i].Volume, wantVolume, false)
	}
	level, l := At("level"), &r.Level
	see(level, "engine", &l.Engine, wantSpeed, true)
	see(level, "after", &l.After, wantTime, false)
	see(level, "at", &l.At, wantTemperature, false)
	for i := range l.Points {
		p, pt := level.Field("points").Index(i), &l.Points[i]
		see(p, "at", &pt.At, wantTemperature, false)
		see(p, "low", &pt.Low, wantLevel, false)
		see(p, "high", &pt.High, wantLevel, false)
	}
	for i := range l.Marks {
		see(level.Field("marks").Index(i), "at", &l.Marks[i].At, wantTemperature, false)
	}
	see(level, "between-marks", &l.BetweenMarks, wantVolume, false)
	for i := range r.Steps {
		see(At("steps", i), "add", &r.Steps[i].Add, wantVolume, false)
	}

	dims, _, _ := MeasureOf(r.Of)
	see(root, "new", &r.New, dims, false)
	see(root, "wear-limit", &r.WearLimit, dims, false)
	for i := range r.Rows {
		p, row := At("rows", i), &r.Rows[i]
		see(p, "figure", &row.Figure, dims, false)
		see(p.Field("at"), "speed", &row.At.Speed, wantSpeed, false)
		see(p.Field("at"), "temperature", &row.At.Temperature, wantTemperature, false)
	}
	see(root, "size", &r.Size, wantLength, false)
	sel := At("select")
	see(sel, "want", &r.Select.Want, wantLength, false)
	for i := range r.Select.Rows {
		p, row := sel.Field("rows").Index(i), &r.Select.Rows[i]
		see(p, "from", &row.From, wantLength, false)
		see(p, "to", &row.To, wantLength, false)
		see(p, "part", &row.Part, wantLength, true)
	}
}

// misprintWant is what the place of the misprint accepts: that of the first
// figure that is printed so.
func (r *Record) misprintWant() convert.Dimensions {
	want := anyFigure
	r.walkBody(func(_ Path, f *Figure, _ bool) bool {
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
