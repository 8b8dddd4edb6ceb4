// Package schema holds the shape of a spec file: the JSON Schemas (the
// authority), the record types that mirror them, the figures within a record
// and their paths, the algebra of what a record applies to, and validation.
//
// It does no I/O and knows no file format: a reader hands it a tree of [Node],
// and [DecodeHead], [DecodeRecord] or [DecodeLine] give back a typed value and
// the [Problem] values of its shape. What is broken is left out of the typed
// value, and the rest is there; it is always safe to look at.
//
//	record, problems := schema.DecodeRecord(node, head)
//	for path, figure := range record.Figures() {
//		q, ok := figure.Quantity()
//		…
//	}
//
// A shape says nothing of sense: ends swapped, a step that falls, a source that
// the head does not have are sound here. Whether a text is a figure is told by
// package convert; its doubts stand in the figure and are no problem of shape.
//
// # The quick way
//
// A [Decoder] makes records of sound shape from the events of a text (open,
// member, text, close), without a tree, and says where it is not sure. Its table,
// formtable.go, is made from the schemas as the validator has compiled them, and
// from the types of records, by go generate; a test holds it to them. So the
// schemas are compiled only when something is wrong.
package schema
