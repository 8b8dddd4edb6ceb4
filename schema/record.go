package schema

// The tag `spec` gives the name of a member in a spec file. Names, order and
// nesting mirror the JSON Schemas; a test compares the two.

// Head is what a spec file says once for all its records. A line of NDJSON
// carries its own.
type Head struct {
	Format    string        `spec:"format"`
	Machine   Machine       `spec:"machine"`
	Variants  []string      `spec:"variants"`
	Serials   []Serial      `spec:"serials"` // a mapping, in the order of the file
	Entered   Entered       `spec:"entered"`
	Sources   []NamedSource `spec:"sources"` // a mapping, in the order of the file
	Decimal   string        `spec:"decimal"` // "comma" or "point"
	Wrenches  []Wrench      `spec:"wrenches"`
	OfOneLine bool          `spec:"-"` // carried by a line of NDJSON

	// Broken tells that the head has problems other than in format, machine,
	// entered, decimal or wrenches: what it does not list may stand in the file all the
	// same, and records may be missing.
	Broken bool `spec:"-"`
}

// Wrench is a torque wrench that the shop has. A wrench with two scales has its
// range and its resolution in both units.
type Wrench struct {
	ID         string `spec:"id"`
	Range      Figure `spec:"range"`      // as marked on its scale
	Usable     Figure `spec:"usable"`     // the part that its certificate holds for, where that is said
	Drive      string `spec:"drive"`      // of its square: 1/4 in
	Resolution Figure `spec:"resolution"` // one step of its setting
	Class      string `spec:"class"`      // of ISO 6789 (II A), or what it may be off (±3 %)
	Length     Figure `spec:"length"`     // from the square to the middle of the grip
	Calibrated string `spec:"calibrated"` // 2026-01-15
}

// Machine is what the records are about.
type Machine struct {
	ID   string `spec:"id"`
	Name string `spec:"name"`
}

// Serial is a numbering that applies may use.
type Serial struct {
	Name string
	Form string // "number" or "date"
}

// Entered says who wrote a record down, and when (2026-03-02).
type Entered struct {
	By   string `spec:"by"`
	Date string `spec:"date"`
}

// NamedSource is a source that records refer to by name.
type NamedSource struct {
	Name   string
	Source Document
}

// Document is where figures were printed.
type Document struct {
	Title   string `spec:"title"`
	Edition string `spec:"edition"`
	Kind    string `spec:"kind"`
}

// Source says where a record's figures were printed: a source of the head by
// its name, or, on a line of NDJSON, the whole document.
type Source struct {
	Ref string `spec:"ref"`
	Document
	At string `spec:"at"`
}

// Kinds of record.
const (
	KindTorque    = "torque"
	KindFill      = "fill"
	KindTolerance = "tolerance"
)

// Record is one torque, fill or tolerance specification.
type Record struct {
	ID          string      `spec:"id"`
	Kind        string      `spec:"kind"`
	Where       string      `spec:"where"`
	Item        string      `spec:"item"` // "" means the id
	Applies     []Box       `spec:"applies"`
	Supersedes  string      `spec:"supersedes"`
	Source      Source      `spec:"source"`
	Caution     []string    `spec:"caution"`
	Renew       []string    `spec:"renew"`
	Entered     Entered     `spec:"entered"`
	Answers     []Answer    `spec:"answers"`
	Misprint    Misprint    `spec:"misprint"`
	Unpublished Unpublished `spec:"unpublished"`

	Torque
	Fill
	Tolerance
}

// Box is one alternative of applies: the record applies where all its parts
// do. The zero Box applies everywhere.
type Box struct {
	Variants []string // empty means all
	Serials  []SerialRange
}

// SerialRange is a stretch of one numbering, ends inclusive. An open end is
// absent.
type SerialRange struct {
	Name     string
	Text     string // as authored
	Form     string // "number" or "date", as it was read
	From, To int64  // a date as days since 1970-01-01
	HasFrom  bool
	HasTo    bool
	Bad      string // why Text could not be read; "" when it was
}

// Answer answers a query.
type Answer struct {
	Check   string `spec:"check"`
	Figure  string `spec:"figure"` // JSON Pointer within the record
	Read    string `spec:"read"`   // the text that was answered
	Because string `spec:"because"`
	By      string `spec:"by"`
	Date    string `spec:"date"`
}

// Misprint keeps a figure that the source prints wrong. Where a text of the
// record equals Printed, the checks read Use in its place.
type Misprint struct {
	Printed string `spec:"printed"`
	Use     Figure `spec:"use"`
	Because string `spec:"because"`
	Source  Source `spec:"source"`
	By      string `spec:"by"`
	Date    string `spec:"date"`
}

// Unpublished says that the maker prints no figure.
type Unpublished struct {
	Why string `spec:"why"`
	Do  string `spec:"do"`
}

// Torque holds what only a torque record has.
type Torque struct {
	Fasteners  Fasteners  `spec:"fastener"`
	Joint      Joint      `spec:"joint"`
	Tighten    []Step     `spec:"tighten"`
	Yield      bool       `spec:"yield"`
	Prevailing Prevailing `spec:"prevailing"`
	Layout     Layout     `spec:"layout"`
}

// Fasteners is what is turned: one mapping, or a list of them.
type Fasteners struct {
	List  bool
	Items []Fastener
}

// At is the path of fastener i.
func (f *Fasteners) At(i int) Path {
	if f.List {
		return At("fastener", i)
	}
	return At("fastener")
}

// Fastener is one kind of screw, stud, nut, plug or fitting of a joint.
type Fastener struct {
	Key    string `spec:"key"`
	Type   string `spec:"type"`
	Thread string `spec:"thread"`
	Class  string `spec:"class"`
	Head   Word   `spec:"head"`
	Length Figure `spec:"length"`
	Count  int    `spec:"count"`
	Places []int  `spec:"places"`
}

// Word is one of the words of the format, or "other: …". In a file the latter
// may also be written as the mapping {other: …}.
type Word string

// Joint is what the fastener is turned into.
type Joint struct {
	Into       Word   `spec:"into"`
	Engagement Figure `spec:"engagement"`
	Threads    Word   `spec:"threads"`
	Friction   Figure `spec:"friction"`
	Seal       Word   `spec:"seal"`
	Insert     string `spec:"insert"`
}

// Step is one act of tightening: exactly one of To, Turn, Loosen, Wait, Run
// and Check.
type Step struct {
	To        Figure   `spec:"to"`
	Turn      Figure   `spec:"turn"`
	Loosen    Figure   `spec:"loosen"` // an angle, or a word such as fully
	Wait      Figure   `spec:"wait"`
	Run       string   `spec:"run"`
	Check     Figure   `spec:"check"`
	Tolerance Figure   `spec:"tolerance"`
	Adapter   Figure   `spec:"adapter"` // from the wrench's square to the fastener, in line with the wrench
	Pattern   Word     `spec:"pattern"`
	Order     []int    `spec:"order"` // places, as printed
	Only      []string `spec:"only"`  // keys of fasteners or places
	OnlyOne   bool     `spec:"-"`     // Only is written as one text, not as a list
	Again     int      `spec:"again"` // how often the step is done once more
	Yield     bool     `spec:"yield"`
}

// OnlyAt is the path of item j of Only in a step at p.
func (s *Step) OnlyAt(p Path, j int) Path {
	if p = p.Field("only"); s.OnlyOne {
		return p
	}
	return p.Index(j)
}

// Prevailing is the running torque of a locking nut or screw.
type Prevailing struct {
	Torque   Figure `spec:"torque"`
	Included *bool  `spec:"included"`
}

// Layout holds positions only as the source draws them.
type Layout struct {
	Places []PlaceAt `spec:"places"` // a mapping, in the order of the file
}

// PlaceAt is where a place lies on the source's drawing, in its own units.
type PlaceAt struct {
	Place int
	X, Y  string // numbers as authored
}

// Fill holds what only a fill record has.
type Fill struct {
	Fluid   Fluid      `spec:"fluid"`
	Amounts []Amount   `spec:"amounts"`
	Level   Level      `spec:"level"`
	Steps   []FillStep `spec:"steps"`
}

// Fluid is what is filled in.
type Fluid struct {
	Name  string `spec:"name"`
	Grade string `spec:"grade"`
}

// Amount is a volume and the occasion it is for.
type Amount struct {
	When   string `spec:"when"`
	Volume Figure `spec:"volume"`
}

// Level says how full is full, and how that is read.
type Level struct {
	By           string       `spec:"by"`
	Engine       Figure       `spec:"engine"` // off, idling, or a speed
	After        Figure       `spec:"after"`
	Selector     string       `spec:"selector"`
	Ground       string       `spec:"ground"`
	At           Figure       `spec:"at"`
	Sign         string       `spec:"sign"`
	Points       []LevelPoint `spec:"points"`
	Marks        []LevelMark  `spec:"marks"`
	BetweenMarks Figure       `spec:"between-marks"`
}

// LevelPoint is a row of a level table.
type LevelPoint struct {
	At   Figure `spec:"at"`
	Low  Figure `spec:"low"`
	High Figure `spec:"high"`
}

// LevelMark is the mark that holds in a band of temperature.
type LevelMark struct {
	At   Figure `spec:"at"`
	Mark string `spec:"mark"`
}

// FillStep is one go of a fill done in several.
type FillStep struct {
	Add  Figure `spec:"add"`
	Then string `spec:"then"`
}

// Tolerance holds what only a tolerance record has.
type Tolerance struct {
	Of        string    `spec:"of"`
	New       Figure    `spec:"new"`
	WearLimit Figure    `spec:"wear-limit"`
	How       string    `spec:"how"`
	Rows      []Row     `spec:"rows"`
	Fit       string    `spec:"fit"`
	Size      Figure    `spec:"size"`
	Select    Selection `spec:"select"`
}

// Row is a figure and the conditions it holds in.
type Row struct {
	Figure Figure     `spec:"figure"`
	At     Conditions `spec:"at"`
}

// Conditions are those a figure was measured in.
type Conditions struct {
	Speed       Figure `spec:"speed"`       // or a word: idling, stall
	Temperature Figure `spec:"temperature"` // or a word: cold, hot
	Selector    string `spec:"selector"`
}

// Selection is a table from a measured value to the part to fit.
type Selection struct {
	Measure string      `spec:"measure"`
	Want    Figure      `spec:"want"`
	Rows    []SelectRow `spec:"rows"`
}

// SelectRow is one row of a selection table.
type SelectRow struct {
	From Figure `spec:"from"`
	To   Figure `spec:"to"`
	Part Figure `spec:"part"` // a thickness, or the name of a part
}
