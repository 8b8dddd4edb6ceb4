package schema

import "snapgauge/convert"

// Figure is one figure of a record as authored: the same quantity in up to
// three units, the source's own first, each text with what it was read as.
type Figure struct {
	Want   convert.Dimensions // what its place accepts
	Values []convert.Value
	List   bool // written as a list, so that a value's path has its number
	Word   bool // a word stands here, not a figure: engine: idling

	// Misprint tells that at least one text is the record's misprint: its
	// quantity is that of misprint.use, and has no places.
	Misprint bool
}

// IsZero reports whether the figure is absent.
func (f *Figure) IsZero() bool { return len(f.Values) == 0 }

// At is the path of value i of a figure that stands at p.
func (f *Figure) At(p Path, i int) Path {
	if f.List {
		return p.Index(i)
	}
	return p
}

// First returns the first value that was read, and its number; ok is false
// when there is none, as for a word.
func (f *Figure) First() (v *convert.Value, i int, ok bool) {
	if f.Word {
		return nil, 0, false
	}
	for i := range f.Values {
		if f.Values[i].Read() {
			return &f.Values[i], i, true
		}
	}
	return nil, 0, false
}

// Text returns the first text as authored, "" when the figure is absent.
func (f *Figure) Text() string {
	if f.IsZero() {
		return ""
	}
	return f.Values[0].Text
}

// Quantity returns the first value that was read.
func (f *Figure) Quantity() (q convert.Quantity, ok bool) {
	if v, _, ok := f.First(); ok {
		return v.Quantity, true
	}
	return convert.Quantity{}, false
}
