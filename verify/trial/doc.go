// Package trial measures how many slips of copying the checks catch: it plants
// one slip at a time in good records (package slip has the list), judges the
// record again, and counts by kind.
//
// A slip is caught by a reject or query that the untouched record does not have
// and whose place, or a related place, is the planted figure, another of its
// values, or a field that it is judged by. It is named when a slip listed with
// that finding restores the planted value or one that prints alike.
package trial
