package specs

import (
	"sync"

	"snapgauge/schema"
)

// document is a YAML or JSON file that was read. The items of the member
// records are stubs, with a place but no content; each is read when its turn
// comes, so that one bad record does not hide the others, and a file is never
// a tree as a whole.
type document struct {
	text   *text
	root   *schema.Node
	record func(i int) (*schema.Node, *Unreadable)
	glean  func(i int) gleaned // of a record that cannot be read

	// quick feeds a decoder with a record, and again reads one that was read so,
	// as record does. It may be called at any time.
	quick func(d *schema.Decoder, i int) bool
	again func(i int) (*schema.Node, *Unreadable)
}

// recordPlace finds places in a record that was read the quick way: it is read
// again, the plain way, when it is asked for the first one.
type recordPlace struct {
	d      *document
	i      int
	once   sync.Once
	find   func(schema.Spot) schema.Span
	locate func(schema.Spot) schema.Span // the method span, bound once
}

// place makes the place of record i, out of an old one that may be nil.
func (d *document) place(old *recordPlace, i int) *recordPlace {
	if old == nil {
		old = &recordPlace{}
		old.locate = old.span
	}
	old.d, old.i, old.once = d, i, sync.Once{}
	return old
}

func (p *recordPlace) span(s schema.Spot) schema.Span {
	p.once.Do(func() {
		n, bad := p.d.again(p.i)
		p.find = p.d.text.locator(n)
		if bad != nil { // the quick way never takes what the plain way refuses
			p.find = func(schema.Spot) schema.Span { return bad.Span }
		}
	})
	return p.find(s)
}

// count is the number of records.
func (d *document) count() int {
	if list, _ := d.root.Member("records"); list != nil && list.Kind == schema.ListNode {
		return len(list.Items)
	}
	return 0
}
