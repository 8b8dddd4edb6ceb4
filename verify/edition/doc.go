// Package edition compares two editions of a book: which records are new or gone, which
// figures moved, and which were only written otherwise.
//
// A [Book] takes the entries of an edition as they are read. [Compare] lays two of them
// side by side, machine by machine. A record is found again by its id (and kind); then,
// of what is left, one that says the very same under another id was renamed; one that
// supersedes a record of the old edition follows it; and one that alone of its item
// applies where an old record did is taken for that. What was not found again is gone or
// new.
//
// Figures are compared by [schema.SameFigure]: 71 lbf·in and 8.0 N·m are one figure, 6
// N·m and 9 N·m are two. What could not be read is never called gone or new.
package edition
