package convert

import (
	"iter"
	"math/big"
)

// Unit is an index into the unit table; 0 is no unit, that of a plain number.
type Unit uint16

// Symbol is the normal form of the unit: "N·m", "lbf·in", "US qt", "°C", "%".
func (u Unit) Symbol() string { return "" }

// UCUM is the code of the unit in the Unified Code for Units of Measure, "" when it has none.
func (u Unit) UCUM() string { return "" }

// Dimension is the kind of quantity that the unit measures.
func (u Unit) Dimension() Dimension { return NoDimension }

// Factor is the exact factor to the SI unit, r·π^pi.
func (u Unit) Factor() (r *big.Rat, pi int) { return new(big.Rat), 0 }

// Offset is added before the factor is applied: SI = (x + offset) · factor. It is nil for all but °C and °F points.
func (u Unit) Offset() *big.Rat { return nil }

// ToSI converts a number of this unit to the SI unit of its dimension.
func (u Unit) ToSI(x float64) float64 { return x }

// FromSI converts a number of the SI unit of the dimension to this unit.
func (u Unit) FromSI(si float64) float64 { return si }

// Units lists all units in the order of the table.
func Units() iter.Seq[Unit] { return func(yield func(Unit) bool) {} }

// UnitBySymbol finds a unit by its exact normal form.
func UnitBySymbol(s string) (Unit, bool) { return 0, false }

// ReadUnit reads any spelling met in print in the dimensions that are wanted.
func ReadUnit(spelling string, want Dimensions) (Unit, *Problem) { return 0, nil }

// String names the dimension: "torque", "rotational speed".
func (d Dimension) String() string { return "" }

// SI is the coherent or customary SI unit of the dimension.
func (d Dimension) SI() Unit { return 0 }

// String names the dimensions with an article: "a torque", "a torque or a share".
func (s Dimensions) String() string { return "" }
