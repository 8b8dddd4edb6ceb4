package reference

import (
	"slices"
	"sync"
)

// PrevailingRow is a printed torque of a locking nut on a thread. It is no
// specification for any machine.
type PrevailingRow struct {
	Thread, Nut string // as printed
	// Quantity is what the torque is: breakaway torque, least allowed (starts the
	// nut); prevailing torque, least allowed (keeps it turning); the removal and
	// first-assembly torques of ISO 2320; assembly torque for the clamp load;
	// finger test, without figure.
	Quantity string
	Min, Max float64 // N·m, 0 where there is no such end
	Printed  string  // with the unit of the source: "min 3.5 lb-in"
	Note     string
	Source   Citation

	thread Thread
}

var prevailingRows = sync.OnceValue(func() []PrevailingRow {
	var out []PrevailingRow
	for _, r := range mustTable("prevailing.csv") {
		p := PrevailingRow{
			Thread: r.text("thread"), Nut: r.text("nut"), Quantity: r.text("quantity"),
			Printed: r.printed("min", "max", ""), Note: r.text("note"), Source: r.cite(),
		}
		f := newtonMetres(r.text("unit"))
		p.Min, p.Max = r.number("min")*f, r.number("max")*f
		p.thread, _ = ParseThread(p.Thread)
		out = append(out, p)
	}
	return out
})

// PrevailingRows returns all rows, in table order.
func PrevailingRows() []PrevailingRow { return slices.Clone(prevailingRows()) }

// Prevailing returns what is printed for locking nuts on a thread, in table
// order. Metric rows name a diameter and hold for all its pitches ("same for
// coarse and fine", the source says); for an inch thread without pitch all
// pitches of the diameter are returned.
func Prevailing(t Thread) []PrevailingRow {
	var out []PrevailingRow
	for _, p := range prevailingRows() {
		r := p.thread
		if t.Family == r.Family && t.D > 0 && same(t.D, r.D) && (t.Family == Metric || t.Pitch == 0 || same(t.Pitch, r.Pitch)) {
			out = append(out, p)
		}
	}
	return out
}

var dragRules = sync.OnceValue(func() []Rule {
	var out []Rule
	for _, r := range mustTable("drag-rules.csv") {
		out = append(out, Rule{Area: "locking nuts", Text: r.text("rule"), Note: r.text("note"), Source: r.cite()})
	}
	return out
})

// DragRules says how the running torque (drag) of a locking nut enters its
// tightening torque: final torque is table torque plus drag, and what else is
// printed of it. Two of the rules, for pulling on the bolt head, disagree.
func DragRules() []Rule { return slices.Clone(dragRules()) }
