package schema

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Difference is one thing in which two editions of a record differ.
type Difference struct {
	Path     Path // in the new record; of an item that is gone, of the list with what is below the item
	WasPath  Path // in the old record
	Was, Now string
	// Figure tells that it is a figure, and How how it stands to what it was; a figure
	// that is new or gone has moved. Otherwise it is a text, a number or a list.
	Figure               bool
	How                  Sameness
	WasFigure, NowFigure *Figure // nil where there is none
}

// Differences tells in what a record differs from what it was, in the order of the
// schema: the figures, and every text of it but answers, entered, x- keys and the id.
// A source is resolved by its own head: /source stands for the document, /source/at for
// the place in it. Applies is compared by what it applies to, not by its words.
//
// Items of a list are matched by what they are for (an amount by when, a point by its
// temperature, a row by its conditions, a fastener by its key), else in their order,
// like ones first.
func Differences(oldHead *Head, old *Record, newHead *Head, now *Record) []Difference {
	d := differ{old: canonOf(oldHead, old), now: canonOf(newHead, now), wasOf: old.Of, nowOf: now.Of}
	d.fields(valueOf(old), valueOf(now), Path{}, Path{})
	return d.out
}

// notCompared are the members of a record that are not part of what it says.
var notCompared = []string{"id", "answers", "entered"}

type differ struct {
	old, now     canon
	wasOf, nowOf string // what the records are of, where they are tolerances
	out          []Difference
}

// fields compares two values of one struct type.
func (d *differ) fields(was, now reflect.Value, wp, p Path) {
	t := tableOf(now.Type())
	for _, name := range t.names {
		if p.Len() == 0 && wp.Len() == 0 && slices.Contains(notCompared, name) {
			continue
		}
		index := t.byName[name]
		d.value(was.FieldByIndex(index), now.FieldByIndex(index), wp.Field(name), p.Field(name))
	}
}

func (d *differ) value(was, now reflect.Value, wp, p Path) {
	switch x := now.Addr().Interface().(type) {
	case *Figure:
		d.figure(was.Addr().Interface().(*Figure), x, wp, p)
		return
	case *Source:
		d.source(*was.Addr().Interface().(*Source), *x, wp, p)
		return
	case *Fasteners:
		d.fasteners(was.Addr().Interface().(*Fasteners), x)
		return
	case *[]Box:
		a, b := *was.Addr().Interface().(*[]Box), *x
		if wa, wb := (&Record{Applies: a}).Boxes(), (&Record{Applies: b}).Boxes(); !sameBoxes(wa, wb) {
			d.text(boxesText(wa), boxesText(wb), wp, p)
		}
		return
	}
	switch now.Kind() {
	case reflect.Struct:
		d.fields(was, now, wp, p)
	case reflect.Slice:
		if now.Type().Elem().Kind() == reflect.Struct && now.Type().Elem() != reflect.TypeFor[PlaceAt]() {
			d.list(was, now, wp, p)
			return
		}
		fallthrough
	default:
		d.text(plainText(was), plainText(now), wp, p)
	}
}

// sameBoxes reports that two lists apply to the same. One with a range that cannot be
// read is compared by its words.
func sameBoxes(a, b []Box) bool {
	if slices.ContainsFunc(a, Box.Bad) || slices.ContainsFunc(b, Box.Bad) {
		return boxesText(a) == boxesText(b)
	}
	return Equal(a, b)
}

func boxesText(boxes []Box) string {
	list := make([]string, len(boxes))
	for i, b := range boxes {
		list[i] = b.String()
	}
	return strings.Join(list, "; or ")
}

// text notes two texts that differ.
func (d *differ) text(was, now string, wp, p Path) {
	if was = fold(was); was != fold(now) {
		d.out = append(d.out, Difference{Path: p, WasPath: wp, Was: was, Now: fold(now)})
	}
}

// plainText writes what is neither a figure nor a mapping.
func plainText(v reflect.Value) string {
	switch x := v.Addr().Interface().(type) {
	case **bool:
		if *x == nil {
			return ""
		}
		return strconv.FormatBool(**x)
	case *[]PlaceAt:
		list := make([]string, len(*x))
		for i, at := range *x {
			list[i] = fmt.Sprintf("%d: [%s, %s]", at.Place, at.X, at.Y)
		}
		return strings.Join(list, ", ")
	}
	switch {
	case v.IsZero():
		return ""
	case v.Kind() == reflect.Slice:
		list := make([]string, v.Len())
		for i := range list {
			list[i] = fmt.Sprint(v.Index(i).Interface())
		}
		return strings.Join(list, ", ")
	}
	return fmt.Sprint(v.Interface())
}

func (d *differ) figure(was, now *Figure, wp, p Path) {
	if was.IsZero() && now.IsZero() {
		return
	}
	x := Difference{Path: p, WasPath: wp, Figure: true, How: Moved}
	if !was.IsZero() {
		x.Was, x.WasFigure = was.printed(), was
	}
	if !now.IsZero() {
		x.Now, x.NowFigure = now.printed(), now
	}
	if x.WasFigure != nil && x.NowFigure != nil {
		if x.How = SameFigure(was, now); x.How == Same {
			return
		}
		if x.How == Moved && p == At("wear-limit") && sameWornEnd(was, d.wasOf, now, d.nowOf) {
			x.How = Restated
		}
	}
	d.out = append(d.out, x)
}

// printed is the figure as it stands in print; of a misprint, what is used in its
// place.
func (f *Figure) printed() string {
	texts := make([]string, len(f.Values))
	for i := range f.Values {
		v := &f.Values[i]
		if texts[i] = fold(v.Text); f.Misprint && v.Read() && v.Quantity.FirstAt == v.Quantity.SecondAt {
			texts[i] = v.Quantity.String()
		}
	}
	return strings.Join(texts, ", ")
}

// source compares the documents, and the places in them.
func (d *differ) source(was, now Source, wp, p Path) {
	d.text(documentText(d.old.h, was), documentText(d.now.h, now), wp, p)
	d.text(was.At, now.At, wp.Field("at"), p.Field("at"))
}

func documentText(h *Head, s Source) string {
	doc, ok := h.SourceOf(s)
	if !ok {
		return s.Ref
	}
	text := doc.Title
	if doc.Edition != "" {
		text += ", " + doc.Edition
	}
	if doc.Kind != "" {
		text += " (" + doc.Kind + ")"
	}
	return text
}

// fasteners compares what is turned; one mapping is a list of one.
func (d *differ) fasteners(was, now *Fasteners) {
	a, b := reflect.ValueOf(&was.Items).Elem(), reflect.ValueOf(&now.Items).Elem()
	d.items(a, b, was.At, now.At, At("fastener"))
}

func (d *differ) list(was, now reflect.Value, wp, p Path) {
	d.items(was, now, wp.Index, p.Index, p)
}

// items compares lists of mappings. An item that is gone would stand somewhere in the
// list at p.
func (d *differ) items(was, now reflect.Value, wasAt, nowAt func(int) Path, p Path) {
	if reflect.DeepEqual(was.Interface(), now.Interface()) {
		return // as most are, and for sure
	}
	pairs := d.pair(was, now)
	zero := reflect.New(now.Type().Elem()).Elem()
	for j := range now.Len() {
		if i := pairs[j]; i >= 0 {
			d.fields(was.Index(i), now.Index(j), wasAt(i), nowAt(j))
		} else {
			d.fields(zero, now.Index(j), nowAt(j), nowAt(j))
		}
	}
	for i := range was.Len() {
		if !slices.Contains(pairs, i) {
			d.fields(was.Index(i), zero, wasAt(i), p)
		}
	}
}
