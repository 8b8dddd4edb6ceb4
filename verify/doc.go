// Package verify is the front door of verification: [All] lists every check,
// [Run] runs them over a sequence of entries. It does no I/O: entries come from
// a reader, rows of the book checks go to a [rule.Sorter], findings to a
// function.
package verify
