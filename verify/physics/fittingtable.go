package physics

import (
	"math"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"snapgauge/reference"
	"snapgauge/schema"
)

// fittingKind says which printed rows speak of a type of fastener and how far
// from them a torque may lie. The margins are judgement: what other makers print
// for the same thread lies within them (common practice, no source).
type fittingKind struct {
	kinds        []string // beginnings of the kinds of row
	below, above float64
}

var fittingKinds = map[string]fittingKind{
	// Rows for low pressure: hydraulic plugs and studs of steel take four times as
	// much, small brass and plastic bodies a fifth.
	"plug":         {[]string{"hydraulic or air port stud", "drain plug", "glow plug", "pipe thread fitting"}, 5, 5},
	"pipe fitting": {[]string{"pipe thread fitting", "hydraulic or air port stud", "flare nut 37"}, 6, 6},
	"tube nut":     {[]string{"flare nut 37"}, 2.5, 2.5},
	"spark plug":   {[]string{"spark plug"}, 2.5, 2.5},
	// The rows are what the socket is tested with: a ceiling. Clamped shafts take
	// less, and a set screw that only locks takes little.
	"set screw": {[]string{"set screw, hexagon socket"}, 12, 1.3},
	"clamp":     {[]string{"hose clamp"}, 3, 3},
	// Rows for cadmium and wax, three grades; dry or soft nuts lie outside them.
	"prevailing nut": {nil, 2.5, 2.5},
}

func hasTable(kind string) bool { _, ok := fittingKinds[kind]; return ok }

// printed is what the rows of a thread span.
type printed struct {
	kind   fittingKind
	lo, hi float64 // N·m
	source reference.Citation
	first  string // one row as printed
}

// printedFor spans the rows that speak of a fastener; ok is false where none
// does. What was found for a type and thread is remembered, up to a bound.
func printedFor(f *schema.Fastener) (printed, bool) {
	key := [2]string{f.Type, f.Thread}
	if x, found := fittings.m.Load(key); found {
		p := x.(printed)
		return p, p.hi > 0
	}
	p := spanRows(f)
	const most, longest = 1000, 64
	if len(f.Thread) <= longest && fittings.n.Load() < most {
		fittings.n.Add(1)
		fittings.m.Store(key, p)
	}
	return p, p.hi > 0
}

var fittings struct {
	m sync.Map // type and thread to printed
	n atomic.Int32
}

func spanRows(f *schema.Fastener) printed {
	kind := fittingKinds[f.Type]
	out := printed{kind: kind, lo: math.Inf(1)}
	t, problem := reference.ParseThread(f.Thread)
	if problem != nil {
		t = reference.Thread{} // a row may name the size as the record does: 14 mm
	}
	add := func(lo, hi float64, text string, source reference.Citation) {
		if out.first == "" {
			out.source, out.first = source, text
		}
		out.lo, out.hi = min(out.lo, lo), max(out.hi, hi)
	}
	if f.Type == "prevailing nut" && f.Thread != "" {
		for _, row := range reference.Prevailing(t) {
			if strings.HasPrefix(row.Quantity, "assembly torque") && row.Min > 0 && row.Max >= row.Min {
				add(row.Min, row.Max, row.Printed, row.Source)
			}
		}
	}
	for i := range torqueRows() {
		row := &torqueRows()[i]
		if kind.speaks(row.kind) && row.fits(f, t) {
			add(row.lo, row.hi, row.text, row.source)
		}
	}
	return out
}

func (k fittingKind) speaks(kind string) bool {
	for _, want := range k.kinds {
		if strings.HasPrefix(kind, want) {
			return true
		}
	}
	return false
}

// torqueRow is a printed row that gives a torque, with its thread read.
type torqueRow struct {
	kind    string
	name    string   // of the size, as printed
	anySize bool     // bands of clamps
	threads []sized  // metric or unified threads
	pipes   []string // sizes of pipe threads
	from    float64  // mm, from M14 …
	to      float64  // … to M18
	lo, hi  float64  // N·m
	text    string
	source  reference.Citation
}

// sized is a thread of a row; the pitch is 0 where the row gives none.
type sized struct{ d, pitch float64 }

var torqueRows = sync.OnceValue(func() []torqueRow {
	var out []torqueRow
	for _, r := range reference.JointRows("", "", "", "") {
		if r.Unit != "N·m" || strings.Contains(r.Detail, "destruction") {
			continue
		}
		row := torqueRow{kind: r.Kind, name: r.Thread, text: r.Printed, source: r.Source, lo: math.Inf(1)}
		for _, x := range []float64{r.Min, r.Max, r.Typical} {
			if x > 0 {
				row.lo, row.hi = min(row.lo, x), max(row.hi, x)
			}
		}
		if row.hi > 0 && row.readThread(r.Thread) {
			out = append(out, row)
		}
	}
	return out
})

// readThread reads the thread column: "M10x1", "14 mm", "dash -4 (7/16-20)",
// "1/16 and 1/8", "M14 to M18", "band 13.5 mm".
func (row *torqueRow) readThread(text string) bool {
	if strings.HasPrefix(row.kind, "hose clamp") {
		row.anySize = true
		return true
	}
	if _, inner, ok := strings.Cut(text, "("); ok {
		text = strings.TrimSuffix(inner, ")")
	}
	if strings.HasPrefix(row.kind, "pipe thread") {
		for size := range strings.SplitSeq(text, " and ") {
			row.pipes = append(row.pipes, strings.TrimSpace(size))
		}
		return true
	}
	if a, b, ok := strings.Cut(text, " to "); ok {
		from, problemA := reference.ParseThread(a)
		to, problemB := reference.ParseThread(b)
		row.from, row.to = from.D, to.D
		return problemA == nil && problemB == nil && row.from < row.to
	}
	text = strings.TrimSpace(text)
	if size, ok := strings.CutSuffix(text, " mm"); ok {
		text = "M" + size
		t, problem := reference.ParseThread(text)
		row.threads = append(row.threads, sized{d: t.D})
		return problem == nil && t.D > 0
	}
	t, problem := reference.ParseThread(text)
	if problem != nil || t.D <= 0 {
		return false
	}
	s := sized{d: t.D}
	if t.PitchGiven {
		s.pitch = t.Pitch
	}
	row.threads = append(row.threads, s)
	return true
}

// sameBand compares the width of the band of a clamp: "band 13.5 mm", "13.5 mm".
func sameBand(text, name string) bool {
	bare := func(s string) string {
		return strings.TrimPrefix(strings.Join(strings.Fields(strings.ToLower(s)), ""), "band")
	}
	return bare(text) == bare(name)
}

// fits reports whether a row speaks of a thread.
func (row *torqueRow) fits(f *schema.Fastener, t reference.Thread) bool {
	if row.anySize {
		// A band that is named by its width has rows of its own; of one by another
		// name, 40 to 60 mm, all may speak, but not of a clamp with a screw thread.
		switch {
		case f.Thread == "" || sameBand(f.Thread, row.name):
			return true
		case t.D > 0 || t.Family != reference.NoFamily:
			return false
		}
		return !slices.ContainsFunc(torqueRows(), func(r torqueRow) bool { return r.anySize && sameBand(f.Thread, r.name) })
	}
	if f.Thread == "" {
		return false
	}
	if f.Thread == row.name {
		return true
	}
	switch t.Family {
	case reference.PipeParallel, reference.PipeTaper, reference.NPT, reference.NPTF:
		for _, size := range row.pipes {
			if strings.Contains(" "+t.Designation+" ", " "+size+" ") {
				return true
			}
		}
		return false
	case reference.Metric, reference.Unified, reference.Flare37:
	default:
		return false
	}
	if row.from > 0 && t.Family == reference.Metric {
		return row.from <= t.D && t.D <= row.to
	}
	for _, s := range row.threads {
		const near = 0.01 // mm
		if math.Abs(s.d-t.D) < near && (s.pitch == 0 || !t.PitchGiven || math.Abs(s.pitch-t.Pitch) < near) {
			return true
		}
	}
	return false
}
