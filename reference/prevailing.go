package reference

// PrevailingRow is a printed torque of a locking nut.
type PrevailingRow struct {
	Thread, Nut string
	Quantity    string  // "breakaway torque, least allowed", "prevailing torque, least allowed", "first assembly, most allowed", "assembly torque for the clamp load", "finger test"
	Min, Max    float64 // N·m, 0 where there is no such end
	Printed     string  // as printed, with its unit
	Note        string
	Source      Citation
}

// Prevailing returns what is printed for locking nuts on a thread.
func Prevailing(t Thread) []PrevailingRow { return nil }

// DragRules says how drag enters the tightening torque.
func DragRules() []Rule { return nil }
