package reference

// Entry is something known under a term.
type Entry struct {
	Title  string
	Lines  [][2]string // label, value with unit
	Source Citation
}

// Look finds everything known under a term.
func Look(term string) []Entry { return nil }
