package schema

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Decoder makes records of sound shape, and nothing else. It is fed with the
// events of a text: Open, Member, Text, Number, Truth, Null and Close. Each
// answers whether the decoder is still sure; once it is not, the record goes
// the plain way, by [DecodeRecord] or [DecodeLine], which tells what is wrong.
// A decoder may say of a sound record that it is not sure; it is never sure of
// one that the JSON Schemas refuse, or that the plain way finds a problem in, and
// the record that it makes is the one that the plain way makes.
//
// A record is begun by [Decoder.Record] or [Decoder.Line] and ended by
// [Decoder.Done]. It is good until the next is begun, unless [Decoder.Keep] is
// called. The texts of a record are those that were handed in, not copies.
//
// The zero Decoder is ready. It is for one goroutine.
type Decoder struct {
	frames [maxDeep + 2]frame
	top    int
	names  []string // members without a slot of the objects in hand
	head   *Head    // of the file, for a record
	line   *line    // the record in hand, and the head of its line
	own    *Head    // that head, or one of a file that is read by itself
	stores
}

// maxDeep is how deep maps and lists may lie for the decoder to be sure. It is
// less than what readers bear.
const maxDeep = 60

// frame is a map or list that is open.
type frame struct {
	object *objectForm // nil for a list
	list   *listForm   // nil for a map; both are nil where nothing is looked at
	seen   uint64      // slots of members, and facts
	count  int         // of members or items
	names  int         // where in Decoder.names its own begin
	skip   bool        // the next value is the user's

	into  object // what a map is read into; nil where nothing is kept
	to    any    // what a list is read into
	value *form  // of the next value
	at    any    // where the next value goes; nil where it is not kept
	slot  int    // of the next value
}

// object is a type that a map is read into. slot tells the number of a member
// and where its value goes: a pointer, or nil where it is not kept. It is -1
// for a name that the type does not have.
type object interface {
	slot(name string) (int, any)
}

// Record begins a record of a file with this head, which may be nil.
func (d *Decoder) Record(head *Head) {
	d.begin(&recordForm)
	d.head = head
	d.frames[0].at = &d.line.Record
}

// Line begins a line of NDJSON.
func (d *Decoder) Line() {
	d.begin(&lineForm)
	d.frames[0].at = d.line
}

// Head reads the head of a file from its root, and says whether it is sure. The
// records are not looked at. The head is the caller's to keep, with Keep.
func (d *Decoder) Head(root *Node) (*Head, bool) {
	d.begin(&headForm)
	d.own = &Head{}
	d.frames[0].at = d.own
	if !d.tree(root, true) {
		return d.own, false
	}
	d.own.ReadFigures()
	return d.own, true
}

// Tree feeds the decoder with a tree.
func (d *Decoder) Tree(n *Node) bool { return d.tree(n, false) }

// tree feeds a tree; that of a file has records, which are passed over.
func (d *Decoder) tree(n *Node, file bool) bool {
	switch n.Kind {
	case TextNode:
		return d.Text(n.Text, n.Plain)
	case NumberNode:
		return d.Number(n.Text)
	case BoolNode:
		return d.Truth(n.Text == "true")
	case NullNode:
		return d.Null()
	case ListNode:
		if !d.Open(true) {
			return false
		}
		for _, item := range n.Items {
			if item == nil || !d.tree(item, false) {
				return false
			}
		}
		return d.Close()
	}
	if len(n.Keys) != len(n.Items) || !d.Open(false) {
		return false
	}
	for i, key := range n.Keys {
		item := n.Items[i]
		if item == nil || !d.Member(key.Text) {
			return false
		}
		if file && key.Text == "records" && item.Kind == ListNode {
			item = &Node{Kind: ListNode}
		}
		if !d.tree(item, false) {
			return false
		}
	}
	return d.Close()
}

func (d *Decoder) begin(f *form) {
	if d.line == nil {
		d.line = &line{}
	} else {
		*d.line = line{}
	}
	d.stores.clear()
	d.names = d.names[:0]
	d.top = 0
	d.head = nil
	d.frames[0] = frame{value: f}
}

// Done ends the record and returns it. Head is that of a line, or the one of
// the file.
func (d *Decoder) Done() (*Head, *Record) {
	l, head := d.line, d.head
	if d.frames[0].value == &lineForm {
		if d.own == nil {
			d.own = &Head{}
		}
		head = d.own
		*head = Head{
			Format: l.Format, Machine: l.Machine, Variants: l.Variants, Serials: l.Serials, Decimal: l.Decimal,
			OfOneLine: true,
		}
	}
	l.Record.finish(head)
	return head, &l.Record
}

// Keep leaves the record that was made to the caller for good.
func (d *Decoder) Keep() {
	d.line, d.own = nil, nil
	d.stores = stores{}
}

// Open begins a map or a list.
func (d *Decoder) Open(list bool) bool {
	f := &d.frames[d.top]
	if d.top > maxDeep {
		return false
	}
	next := frame{names: len(d.names)}
	switch {
	case f.skip:
		next.skip = true
	case f.value == nil:
		return false
	case f.value.whatever:
		next.skip = true
	case list:
		if f.value.list == nil {
			return false
		}
		next.list = f.value.list
		next.value = next.list.items
		next.to = f.at
		if f.at != nil {
			next.at = d.beginList(f.at)
		}
	default:
		if f.value.object == nil {
			return false
		}
		next.object = f.value.object
		if f.at != nil {
			next.into = d.beginMap(f.at)
		}
	}
	f.count++
	d.top++
	d.frames[d.top] = next
	return true
}

// Member names the value that follows.
func (d *Decoder) Member(name string) bool {
	f := &d.frames[d.top]
	if f.object == nil {
		return f.skip && d.unmet(f, name)
	}
	f.skip = false
	if f.into != nil {
		if slot, at := f.into.slot(name); slot >= 0 {
			if slot >= len(f.object.members) || f.seen>>slot&1 != 0 {
				return false
			}
			f.seen |= 1 << slot
			f.value, f.at, f.slot = f.object.members[slot], at, slot
			return f.value != nil
		}
	}
	f.slot = -1
	switch {
	case f.object.names != nil && !f.object.names.holds(name), !d.unmet(f, name):
		return false
	case f.object.users && ofUser(name):
		f.skip = true
		f.count-- // it is not there for the rest of us
		return true
	case f.object.others != nil:
		f.value, f.at = f.object.others, f.into
		d.name = name
		return true
	}
	return false
}

// unmet remembers a name and reports whether the map did not have it.
func (d *Decoder) unmet(f *frame, name string) bool {
	own := d.names[f.names:]
	if len(own) >= 64 { // of more it would take long to tell
		return false
	}
	for _, n := range own {
		if n == name {
			return false
		}
	}
	d.names = append(d.names, name)
	return true
}

// Text is a text. Plain tells that it is a plain scalar of YAML, which is a
// whole number or true or false where one is wanted.
func (d *Decoder) Text(s string, plain bool) bool {
	f := &d.frames[d.top]
	f.count++
	if f.skip {
		return true
	}
	if f.value == nil || isBlank(s) {
		return false
	}
	if plain {
		switch f.at.(type) {
		case *int, *arena[int]:
			return isJSONNumber(s) && d.number(f, s)
		case *bool, **bool:
			return (s == "true" || s == "false") && d.truth(f, s == "true")
		}
	}
	if !f.value.takes(s) {
		return false
	}
	if f.object != nil {
		for i := range f.object.facts {
			if fact := &f.object.facts[i]; fact.slot == f.slot && fact.text == s {
				f.seen |= fact.bit
			}
		}
	}
	return f.at == nil || d.storeText(f, s)
}

// isBlank reports a text of blanks, which counts as none.
func isBlank(s string) bool {
	return s == "" || (s[0] <= ' ' || s[0] >= utf8.RuneSelf) && strings.TrimSpace(s) == ""
}

// Number is a number as JSON writes it.
func (d *Decoder) Number(s string) bool {
	f := &d.frames[d.top]
	f.count++
	return isJSONNumber(s) && (f.skip || d.number(f, s))
}

func (d *Decoder) number(f *frame, s string) bool {
	if f.value == nil || f.value.number == nil {
		return false
	}
	i, err := strconv.ParseInt(s, 10, 64)
	whole := err == nil && len(s) <= 18 // 2.0 is whole too, but not for sure
	if n := f.value.number; !whole && (n.whole || n.min > leastNumber || n.max < greatestNumber) || whole && !n.holds(i) {
		return false
	}
	return f.at == nil || d.storeNumber(f, s, i)
}

// The bounds of a number that has none.
const leastNumber, greatestNumber = -1 << 62, 1 << 62

// Truth is true or false.
func (d *Decoder) Truth(b bool) bool {
	f := &d.frames[d.top]
	f.count++
	return f.skip || d.truth(f, b)
}

func (d *Decoder) truth(f *frame, b bool) bool {
	if f.value == nil || !f.value.truth {
		return false
	}
	switch x := f.at.(type) {
	case nil:
	case *bool:
		*x = b
	case **bool:
		*x = d.truths.add(b)
	default:
		return false
	}
	return true
}

// Null is an empty value, which goes nowhere but in the user's own.
func (d *Decoder) Null() bool {
	f := &d.frames[d.top]
	f.count++
	return f.skip
}

// Close ends the map or list.
func (d *Decoder) Close() bool {
	f := &d.frames[d.top]
	d.names = d.names[:f.names]
	d.top--
	switch {
	case f.object != nil:
		d.endMap(f)
		return f.object.holds(f.seen, f.count)
	case f.list != nil:
		if f.count < f.list.min || f.list.max > 0 && f.count > f.list.max {
			return false
		}
		return f.to == nil || d.endList(f)
	}
	return true
}
