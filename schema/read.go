package schema

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"snapgauge/convert"
)

// ReadFigures reads every figure of the record afresh from its text, with the
// decimal mark of the head ("comma", "point" or ""). [DecodeRecord] does it;
// whoever changes a text afterwards calls it again.
func (r *Record) ReadFigures(decimal string) {
	mark := markOf(decimal)
	r.walk(func(_ Path, f *Figure, words wording) bool {
		f.read(mark, words)
		return true
	})
	r.applyMisprint()
}

// ReadFigures reads the figures of the wrenches afresh from their texts.
// [DecodeHead] does it; whoever changes a text afterwards calls it again.
func (h *Head) ReadFigures() {
	mark := markOf(h.Decimal)
	for i := range h.Wrenches {
		for _, f := range h.Wrenches[i].Figures(At("wrenches", i)) {
			f.read(mark, noWord)
		}
	}
}

// markOf is the decimal mark that a head names.
func markOf(decimal string) convert.Mark {
	if decimal == "comma" {
		return convert.Comma
	}
	return convert.Point
}

// read reads the texts of a figure whose Want is set.
func (f *Figure) read(mark convert.Mark, words wording) {
	f.Misprint = false
	f.Word = len(f.Values) == 1 && words.allows(f.Values[0].Text)
	for i := range f.Values {
		v := &f.Values[i]
		if f.Word {
			v.Quantity, v.Problem = convert.Quantity{}, nil
		} else {
			v.Quantity, v.Problem = convert.Parse(v.Text, f.Want, mark)
		}
	}
	if !f.Word {
		convert.Settle(f.Values)
	}
}

// allows reports whether a text is a word that may stand there.
func (w wording) allows(text string) bool {
	switch w {
	case bareWord:
		return isWord(text) && !strings.ContainsAny(text, "0123456789")
	case anyWord:
		return isWord(text)
	}
	return false
}

// isWord reports whether a text begins like a word and not like a figure.
func isWord(text string) bool {
	text = strings.TrimSpace(text)
	r, _ := utf8.DecodeRuneInString(text)
	if !unicode.IsLetter(r) {
		return false
	}
	word, _, _ := strings.Cut(text, " ")
	switch strings.ToLower(strings.TrimSuffix(word, ".")) {
	case "min", "max", "minimum", "maximum":
		return false
	}
	return true
}

// applyMisprint lets every text that is the misprint be read from misprint.use.
// The text stays as authored. Its places are those of another text, so that
// they are dropped: a spot then is the whole text.
func (r *Record) applyMisprint() {
	use := &r.Misprint.Use
	if r.Misprint.Printed == "" || use.IsZero() {
		return
	}
	r.walkBody(func(_ Path, f *Figure, _ wording) bool {
		if f.Word {
			return true
		}
		for i := range f.Values {
			v := &f.Values[i]
			if !r.Misprint.Is(v.Text) {
				continue
			}
			by := use.inUnit(v.Quantity.Unit)
			v.Quantity, v.Problem = by.Quantity, nil
			v.Quantity.FirstAt, v.Quantity.SecondAt, v.Quantity.UnitAt = convert.Place{}, convert.Place{}, convert.Place{}
			if p := by.Problem; p != nil && !by.Read() {
				v.Problem = &convert.Problem{Kind: p.Kind, Message: p.Message, Readings: p.Readings}
			}
			f.Misprint = true
		}
		return true
	})
}

// inUnit returns the value in a unit, or the first that was read, or the first.
func (f *Figure) inUnit(u convert.Unit) *convert.Value {
	for i := range f.Values {
		if v := &f.Values[i]; v.Read() && v.Quantity.Unit == u {
			return v
		}
	}
	if v, _, ok := f.First(); ok {
		return v
	}
	return &f.Values[0]
}
