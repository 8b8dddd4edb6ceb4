// Package fluid holds the mechanics of a fill: how oil grows as it warms, how a
// level rises with it, and what a level table says between its points.
//
// The relations are pure functions of numbers, with the units in their names or
// docs. What is not known exactly goes in and comes out as an [Interval]. Every
// function gives finite, ordered intervals or an error.
//
// What the package cannot tell: the form of a sump, the oil that hangs in
// passages and coolers while the level is read, and air in the oil. A level that
// is worked out is no specification.
package fluid
