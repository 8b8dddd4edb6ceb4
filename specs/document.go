package specs

import "snapgauge/schema"

// document is a YAML or JSON file that was read. The items of the member
// records are stubs, with a place but no content; each is read when its turn
// comes, so that one bad record does not hide the others, and a file is never
// a tree as a whole.
type document struct {
	text   *text
	root   *schema.Node
	record func(i int) (*schema.Node, *Unreadable)
	glean  func(i int) gleaned // of a record that cannot be read
}

// count is the number of records.
func (d *document) count() int {
	if list, _ := d.root.Member("records"); list != nil && list.Kind == schema.ListNode {
		return len(list.Items)
	}
	return 0
}
