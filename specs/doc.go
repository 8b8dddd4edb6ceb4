// Package specs reads spec files: YAML, JSON and NDJSON. Each becomes a tree
// of [schema.Node] that knows where in the file every value stands, and from
// it package schema makes records. [Read] reads one file from an [io.Reader],
// [Walk] finds the spec files of a folder.
//
// # What is read
//
// YAML is YAML 1.2, one document a file. Every plain scalar is text: yes,
// 1e3, 0x10 and 2026-03-02 mean themselves, so that the digits of a figure
// survive. Only an empty value, ~ and null stand for nothing. Merge keys,
// doubled keys and tags are refused; aliases are followed within a budget.
// JSON is read strictly (RFC 8259, no doubled names); the text of numbers is
// kept. In NDJSON each line is one record, and a line that cannot be read
// does not stop the next one. All is UTF-8, with or without a byte order mark.
//
// What cannot be read is an [Unreadable]: it says where and how to mend it.
// That is about the file; what is wrong with a record is a problem of its
// [schema.Entry].
//
// # Positions
//
// A line ends at a line feed, with or without a carriage return before it.
// Columns count code points from 1; a byte order mark is no column. A value
// that an alias stands for is placed where it is written, at its anchor.
//
// # What it does not do
//
// The package opens nothing by itself: it gets an [io.Reader] or an [fs.FS].
// Only [AppendLedger] writes, to the ledger that it is given. A YAML or JSON file is held whole while it is read; NDJSON is not.
package specs
