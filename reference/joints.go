package reference

// JointRow is one printed tightening of something that is no plain screw.
type JointRow struct {
	Kind, Thread, Detail, Into string // as printed
	// Min, Max and Typical are in Unit; 0 where the source prints none.
	Min, Max, Typical float64
	Unit              string // N·m, turn, flat (60°), deg, %, x (ratio)
	Printed           string // with the unit of the source: "50 to 65 lb-in"
	Note              string
	Source            Citation
}

// JointRows returns the rows that fit; an empty argument fits all.
func JointRows(kind, thread, detail, into string) []JointRow { return nil }
