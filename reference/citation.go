package reference

import "sync"

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

// String says it in words.
func (s Seen) String() string {
	switch s {
	case SeenTwice:
		return "seen in two sources"
	case SeenOnce:
		return "seen in one source"
	case Memory:
		return "from memory"
	case Computed:
		return "computed"
	}
	return "common practice, no source"
}

// Citation names where a value stands in print. The zero value is no source.
type Citation struct {
	ID   string // short name of the document: "iso-898-1"
	Text string // document, edition and place: "ISO 898-1:2013 Table 3"
	Seen Seen
}

// String is the text, with a remark where the value was not seen in print:
// "ISO 898-1:2013 Table 3", "ISO 261:1998 general plan (from memory)".
func (c Citation) String() string {
	if c.Text != "" && (c.Seen == Memory || c.Seen == Computed) {
		return c.Text + " (" + c.Seen.String() + ")"
	}
	return c.Text
}

// IsZero reports that there is no citation.
func (c Citation) IsZero() bool { return c.ID == "" && c.Text == "" }

var citations = sync.OnceValue(func() map[string]Citation {
	m := make(map[string]Citation)
	for _, r := range mustTable("citations.csv") {
		id := r.text("id")
		m[id] = Citation{ID: id, Text: r.text("text"), Seen: seenOf(r.text("seen"))}
	}
	return m
})

// Cite returns the document of that short name, the zero Citation where the
// name is unknown. Its Seen speaks of the text that was read, not of every
// value in it.
func Cite(id string) Citation { return citations()[id] }
