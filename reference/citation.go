package reference

// Seen says how well a value stands in print.
type Seen uint8

// How a value was found.
const (
	SeenTwice Seen = iota // printed in two sources that agree
	SeenOnce              // printed in one source
	Memory                // not seen in print
	Computed              // worked out from other values by a cited relation
	Practice              // common practice, no source
)

// Citation names where a value stands in print.
type Citation struct {
	ID   string // short name of the document: "iso-898-1"
	Text string // document, edition and place: "ISO 898-1:2013 Table 3"
	Seen Seen
}

// String is the text with a remark where the value was not seen in print.
func (c Citation) String() string { return c.Text }

// IsZero reports that there is no citation.
func (c Citation) IsZero() bool { return c.ID == "" && c.Text == "" }

// Cite returns the document of that short name, the zero Citation if the name
// is unknown.
func Cite(id string) Citation { return Citation{ID: id, Text: id} }
