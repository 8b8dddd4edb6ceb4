// Package convert reads figures as they are printed, keeps their digits, and
// says whether two printed figures can be the same figure.
//
// A figure is text: a number, a range, a number with its deviation or a limit,
// followed by a unit. [Parse] reads it in the dimension that its place asks
// for, because the spellings met in print mean different things in different
// places: "NM" beside a screw is a torque, on a chart a nautical mile. What
// has two readings is refused as a [Problem] that names them; [Settle] lets the
// other values of the figure decide.
//
// [Agree] compares two values in two units and names the habit of rounding
// that explains their difference, or says that none does. [Quantity.To]
// converts and rounds as NIST SP 811 B.7.2 asks.
//
// Factors are exact ([Unit.Factor]); comparing and bounds use float64, with
// room for its last steps.
//
// What the package cannot tell apart: torque and energy share a dimension, and
// gauge and absolute pressure share a unit. Inches of mercury and of water are
// the conventional ones, not those at 60 °F. It does not try. A number printed
// with its wrong unit and converted from it rightly (a force in lb·ft beside
// N·m) agrees with itself and is not seen here.
package convert
