package schema

import (
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
)

// stores holds what the slices of a record are cut from: all its texts in one,
// all its steps in another. Between records that are not kept they are used
// again.
type stores struct {
	texts  arena[string]
	ints   arena[int]
	truths arena[bool]
	values arena[convert.Value]
	ranges arena[SerialRange]

	serials arena[Serial]
	sources arena[NamedSource]
	places  arena[PlaceAt]

	objectLists // one for each type of object that there are lists of

	name  string    // of the member in hand, where it is the user's
	other otherWord // the word in hand that is written {other: …}
	pair  [2]string // the place in hand
	named userNamed
}

// arena is what lists of one type are cut from, one at a time.
type arena[T any] struct {
	all  []T
	from int // where the list in hand begins
}

func (a *arena[T]) begin() { a.from = len(a.all) }

func (a *arena[T]) add(x T) *T {
	if len(a.all) == cap(a.all) {
		// Only the list in hand moves; those before it stay where they are.
		list := a.all[a.from:]
		a.all = append(make([]T, 0, max(2, 2*cap(a.all), 2*len(list))), list...)
		a.from = 0
	}
	a.all = append(a.all, x)
	return &a.all[len(a.all)-1]
}

// list is what was added since begin; nil for none.
func (a *arena[T]) list() []T {
	if a.from == len(a.all) {
		return nil
	}
	return a.all[a.from:len(a.all):len(a.all)]
}

func (a *arena[T]) one(x T) []T {
	a.begin()
	a.add(x)
	return a.list()
}

func (a *arena[T]) clear() { a.all = a.all[:0] }

// lister makes the objects of one list at a time, and in the end puts it where
// it goes: to is a pointer to a slice.
type lister interface {
	begin()
	next() object
	end(to any) bool
}

// objects is an arena of objects.
type objects[T any, P interface {
	*T
	object
}] struct{ arena[T] }

func (o *objects[T, P]) next() object {
	var zero T
	return P(o.add(zero))
}

// end makes the list empty, not nil, where nothing was added.
func (o *objects[T, P]) end(to any) bool {
	list, ok := to.(*[]T)
	if ok {
		if *list = o.list(); *list == nil {
			*list = []T{}
		}
	}
	return ok
}

// clear makes all of it free to be used again.
func (s *stores) clear() {
	s.texts.clear()
	s.ints.clear()
	s.truths.clear()
	s.values.clear()
	s.ranges.clear()
	s.serials.clear()
	s.sources.clear()
	s.places.clear()
	s.objectLists.clear()
}

// userNamed is a map whose names are the user's: serials, sources, places.
type userNamed struct{ to any }

func (*userNamed) slot(string) (int, any) { return -1, nil }

// otherWord is a word that is written {other: …}.
type otherWord struct{ to *string }

func (w *otherWord) slot(name string) (int, any) {
	if name == "other" {
		return 0, w
	}
	return -1, nil
}

func (b *Box) slot(name string) (int, any) {
	if name == "variant" {
		return 0, &b.Variants
	}
	return -1, nil
}

// beginList prepares to read a list into to, and returns where its items go.
func (s *stores) beginList(to any) any {
	switch to.(type) {
	case *[]string:
		s.texts.begin()
		return &s.texts
	case *[]int:
		s.ints.begin()
		return &s.ints
	case *Figure:
		s.values.begin()
		return &s.values
	case *userNamed:
		return &s.pair
	}
	var l lister
	if f, ok := to.(*Fasteners); ok {
		l = s.lister(&f.Items)
	} else {
		l = s.lister(to)
	}
	if l == nil {
		return nil
	}
	l.begin()
	return l
}

// endList puts the list where it goes.
func (s *stores) endList(f *frame) bool {
	switch to := f.to.(type) {
	case *[]string:
		*to = s.texts.list()
		return !f.list.unique || distinct(*to)
	case *[]int:
		*to = s.ints.list()
	case *Figure:
		to.Values, to.List = s.values.list(), true
	case *userNamed:
		if f.count != len(s.pair) {
			return false
		}
		place, err := strconv.Atoi(s.name)
		s.places.add(PlaceAt{Place: place, X: s.pair[0], Y: s.pair[1]})
		return err == nil
	case *Fasteners:
		to.List = true
		return endObjects(f.at, &to.Items)
	default:
		return endObjects(f.at, to)
	}
	return true
}

func endObjects(at, to any) bool {
	l, ok := at.(lister)
	return ok && l.end(to)
}

func distinct(list []string) bool {
	if len(list) > 64 { // of more it would take long to tell
		return false
	}
	for i, s := range list {
		if slices.Contains(list[:i], s) {
			return false
		}
	}
	return true
}

// beginMap returns what a map is read into that goes to at.
func (s *stores) beginMap(at any) object {
	switch at := at.(type) {
	case lister:
		o := at.next()
		if _, ok := o.(*Box); ok {
			s.ranges.begin()
		}
		return o
	case object:
		if at != &s.named {
			return at
		}
		return &s.sources.add(NamedSource{Name: s.name}).Source
	case *Fasteners:
		l := s.lister(&at.Items)
		l.begin()
		o := l.next()
		l.end(&at.Items)
		return o
	case *[]Serial:
		s.serials.begin()
	case *[]NamedSource:
		s.sources.begin()
	case *[]PlaceAt:
		s.places.begin()
	case *string:
		s.other.to = at
		return &s.other
	case *Word:
		s.other.to = (*string)(at)
		return &s.other
	default:
		return nil
	}
	s.named.to = at
	return &s.named
}

// endMap puts a map whose names are the user's where it goes.
func (s *stores) endMap(f *frame) {
	switch into := f.into.(type) {
	case *Box:
		into.Serials = s.ranges.list()
	case *userNamed:
		switch to := into.to.(type) {
		case *[]Serial:
			*to = s.serials.list()
		case *[]NamedSource:
			*to = s.sources.list()
		case *[]PlaceAt:
			*to = s.places.list()
		}
	}
}

// storeText puts a text where it goes.
func (s *stores) storeText(f *frame, text string) bool {
	switch at := f.at.(type) {
	case *string:
		*at = text
	case *Word:
		*at = Word(text)
	case *Figure:
		at.Values = s.values.one(convert.Value{Text: text})
	case *arena[string]:
		at.add(text)
	case *arena[convert.Value]:
		if f.count > 1 && splitBetween(at.all[len(at.all)-1].Text, text) {
			return false
		}
		at.add(convert.Value{Text: text})
	case *[]string:
		s.single(f, at, text)
	case *otherWord:
		*at.to = "other: " + text
	case *Box:
		s.ranges.add(SerialRange{Name: s.name, Text: text})
	case *userNamed:
		s.serials.add(Serial{Name: s.name, Form: text})
	case *[2]string:
		return s.coordinate(f, text)
	default:
		return false
	}
	return true
}

// storeNumber puts a number where it goes: text, and its value where it is
// whole.
func (s *stores) storeNumber(f *frame, text string, i int64) bool {
	switch at := f.at.(type) {
	case *int:
		*at = int(i)
	case *arena[int]:
		at.add(int(i))
	case *arena[string]:
		at.add(text)
	case *[]string:
		s.single(f, at, text)
	case *Box:
		s.ranges.add(SerialRange{Name: s.name, Text: text})
	case *[2]string:
		return s.coordinate(f, text)
	default:
		return false
	}
	return true
}

// single is a text that stands for a list of one.
func (s *stores) single(f *frame, to *[]string, text string) {
	*to = s.texts.one(text)
	if step, ok := f.into.(*Step); ok {
		step.OnlyOne = true
	}
}

func (s *stores) coordinate(f *frame, text string) bool {
	if f.count > len(s.pair) {
		return false
	}
	s.pair[f.count-1] = text
	return true
}

// splitBetween reports whether two texts of a figure may be the halves of a
// number that a comma has split, see joinSplit.
func splitBetween(left, right string) bool {
	left, right = strings.TrimSpace(left), strings.TrimSpace(right)
	return cutAtComma(left) && right != "" && isDigit(right[0])
}
