// Package convert reads figures as they are printed, keeps their digits, and
// says whether two printed figures can be the same figure.
//
// A figure is text: a number, a range, a number with its deviation or a limit,
// followed by a unit. [Parse] reads it in the dimension that its place asks
// for, because the spellings met in print mean different things in different
// places: "NM" beside a screw is a torque, on a chart a nautical mile.
//
// What the package cannot tell apart: torque and energy share a dimension, and
// gauge and absolute pressure share a unit. It does not try.
package convert
