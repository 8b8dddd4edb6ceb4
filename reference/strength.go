package reference

// Strength is one row of a table of classes or grades.
type Strength struct {
	Designation, Standard string
	Part                  string  // bolt, stud, nut
	Tensile, Yield, Proof float64 // MPa, minima; 0 where the standard gives none
	MinD, MaxD            float64 // mm, the sizes it holds for, ends included
	Source                Citation
}

// ClassReading is what a class or grade was read as.
type ClassReading struct {
	Text     string
	Rows     []Strength // rows for the size; several for "SAE 1 or 2" and where sizes overlap
	Exists   bool       // false: no such class can exist
	Known    bool       // recognised as the name of a class; false: words nothing can be said of (Exists stays true)
	InTables bool       // every class named has rows in our tables
	SizeFits bool       // the standard has it for this size
	Foreign  bool       // it belongs to the other family of threads: SAE 5 on M8
	Near     []string   // what was probably meant
	Message  string     // lower case, no full stop; empty where all is well
}

// ReadClass reads a class or grade as stamped or printed, for a thread of
// diameter dMM (0: not known), metric or unified.
func ReadClass(text string, dMM float64, metric bool) ClassReading {
	return ClassReading{Text: text, Exists: true}
}

// StrongestClass is the most forgiving class where none is given.
func StrongestClass(metric bool, dMM float64) Strength { return Strength{} }

// WeakestClass is the weakest class in common use.
func WeakestClass(metric bool, dMM float64) Strength { return Strength{} }
