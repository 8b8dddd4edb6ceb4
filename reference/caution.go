package reference

// Caution is a hazard of the work, to print beside a record.
type Caution struct {
	ID, Signal, Hazard, Text string
	Kinds                    []string // record kinds it goes with
	Source                   Citation
}

// Cautions returns all cautions in table order.
func Cautions() []Caution { return nil }

// CautionByID finds a caution by its name.
func CautionByID(id string) (Caution, bool) { return Caution{}, false }
