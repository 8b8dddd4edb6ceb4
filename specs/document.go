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

// locator finds places in a record that was read the quick way: it is read
// again, the plain way, when it is asked for the first one.
func (d *document) locator(i int) func(schema.Spot) schema.Span {
	find := sync.OnceValue(func() func(schema.Spot) schema.Span {
		n, bad := d.again(i)
		if bad != nil { // the quick way never takes what the plain way refuses
			return func(schema.Spot) schema.Span { return bad.Span }
		}
		return d.text.locator(n)
	})
	return func(s schema.Spot) schema.Span { return find()(s) }
}

// count is the number of records.
func (d *document) count() int {
	if list, _ := d.root.Member("records"); list != nil && list.Kind == schema.ListNode {
		return len(list.Items)
	}
	return 0
}
