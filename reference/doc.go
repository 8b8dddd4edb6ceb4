// Package reference holds cited tables of the trade and typed access to them:
// screw threads and their limits of size, property classes and grades, head and
// hole sizes, friction, the strength of tapped materials, fits and general
// tolerances, fluids, copper, fittings and plugs, locking nuts, parts used once,
// cautions, and rules of practice.
//
// Every value can say where it stands in print, and whether it was seen there
// twice, once, or not at all ([Citation], [Seen]). The tables are CSV files
// embedded in the package and are parsed on first use.
//
// What the package cannot tell: whether a fastener is what its head says it
// is, and what friction a joint really has. Where sources differ, the widest
// reading is returned, because a check that rejects must not be narrower than
// print.
//
// None of it is a specification for any machine.
package reference
