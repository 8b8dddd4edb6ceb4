package schema

import "fmt"

// Position is a place in a file: line and column from 1, the column counted in
// code points. The zero Position means none.
type Position struct {
	Line, Column int
}

// Span is a half-open stretch of one file.
type Span struct {
	Start, End Position
}

// IsZero reports whether the span names no place.
func (s Span) IsZero() bool { return s == Span{} }

func (p Position) String() string {
	if p == (Position{}) {
		return "-"
	}
	return fmt.Sprintf("%d:%d", p.Line, p.Column)
}

// Spot is a place within a record: a path and, where From < To, the bytes of
// the text that stands there. Key means the name of the member, not its value.
type Spot struct {
	Path     Path
	From, To int
	Key      bool
}

// Entry is one record as a reader found it.
type Entry struct {
	File    string
	Pointer string // JSON Pointer of the record in its file: /records/3, or "" for a line of NDJSON
	Head    *Head  // of the file, shared by its records
	Record  *Record
	// Problems say where the shape is broken. What could be read is in Record
	// all the same.
	Problems []Problem
	// Locate turns a spot within the record into a stretch of the file. For a
	// spot that does not exist it answers with the nearest that does.
	Locate func(Spot) Span

	// HeadOnly marks an entry that stands for the head of a file: Record is
	// nil, Pointer is "" and spots are paths from the root of the file. A file
	// gives it once, before its records.
	HeadOnly bool

	// Lost marks a record that could not be read. Of the record only ID is set,
	// where it can be told, and Locate answers every spot with the place of the
	// id, or of the fault. It is for checks of the book: the record is there,
	// whatever stands in it.
	Lost bool

	// Countersigned holds the lines of the ledger that bear the id of the
	// record, in their order. Whoever reads the ledger fills it in.
	Countersigned []Countersign

	// Before is the record as it stood in an earlier edition, nil where it did not or no
	// earlier edition is looked at. Whoever reads that edition fills it in.
	Before *Before
}

// Before is a record of an earlier edition.
type Before struct {
	Edition string // what a reader calls it
	Entry   *Entry
}

// Problem is one fault of shape.
type Problem struct {
	Fault   Fault
	At      Spot
	Message string // one sentence, lower case, no full stop
	Read    string // what stands there
	Want    string // what would go
}

// Fault is a kind of broken shape. Each is a check of the layer shape.
type Fault uint8

// The faults of shape.
const (
	UnknownField Fault = iota // a member that the schema does not know
	MissingField              // a member that must be there
	WrongValue                // a value of the wrong form
	EmptiedField              // a value cut off by # or left empty
	SplitNumber               // a list item that is half a number, split by a comma
)
