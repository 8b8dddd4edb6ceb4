package convert

import (
	"iter"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Unit is an index into the unit table; 0 is no unit, that of a plain number.
type Unit uint16

// row is one unit of the table: what it is called, what it measures, its exact
// factor to the SI unit (a decimal or a fraction) and how it is met in print.
type row struct {
	symbol, ucum string
	dimension    Dimension
	factor       string
	pi           int    // the factor is multiplied by this power of π
	offset       string // added before the factor is applied
	spellings    string // separated by |; read without their points, hyphens and spaces
}

// scale holds the factor as floats, for comparing. π is included.
type scale struct {
	factor, offset float64
	inverse        bool // threads per inch: SI = 1 / (x · factor)
}

var scales = func() []scale {
	ss := make([]scale, len(table))
	for i, r := range table {
		ss[i].factor = float(r.factor)
		if r.pi == 1 {
			ss[i].factor *= math.Pi
		}
		if r.offset != "" {
			ss[i].offset = float(r.offset)
		}
		ss[i].inverse = r.symbol == "TPI"
	}
	return ss
}()

// float reads a factor of the table. Numerator and denominator are exact, so
// that the quotient is rounded once.
func float(s string) float64 {
	num, den, isFraction := strings.Cut(s, "/")
	f, _ := strconv.ParseFloat(num, 64)
	if isFraction {
		g, _ := strconv.ParseFloat(den, 64)
		f /= g
	}
	return f
}

func (u Unit) row() *row {
	if int(u) >= len(table) {
		u = 0
	}
	return &table[u]
}

// Symbol is the normal form of the unit: "N·m", "lbf·in", "US qt", "°C", "%".
// It reads back as the same unit in its dimension.
func (u Unit) Symbol() string { return u.row().symbol }

// String is the symbol.
func (u Unit) String() string { return u.row().symbol }

// UCUM is the code of the unit in the Unified Code for Units of Measure, ""
// when it has none.
func (u Unit) UCUM() string { return u.row().ucum }

// Dimension is the kind of quantity that the unit measures.
func (u Unit) Dimension() Dimension { return u.row().dimension }

// Factor is the exact factor to the SI unit of the dimension, r·π^pi. The
// factor of threads per inch goes to threads per metre, whose reciprocal is
// the pitch.
func (u Unit) Factor() (r *big.Rat, pi int) {
	r, _ = new(big.Rat).SetString(u.row().factor)
	return r, u.row().pi
}

// Offset is added before the factor is applied: SI = (x + offset) · factor. It
// is nil for all but °C and °F as points on the scale.
func (u Unit) Offset() *big.Rat {
	if u.row().offset == "" {
		return nil
	}
	r, _ := new(big.Rat).SetString(u.row().offset)
	return r
}

// ToSI converts a number of this unit to the SI unit of its dimension.
func (u Unit) ToSI(x float64) float64 {
	s := u.scale()
	if s.inverse {
		return 1 / (x * s.factor)
	}
	return (x + s.offset) * s.factor
}

// FromSI converts a number of the SI unit of the dimension to this unit.
func (u Unit) FromSI(si float64) float64 {
	s := u.scale()
	if s.inverse {
		return 1 / (si * s.factor)
	}
	return si/s.factor - s.offset
}

func (u Unit) scale() scale {
	if int(u) >= len(scales) {
		u = 0
	}
	return scales[u]
}

// Units lists all units in the order of the table, without the empty unit of a
// plain number.
func Units() iter.Seq[Unit] {
	return func(yield func(Unit) bool) {
		for i := 1; i < len(table); i++ {
			if !yield(Unit(i)) {
				return
			}
		}
	}
}

// UnitBySymbol finds a unit by its exact normal form. Of °C, °F and K the point
// on the scale is meant, not the difference; of mm the length.
func UnitBySymbol(s string) (Unit, bool) {
	for u := range Units() {
		if u.Symbol() == s {
			return u, true
		}
	}
	return 0, false
}

// unitIn finds a unit of one dimension by its normal form.
func unitIn(symbol string, d Dimension) (Unit, bool) {
	for u := range Units() {
		if u.Symbol() == symbol && u.Dimension() == d {
			return u, true
		}
	}
	return 0, false
}
