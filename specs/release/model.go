package release

import "encoding/json"

// Format is the version of the form in which records are released. A minor
// version adds members only.
const Format = "snapgauge-release/1.0"

// The states of a release and of everything in it.
const (
	StateRelease = "release" // vetted: nothing rejected, no query open, all countersigned
	StateDraft   = "DRAFT"   // not vetted; not to be worked by
)

// Document is records.json: all records of a release.
type Document struct {
	Format   string    `json:"format"`
	State    string    `json:"state"`
	Edition  string    `json:"edition,omitempty"`
	Tool     string    `json:"tool"` // that made it, and its version
	Caution  string    `json:"caution"`
	InTheWay []string  `json:"inTheWay,omitempty"` // of a draft: why it is no release
	Machines []Machine `json:"machines"`
	Records  []Record  `json:"records"`
}

// Machine is what records are about, with all that the heads of its files
// declare.
type Machine struct {
	ID       string   `json:"id"`
	Name     string   `json:"name"`
	Variants []string `json:"variants,omitempty"`
	Serials  []Serial `json:"serials,omitempty"`
}

// Serial is a numbering that boxes may use.
type Serial struct {
	Name string `json:"name"`
	Form string `json:"form"` // number or date
}

// Record is one record in normal form. It is also a line of records.ndjson.
type Record struct {
	State   string `json:"state"`
	Number  int    `json:"number"` // from 1, in the order of the release
	Machine string `json:"machine"`
	Item    string `json:"item"`
	ID      string `json:"id"`
	Kind    string `json:"kind"`
	Where   string `json:"where"`

	File    string `json:"file"`    // that it was authored in, as it is named in the release
	Line    int    `json:"line"`    // on which its id stands there
	Pointer string `json:"pointer"` // within the file; "" for a line of NDJSON

	Applies    []Box  `json:"applies"`   // at least one; where it names no variant, those of the head are spelt out
	AppliesTo  string `json:"appliesTo"` // the same in words
	Supersedes string `json:"supersedes,omitempty"`

	Source      Source       `json:"source"` // resolved
	Entered     Signature    `json:"entered"`
	Fingerprint string       `json:"fingerprint"`
	Countersign *Countersign `json:"countersign,omitempty"` // always there, but in a draft
	Answers     []Answer     `json:"answers,omitempty"`
	Misprint    *Misprint    `json:"misprint,omitempty"`
	Unpublished *Unpublished `json:"unpublished,omitempty"`
	Caution     []string     `json:"caution,omitempty"`
	Renew       []string     `json:"renew,omitempty"`

	Figures  []Figure        `json:"figures"`            // in the order of the format
	Authored json.RawMessage `json:"record,omitempty"`   // the record itself, as a line of NDJSON; only a draft may lack it
	Problems []string        `json:"problems,omitempty"` // of a draft: what is wrong with its shape
}

// Box is one alternative of what a record applies to: it does where all parts
// do. An empty box is everything.
type Box struct {
	Variants []string `json:"variants,omitempty"`
	Serials  []Range  `json:"serials,omitempty"`
}

// Range is a stretch of one numbering, ends inclusive. An open end is absent.
type Range struct {
	Name string `json:"name"`
	Form string `json:"form,omitempty"`
	Text string `json:"text"`           // 1200 to 9999, from 1200
	From *int64 `json:"from,omitempty"` // a date as days since 1970-01-01
	To   *int64 `json:"to,omitempty"`
	Bad  string `json:"bad,omitempty"` // of a draft: why it could not be read
}

// Source is where figures were printed.
type Source struct {
	Title   string `json:"title"`
	Edition string `json:"edition,omitempty"`
	Kind    string `json:"kind,omitempty"`
	At      string `json:"at"`
}

// Signature says who did something, and when (2026-03-02).
type Signature struct {
	By   string `json:"by"`
	Date string `json:"date,omitempty"`
}

// Countersign says who read the record against its source.
type Countersign struct {
	By          string `json:"by"`
	Date        string `json:"date"`
	Fingerprint string `json:"fingerprint"`
}

// Answer answered a query.
type Answer struct {
	Check   string `json:"check"`
	Figure  string `json:"figure"` // JSON Pointer within the record
	Read    string `json:"read"`
	Because string `json:"because"`
	By      string `json:"by"`
	Date    string `json:"date"`
}

// Misprint tells that the source itself is wrong. Figures whose text is Printed
// have the values of Use.
type Misprint struct {
	Printed string `json:"printed"`
	Use     Figure `json:"use"`
	Because string `json:"because"`
	Source  Source `json:"source"` // the second source, which tells it
	By      string `json:"by"`
	Date    string `json:"date,omitempty"`
}

// Unpublished tells that the maker prints no figure.
type Unpublished struct {
	Why string `json:"why"`
	Do  string `json:"do"`
}

// Figure is one figure of a record, in as many units as it is printed in.
type Figure struct {
	Pointer string  `json:"pointer"`        // within the record: /tighten/0/to
	Word    string  `json:"word,omitempty"` // a word in place of a figure: idling; then there is no value
	Values  []Value `json:"values"`         // the source's own unit first
}

// Value is one figure in one unit.
type Value struct {
	Text      string `json:"text"`           // as printed
	Form      string `json:"form,omitempty"` // single, range, deviation, at most, at least, tolerance; "" where it could not be read
	Dimension string `json:"dimension,omitempty"`
	Unit      string `json:"unit,omitempty"` // our symbol; "" of a plain number
	UCUM      string `json:"ucum,omitempty"` // its code; "" where UCUM has none

	// The numbers with their digits as printed: "8.0", "4 1/2". A range has
	// First and Second, a deviation First, Plus and Minus, a tolerance Plus and
	// Minus, "at most" Second, the others First.
	First   string `json:"first,omitempty"`
	Second  string `json:"second,omitempty"`
	Plus    string `json:"plus,omitempty"`
	Minus   string `json:"minus,omitempty"`
	Percent bool   `json:"percent,omitempty"` // Plus and Minus are per cent of First
	Digits  int    `json:"digits,omitempty"`  // significant digits printed, of the number that has the most

	// The ends in the SI unit, deviations worked in; of a tolerance the
	// deviations. An open end is absent. Each is the float64 nearest to the exact
	// value, which stands beside it where it ends as a decimal.
	SI        string   `json:"si,omitempty"`     // symbol of the SI unit; 1 of a plain number and of a share
	SIUCUM    string   `json:"siUcum,omitempty"` // its code
	Low       *float64 `json:"low,omitempty"`
	High      *float64 `json:"high,omitempty"`
	LowExact  string   `json:"lowExact,omitempty"`
	HighExact string   `json:"highExact,omitempty"`

	// What would be printed so: the ends, each moved out by half a unit of its
	// last printed digit.
	RoundingLow  *float64 `json:"roundingLow,omitempty"`
	RoundingHigh *float64 `json:"roundingHigh,omitempty"`

	Misprint bool   `json:"misprint,omitempty"` // Text is the misprint; the numbers are those of misprint.use
	Problem  string `json:"problem,omitempty"`  // how it was read where that was in doubt, or why it could not be
}
