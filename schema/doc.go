// Package schema holds the shape of a spec file: the JSON Schemas (the
// authority), the record types that mirror them, the figures within a record
// and their paths, the algebra of what a record applies to, and validation.
//
// It does no I/O and knows no file format: a reader hands it a tree of [Node].
package schema
