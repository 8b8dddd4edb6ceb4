package schema

import (
	"regexp"
	"slices"
	"sync"
	"time"
	"unicode/utf8"
)

// A form is a schema as the [Decoder] needs it: what a value may be, told by
// its kind, and what must be known of an object when it closes. The forms in
// formtable.go are made from the compiled JSON Schemas by the test of that
// name, never written by hand. What a form cannot say is left out of it, so
// that such a value is never sure.
type form struct {
	whatever bool       // any value goes, and nothing in it is looked at
	texts    []textForm // a text is one of these
	number   *numberForm
	truth    bool // true and false go
	list     *listForm
	object   *objectForm
}

type textForm struct {
	words    []string // the only ones; nil for any
	not      string   // not this one; "" for none
	pattern  *pattern
	date     bool
	min, max int // letters; max 0 is no limit
}

type numberForm struct {
	whole    bool
	min, max int64 // bounds of whole numbers
}

type listForm struct {
	min, max int // items; max 0 is no limit
	unique   bool
	items    *form
}

// objectForm tells members apart by slot: their number in the type that the
// object is read into. Sets of members are bits.
type objectForm struct {
	members []*form // by slot
	facts   []fact
	part
	only   uint64    // what may be there, whatever the rest
	closed bool      // only members that the parts in force name may be there
	others *form     // of members without a slot; nil where none may be
	names  *textForm // their names
	users  bool      // members whose names begin with x- are the user's
	min    int       // members
}

// fact is a bit that tells what stands in a member: kind is torque.
type fact struct {
	slot int
	text string
	bit  uint64
}

// part says what must hold of the members of an object.
type part struct {
	need uint64     // all of these are there
	some [][]uint64 // of each list one set is there
	none []uint64   // no set of these is there
	may  uint64     // members that are named here
	when []branch
}

type branch struct {
	all             uint64
	then, otherwise *part
}

// holds reports whether the members that were seen satisfy a part. It adds to
// may what may be there.
func (p *part) holds(seen uint64, may *uint64) bool {
	if seen&p.need != p.need {
		return false
	}
	for _, sets := range p.some {
		if !anyOf(sets, seen) {
			return false
		}
	}
	if anyOf(p.none, seen) {
		return false
	}
	*may |= p.may
	for i := range p.when {
		w := &p.when[i]
		next := w.then
		if seen&w.all != w.all {
			next = w.otherwise
		}
		if next != nil && !next.holds(seen, may) {
			return false
		}
	}
	return true
}

// anyOf reports whether all of one set were seen.
func anyOf(sets []uint64, seen uint64) bool {
	for _, s := range sets {
		if seen&s == s {
			return true
		}
	}
	return false
}

// holds reports whether an object is sound that has these members, the facts
// among them.
func (o *objectForm) holds(seen uint64, members int) bool {
	facts := uint64(0)
	for i := range o.facts {
		facts |= o.facts[i].bit
	}
	may := uint64(0)
	there := seen &^ facts
	return members >= o.min && there&^o.only == 0 && o.part.holds(seen, &may) && (!o.closed || there&^may == 0)
}

// takes reports whether a text is of the form.
func (f *form) takes(s string) bool {
	for i := range f.texts {
		if f.texts[i].holds(s) {
			return true
		}
	}
	return false
}

func (t *textForm) holds(s string) bool {
	switch {
	case t.words != nil && !slices.Contains(t.words, s),
		t.not != "" && s == t.not,
		t.max > 0 && len(s) > t.max && utf8.RuneCountInString(s) > t.max,
		len(s) < t.min, t.min > 1 && utf8.RuneCountInString(s) < t.min,
		t.pattern != nil && !t.pattern.matches(s):
		return false
	}
	return !t.date || isDay(s)
}

// isDay reports a day of ISO 8601 as the validator takes it, by time.DateOnly.
func isDay(s string) bool {
	if len(s) != len(time.DateOnly) || s[4] != '-' || s[7] != '-' {
		return false
	}
	number := func(s string) (n int) {
		for i := range len(s) {
			if !isDigit(s[i]) {
				return -1
			}
			n = n*10 + int(s[i]-'0')
		}
		return n
	}
	year, month, day := number(s[:4]), number(s[5:7]), number(s[8:])
	days := 31
	switch month {
	case 4, 6, 9, 11:
		days = 30
	case 2:
		days = 28
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			days = 29
		}
	}
	return year >= 0 && month >= 1 && month <= 12 && day >= 1 && day <= days
}

func (n *numberForm) holds(i int64) bool { return i >= n.min && i <= n.max }

// pattern is a regular expression. Where it is no more than runs of classes of
// ASCII letters from the first letter to the last, these are matched instead.
type pattern struct {
	text string
	runs []run // nil where it is more than that

	once   sync.Once
	regexp *regexp.Regexp
}

// run is a class of ASCII letters as bits, and how many of them follow one
// another; max < 0 is no limit. No letter of a run of no fixed length begins the
// next one, so that each can be taken as far as it goes.
type run struct {
	class    [2]uint64
	min, max int
}

func (p *pattern) matches(s string) bool {
	if p.runs == nil {
		p.once.Do(func() { p.regexp = regexp.MustCompile(p.text) })
		return p.regexp.MatchString(s)
	}
	i := 0
	for r := range p.runs {
		run := &p.runs[r]
		n := 0
		for i < len(s) && n != run.max && s[i] < utf8.RuneSelf && run.class[s[i]>>6]>>(s[i]&63)&1 != 0 {
			i++
			n++
		}
		if n < run.min {
			return false
		}
	}
	return i == len(s)
}
